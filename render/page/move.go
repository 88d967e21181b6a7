package page

func (t Text) moved(dx, dy MM) Item { t.X, t.Y = t.X+dx, t.Y+dy; return t }
func (l Line) moved(dx, dy MM) Item {
	l.X1, l.Y1, l.X2, l.Y2 = l.X1+dx, l.Y1+dy, l.X2+dx, l.Y2+dy
	return l
}
func (r Rect) moved(dx, dy MM) Item       { r.Box = r.Box.moved(dx, dy); return r }
func (c Circle) moved(dx, dy MM) Item     { c.X, c.Y = c.X+dx, c.Y+dy; return c }
func (a Anchor) moved(dx, dy MM) Item     { a.X, a.Y = a.X+dx, a.Y+dy; return a }
func (o Outline) moved(_, dy MM) Item     { o.Y += dy; return o }
func (l Link) moved(dx, dy MM) Item       { l.Box = l.Box.moved(dx, dy); return l }
func (n PageNumber) moved(dx, dy MM) Item { n.Text = n.Text.moved(dx, dy).(Text); return n }
func (m Modules) moved(dx, dy MM) Item    { m.X, m.Y = m.X+dx, m.Y+dy; return m }
func (t TickBox) moved(dx, dy MM) Item    { t.X, t.Y = t.X+dx, t.Y+dy; return t }
func (f Field) moved(dx, dy MM) Item      { f.Box = f.Box.moved(dx, dy); return f }

func (p Polygon) moved(dx, dy MM) Item {
	points := make([]Point, len(p.Points))
	for i, at := range p.Points {
		points[i] = at.moved(dx, dy)
	}
	p.Points = points
	return p
}

func (p Path) moved(dx, dy MM) Item {
	p.From = p.From.moved(dx, dy)
	steps := make([]Step, len(p.Steps))
	for i, s := range p.Steps {
		steps[i] = Step{s.To.moved(dx, dy), s.Curve, s.A.moved(dx, dy), s.B.moved(dx, dy)}
	}
	p.Steps = steps
	return p
}

func (p Point) moved(dx, dy MM) Point { return Point{p.X + dx, p.Y + dy} }
func (b Box) moved(dx, dy MM) Box     { b.X, b.Y = b.X+dx, b.Y+dy; return b }

// move shifts a list of things, into a new list.
func move(items []Item, dx, dy MM) []Item {
	out := make([]Item, len(items))
	for i, it := range items {
		out[i] = it.moved(dx, dy)
	}
	return out
}

// Moved is a drawing shifted right and down.
func Moved(items []Item, dx, dy MM) []Item { return move(items, dx, dy) }
