package page

// Scaled is a drawing made larger or smaller as a whole, its type and strokes too.
func Scaled(items []Item, by float64) []Item {
	if by == 1 {
		return items
	}
	k := MM(by)
	out := make([]Item, len(items))
	for i, it := range items {
		out[i] = scaled(it, k)
	}
	return out
}

func scaled(it Item, k MM) Item {
	switch it := it.(type) {
	case Text:
		it.X, it.Y, it.Size = it.X*k, it.Y*k, it.Size*Pt(k)
		return it
	case Line:
		return Line{it.X1 * k, it.Y1 * k, it.X2 * k, it.Y2 * k, it.Stroke.scaled(k)}
	case Rect:
		it.Box, it.Round, it.Stroke = it.Box.scaled(k), it.Round*k, it.Stroke.scaled(k)
		return it
	case Polygon:
		points := make([]Point, len(it.Points))
		for i, p := range it.Points {
			points[i] = p.scaled(k)
		}
		it.Points, it.Stroke = points, it.Stroke.scaled(k)
		return it
	case Path:
		steps := make([]Step, len(it.Steps))
		for i, s := range it.Steps {
			steps[i] = Step{s.To.scaled(k), s.Curve, s.A.scaled(k), s.B.scaled(k)}
		}
		it.From, it.Steps, it.Stroke = it.From.scaled(k), steps, it.Stroke.scaled(k)
		return it
	case Circle:
		it.X, it.Y, it.R, it.Stroke = it.X*k, it.Y*k, it.R*k, it.Stroke.scaled(k)
		return it
	case Anchor:
		it.X, it.Y = it.X*k, it.Y*k
		return it
	case Outline:
		it.Y *= k
		return it
	case Link:
		it.Box = it.Box.scaled(k)
		return it
	case PageNumber:
		it.Text = scaled(it.Text, k).(Text)
		return it
	case Modules:
		it.X, it.Y, it.Size = it.X*k, it.Y*k, it.Size*k
		return it
	case TickBox:
		it.X, it.Y, it.Size = it.X*k, it.Y*k, it.Size*k
		return it
	case Field:
		it.Box, it.Size = it.Box.scaled(k), it.Size*Pt(k)
		return it
	}
	return it
}

func (s Stroke) scaled(k MM) Stroke {
	dash := make([]MM, len(s.Dash))
	for i, d := range s.Dash {
		dash[i] = d * k
	}
	s.Width, s.Dash = s.Width*k, dash
	return s
}

func (p Point) scaled(k MM) Point { return Point{p.X * k, p.Y * k} }
func (b Box) scaled(k MM) Box     { return Box{b.X * k, b.Y * k, b.W * k, b.H * k} }
