package page

// TickBox is a square to tick: drawn, and a check box of the form with the field name Name.
// Label says what it is for to somebody who cannot see the page.
type TickBox struct {
	X, Y, Size  MM
	Name, Label string
}

// Field is a line to write on: ruled below, and a text field of the form with the field name Name.
type Field struct {
	Box
	Name, Label string
	Size        Pt   // of what is typed into it
	Lines       bool // takes several lines
	Bare        bool // without the rule: the surroundings (a table cell, a sign-off line) show where to write
}
