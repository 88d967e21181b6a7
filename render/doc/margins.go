package doc

import (
	"cmp"
	"math"
	"slices"

	"hoistbook/render/page"
	"hoistbook/rules"
)

// margins draws every margin as a bar, the thinnest first.
func (s *sheet) margins() {
	var with []rules.Finding
	for _, f := range s.Findings {
		if f.HasMargin() && !math.IsNaN(f.Share) {
			with = append(with, f)
		}
	}
	if len(with) == 0 {
		return
	}
	slices.SortStableFunc(with, func(a, b rules.Finding) int { return cmp.Compare(a.Share, b.Share) })
	s.heading(1, s.say("summary.margins"))
	s.paragraph(s.say("summary.margins-about"))
	const heading = page.MM(28) // of the heading and the words below it
	room := s.flow.Room() - heading
	for from := 0; from < len(with); {
		d := s.drawing(s.flow.Frame().W, 0)
		y := s.marginHead(d)
		to := from
		for ; to < len(with) && (to == from || y+s.marginHeight(d, with[to]) <= room); to++ {
			y = s.margin(d, with[to], y)
		}
		d.h = y
		s.add(d.figure(""))
		from, room = to, s.flow.Frame().H-4
	}
}

// The columns of the margins: what holds, its value, its limit, the margin, the bar.
func marginColumns(w page.MM) (value, limit, margin, bar page.MM) {
	return w * 0.47, w * 0.585, w * 0.755, w * 0.87
}

var (
	marginText = label{size: 8.5}
	marginBold = label{face: page.Bold, size: 8.5, align: page.Right}
)

func (s *sheet) marginHead(d *drawing) page.MM {
	value, limit, margin, bar := marginColumns(d.w)
	head := label{face: page.Bold, size: 8}
	d.put(s.say("finding.what"), head, 0, 0, value)
	d.put(s.say("finding.value"), label{face: page.Bold, size: 8, align: page.Right}, limit-3, 0, limit-value-3)
	d.put(s.say("finding.limit"), head, limit, 0, margin-limit)
	d.put(s.say("finding.margin"), label{face: page.Bold, size: 8, align: page.Right}, bar-3, 0, bar-margin+8)
	d.put(s.say("finding.share"), head, bar, 0, d.w-bar)
	d.line(0, 5, d.w, 5, page.Stroke{Width: plain})
	return 5.4
}

func (s *sheet) marginHeight(d *drawing, f rules.Finding) page.MM {
	value, limit, margin, bar := marginColumns(d.w)
	right := label{size: 8.5}
	return max(d.height(s.name(f), marginText, value-3), d.height(s.value(f.Measure), right, limit-value-3), d.height(s.limit(f), right, margin-limit),
		d.height(s.room(f), marginBold, bar-margin+8)) + 2
}

// limit says what a value is held against.
func (s *sheet) limit(f rules.Finding) string {
	return s.say("finding.relation", "relation", s.Words.Name("relation", string(f.Relation)), "limit", s.value(f.Limit))
}

func (s *sheet) room(f rules.Finding) string { return s.Words.Number(f.MarginText(s.System)) }

// margin draws one row: the bar ends where the margin is as large as the limit itself; a longer one has an arrow, and what is
// not met goes to the left in hatching.
func (s *sheet) margin(d *drawing, f rules.Finding, y page.MM) page.MM {
	value, limit, margin, bar := marginColumns(d.w)
	h := s.marginHeight(d, f)
	d.put(s.name(f), marginText, 0, y+0.8, value-3)
	d.put(s.value(f.Measure), label{size: 8.5, align: page.Right}, limit-3, y+0.8, limit-value-3)
	d.put(s.limit(f), marginText, limit, y+0.8, margin-limit)
	d.put(s.room(f), marginBold, bar-3, y+0.8, bar-margin+8)
	full := d.w - bar - 4
	at := y + 2.6
	share := math.Min(math.Abs(f.Share), 1)
	length := max(full*page.MM(share), 0.5)
	d.line(bar, y+0.4, bar, y+h-0.2, page.Stroke{Width: plain})
	if f.Share >= 0 {
		d.add(page.Rect{Box: page.Box{X: bar, Y: at - 1.2, W: length, H: 2.4}, Fill: page.Black})
		if f.Share > 1 {
			d.add(page.Polygon{Points: []page.Point{{X: bar + full, Y: at - 1.8}, {X: bar + full + 3, Y: at}, {X: bar + full, Y: at + 1.8}}, Fill: page.Black})
		}
	} else {
		d.add(page.Rect{Box: page.Box{X: bar, Y: at - 1.2, W: length, H: 2.4}, Fill: page.White, Stroke: page.Stroke{Width: plain}})
		for x := page.MM(1); x < length; x += 1 {
			d.line(bar+x, at-1.2, bar+x-min(1, x), at+1.2, page.Stroke{Width: thin})
		}
	}
	d.line(0, y+h, d.w, y+h, page.Stroke{Width: thin, Ink: page.Grey(0.55)})
	return y + h
}
