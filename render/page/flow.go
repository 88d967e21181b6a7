package page

import (
	"errors"
	"fmt"
)

// Setup says what a [Flow] sets on.
type Setup struct {
	Paper   Paper
	Margins Margins // the zero value is SheetMargins
	Scale   *Scale  // nil is Desk
	Fonts   *Fonts
	// Running draws what every page repeats, outside the text block. It is called at the end, when the number of pages is known.
	Running func(Place) []Item
}

// Place is a page as the running lines see it.
type Place struct {
	Number, Count int
	Section       string
	Sheet, Sheets int // the page's number within the section, and how many the section has
	Paper         Paper
	Text          Box // the text block
	Fonts         *Fonts
	Scale         *Scale
}

// Flow stacks blocks on pages. The first error sticks: later calls do nothing and [Flow.Finish] returns it.
type Flow struct {
	setup   Setup
	section string
	begun   int     // where the section's pages begin
	run     int     // where the pages begin that even may set again
	set     []strip // all that stands on them
	feet    MM      // what was left free at the foot of those before the last
	white   MM      // share of the white between strips that is kept
	limit   MM      // height that is filled before a page begins; a group that begins a page may be higher
	from    int     // the page on which the limit begins to hold
	pages   []Page
	places  []Place
	frame   Box
	y       MM // below what is set, from the top of the frame
	after   MM // white that what is set asks for below itself
	fresh   bool
	turned  bool // the paper was changed: the next strip begins a page
	pending []strip
	err     error
}

// NewFlow begins a document. Its first page is made when the first block is added.
func NewFlow(setup Setup) *Flow {
	if setup.Margins == (Margins{}) {
		setup.Margins = SheetMargins
	}
	if setup.Scale == nil {
		setup.Scale = &Desk
	}
	f := &Flow{setup: setup, white: 1}
	f.SetPaper(setup.Paper)
	return f
}

// fail keeps the first error.
func (f *Flow) fail(err error) {
	if f.err == nil {
		f.err = err
	}
}

// Err is the first error.
func (f *Flow) Err() error { return f.err }

// Frame is the text block of the pages to come.
func (f *Flow) Frame() Box { return f.frame }

// Room is the height that is left on the page below what has been set.
func (f *Flow) Room() MM {
	if len(f.pages) == 0 || f.turned {
		return f.frame.H
	}
	return max(0, f.frame.H-f.y-f.after)
}

// Fonts are what the flow is set in.
func (f *Flow) Fonts() *Fonts { return f.setup.Fonts }

// SetPaper changes the sheet: what is added from now on begins a page of it.
func (f *Flow) SetPaper(p Paper) {
	f.settle(true)
	f.even()
	f.setup.Paper, f.turned = p, true
	f.frame = f.setup.Margins.Inside(p)
	f.limit = f.frame.H
	if f.frame.W < 60 || f.frame.H < 60 {
		f.fail(fmt.Errorf("paper %q of %.0f × %.0f mm leaves no room between its margins; at least 60 × 60 mm are needed", p.Name, p.Width, p.Height))
	}
}

// Section begins a page and names it and those that follow, for the running lines.
func (f *Flow) Section(title string) {
	f.shut()
	f.section, f.turned = title, true
}

// shut ends a section: its pages now know how many they are.
func (f *Flow) shut() {
	f.settle(true)
	f.even()
	section := f.places[f.begun:]
	for i := range section {
		section[i].Sheet, section[i].Sheets = i+1, len(section)
	}
	f.begun = len(f.places)
}

// SetScale changes the sizes of what is added from now on.
func (f *Flow) SetScale(s *Scale) { f.setup.Scale = s }

// Add sets blocks below what is there.
func (f *Flow) Add(blocks ...Block) {
	for _, b := range blocks {
		if f.err != nil {
			return
		}
		f.pending = append(f.pending, b.strips(f.setting(), f.frame.W)...)
		f.settle(false)
	}
}

func (f *Flow) setting() *setting {
	return &setting{fonts: f.setup.Fonts, scale: f.setup.Scale, height: f.frame.H, fail: f.fail}
}

// settle places what is pending. What is bonded to something still to come waits for it, unless nothing more comes.
func (f *Flow) settle(all bool) {
	for len(f.pending) > 0 && f.err == nil {
		if f.pending[0].breaks {
			f.turned = true
			f.set, f.pending = append(f.set, f.pending[0]), f.pending[1:]
			continue
		}
		n := 1
		for n < len(f.pending) && f.pending[n-1].bond != free && !f.pending[n].breaks {
			n++
		}
		if n == len(f.pending) && f.pending[n-1].bond != free && !all {
			return
		}
		group := f.pending[:n:n]
		f.pending = f.pending[n:]
		f.set = append(f.set, group...)
		f.place(group)
	}
}

// place sets a bonded group on one page. One that is higher than a page is parted at its loose bonds, or else at all.
func (f *Flow) place(group []strip) {
	if f.turned || len(f.pages) == 0 {
		f.begin()
	}
	if f.room(group) {
		f.put(group)
		return
	}
	if headedHeight(group) > f.frame.H+roundingRoom {
		parts := parted(group, loose)
		if len(parts) == 1 {
			parts = parted(group, strong)
		}
		if len(parts) > 1 {
			for _, part := range parts {
				f.place(part)
			}
			return
		}
	}
	if !f.fresh {
		f.begin()
	}
	if !f.room(group) {
		f.fail(errHigh)
		return
	}
	f.put(group)
}

// parted cuts a group behind every bond that is not stronger than weak.
func parted(group []strip, weak bond) [][]strip {
	var parts [][]strip
	from := 0
	for i, st := range group {
		if st.bond <= weak || i == len(group)-1 {
			parts = append(parts, group[from:i+1:i+1])
			from = i + 1
		}
	}
	return parts
}

var errHigh = errors.New("layout: a block is higher than a page and cannot be parted")

// roundingRoom absorbs the rounding of added heights.
const roundingRoom = MM(1e-6)

// room says whether a group fits below what is set.
func (f *Flow) room(group []strip) bool {
	if f.fresh {
		return headedHeight(group) <= f.frame.H+roundingRoom
	}
	return f.y+max(f.after, group[0].before)+stacked(group) <= f.foot()+roundingRoom
}

// foot is how far down the page is filled.
func (f *Flow) foot() MM {
	if len(f.pages)-1 < f.from {
		return f.frame.H
	}
	return f.limit
}

// headed puts the repeated head above a group that is to begin a page.
func headed(group []strip) []strip {
	if len(group[0].head) == 0 {
		return group
	}
	return append(append([]strip(nil), group[0].head...), group...)
}

// headedHeight is the height of a group that begins a page.
func headedHeight(group []strip) MM {
	n := len(group[0].head)
	if n == 0 {
		return stacked(group)
	}
	return stacked(group[0].head) + max(group[0].head[n-1].after, group[0].before) + stacked(group)
}

// put sets a group for which there is room.
func (f *Flow) put(group []strip) {
	if f.fresh {
		group = headed(group)
	}
	for _, st := range group {
		if !f.fresh {
			f.y += max(f.after, st.before)
		}
		if st.elastic != nil {
			f.stretch(st)
		} else {
			f.draw(st)
		}
	}
}

func (f *Flow) draw(st strip) {
	at := &f.pages[len(f.pages)-1]
	at.Items = append(at.Items, move(st.items, f.frame.X, f.frame.Y+f.y)...)
	f.y += st.height
	f.after, f.fresh = st.after, false
}

// stretch sets an elastic strip over as many pages as it takes.
func (f *Flow) stretch(st strip) {
	for {
		set, rest := st.elastic(f.foot() - f.y)
		if len(set.items) == 0 && f.fresh {
			set, rest = st.elastic(f.frame.H)
		}
		if len(set.items) == 0 && f.fresh {
			f.fail(errHigh)
			return
		}
		set.after *= f.white
		f.draw(set)
		if rest == nil || f.err != nil {
			return
		}
		f.begin()
		st = *rest
	}
}

// begin makes a new page.
func (f *Flow) begin() {
	if len(f.pages) > f.run {
		f.feet += f.frame.H - f.y
	}
	f.pages = append(f.pages, Page{Paper: f.setup.Paper})
	f.places = append(f.places, Place{Section: f.section, Paper: f.setup.Paper, Text: f.frame, Fonts: f.setup.Fonts, Scale: f.setup.Scale})
	f.y, f.after, f.fresh, f.turned = 0, 0, true, false
}

// Part ends the flow: what it has set, to be bound.
func (f *Flow) Part() (*Part, error) {
	f.shut()
	if f.err == nil && len(f.pages) == 0 {
		f.fail(errors.New("layout: the document has no content"))
	}
	if f.err != nil {
		return nil, f.err
	}
	return &Part{f.pages, f.places}, nil
}

// Finish binds what the flow has set, and nothing else.
func (f *Flow) Finish(doc Document) (*Document, error) {
	part, err := f.Part()
	if err != nil {
		return nil, err
	}
	doc.Fonts = f.setup.Fonts
	return Bind(doc, f.setup.Running, part)
}
