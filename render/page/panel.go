package page

import (
	"fmt"
	"slices"
)

// Signal is the weight of a warning, in the sense of ANSI Z535.6: what happens if it is not heeded.
type Signal uint8

// The four weights. Injury is never a Notice.
const (
	Danger  Signal = iota // will kill or injure seriously
	Warning               // could kill or injure seriously
	Caution               // could injure slightly or moderately
	Notice                // damage, not injury: without the safety alert symbol
)

// Panel is a warning in a frame, with its signal word. The word is handed in, in the reader's language. Text comes in the order
// hazard, consequence, how to avoid it. Each weight has a frame of its own, so that a black-and-white copy still tells them apart:
// thick with a black band; double with a grey band; single with a white band; thin, without the safety alert symbol.
type Panel struct {
	Signal Signal
	Word   string
	Text   []Words
	Fine   []Words // below the text of the same place, in the small style
	Parts  bool    // may begin at the foot of a page with some of its texts, and go on overleaf under its signal word
}

// look is how the frame of a weight is drawn.
type look struct {
	edge       MM
	double     bool
	band, word Ink
	alert      bool
	dash       []MM
}

var looks = [...]look{
	Danger:  {edge: 1.4, band: Black, word: White, alert: true},
	Warning: {edge: 0.45, double: true, band: Grey(0.8), alert: true},
	Caution: {edge: 0.7, alert: true},
	Notice:  {edge: 0.25, dash: []MM{1.6, 0.9}},
}

func (p Panel) strips(s *setting, width MM) []strip {
	look := looks[min(p.Signal, Notice)]
	inset := look.inset()
	inner := width - 2*inset
	texts := make([][]strip, len(p.Text))
	for i, t := range p.Text {
		texts[i] = spaced(s.text(t, s.scale.Body, 0, panelPad, inner-panelPad), small*0.7, small*0.7)
		if i < len(p.Fine) {
			texts[i] = append(texts[i], spaced(s.text(p.Fine[i], s.scale.Small, 0, panelPad, inner-panelPad), 0, small)...)
		}
	}
	word := s.wrap(Plain(p.Word), s.scale.Signal, inner-2*panelPad-p.symbol(s))
	band := max(MM(len(word))*s.scale.Signal.Leading, s.scale.Signal.Leading) + 2*small*0.6
	if band > s.height/3 {
		s.fail(fmt.Errorf("the signal word %q takes more than a third of a page", p.Word))
		return nil
	}
	x := inset + panelPad
	f := frame{look: look, band: band, width: width}
	if look.alert {
		edge := s.scale.Signal.Leading * 1.15
		f.word = Alert(x, inset+(band-edge*0.87)/2, edge, look.word)
		x += p.symbol(s)
	}
	f.word = append(f.word, s.setAll(word, s.scale.Signal, look.word, x, inset+0.6*small, width-x, Left)...)
	if p.Parts && f.parts(texts, s.height) {
		return []strip{f.elastic(texts)}
	}
	// A panel higher than a page goes on in a second frame under the same signal word.
	var all []strip
	body := slices.Concat(texts...)
	for first := true; first || len(body) > 0; first = false {
		n := min(1, len(body))
		for n < len(body) && f.height(body[:n+1]) <= s.height {
			n++
		}
		all = append(all, f.around(body[:n]))
		body = body[n:]
	}
	return spaced(all, 1.5*medium, 1.5*medium)
}

// frame is what stands around the texts of a panel.
type frame struct {
	look  look
	word  []Item // in the band, the symbol before it
	band  MM     // its height
	width MM
}

// parts reports whether the texts can go on page by page: none of them is higher than a page by itself.
func (f frame) parts(texts [][]strip, page MM) bool {
	return len(texts) > 1 && !slices.ContainsFunc(texts, func(t []strip) bool { return f.height(t) > page })
}

// elastic sets as many texts as there is room for, and the others overleaf.
func (f frame) elastic(texts [][]strip) strip {
	return strip{before: 1.5 * medium, after: 1.5 * medium, height: f.height(texts[0]), elastic: func(room MM) (strip, *strip) {
		n, body := 0, []strip(nil)
		for n < len(texts) && f.height(append(body[:len(body):len(body)], texts[n]...)) <= room+roundingRoom {
			body = append(body, texts[n]...)
			n++
		}
		if n == 0 {
			return strip{}, nil
		}
		set := f.around(body)
		set.after = 1.5 * medium
		if n == len(texts) {
			return set, nil
		}
		rest := f.elastic(texts[n:])
		return set, &rest
	}}
}

// height is that of a frame around some text.
func (f frame) height(body []strip) MM {
	height := 2*f.look.inset() + f.band
	if inside := stacked(body); inside > 0 {
		height += inside + 2*panelPad*0.8
	}
	return height
}

func (l look) inset() MM {
	if l.double {
		return 3 * l.edge
	}
	return l.edge
}

// symbol is the room that the safety alert symbol takes before the signal word.
func (p Panel) symbol(s *setting) MM {
	if !looks[min(p.Signal, Notice)].alert {
		return 0
	}
	return s.scale.Signal.Leading*1.15 + small
}

// around draws the frame around some text.
func (f frame) around(body []strip) strip {
	look, width, band := f.look, f.width, f.band
	inset, height := look.inset(), f.height(body)
	var items []Item
	if !look.band.None() {
		items = append(items, Rect{Box: Box{inset, inset, width - 2*inset, band}, Fill: look.band})
	} else {
		under := Stroke{Width: look.edge / 2, Dash: look.dash}
		items = append(items, Line{inset + panelPad, inset + band, width - inset - panelPad, inset + band, under})
	}
	outer := Stroke{Width: look.edge, Dash: look.dash}
	items = append(items, Rect{Box: Box{0, 0, width, height}.grown(-look.edge / 2), Stroke: outer})
	if look.double {
		items = append(items, Rect{Box: Box{0, 0, width, height}.grown(-2.5 * look.edge), Stroke: outer})
	}
	items = append(items, f.word...)
	items = append(items, merged(body, inset, inset+band+panelPad*0.8)...)
	return strip{before: medium, after: medium, height: height, items: items}
}

// Alert draws the safety alert symbol of ANSI Z535: a triangle, here filled, with an exclamation mark. Edge is its side.
func Alert(x, y, edge MM, ink Ink) []Item {
	mark := White
	if ink == White {
		mark = Black
	}
	if ink.None() {
		ink = Black
	}
	h := edge * 0.866
	mid, bar := x+edge/2, edge*0.055
	return []Item{
		Polygon{Points: []Point{{mid, y + 0.06*h}, {x + edge*0.95, y + h*0.97}, {x + edge*0.05, y + h*0.97}}, Fill: ink, Stroke: Stroke{Width: edge * 0.08, Ink: ink, Round: true}},
		Polygon{Points: []Point{{mid - bar, y + 0.34*h}, {mid + bar, y + 0.34*h}, {mid + bar*0.6, y + 0.7*h}, {mid - bar*0.6, y + 0.7*h}}, Fill: mark},
		Circle{X: mid, Y: y + 0.81*h, R: bar * 1.05, Fill: mark},
	}
}
