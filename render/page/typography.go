package page

// Every size, leading and distance of the layout stands in this file.
//
// Where the sizes come from. Print that is read standing, at arm's length and with cold hands follows the published
// guidance for flight-deck paper: A. Degani, "On the Typography of Flight-Deck Documentation", NASA CR-177605 (1992): sans serif,
// lower case for anything long, no long italics, one or two means of emphasis (items 1 to 5 and 11 to 16), an x-height of at
// least 0.10 in for important text (items 6 and 7; the figure from memory), a gap between lines of 25 to 33 % of the size
// (items 8 to 10, from memory). A. Degani and E. L. Wiener, "Human Factors of Flight-Deck Checklists", NASA CR-177549 (1990):
// challenge and response, short chunks (from memory). UK CAA, CAP 676, Issue 3 (2006): 12 point, at least 10, sans serif
// (from memory). A test measures the x-height and the gaps of the built-in faces against these figures.

// Style is how a piece of text is set: Leading is the distance between baselines.
type Style struct {
	Face    Face
	Size    Pt
	Leading MM
}

// Scale is a set of styles that go together.
type Scale struct {
	Headings [3]Style // by level
	Body     Style
	Small    Style // captions, notes, what only the curious read
	Table    Style
	Column   Style // heads of table columns
	Signal   Style // the signal word of a panel
	Check    Style // challenge and response of a checklist
	Note     Style // below a checklist row
	Running  Style // header and footer
}

// checkStyle has an x-height of 2.6 mm in DejaVu Sans (0.10 in is 2.54 mm) and a third of its size between the lines.
var checkStyle = Style{Sans, 13.5, 6.3}

// Desk is for documents read at a table.
var Desk = Scale{
	Headings: [3]Style{{Bold, 19, 8.7}, {Bold, 13, 6.1}, {Bold, 10.5, 5}},
	Body:     Style{Sans, 9.5, 4.5},
	Small:    Style{Sans, 8, 3.8},
	Table:    Style{Sans, 8.5, 4},
	Column:   Style{Bold, 8, 3.8},
	Signal:   Style{Bold, 13, 6.1},
	Check:    checkStyle,
	Note:     Style{Sans, 10, 4.7},
	Running:  Style{Sans, 7.5, 3.6},
}

// Reference is for what is looked up at a table and never read through: Desk with smaller tables.
var Reference = func() Scale {
	s := Desk
	s.Table, s.Column = Style{Sans, 7.5, 3.6}, Style{Bold, 7.5, 3.6}
	return s
}()

// Afield is for documents read standing in a field.
var Afield = Scale{
	Headings: [3]Style{{Bold, 21, 9.6}, {Bold, 15, 7}, {Bold, 12.5, 5.9}},
	Body:     Style{Sans, 12, 5.7},
	Small:    Style{Sans, 10, 4.7},
	Table:    Style{Sans, 10.5, 5},
	Column:   Style{Bold, 10, 4.7},
	Signal:   Style{Bold, 16, 7.5},
	Check:    checkStyle,
	Note:     Style{Sans, 10.5, 5},
	Running:  Style{Sans, 8, 3.8},
}

// SheetMargins leave room for two punched holes on the left and for the running lines above and below.
var SheetMargins = Margins{Top: 25, Right: 16, Bottom: 22, Left: 22}

// The thicknesses of rules. A hairline of 0.15 mm is what an office printer still holds.
const (
	hairline = MM(0.15)
	rule     = MM(0.35)
	heavy    = MM(0.8)
)

// The greys. Text is always black; greys carry no meaning of their own.
var (
	ruleGrey = Grey(0.55)
	bandGrey = Grey(0.9)
	dotGrey  = Grey(0.25)
)

// Distances: all are multiples of the small one.
const (
	small  = MM(1.5)
	medium = 2 * small
	large  = 4 * small
)

// A last page that would hold less than worthSaving of its height is brought in, where narrower white between the blocks does it: step
// by step down to the last of whites. One that still holds less than leastLast is filled up: the pages before it end higher by steps of
// evenStep, down to highestFoot of their height. Type and the distances between its lines stay as they are.
const (
	worthSaving = 0.45
	leastLast   = 0.3
	evenStep    = MM(4)
	highestFoot = 0.55
)

var whites = [...]MM{0.85, 0.7, 0.55}

const (
	listIndent   = MM(6)   // from the text edge to the text of a list item
	numberIndent = MM(8.5) // the same for numbered items
	cellPadX     = MM(1.6) // left and right in a table cell
	cellPadY     = MM(0.8) // above and below in a table cell
	smallTable   = 0.3     // of a page: a lower table is kept on one page
	leastCheck   = MM(30)  // less room for the text of a checklist is refused
	leastColumn  = MM(7.5) // narrower table columns than this are refused
	tickSize     = MM(5.2) // of a check box in a checklist
	cellTick     = MM(3.2) // of a check box in a table
	columnGap    = MM(7)   // between columns of text
	panelPad     = MM(3.2) // inside a signal-word panel
	readingWidth = MM(34)  // of a reading line
	signHeight   = MM(9)   // of a sign-off line
	writeHeight  = MM(8)   // of a table row that is written in by hand
	belowWriting = MM(1)   // from the baseline to the line that is written on
	runningGap   = MM(6)   // from the running lines to the text block
)
