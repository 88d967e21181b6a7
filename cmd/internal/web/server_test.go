package web

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"hoistbook/cmd/internal/live"
	"hoistbook/render/walk"
)

// A client calls as a phone does.
type client struct {
	testing.TB
	http.Client
	site *site
}

func (s *site) client(t testing.TB) *client {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &client{TB: t, Client: http.Client{Jar: jar, Timeout: 10 * time.Second}, site: s}
}

func (c *client) post(path string, body any, headers ...string) (status int, answer string, err error) {
	text, ok := body.(string)
	if !ok {
		encoded, err := json.Marshal(body)
		if err != nil {
			c.Fatal(err)
		}
		text = string(encoded)
	}
	r, err := http.NewRequest(http.MethodPost, "http://"+c.site.at+path, strings.NewReader(text))
	if err != nil {
		c.Fatal(err)
	}
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Origin", "http://"+c.site.at)
	return c.send(r, headers...)
}

func (c *client) send(r *http.Request, headers ...string) (status int, answer string, err error) {
	for i := 0; i < len(headers); i += 2 {
		if headers[i] == "Host" {
			r.Host = headers[i+1]
		} else if headers[i+1] == "" {
			r.Header.Del(headers[i])
		} else {
			r.Header.Set(headers[i], headers[i+1])
		}
	}
	a, err := c.Do(r)
	if err != nil {
		return 0, "", err
	}
	defer func() { _ = a.Body.Close() }()
	data, err := io.ReadAll(a.Body)
	return a.StatusCode, string(data), err
}

func (c *client) wants(want int, path string, body any, headers ...string) {
	c.Helper()
	status, answer, err := c.post(path, body, headers...)
	if err != nil || status != want {
		c.Errorf("POST %s %.60v %v: got %d %.100s %v, want %d", path, body, headers, status, answer, err, want)
	}
}

func (c *client) get(path string, headers ...string) (status int, answer string, header http.Header) {
	c.Helper()
	r, err := http.NewRequest(http.MethodGet, "http://"+c.site.at+path, nil)
	if err != nil {
		c.Fatal(err)
	}
	status, answer, err = c.send(r, headers...)
	if err != nil {
		c.Fatal(err)
	}
	return status, answer, r.Header
}

func note(who, text string) walk.Input { return walk.Input{Do: walk.Note, Who: who, Text: text} }

func TestOnlyOurOwnPageIsAnswered(t *testing.T) {
	s := newSite(t).start()
	c := s.client(t)
	c.wants(200, "/do", walk.Input{Do: walk.Join, Name: "Ada", Lead: true})
	_, port, _ := net.SplitHostPort(s.at)
	c.wants(200, "/do", note("Ada", "by the name of this machine"), "Host", "localhost:"+port, "Origin", "http://localhost:"+port)
	for _, h := range [][]string{
		{"Origin", ""}, {"Origin", "null"}, {"Origin", "http://evil.example"}, {"Origin", "https://" + s.at}, {"Origin", "http://" + s.at + ".evil.example"},
		{"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Site", "same-site"},
	} {
		c.wants(http.StatusForbidden, "/do", note("Ada", "from elsewhere"), h...)
	}
	for _, host := range []string{"evil.example", "evil.example:" + port, "127.0.0.1:1", "127.0.0.2:" + port, "localhost", "0.0.0.0:" + port, "[::1]:" + port} {
		c.wants(http.StatusMisdirectedRequest, "/do", note("Ada", "by another name"), "Host", host, "Origin", "http://"+host)
		if status, _, _ := c.get("/view", "Host", host); status != http.StatusMisdirectedRequest {
			t.Errorf("GET by the host %s: got %d", host, status)
		}
	}
	if status, _, _ := c.get("/events", "Origin", "http://evil.example"); status != http.StatusForbidden {
		t.Errorf("events for another origin: got %d", status)
	}
	if n := s.session.State().N(); n != 3 {
		t.Errorf("the record has %d entries, want 3", n)
	}
}

func TestEveryAnswerIsGuarded(t *testing.T) {
	s := newSite(t).start()
	for path, want := range map[string]int{
		"/": 200, "/walk.js": 200, "/walk.css": 200, "/icon.svg": 200, "/view": 200, "/nothing": 404, "/page/index.html": 404, "/record.jsonl": 404,
		"/%2e%2e/%2e%2e/etc/passwd": 404, "/walk.js/": 404, "/..%5cwalk.js": 404, "/do": 405,
	} {
		a, err := http.Get("http://" + s.at + path)
		if err != nil {
			t.Fatal(err)
		}
		_ = a.Body.Close()
		if a.StatusCode != want {
			t.Errorf("%s: got %d, want %d", path, a.StatusCode, want)
		}
		if csp := a.Header.Get("Content-Security-Policy"); !strings.HasPrefix(csp, "default-src 'none'; script-src 'self'; style-src 'self';") || strings.Contains(csp, "unsafe") {
			t.Errorf("%s: the policy is %q", path, csp)
		}
		if a.Header.Get("X-Content-Type-Options") != "nosniff" || a.Header.Get("Cache-Control") != "no-store" {
			t.Errorf("%s: the headers are %v", path, a.Header)
		}
	}
}

// Nothing on the page comes from outside, and nothing is written between its tags.
func TestThePageIsSelfContained(t *testing.T) {
	for path, f := range files {
		if found := regexp.MustCompile(`(https?:)?//[a-z0-9]+\.[^\s"')]+`).FindAllString(string(f.data), -1); len(found) > 0 && path != "/icon.svg" {
			t.Errorf("%s asks for %v", path, found)
		}
		for _, banned := range []string{"innerHTML", "insertAdjacentHTML", "document.write", "eval(", "new Function", " style=", "onclick=", "<style"} {
			if bytes.Contains(f.data, []byte(banned)) {
				t.Errorf("%s has %q", path, banned)
			}
		}
	}
}

// The page with everything it needs to be used, uncompressed.
func TestThePageIsLight(t *testing.T) {
	s := newSite(t).start()
	c := s.client(t)
	sum := 0
	for _, path := range []string{"/", "/walk.js", "/walk.css", "/icon.svg", "/view"} {
		status, text, _ := c.get(path)
		if status != 200 {
			t.Fatalf("%s: %d", path, status)
		}
		sum += len(text)
	}
	t.Logf("the page and its first view: %d bytes", sum)
	if sum >= 100_000 {
		t.Errorf("the page weighs %d bytes, and may weigh less than 100 kB", sum)
	}
}

// Of a disk that takes nothing a phone is told what it means and who can help, and not where files lie on somebody's computer.
func TestARecordThatCannotBeWrittenNamesNoFile(t *testing.T) {
	k, _ := kitOf(t, "fen-relay")
	record := filepath.Join(t.TempDir(), "launch-of-the-fen.jsonl")
	session, _, err := live.Open(record, walk.Preflight, func() (*walk.Kit, error) { return k, nil }, nil, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	if err := session.Close(); err != nil { // the disk is gone
		t.Fatal(err)
	}
	r := httptest.NewRequest(http.MethodPost, "/do", strings.NewReader(`{"do": "join", "name": "Ada"}`))
	r.Header.Set("Content-Type", "application/json")
	w := httptest.NewRecorder()
	(&Server{Session: session, Now: time.Now}).do(w, r)
	answer := w.Body.String()
	if w.Code != http.StatusInsufficientStorage || !strings.Contains(answer, "the record cannot be written") || !strings.Contains(answer, "whoever has the computer") {
		t.Errorf("got %d %s", w.Code, answer)
	}
	if strings.Contains(answer, "launch-of-the-fen") || strings.ContainsRune(answer, filepath.Separator) {
		t.Errorf("a phone is told %s", answer)
	}
	if full := remedy(fmt.Errorf("not recorded: %w", syscall.ENOSPC)); full != "its disk is full, and needs room" {
		t.Errorf("a full disk is mended by %q", full)
	}
}

func TestSizesAndKindsAreBounded(t *testing.T) {
	s := newSite(t).start()
	c := s.client(t)
	c.wants(200, "/do", walk.Input{Do: walk.Join, Name: "Ada", Lead: true})
	for body, want := range map[string]int{
		`{"do": "note", "who": "Ada", "text": "` + strings.Repeat("x", 9000) + `"}`: 413, `{`: 400, ``: 400, `[]`: 400, `{"do": "note"} {}`: 400,
		`{"do": "note", "evil": 1}`: 400, `{"do": "resume"}`: 400, `{"do": "begin"}`: 409, `{"do": "note", "who": "Mallory", "text": "x"}`: 409,
		`{"do": "count", "pieces": 1e99, "part": "TX1", "who": "Ada"}`: 400,
	} {
		c.wants(want, "/do", body)
	}
	c.wants(415, "/do", `{}`, "Content-Type", "text/plain")
	for _, method := range []string{"PUT", "DELETE", "GET", "OPTIONS"} {
		r, _ := http.NewRequest(method, "http://"+s.at+"/do", nil)
		r.Header.Set("Origin", "http://"+s.at)
		if status, _, err := c.send(r); err != nil || status != http.StatusMethodNotAllowed {
			t.Errorf("%s /do: got %d, %v", method, status, err)
		}
	}
	r, _ := http.NewRequest(http.MethodGet, "http://"+s.at+"/view", nil) // the connection may be closed before the answer is read
	if status, _, err := c.send(r, "X-Long", strings.Repeat("x", 40<<10)); err == nil && status != http.StatusRequestHeaderFieldsTooLarge {
		t.Errorf("a long header: got %d", status)
	}
	if n := s.session.State().N(); n != 2 {
		t.Errorf("the record has %d entries, want 2", n)
	}
}

func TestTooManyAtOnceWait(t *testing.T) {
	s := newSite(t).start()
	c := s.client(t)
	slowed := 0
	for range int(post.burst) + 20 {
		if status, _, err := c.post("/do", `{}`); err != nil {
			t.Fatal(err)
		} else if status == http.StatusTooManyRequests {
			slowed++
		}
	}
	if slowed < 10 {
		t.Errorf("of %d at once %d were slowed", int(post.burst)+20, slowed)
	}
}

// clockwork is a clock that tests turn.
type clockwork struct {
	mu sync.Mutex
	t  time.Time
}

func (c *clockwork) now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.t
}

func (c *clockwork) turn(d time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.t = c.t.Add(d)
}

func TestWrongCodesAreSlowedAndLimited(t *testing.T) {
	clock := &clockwork{t: time.Date(2026, 5, 9, 6, 0, 0, 0, time.UTC)}
	var codes []string
	p, err := NewPairing(clock.now, func(code string) { codes = append(codes, code) })
	if err != nil {
		t.Fatal(err)
	}
	if !regexp.MustCompile(`^[0-9]{4} [0-9]{4}$`).MatchString(codes[0]) {
		t.Errorf("the code is shown as %q", codes[0])
	}
	last := time.Duration(0)
	for range 8 {
		if token, wait, err := p.try("10.0.0.7", "not it"); token != "" || wait != 0 || err != nil {
			t.Fatalf("a wrong code: %q, %v, %v", token, wait, err)
		}
		token, wait, _ := p.try("10.0.0.7", codes[0])
		if token != "" || wait < last || wait == 0 {
			t.Fatalf("the right code right after a wrong one: %q, wait %v after %v", token, wait, last)
		}
		last = wait
		clock.turn(wait)
	}
	if last != longest {
		t.Errorf("the wait grows to %v, want %v", last, longest)
	}
	if token, wait, err := p.try("10.0.0.8", codes[0]); token == "" || err != nil {
		t.Errorf("another phone with the right code: %q, %v, %v", token, wait, err)
	}
	for i := range wrongBefore {
		if _, _, err := p.try(fmt.Sprintf("10.0.1.%d", i), "00000000"); err != nil {
			t.Fatal(err)
		}
	}
	if len(codes) != 2 || codes[1] == codes[0] {
		t.Fatalf("after %d wrong codes the codes are %v", wrongBefore, codes)
	}
	if token, _, _ := p.try("10.0.2.1", codes[0]); token != "" {
		t.Error("the old code still lets in")
	}
	if token, _, _ := p.try("10.0.2.2", strings.ReplaceAll(codes[1], " ", "")); token == "" {
		t.Error("the new code does not let in")
	}
}

func TestAPhoneIsPairedOrSeesNothing(t *testing.T) {
	s := newSite(t)
	s.pairing = true
	s.start()
	c := s.client(t)
	for _, path := range []string{"/view", "/events"} {
		if status, answer, _ := c.get(path); status != http.StatusUnauthorized || strings.Contains(answer, "Fen") {
			t.Errorf("%s unpaired: got %d %.80s", path, status, answer)
		}
	}
	c.wants(http.StatusUnauthorized, "/do", walk.Input{Do: walk.Join, Name: "Mallory", Lead: true})
	c.wants(http.StatusForbidden, "/pair", map[string]string{"code": "0000 000"})
	c.wants(http.StatusTooManyRequests, "/pair", map[string]string{"code": s.code})
	time.Sleep(2100 * time.Millisecond)
	c.wants(http.StatusForbidden, "/pair", map[string]string{"code": s.code}, "Origin", "http://evil.example")
	c.wants(http.StatusOK, "/pair", map[string]string{"code": s.code})
	c.wants(http.StatusOK, "/do", walk.Input{Do: walk.Join, Name: "Ada", Lead: true})
	if status, answer, _ := c.get("/view"); status != 200 || !strings.Contains(answer, "Fen relay") {
		t.Errorf("/view paired: got %d %.80s", status, answer)
	}
	stranger := s.client(t)
	stranger.wants(http.StatusUnauthorized, "/do", note("Ada", "x"), "Cookie", cookie+"="+strings.Repeat("A", 52))
}

// A reading is on the disk, computed anew and judged in 50 ms: the least of many, as this machine may be busy with others.
func TestAReadingsVerdictIsSoon(t *testing.T) {
	const soon = 50 * time.Millisecond
	s := newSite(t).start()
	c := s.client(t)
	c.wants(http.StatusOK, "/do", walk.Input{Do: walk.Join, Name: "Ada", Lead: true})
	least := time.Hour
	for i := range 12 {
		began := time.Now()
		c.wants(http.StatusOK, "/do", walk.Input{Do: walk.Read, Who: "Ada", Item: "preflight.wind", Text: fmt.Sprintf("1.%02d m/s", i)})
		least = min(least, time.Since(began))
	}
	t.Logf("a reading's verdict is there after %v", least)
	if least > soon {
		t.Errorf("a reading's verdict takes %v, and %v is allowed", least, soon)
	}
}

// Ten phones record at once, lose answers, send again, and once lose the program itself: every input is in the record, once.
func TestTenPhonesAtOnceLoseNothing(t *testing.T) {
	const phones, each = 10, 25
	s := newSite(t)
	s.pairing = true
	s.start()
	var up sync.RWMutex // held for writing while there is no program
	var all sync.WaitGroup
	for i := range phones {
		c := s.client(t)
		all.Go(func() {
			random := rand.New(rand.NewPCG(uint64(i), 1))
			who := fmt.Sprintf("Crew %d", i)
			inputs := []walk.Input{{Do: walk.Join, Name: who}}
			for n := range each {
				in := note(who, fmt.Sprintf("note %d", n))
				if n%5 == 0 {
					in = walk.Input{Do: walk.Read, Who: who, Item: "preflight.wind", Text: fmt.Sprintf("1.%d m/s", i)}
				}
				inputs = append(inputs, in)
			}
			for n, in := range inputs {
				in.Key = fmt.Sprintf("phone-%d-%d", i, n)
				c.deliver(in, random, &up)
			}
		})
	}
	time.Sleep(500 * time.Millisecond)
	up.Lock()
	s.stop()
	s.start()
	up.Unlock()
	all.Wait()
	s.stop()

	data, err := os.ReadFile(s.record)
	if err != nil {
		t.Fatal(err)
	}
	r, err := walk.ReadRecord(s.record, data)
	if err != nil {
		t.Fatal(err)
	}
	times := map[string]int{}
	for _, e := range r.Entries {
		if e.Key != "" {
			times[e.Key]++
		}
	}
	for i := range phones {
		for n := range each + 1 {
			if key := fmt.Sprintf("phone-%d-%d", i, n); times[key] != 1 {
				t.Errorf("%s stands %d times in the record", key, times[key])
			}
		}
	}
	if len(times) != phones*(each+1) {
		t.Errorf("the record has %d inputs, want %d", len(times), phones*(each+1))
	}
}

// deliver sends an input until it is known to be recorded; some answers are not waited for.
func (c *client) deliver(in walk.Input, random *rand.Rand, up *sync.RWMutex) {
	for range 400 {
		up.RLock()
		code := c.site.code
		up.RUnlock()
		patience := 10 * time.Second
		if random.IntN(3) == 0 {
			patience = time.Duration(random.IntN(12)) * time.Millisecond
		}
		ctx, cancel := context.WithTimeout(context.Background(), patience)
		text, _ := json.Marshal(in)
		r, _ := http.NewRequestWithContext(ctx, http.MethodPost, "http://"+c.site.at+"/do", bytes.NewReader(text))
		r.Header.Set("Content-Type", "application/json")
		r.Header.Set("Origin", "http://"+c.site.at)
		status, answer, err := c.send(r)
		cancel()
		switch {
		case err == nil && status == http.StatusOK:
			return
		case err == nil && status == http.StatusUnauthorized:
			_, _, _ = c.post("/pair", map[string]string{"code": code})
		case err == nil && status == http.StatusConflict:
			c.Errorf("%s: %s", in.Key, answer)
			return
		default:
			time.Sleep(time.Duration(20+random.IntN(60)) * time.Millisecond)
		}
	}
	c.Errorf("%s never got through", in.Key)
}

func TestAStreamOfEvents(t *testing.T) {
	s := newSite(t).start()
	a, err := http.Get("http://" + s.at + "/events")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = a.Body.Close() }()
	if kind := a.Header.Get("Content-Type"); kind != "text/event-stream" {
		t.Errorf("events come as %s", kind)
	}
	buffer := make([]byte, 1<<20)
	next := func() string {
		text := ""
		for !strings.HasSuffix(text, "\n\n") {
			n, err := a.Body.Read(buffer)
			if err != nil {
				t.Fatal(err)
			}
			text += string(buffer[:n])
		}
		return text
	}
	if first := next(); !strings.HasPrefix(first, "id: 1\ndata: {") {
		t.Errorf("first comes %.80s", first)
	}
	s.client(t).wants(200, "/do", walk.Input{Do: walk.Join, Name: "Ada", Lead: true})
	if second := next(); !strings.HasPrefix(second, "id: 2\ndata: {") || !strings.Contains(second, `"leader":"Ada"`) {
		t.Errorf("then comes %.80s", second)
	}
}
