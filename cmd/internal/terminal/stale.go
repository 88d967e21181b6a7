package terminal

import (
	"fmt"
	"io"

	"hoistbook/kits/manifest"
)

// stale says of overlays that were made for another revision what no longer fits.
func (s Style) stale(w io.Writer, layers []manifest.Layer) {
	for _, l := range layers {
		if len(l.Stale) == 0 {
			continue
		}
		fmt.Fprintf(w, "\n%s\n", s.paint("  The overlay "+l.Name+" was made for another revision", yellow, bold))
		for _, p := range l.Stale {
			paragraph(w, "    ", "      ", p.String())
		}
	}
}
