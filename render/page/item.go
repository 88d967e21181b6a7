package page

import "math"

// Item is one thing on a page. The kinds are the structs of this file and of form.go; a writer switches over them.
type Item interface {
	// moved is the same thing further right and down.
	moved(dx, dy MM) Item
	// bounds is the area that the thing takes; false for things without an area.
	bounds(f *Fonts) (Box, bool)
}

// Align says where a text's X is: at its left end, its right end or its middle.
type Align uint8

// The alignments.
const (
	Left Align = iota
	Right
	Middle
)

// Text is one line of text. X and Y place the baseline; Turn rotates around that place, in degrees counter-clockwise.
type Text struct {
	X, Y  MM
	Face  Face
	Size  Pt
	Ink   Ink
	Align Align
	Turn  float64
	Text  string
}

// Stroke is how a line is drawn. Without a width nothing is drawn; without an ink it is black.
type Stroke struct {
	Width MM
	Ink   Ink
	Dash  []MM // lengths on and off in turn
	Round bool // round ends and corners
}

// Line is a straight line.
type Line struct {
	X1, Y1, X2, Y2 MM
	Stroke         Stroke
}

// Rect is a rectangle, filled if Fill is given, with corners of radius Round.
type Rect struct {
	Box
	Round  MM
	Fill   Ink
	Stroke Stroke
}

// Polygon joins points with straight lines; Open leaves the last and the first unjoined.
type Polygon struct {
	Points []Point
	Open   bool
	Fill   Ink
	Stroke Stroke
}

// Step is one stretch of a [Path]: to To, straight, or as a cubic Bézier curve bent towards A and B.
type Step struct {
	To    Point
	Curve bool
	A, B  Point
}

// Path is a line of straight and curved stretches.
type Path struct {
	From   Point
	Steps  []Step
	Closed bool
	Fill   Ink
	Stroke Stroke
}

// Circle by its middle and radius.
type Circle struct {
	X, Y, R MM
	Fill    Ink
	Stroke  Stroke
}

// Anchor names a place, for links and page references.
type Anchor struct {
	Name string
	X, Y MM
}

// Outline is an entry of the document's outline (bookmarks). Level 0 is the top.
type Outline struct {
	Title string
	Level int
	Y     MM
}

// Link is an area that leads to the anchor To, or, if To has a scheme ("https:…", "mailto:…"), out of the document.
type Link struct {
	Box
	To string
}

// PageNumber stands for the number of the page where an anchor is; [Flow.Finish] replaces it by the Text.
type PageNumber struct {
	Anchor string
	Text   Text
}

// Modules is a matrix code, such as a QR code: true is a dark module. The quiet zone around it is the caller's.
type Modules struct {
	X, Y, Size MM // Size is the edge of the whole square
	Dark       [][]bool
}

// Runs merges the dark modules into as few rectangles as runs along the rows allow, so that no hairline shows between them.
func (m Modules) Runs() []Box {
	if len(m.Dark) == 0 {
		return nil
	}
	edge := m.Size / MM(len(m.Dark))
	var runs []Box
	for row, modules := range m.Dark {
		for from := 0; from < len(modules); from++ {
			to := from
			for to < len(modules) && modules[to] {
				to++
			}
			if to > from {
				runs = append(runs, Box{m.X + MM(from)*edge, m.Y + MM(row)*edge, MM(to-from) * edge, edge})
				from = to
			}
		}
	}
	return runs
}

// Box is the area of a text that stands upright, from the face's ascent to its descent. Turned text gives the box around it.
func (t Text) Box(f *Fonts) Box {
	w := f.Width(t.Face, t.Size, t.Text)
	left := MM(0)
	switch t.Align {
	case Right:
		left = -w
	case Middle:
		left = -w / 2
	}
	up, down := t.Face.Ascent(t.Size), t.Face.Descent(t.Size)
	if t.Turn == 0 {
		return Box{t.X + left, t.Y - up, w, up + down}
	}
	sin, cos := math.Sincos(t.Turn * math.Pi / 180)
	box := Box{X: t.X, Y: t.Y}
	for i, corner := range [4]Point{{left, -up}, {left + w, -up}, {left, down}, {left + w, down}} {
		at := Box{X: t.X + corner.X*MM(cos) + corner.Y*MM(sin), Y: t.Y - corner.X*MM(sin) + corner.Y*MM(cos)}
		if i == 0 {
			box = at
		}
		box = box.Joined(at)
	}
	return box
}
