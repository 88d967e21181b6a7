// Package cli is the command line: it reads arguments, hands the work to others and says how it went. It is thin: whatever
// computes, judges or draws stands elsewhere.
package cli

import (
	"errors"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"hoistbook/kits/diag"
)

// The exit statuses. No flag changes what they mean.
const (
	Done     = 0 // GO, or the work is done
	NoGo     = 1 // the verdict is NO-GO
	Unusable = 2 // unusable input or usage: nothing was written
)

// Streams are what a command reads and writes.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
	Colour   bool // Out is a terminal that wants colour
}

// errNoGo ends a command whose verdict has been printed.
var errNoGo = errors.New("the verdict is NO-GO")

// Run runs one command line and returns its exit status.
func Run(args []string, s Streams) int {
	out := &heard{w: s.Out}
	s.Out = out
	root := command(s)
	root.SetArgs(args)
	err := root.Execute()
	switch {
	case out.err != nil && (err == nil || errors.Is(err, errNoGo)):
		err = fmt.Errorf("not everything could be printed: %w", out.err)
	case err == nil:
		return Done
	case errors.Is(err, errNoGo):
		return NoGo
	}
	say(s.Err, err)
	return Unusable
}

// heard remembers that something could not be printed: a verdict that nobody reads is none.
type heard struct {
	w   io.Writer
	err error
}

func (h *heard) Write(p []byte) (int, error) {
	n, err := h.w.Write(p)
	if h.err == nil {
		h.err = err
	}
	return n, err
}

// say prints an error: every problem of a file on a line of its own, as FILE:LINE:COL: what; what would be right.
func say(w io.Writer, err error) {
	var problems diag.Problems
	if errors.As(err, &problems) {
		fmt.Fprintln(w, problems.Error())
		return
	}
	fmt.Fprintln(w, "hoistbook: "+worded(err))
}

func command(s Streams) *cobra.Command {
	root := &cobra.Command{
		Use:           "hoistbook",
		Short:         "Turn one build manifest of a tethered balloon radio relay into everything another team needs",
		Long:          long,
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.SetIn(s.In)
	root.SetOut(s.Out)
	root.SetErr(s.Err)
	o := &options{streams: s}
	o.flags(root.PersistentFlags())
	root.AddCommand(checkCommand(o), bookCommand(o), orderCommand(o), sizeCommand(o), explainCommand(o), compareCommand(o), walkCommand(o), recordCommand(o), weighCommand(o), verifyCommand(o), extractCommand(o), signCommand(o), newCommand(o), schemaCommand(o), licencesCommand(o))
	finish(root)
	return root
}

const long = `Hoistbook reads one JSON build manifest of a small radio relay under a tethered balloon, computes what the
design does, judges it by rules, and prints what people carry.

Without a MANIFEST the demonstration kit is used; demo:NAME is another one of those embedded.
Exit status: 0 GO or done, 1 NO-GO, 2 unusable input or usage.

The tool advises. Local law, the licence holder and the person in charge at the launch site decide.`
