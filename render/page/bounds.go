package page

// Bounds is the area that a thing takes on the page; false for things without one (anchors, outline entries).
func Bounds(it Item, f *Fonts) (Box, bool) { return it.bounds(f) }

// Extent is the area that a drawing takes.
func Extent(items []Item, f *Fonts) Box {
	var all Box
	first := true
	for _, it := range items {
		b, ok := it.bounds(f)
		switch {
		case !ok:
		case first:
			all, first = b, false
		default:
			all = all.Joined(b)
		}
	}
	return all
}

func (t Text) bounds(f *Fonts) (Box, bool)       { return t.Box(f), true }
func (r Rect) bounds(*Fonts) (Box, bool)         { return r.Box.grown(r.Stroke.Width / 2), true }
func (l Link) bounds(*Fonts) (Box, bool)         { return l.Box, true }
func (m Modules) bounds(*Fonts) (Box, bool)      { return Box{m.X, m.Y, m.Size, m.Size}, true }
func (t TickBox) bounds(*Fonts) (Box, bool)      { return Box{t.X, t.Y, t.Size, t.Size}, true }
func (f Field) bounds(*Fonts) (Box, bool)        { return f.Box, true }
func (n PageNumber) bounds(f *Fonts) (Box, bool) { return n.Text.Box(f), true }
func (a Anchor) bounds(*Fonts) (Box, bool)       { return Box{}, false }
func (o Outline) bounds(*Fonts) (Box, bool)      { return Box{}, false }

func (l Line) bounds(*Fonts) (Box, bool) {
	return around([]Point{{l.X1, l.Y1}, {l.X2, l.Y2}}).grown(l.Stroke.Width / 2), true
}

func (c Circle) bounds(*Fonts) (Box, bool) {
	return Box{c.X - c.R, c.Y - c.R, 2 * c.R, 2 * c.R}.grown(c.Stroke.Width / 2), true
}

func (p Polygon) bounds(*Fonts) (Box, bool) {
	return around(p.Points).grown(p.Stroke.Width / 2), len(p.Points) > 0
}

// bounds takes the control points in: a Bézier curve never leaves their hull.
func (p Path) bounds(*Fonts) (Box, bool) {
	points := []Point{p.From}
	for _, s := range p.Steps {
		points = append(points, s.To)
		if s.Curve {
			points = append(points, s.A, s.B)
		}
	}
	return around(points).grown(p.Stroke.Width / 2), true
}

func around(points []Point) Box {
	if len(points) == 0 {
		return Box{}
	}
	b := Box{X: points[0].X, Y: points[0].Y}
	for _, p := range points[1:] {
		b = b.Joined(Box{X: p.X, Y: p.Y})
	}
	return b
}

func (b Box) grown(by MM) Box { return Box{b.X - by, b.Y - by, b.W + 2*by, b.H + 2*by} }
