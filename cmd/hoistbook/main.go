// Command hoistbook turns one build manifest of a tethered balloon radio relay into everything another team needs.
package main

import (
	"os"
	"runtime/debug"

	"hoistbook/cmd/internal/cli"
)

// garbage is how far the heap may grow before it is collected, in percent. A command lives for some hundredths of a second
// and holds some megabytes: collecting them four times costs more than it frees.
const garbage = 400

func main() {
	debug.SetGCPercent(garbage)
	os.Exit(cli.Run(os.Args[1:], cli.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Colour: colour()}))
}

// colour reports whether standard output is a terminal whose owner has not asked for plain text (no-color.org).
func colour() bool {
	if os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb" {
		return false
	}
	info, err := os.Stdout.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
