package web

import (
	"context"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"

	"hoistbook/cmd/internal/live"
	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/render/walk"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

// A site is a walk-through that can be lost and started again, as a program is.
type site struct {
	testing.TB
	record  string
	at      string
	stop    func()
	session *live.Session
	list    string
	pairing bool
	code    string
}

func kitOf(t testing.TB, id string) (*walk.Kit, rules.Packs) {
	t.Helper()
	s, ok := kits.Demo(id)
	if !ok {
		t.Fatalf("there is no kit %q", id)
	}
	m, err := manifest.Load(s)
	if err != nil {
		t.Fatal(err)
	}
	p, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	if err != nil {
		t.Fatal(err)
	}
	return &walk.Kit{Manifest: m, Packs: p, Program: "test"}, p
}

func newSite(t testing.TB) *site {
	t.Helper()
	s := &site{TB: t, record: filepath.Join(t.TempDir(), "record.jsonl"), at: "127.0.0.1:0", list: walk.Preflight}
	t.Cleanup(func() {
		if s.stop != nil {
			s.stop()
		}
	})
	return s
}

// start serves, at the same address as before.
func (s *site) start() *site {
	s.Helper()
	k, p := kitOf(s, "fen-relay")
	now := func() time.Time { return time.Now().Truncate(time.Second) }
	begin := func() (*walk.Kit, error) { return k, nil }
	resume := func(o *walk.Opening) (*walk.Kit, error) { return walk.KitOf(o, p, "test") }
	session, _, err := live.Open(s.record, s.list, begin, resume, now)
	if err != nil {
		s.Fatal(err)
	}
	l, err := net.Listen("tcp", s.at)
	if err != nil {
		s.Fatal(err)
	}
	s.at, s.session = l.Addr().String(), session
	server := &Server{Session: session, Now: time.Now}
	if s.pairing {
		if server.Pairing, err = NewPairing(time.Now, func(code string) { s.code = code }); err != nil {
			s.Fatal(err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error, 1)
	go func() { done <- server.Serve(ctx, l) }()
	s.stop = func() {
		cancel()
		if err := <-done; err != nil {
			s.Error(err)
		}
		if err := session.Close(); err != nil {
			s.Error(err)
		}
		s.stop = nil
	}
	return s
}

// A phone is a browser of a certain size.
type phone struct {
	*testing.T
	ctx context.Context
	url string
}

// phone opens the page.
func (s *site) phone(ctx context.Context, t *testing.T, width, height int64) *phone {
	t.Helper()
	p := &phone{t, ctx, "http://" + s.at + "/"}
	p.do(chromedp.EmulateViewport(width, height), chromedp.Navigate(p.url))
	return p
}

// browser starts Chromium. Where there is none the test is skipped, except where everything must be shown.
func browser(t *testing.T) context.Context {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("chromium is not installed, and the page must be shown in a real browser")
		}
		t.Skip("chromium is not installed (apt-get install chromium)")
	}
	options := []chromedp.ExecAllocatorOption{
		chromedp.ExecPath(path), chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun, chromedp.UserDataDir(t.TempDir()),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
	}
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(cancel)
	ctx, cancel = chromedp.NewContext(ctx)
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil { // the browser lives as long as the first context that it is given
		t.Fatal(err)
	}
	if err := chromedp.Listen(ctx, func(event any) {
		if e, ok := event.(*runtime.EventExceptionThrown); ok {
			t.Errorf("the page fails: %s %v", e.ExceptionDetails.Text, e.ExceptionDetails.Exception)
		}
	}); err != nil {
		t.Fatal(err)
	}
	return ctx
}

func (p *phone) do(steps ...chromedp.Action[chromedp.Void]) {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, 30*time.Second)
	defer cancel()
	if err := chromedp.Do(ctx, steps...); err != nil {
		p.picture("failed")
		p.Fatal(err)
	}
}

// picture keeps what is on the screen where somebody wants to look at it.
func (p *phone) picture(name string) {
	p.Helper()
	dir := os.Getenv("HOISTBOOK_PICTURES")
	if dir == "" {
		return
	}
	png, err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot())
	if err == nil {
		err = os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644)
	}
	if err != nil {
		p.Log(err)
	}
}

func (p *phone) eval(script string) string {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, 30*time.Second)
	defer cancel()
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](script, chromedp.EvalAwaitPromise))
	if err != nil {
		p.picture("failed")
		p.Fatalf("%s: %v", script, err)
	}
	return text
}
