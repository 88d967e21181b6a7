package page

// Paper is a sheet by name and size.
type Paper struct {
	Name          string
	Width, Height MM
}

// The two sheets that printers in the field hold: ISO 216 and ANSI/ASME Y14.1 size A.
var (
	A4     = Paper{"A4", 210, 297}
	Letter = Paper{"Letter", 215.9, 279.4}
)

// Landscape is the same sheet turned, if it is not lying already.
func (p Paper) Landscape() Paper {
	if p.Width >= p.Height {
		return p
	}
	return Paper{p.Name + " landscape", p.Height, p.Width}
}

// Box is the whole sheet.
func (p Paper) Box() Box { return Box{0, 0, p.Width, p.Height} }

// Margins are the four white borders around the text block.
type Margins struct{ Top, Right, Bottom, Left MM }

// Inside is what the margins leave of a sheet.
func (m Margins) Inside(p Paper) Box {
	return Box{m.Left, m.Top, p.Width - m.Left - m.Right, p.Height - m.Top - m.Bottom}
}
