package doc

import (
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

// leastFilled is the share of its height that every page of a document of several pages has set. A document of one page ends where it
// ends: that is the only exception, and the cover is one of them.
const leastFilled = 0.29

// No page of a demonstration kit's documents is nearly empty, on either paper, in either system of units, in any language.
func TestNoPageIsNearlyEmpty(t *testing.T) {
	all := builtIn(t)
	for _, id := range kits.Demos() {
		for _, language := range Languages() {
			for _, paper := range []page.Paper{page.A4, page.Letter} {
				for _, system := range []unit.System{unit.SI, unit.US} {
					in := Gather(demo(t, id), all, system, words(t, language))
					in.Paper = paper
					for _, d := range All {
						if !d.Applies(in) {
							continue
						}
						doc, err := d.Compose(in)
						if err != nil {
							t.Fatal(err)
						}
						if d.Name == limitsCard.Name && len(doc.Pages) > 1 {
							t.Errorf("%s, %s, %s, %v: the limits card takes %d pages, and is to be one sheet", id, language, paper.Name, system, len(doc.Pages))
						}
						for i, p := range doc.Pages {
							if filled := filledTo(p, in.Fonts); len(doc.Pages) > 1 && filled < leastFilled {
								t.Errorf("%s, %s, %s, %v: page %d of %d of %s is filled by %.2f of its height", id, language, paper.Name, system, i+1, len(doc.Pages), d.Name, filled)
							}
						}
					}
				}
			}
		}
	}
}

// filledTo is the share of the text block's height down to the lowest thing in it.
func filledTo(p page.Page, fonts *page.Fonts) page.MM {
	text := page.SheetMargins.Inside(p.Paper)
	var low page.MM
	for _, it := range p.Items {
		if box, ok := page.Bounds(it, fonts); ok && box.Y >= text.Y-1 && box.Bottom() <= text.Bottom()+1 {
			low = max(low, box.Bottom()-text.Y)
		}
	}
	return low / text.H
}
