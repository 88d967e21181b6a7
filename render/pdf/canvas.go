package pdf

import (
	"math"
	"slices"
	"strconv"

	"github.com/go-pdf/fpdf"

	"hoistbook/render/page"
)

// canvas draws items on fpdf's current page. It remembers what is set, so that a table of a thousand hairlines does not set
// the same pen a thousand times.
type canvas struct {
	f            *fpdf.Fpdf
	fonts        *typeCase
	height       page.MM
	fill, stroke page.Ink // none: as a page begins, black
	pen          *page.Stroke
	text         []byte
}

func (c *canvas) item(it page.Item) {
	switch it := it.(type) {
	case page.Text:
		c.letters(it)
	case page.Line:
		if c.use(it.Stroke) {
			c.f.Line(float64(it.X1), float64(it.Y1), float64(it.X2), float64(it.Y2))
		}
	case page.Rect:
		c.rect(it)
	case page.Polygon:
		if len(it.Points) > 1 {
			path := page.Path{From: it.Points[0], Closed: !it.Open, Fill: it.Fill, Stroke: it.Stroke}
			for _, p := range it.Points[1:] {
				path.Steps = append(path.Steps, page.Step{To: p})
			}
			c.path(path)
		}
	case page.Path:
		c.path(it)
	case page.Circle:
		if how := c.style(it.Fill, it.Stroke); how != "" {
			c.f.Circle(float64(it.X), float64(it.Y), float64(it.R), how)
		}
	case page.Modules:
		c.ink(page.Black)
		for _, b := range it.Runs() {
			c.f.Rect(float64(b.X), float64(b.Y), float64(b.W), float64(b.H), "F")
		}
	case page.TickBox:
		c.rect(page.Rect{Box: inset(page.Box{X: it.X, Y: it.Y, W: it.Size, H: it.Size}, boxStroke/2), Stroke: page.Stroke{Width: boxStroke}})
	case page.Field:
		if !it.Bare {
			c.item(page.Line{X1: it.X, Y1: it.Bottom(), X2: it.Right(), Y2: it.Bottom(), Stroke: page.Stroke{Width: fieldRule}})
		}
	}
}

// The strokes of what is to be filled in by hand.
const (
	boxStroke = page.MM(0.4)
	fieldRule = page.MM(0.35)
)

func (c *canvas) rect(r page.Rect) {
	how := c.style(r.Fill, r.Stroke)
	switch {
	case how == "":
	case r.Round > 0:
		round := min(r.Round, r.W/2, r.H/2)
		c.f.RoundedRect(float64(r.X), float64(r.Y), float64(r.W), float64(r.H), float64(round), "1234", how)
	default:
		c.f.Rect(float64(r.X), float64(r.Y), float64(r.W), float64(r.H), how)
	}
}

func (c *canvas) path(p page.Path) {
	how := c.style(p.Fill, p.Stroke)
	if how == "" {
		return
	}
	c.f.MoveTo(float64(p.From.X), float64(p.From.Y))
	for _, s := range p.Steps {
		if s.Curve {
			c.f.CurveBezierCubicTo(float64(s.A.X), float64(s.A.Y), float64(s.B.X), float64(s.B.Y), float64(s.To.X), float64(s.To.Y))
		} else {
			c.f.LineTo(float64(s.To.X), float64(s.To.Y))
		}
	}
	if p.Closed {
		c.f.ClosePath()
	}
	c.f.DrawPath(how)
}

// style sets pen and ink and gives fpdf's word for what to do: "F", "D", "FD" or nothing.
func (c *canvas) style(fill page.Ink, stroke page.Stroke) string {
	how := ""
	if !fill.None() {
		c.ink(fill)
		how = "F"
	}
	if c.use(stroke) {
		how += "D"
	}
	return how
}

// use takes up a pen; false if it would draw nothing.
func (c *canvas) use(s page.Stroke) bool {
	if s.Width <= 0 {
		return false
	}
	if s.Ink.None() {
		s.Ink = page.Black
	}
	if s.Ink != c.stroke && (s.Ink != page.Black || !c.stroke.None()) {
		c.f.RawWriteStr(string(append(colour(nil, s.Ink), " RG"...)))
		c.stroke = s.Ink
	}
	if c.pen != nil && c.pen.Width == s.Width && c.pen.Round == s.Round && slices.Equal(c.pen.Dash, s.Dash) {
		return true
	}
	c.f.SetLineWidth(float64(s.Width))
	dash := make([]float64, len(s.Dash))
	for i, d := range s.Dash {
		dash[i] = float64(d)
	}
	c.f.SetDashPattern(dash, 0)
	cap, join := "butt", "miter"
	if s.Round {
		cap, join = "round", "round"
	}
	c.f.SetLineCapStyle(cap)
	c.f.SetLineJoinStyle(join)
	c.pen = &s
	return true
}

// ink sets the colour of fills and of text.
func (c *canvas) ink(i page.Ink) {
	if i.None() {
		i = page.Black
	}
	if i == c.fill || i == page.Black && c.fill.None() {
		return
	}
	c.f.RawWriteStr(string(append(colour(nil, i), " rg"...)))
	c.fill = i
}

// letters writes a text as glyph numbers of the embedded fonts, one run for each font that it takes.
func (c *canvas) letters(t page.Text) {
	if t.Text == "" {
		return
	}
	c.ink(t.Ink)
	shift := page.MM(0)
	switch t.Align {
	case page.Right:
		shift = -c.fonts.fonts.Width(t.Face, t.Size, t.Text)
	case page.Middle:
		shift = -c.fonts.fonts.Width(t.Face, t.Size, t.Text) / 2
	}
	sin, cos := 0.0, 1.0
	if t.Turn != 0 {
		sin, cos = math.Sincos(t.Turn * math.Pi / 180)
	}
	x, y := float64((t.X + shift*page.MM(cos)).Pt()), float64((c.height - t.Y + shift*page.MM(sin)).Pt())
	b := append(c.text[:0], "BT "...)
	for _, n := range []float64{cos, sin, -sin, cos} {
		b = append(number(b, n, 5), ' ')
	}
	b = append(number(b, x, 3), ' ')
	b = append(number(b, y, 3), " Tm"...)
	b = c.fonts.show(b, t.Face, float64(t.Size), t.Text)
	b = append(b, " ET"...)
	c.f.RawWriteStr(string(b))
	c.text = b
}

// colour appends the three parts of a colour.
func colour(b []byte, i page.Ink) []byte {
	red, green, blue := i.Parts()
	b = append(number(b, float64(red)/255, 3), ' ')
	b = append(number(b, float64(green)/255, 3), ' ')
	return number(b, float64(blue)/255, 3)
}

// number appends a number with at most so many decimals. Rounding to an integer first takes a third of the time of strconv.AppendFloat, and most of a page is numbers.
func number(b []byte, v float64, decimals int) []byte {
	scale := [...]float64{1, 10, 100, 1000, 10_000, 100_000}[decimals]
	n := int64(math.Round(v * scale))
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	unit := int64(scale)
	b = strconv.AppendInt(b, n/unit, 10)
	if n %= unit; n == 0 {
		return b
	}
	b = append(b, '.')
	for n > 0 {
		unit /= 10
		b = append(b, byte('0'+n/unit))
		n %= unit
	}
	return b
}

func inset(b page.Box, by page.MM) page.Box {
	return page.Box{X: b.X + by, Y: b.Y + by, W: b.W - 2*by, H: b.H - 2*by}
}
