package doc

import (
	"cmp"
	"math"
	"slices"

	"hoistbook/kits/unit"
	"hoistbook/render/page"
)

// A chart plots curves over one axis. Curves are told apart by dash and by a name at their end, never by a colour.
type chart struct {
	w, h   page.MM
	x, y   axis
	curves []curve
	marks  []mark
}

// An axis runs from the first to the last of its ticks.
type axis struct {
	title     string
	low, high float64
	step      float64
}

// A curve is drawn through its points; one that is not a number parts it.
type curve struct {
	name   string
	points [][2]float64
	dash   []page.MM
	wide   bool
}

// A mark is a point that is named, such as the design.
type mark struct {
	name string
	x, y float64
}

// axisOver is an axis with round ticks over some numbers; from zero, if asked.
func axisOver(title string, fromZero bool, ticks int, values ...float64) axis {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range values {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			low, high = min(low, v), max(high, v)
		}
	}
	if fromZero {
		low = min(low, 0)
	}
	if !(high > low) {
		low, high = low-1, low+1
	}
	if math.IsInf(low, 0) || math.IsNaN(low) {
		low, high = 0, 1
	}
	step := nice((high - low) / float64(ticks))
	return axis{title, math.Floor(low/step+1e-9) * step, math.Ceil(high/step-1e-9) * step, step}
}

const (
	chartLeft, chartRight = page.MM(17), page.MM(32)
	chartTop, chartBelow  = page.MM(3), page.MM(12)
)

func (c chart) at(x, y float64) page.Point {
	inner := page.Box{X: chartLeft, Y: chartTop, W: c.w - chartLeft - chartRight, H: c.h - chartTop - chartBelow}
	return page.Point{X: inner.X + inner.W*page.MM((x-c.x.low)/(c.x.high-c.x.low)), Y: inner.Bottom() - inner.H*page.MM((y-c.y.low)/(c.y.high-c.y.low))}
}

// plot draws the chart.
func (s *sheet) plot(c chart, caption string) page.Figure {
	d := s.drawing(c.w, c.h)
	c.w = d.w
	s.grid(d, c)
	for _, k := range c.curves {
		stroke := page.Stroke{Width: plain, Dash: k.dash}
		if k.wide {
			stroke.Width = 0.7
		}
		for _, run := range runs(k.points) {
			points := make([]page.Point, len(run))
			for i, p := range run {
				points[i] = c.at(p[0], p[1])
			}
			d.add(smooth(points, stroke))
		}
	}
	s.ends(d, c)
	for _, m := range c.marks {
		if math.IsNaN(m.x) || math.IsNaN(m.y) || m.x < c.x.low || m.x > c.x.high || m.y < c.y.low || m.y > c.y.high {
			continue
		}
		p := c.at(m.x, m.y)
		d.add(page.Circle{X: p.X, Y: p.Y, R: 1.3, Fill: page.White, Stroke: page.Stroke{Width: 0.6}})
		w := s.Fonts.Width(page.Bold, 9, m.name)
		x := min(p.X+2.5, c.w-chartRight-w)
		y := max(p.Y-2.5, chartTop+3.5) // above a falling curve, and below a rising one: there is room
		if c.rising() {
			y = min(p.Y+5.5, c.h-chartBelow-1)
		}
		d.add(page.Rect{Box: page.Box{X: x - 0.4, Y: y - 3, W: w + 0.8, H: 3.8}, Fill: page.White}, page.Text{X: x, Y: y, Face: page.Bold, Size: 9, Text: m.name})
	}
	return d.figure(caption)
}

// rising reports whether the first curve ends higher than it begins.
func (c chart) rising() bool {
	if len(c.curves) == 0 {
		return false
	}
	runs := runs(c.curves[0].points)
	return len(runs) > 0 && runs[len(runs)-1][len(runs[len(runs)-1])-1][1] > runs[0][0][1]
}

// grid draws the axes with their numbers.
func (s *sheet) grid(d *drawing, c chart) {
	const small = page.Pt(8.5)
	number := func(v, step float64) string {
		decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
		if math.Abs(step*math.Pow(10, float64(decimals))-math.Round(step*math.Pow(10, float64(decimals)))) > 1e-9 {
			decimals++ // steps of 2.5
		}
		return s.Words.Number(unit.Figures(round(v, decimals), 12))
	}
	for i := 0; ; i++ {
		v := c.x.low + float64(i)*c.x.step
		if v > c.x.high+c.x.step/2 {
			break
		}
		p, q := c.at(v, c.y.low), c.at(v, c.y.high)
		d.line(p.X, p.Y, q.X, q.Y, gridStroke)
		d.add(page.Text{X: p.X, Y: p.Y + 4.6, Size: small, Align: page.Middle, Text: number(v, c.x.step)})
	}
	for i := 0; ; i++ {
		v := c.y.low + float64(i)*c.y.step
		if v > c.y.high+c.y.step/2 {
			break
		}
		p, q := c.at(c.x.low, v), c.at(c.x.high, v)
		d.line(p.X, p.Y, q.X, q.Y, gridStroke)
		d.add(page.Text{X: p.X - 1.5, Y: p.Y + 1.1, Size: small, Align: page.Right, Text: number(v, c.y.step)})
	}
	origin, corner := c.at(c.x.low, c.y.low), c.at(c.x.high, c.y.high)
	d.line(origin.X, origin.Y, corner.X, origin.Y, page.Stroke{Width: plain})
	d.line(origin.X, origin.Y, origin.X, corner.Y, page.Stroke{Width: plain})
	title := label{size: 9, align: page.Middle, shrinks: true}
	d.put(c.x.title, title, (origin.X+corner.X)/2, origin.Y+6.5, corner.X-origin.X)
	size := page.Pt(9)
	for size > leastSize && s.Fonts.Width(page.Sans, size, c.y.title) > origin.Y-corner.Y {
		size -= 0.25
	}
	d.add(page.Text{X: size.MM(), Y: (origin.Y + corner.Y) / 2, Size: size, Align: page.Middle, Turn: 90, Text: c.y.title})
}

func round(v float64, decimals int) float64 {
	k := math.Pow(10, float64(decimals))
	return math.Round(v*k) / k
}

// ends writes the names of the curves at their right ends, moved apart where they would touch.
func (s *sheet) ends(d *drawing, c chart) {
	type end struct {
		name string
		from page.Point
		y, h page.MM
	}
	name := label{size: 9}
	left := c.w - chartRight + 6
	room := c.w - left
	var all []end
	for _, k := range c.curves {
		runs := runs(k.points)
		if len(runs) == 0 {
			continue
		}
		run := runs[len(runs)-1]
		last := run[len(run)-1]
		all = append(all, end{k.name, c.at(last[0], last[1]), 0, d.height(k.name, name, room)})
	}
	slices.SortStableFunc(all, func(a, b end) int { return cmp.Compare(a.from.Y, b.from.Y) })
	y := page.MM(0)
	for i := range all {
		all[i].y = max(y, all[i].from.Y-all[i].h/2)
		y = all[i].y + all[i].h + 1
	}
	bottom := c.h - chartBelow + 2
	for i := len(all) - 1; i >= 0 && all[i].y+all[i].h > bottom; i-- {
		all[i].y = bottom - all[i].h
		bottom = all[i].y - 1
	}
	for _, e := range all {
		d.line(e.from.X, e.from.Y, left-1, e.y+e.h/2, dimStroke)
		d.put(e.name, name, left, e.y, room)
	}
}

// runs parts points wherever one is not a number.
func runs(points [][2]float64) [][][2]float64 {
	var all [][][2]float64
	var now [][2]float64
	for _, p := range points {
		if math.IsNaN(p[0]) || math.IsNaN(p[1]) {
			if len(now) > 1 {
				all = append(all, now)
			}
			now = nil
			continue
		}
		now = append(now, p)
	}
	if len(now) > 1 {
		all = append(all, now)
	}
	return all
}
