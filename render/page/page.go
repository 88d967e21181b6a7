// Package page is the drawing board: what stands where on which sheet, before any file format.
//
// A [Document] is a list of pages, a [Page] a list of [Item] values: text, lines, shapes, form fields, links. Lengths are
// millimetres from the top-left corner ([MM]), sizes of type are points ([Pt]), and text is placed by its baseline.
// [Flow] stacks blocks (headings, tables, checklists, panels …) on as many pages as they take. [Dump] writes a document
// as plain text, one line per thing, which is what people review.
//
// The package knows no balloon and no language: every word that is printed is handed in. It reads no clock and holds no
// state that two documents could share, so documents may be composed side by side.
//
// Text is set in reading order from left to right, without kerning, ligatures or shaping: scripts that need shaping
// (Arabic, Indic) or a right-to-left order come out wrong, and are outside this package.
package page

// MM is a length on paper in millimetres, measured right and down from the top-left corner.
type MM float64

// Pt is a size of type in points of 1/72 inch.
type Pt float64

// MM converts a size of type to millimetres (1 in = 25.4 mm exactly).
func (p Pt) MM() MM { return MM(p) * 25.4 / 72 }

// Pt converts a length on paper to points.
func (m MM) Pt() Pt { return Pt(m) * 72 / 25.4 }

// Point is a place on a page or in a drawing.
type Point struct{ X, Y MM }

// Box is a rectangle by its top-left corner and size.
type Box struct{ X, Y, W, H MM }

// Right is the x of the right edge.
func (b Box) Right() MM { return b.X + b.W }

// Bottom is the y of the lower edge.
func (b Box) Bottom() MM { return b.Y + b.H }

// Holds says whether o lies within b, up to a thousandth of a millimetre of rounding.
func (b Box) Holds(o Box) bool {
	const hair = 0.001
	return o.X >= b.X-hair && o.Y >= b.Y-hair && o.Right() <= b.Right()+hair && o.Bottom() <= b.Bottom()+hair
}

// Joined is the smallest box around both.
func (b Box) Joined(o Box) Box {
	x, y := min(b.X, o.X), min(b.Y, o.Y)
	return Box{x, y, max(b.Right(), o.Right()) - x, max(b.Bottom(), o.Bottom()) - y}
}
