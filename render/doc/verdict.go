package doc

import (
	"hoistbook/render/page"
	"hoistbook/rules"
)

// verdict draws the verdict as a bar across the text: GO in a frame, NO-GO white on black, so that no copier blurs the two.
func (s *sheet) verdict() page.Figure {
	musts, shoulds := s.tally(rules.Must), s.tally(rules.Should)
	text := s.Words.Count("verdict.musts", musts.all, "met", digits(musts.met))
	if shoulds.all > 0 {
		text += " " + s.Words.Count("verdict.shoulds", shoulds.all, "met", digits(shoulds.met))
	}
	if rules.Verdict(s.Findings) != rules.Go {
		return s.sign(s.say("verdict.no-go"), text, true)
	}
	return s.sign(s.say("verdict.go"), text, false)
}

// sign is a bar across the text with one word and what it rests on: in a frame, or white on black where it stops.
func (s *sheet) sign(word, text string, stops bool) page.Figure {
	ink, fill := page.Black, page.White
	if stops {
		ink, fill = page.White, page.Black
	}
	const pad = page.MM(4)
	d := s.drawing(s.flow.Frame().W, 16)
	sign := label{face: page.Bold, size: 26, ink: ink, shrinks: true}
	left := min(s.Fonts.Width(sign.face, sign.size, word), d.w*0.45) + 2*pad
	aside := label{size: 10}
	d.h = max(16, d.height(word, sign, left-2*pad)+4, d.height(text, aside, d.w-left-2*pad)+4)
	d.add(page.Rect{Box: page.Box{X: thick / 2, Y: thick / 2, W: d.w - thick, H: d.h - thick}, Stroke: page.Stroke{Width: thick}})
	d.add(page.Rect{Box: page.Box{X: thick / 2, Y: thick / 2, W: left, H: d.h - thick}, Fill: fill, Stroke: page.Stroke{Width: thick}})
	d.put(word, sign, pad, (d.h-d.height(word, sign, left-2*pad))/2, left-2*pad)
	d.put(text, aside, left+pad, (d.h-d.height(text, aside, d.w-left-2*pad))/2, d.w-left-2*pad)
	return d.figure("")
}

type tally struct{ all, met int }

func (s *sheet) tally(level rules.Level) tally {
	var t tally
	for _, f := range s.Findings {
		if f.Level != level {
			continue
		}
		t.all++
		if f.Outcome == rules.Met {
			t.met++
		}
	}
	return t
}
