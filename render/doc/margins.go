package doc

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"hoistbook/render/page"
	"hoistbook/rules"
)

// ample is the part of its limit from which on a margin is counted rather than drawn: nobody loses sleep over it, and the few that
// matter stand together on the first pages.
const ample = 0.6

// claims begins the ids of rules that ask whether what the manifest says can be true: their margins, where they are met, tell nobody how
// near the kit is to its limits.
const claims = "claims."

// margins draws the margins as bars, the thinnest first.
func (s *sheet) margins() {
	var with []rules.Finding
	for _, f := range s.Findings {
		if f.HasMargin() && !math.IsNaN(f.Share) && !(strings.HasPrefix(f.Rule, claims) && f.Outcome == rules.Met) {
			with = append(with, f)
		}
	}
	if len(with) == 0 {
		return
	}
	slices.SortStableFunc(with, func(a, b rules.Finding) int { return cmp.Compare(a.Share, b.Share) })
	s.heading(1, s.say("summary.margins"))
	s.paragraph(s.say("summary.margins-about"))
	drawn := with
	if at := slices.IndexFunc(with, func(f rules.Finding) bool { return f.Share > ample }); at > 0 {
		drawn = with[:at]
	}
	more := len(with) - len(drawn)
	with = drawn
	columns := s.marginColumns(with)
	room := s.flow.Room() - 6 // less the white around a figure
	for from := 0; from < len(with); {
		d := s.drawing(s.flow.Frame().W, 0)
		y := s.marginHead(d, columns)
		to := from
		for ; to < len(with) && (to == from || y+s.marginHeight(d, columns, with[to]) <= room); to++ {
			y = s.margin(d, columns, with[to], y)
		}
		d.h = y
		s.add(d.figure(""))
		from, room = to, s.flow.Frame().H-4
	}
	if more > 0 {
		s.paragraph(s.Words.Count("summary.margins-more", more))
	}
}

// marginColumns are the right ends of value and margin, and the left ends of limit and bar. What holds begins at the left edge and
// ends before the values.
type marginColumns struct{ text, value, limit, margin, bar page.MM }

var (
	marginText  = label{size: 8.5}
	marginValue = label{size: 8.5, align: page.Right}
	marginBold  = label{face: page.Bold, size: 8.5, align: page.Right}
	marginHeads = label{face: page.Bold, size: 8}
)

// marginGap lies between columns.
const marginGap = page.MM(2.5)

// marginColumns gives the numbers the room that the longest of their kind take, up to a bound, and the rest to the words. Limit and
// margin share theirs: where the one is long the other is mostly short.
func (s *sheet) marginColumns(with []rules.Finding) marginColumns {
	width := func(l label, text string) page.MM { return s.Fonts.Width(l.face, l.size, text) }
	w := s.flow.Frame().W - 2*reach
	const bar = page.MM(18)
	value := width(marginHeads, s.say("finding.value"))
	limits := width(marginHeads, s.say("finding.limit")) + marginGap + width(marginHeads, s.say("finding.margin"))
	for _, f := range with {
		value = max(value, width(marginValue, s.measure(f)))
		limits = max(limits, width(marginText, s.limit(f))+marginGap+width(marginBold, s.room(f)))
	}
	c := marginColumns{bar: w - bar}
	c.margin = c.bar - marginGap
	c.limit = c.margin - min(limits+0.2, w*0.3)
	c.value = c.limit - marginGap
	c.text = c.value - min(value+0.1, w*0.15) - marginGap
	return c
}

func (s *sheet) marginHead(d *drawing, c marginColumns) page.MM {
	right := marginHeads
	right.align = page.Right
	d.put(s.say("finding.what"), marginHeads, 0, 0, c.text)
	d.put(s.say("finding.value"), right, c.value, 0, c.value-c.text)
	d.put(s.say("finding.limit"), marginHeads, c.limit, 0, c.margin-c.limit)
	d.put(s.say("finding.margin"), right, c.margin, 0, c.margin-c.limit)
	d.put(s.say("finding.share"), marginHeads, c.bar, 0, d.w-c.bar)
	d.line(0, 5, d.w, 5, page.Stroke{Width: plain})
	return 5.4
}

// rooms are the widths in which the texts of a row stand.
func (c marginColumns) rooms(s *sheet, f rules.Finding) (value, limit, margin page.MM) {
	value = c.value - c.text - marginGap
	margin = s.Fonts.Width(marginBold.face, marginBold.size, s.room(f)) + 0.1
	limit = c.margin - c.limit - marginGap - margin
	if most := (c.margin - c.limit) / 2; limit < most {
		limit, margin = most, c.margin-c.limit-marginGap-most
	}
	return value, limit, margin
}

func (s *sheet) marginHeight(d *drawing, c marginColumns, f rules.Finding) page.MM {
	value, limit, margin := c.rooms(s, f)
	return max(d.height(s.name(f), marginText, c.text), d.height(s.measure(f), marginValue, value),
		d.height(s.limit(f), marginText, limit), d.height(s.room(f), marginBold, margin)) + 1.1
}

// limit says what a value is held against.
func (s *sheet) limit(f rules.Finding) string {
	_, limit := s.compared(&f)
	return s.say("finding.relation", "relation", s.Words.Name("relation", string(f.Relation)), "limit", limit)
}

// measure is what was found.
func (s *sheet) measure(f rules.Finding) string {
	value, _ := s.compared(&f)
	return value
}

// room is the margin; money has its currency in the columns before.
func (s *sheet) room(f rules.Finding) string { return s.Words.Number(f.MarginText(s.System)) }

// margin draws one row: the bar ends where the margin is as large as the limit itself; a longer one has an arrow, and what is
// not met goes to the left in hatching.
func (s *sheet) margin(d *drawing, c marginColumns, f rules.Finding, y page.MM) page.MM {
	h := s.marginHeight(d, c, f)
	value, limit, margin := c.rooms(s, f)
	const above = page.MM(0.4)
	d.put(s.name(f), marginText, 0, y+above, c.text)
	d.put(s.measure(f), marginValue, c.value, y+above, value)
	d.put(s.limit(f), marginText, c.limit, y+above, limit)
	d.put(s.room(f), marginBold, c.margin, y+above, margin)
	full := d.w - c.bar - 4
	at := y + 2.3
	share := math.Min(math.Abs(f.Share), 1)
	length := max(full*page.MM(share), 0.5)
	d.line(c.bar, y+0.4, c.bar, y+h-0.2, page.Stroke{Width: plain})
	if f.Share >= 0 {
		d.add(page.Rect{Box: page.Box{X: c.bar, Y: at - 1.2, W: length, H: 2.4}, Fill: page.Black})
		if f.Share > 1 {
			d.add(page.Polygon{Points: []page.Point{{X: c.bar + full, Y: at - 1.8}, {X: c.bar + full + 3, Y: at}, {X: c.bar + full, Y: at + 1.8}}, Fill: page.Black})
		}
	} else {
		d.add(page.Rect{Box: page.Box{X: c.bar, Y: at - 1.2, W: length, H: 2.4}, Fill: page.White, Stroke: page.Stroke{Width: plain}})
		for x := page.MM(1); x < length; x += 1 {
			d.line(c.bar+x, at-1.2, c.bar+x-min(1, x), at+1.2, page.Stroke{Width: thin})
		}
	}
	d.line(0, y+h, d.w, y+h, page.Stroke{Width: thin, Ink: page.Grey(0.55)})
	return y + h
}
