package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/signal"
	"slices"
	"syscall"
	"time"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/live"
	"hoistbook/cmd/internal/prompt"
	"hoistbook/cmd/internal/terminal"
	"hoistbook/cmd/internal/version"
	"hoistbook/cmd/internal/web"
	"hoistbook/kits/diag"
	"hoistbook/render/walk"
	"hoistbook/rules"
)

// servedAt is where the page stands unless --listen says otherwise: on this machine alone.
const servedAt = "127.0.0.1:8707"

// screen is how many lines a terminal shows at the least; longer texts wait for their reader.
const screen = 24

// walked are the lists.
var walked = []string{walk.Preflight, walk.Change, walk.Recovery}

// A walking is one run of the walk command.
type walking struct {
	*options
	log    string
	serve  bool
	listen string
}

func walkCommand(o *options) *cobra.Command {
	w := &walking{options: o}
	c := &cobra.Command{
		Use:   "walk preflight|change|recovery [MANIFEST] [--log FILE]",
		Short: "Walk through the checklist, decide from readings, keep a record",
		Long: `Walk guides the crew through the list and computes everything anew from what it measures: GO, NO-GO with the rule and
what would mend it, or not shown yet. With --log every answer is on the disk before the next question, and the same
command goes on with the record later. With --serve the same walk-through is a page as well, on this machine; with
--listen phones on the local network take part, after the code that is shown here.
Change is the list for a fresh battery or gas while the station lasts: down, and up again.
The exit status is 0 for GO or a finished recovery, and 1 for anything else.`,
		Args:      cobra.RangeArgs(1, 2),
		ValidArgs: walked,
		RunE:      func(_ *cobra.Command, args []string) error { return w.run(args) },
	}
	c.Flags().StringVar(&w.log, "log", "", "keep the record in this `FILE`, or go on with it")
	c.Flags().BoolVar(&w.serve, "serve", false, "serve the page at http://"+servedAt)
	c.Flags().StringVar(&w.listen, "listen", "", "serve the page at this `ADDRESS`, such as :8707 for the local network")
	return c
}

func (w *walking) run(args []string) (err error) {
	list := args[0]
	if !slices.Contains(walked, list) {
		return fmt.Errorf("there is no list %q; %s", list, diag.DidYouMean(list, walked, "write preflight, change or recovery"))
	}
	packs, err := w.rulePacks()
	if err != nil {
		return err
	}
	begin := func() (*walk.Kit, error) { return w.kit(manifestOf(args[1:]), packs) }
	resume := func(o *walk.Opening) (*walk.Kit, error) {
		if len(args) > 1 || len(w.overlays) > 0 {
			k, err := begin()
			if err == nil && k.Manifest.Digest() != o.Digest {
				err = fmt.Errorf("%s was begun with another manifest (%s revision %s, digest %.19s); leave the manifest out to go on, or begin a new record", w.log, o.Name, o.Revision, o.Digest)
			}
			if err != nil {
				return nil, err
			}
		}
		return walk.KitOf(o, packs, program())
	}
	now := func() time.Time { return time.Now().Truncate(time.Second) }
	session, notes, err := live.Open(w.log, list, begin, resume, now)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, session.Close()) }()
	if w.log == "" {
		notes = append(notes, "no record is kept; --log FILE keeps one")
	}
	return w.walk(session, notes, now)
}

// kit is what a new record begins with.
func (w *walking) kit(name string, packs rules.Packs) (*walk.Kit, error) {
	a, err := w.assess(name, func() (rules.Packs, error) { return packs, nil })
	if err != nil {
		return nil, err
	}
	return &walk.Kit{Manifest: a.Manifest, Packs: packs, System: w.system.value, Program: program()}, nil
}

// walk runs the terminal, and the page when it is asked for, until the record is closed, the input ends or somebody stops it.
func (w *walking) walk(session *live.Session, notes []string, now func() time.Time) error {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	desk := &prompt.Desk{
		Session: session, Out: w.streams.Out, Style: terminal.Style{Colour: w.streams.Colour, System: session.State().Kit().System}, Now: now,
		Done: ctx.Done(), Stay: w.serve || w.listen != "", Echo: !typed(w.streams.In), Notes: notes,
	}
	if !desk.Echo {
		desk.Rows = screen
	}
	if !desk.Stay {
		if err := desk.Run(w.streams.In); err != nil {
			return err
		}
		return ending(session)
	}
	served, page, err := w.page(ctx, session)
	if err != nil {
		return err
	}
	desk.Page = page
	err = desk.Run(w.streams.In)
	stop()
	if err := errors.Join(err, <-served); err != nil {
		return err
	}
	return ending(session)
}

// typed reports whether what is read is being typed, and so seen already.
func typed(in io.Reader) bool {
	f, ok := in.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// ending is the exit status: only a pass is one.
func ending(session *live.Session) error {
	switch v, _ := session.View(); v.Verdict {
	case walk.GO, walk.Complete:
		return nil
	}
	return errNoGo
}

// page serves the page and says where, now and when somebody asks.
func (w *walking) page(ctx context.Context, session *live.Session) (served <-chan error, where func() []string, err error) {
	at := w.listen
	if at == "" {
		at = servedAt
	}
	l, err := net.Listen("tcp", at)
	if err != nil {
		return nil, nil, fmt.Errorf("the page cannot be served at %s: %w", at, err)
	}
	server := &web.Server{Session: session, Now: time.Now}
	if bound := l.Addr().(*net.TCPAddr); !bound.IP.IsLoopback() {
		server.Pairing, err = web.NewPairing(time.Now, func(code string) { fmt.Fprintf(w.streams.Out, "\nPairing code for phones: %s\n", code) })
		if err != nil {
			return nil, nil, errors.Join(err, l.Close())
		}
		fmt.Fprintln(w.streams.Out, "Nothing on this network is encrypted: use one that the crew has to itself.")
	}
	where = func() []string {
		lines := web.URLs(l)
		for i := range lines {
			lines[i] = "The page: " + lines[i]
		}
		if server.Pairing != nil {
			lines = append(lines, "Pairing code for phones: "+server.Pairing.Code())
		}
		return lines
	}
	for _, url := range web.URLs(l) {
		fmt.Fprintln(w.streams.Out, "The page: "+url)
	}
	done := make(chan error, 1)
	go func() { done <- server.Serve(ctx, l) }()
	return done, where, nil
}

// program names this program and its version, for the record.
func program() string { return "hoistbook " + version.String() }
