// Command hoistbook turns one build manifest of a tethered balloon radio relay into everything another team needs.
package main

import (
	"os"

	"hoistbook/cmd/internal/cli"
)

func main() {
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
