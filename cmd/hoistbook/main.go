// Command hoistbook turns one build manifest of a tethered balloon radio relay into everything another team needs.
package main

import (
	"os"
	"runtime/debug"

	"hoistbook/cmd/internal/cli"
	"hoistbook/cmd/internal/terminal"
)

// garbage is how far the heap may grow before it is collected, in percent. A command lives for some hundredths of a second
// and holds some megabytes: collecting them four times costs more than it frees.
const garbage = 400

func main() {
	debug.SetGCPercent(garbage)
	s := cli.Streams{In: os.Stdin, Out: os.Stdout, Err: terminal.Guard(os.Stderr)}
	if isTerminal(os.Stdout) {
		s.Out, s.Colour = terminal.Guard(os.Stdout), wantsColour()
	}
	os.Exit(cli.Run(os.Args[1:], s))
}

func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// wantsColour reports whether the owner of the terminal has not asked for plain text (no-color.org).
func wantsColour() bool {
	return os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
}
