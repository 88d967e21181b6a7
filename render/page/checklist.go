package page

import "fmt"

// CheckRow is an item of a checklist: on the left a box to tick and the challenge, on the right the response that must be given
// or the value that must be read, joined by a leader. Below it, a line to write the reading on, notes, and who does it.
type CheckRow struct {
	Number    string
	Challenge Words
	Response  Words
	Name      string // of the check box; that of the reading line is this with ".reading"
	Label     string // what the box is for; the challenge if empty
	Reading   *Reading
	Notes     []Words
	Role      string
	Critical  bool // in bold, and nothing else is: whoever is in a hurry sees what forbids to go on
}

// Reading is a line to write a reading on, between its name and its unit.
type Reading struct {
	Label, Unit string
}

// Checklist is a list of items to be read aloud and answered. Its type is larger than that of other blocks.
type Checklist []CheckRow

func (c Checklist) strips(s *setting, width MM) []strip {
	var number MM
	for _, row := range c {
		number = max(number, s.fonts.Width(Bold, s.scale.Check.Size, row.Number))
	}
	if number > width*0.2 {
		s.fail(fmt.Errorf("the longest number of a checklist takes %.0f of %.0f mm; number items shortly", number, width))
		return nil
	}
	var unit MM
	for _, row := range c {
		if row.Reading != nil {
			unit = max(unit, s.fonts.Width(Sans, s.scale.Check.Size, row.Reading.Unit)+0.01)
		}
	}
	unit = min(unit, width*0.15)
	var all []strip
	for _, row := range c {
		under := strip{before: small, items: []Item{Line{0, 0, width, 0, Stroke{Width: hairline, Ink: ruleGrey}}}}
		strips := bonded(append(row.strips(s, number, unit, width), under), loose)
		all = append(all, spaced(strips, small, 0)...)
	}
	return spaced(all, medium, medium)
}

// style is that of the number, the challenge and the response.
func (r CheckRow) style(s *setting) Style {
	style := s.scale.Check
	if r.Critical {
		style.Face = Bold
	}
	return style
}

func (r CheckRow) strips(s *setting, number, unit, width MM) []strip {
	box := number + 2*small
	text := box + tickSize + 2*small
	if width-text < leastCheck {
		s.fail(fmt.Errorf("a checklist has %.0f mm for its text; at least %.0f mm are needed", width-text, leastCheck))
		return []strip{{}}
	}
	all, notes := r.challenge(s, number, box, text, width)
	if r.Reading != nil {
		all = append(all, r.reading(s, text, unit, width)...)
	}
	for _, n := range notes {
		all = append(all, spaced(s.text(n, s.scale.Note, 0, text, width), small*0.5, 0)...)
	}
	if r.Role != "" {
		role := s.text(Plain(r.Role), s.scale.Note, 0, text, width)
		all = append(all, spaced(role, small*0.5, 0)...)
	}
	return all
}

// challenge sets the first part: number, box, challenge … response. It returns the notes that are still to be set: where a response takes
// more lines than its challenge, the first note stands below the challenge.
func (r CheckRow) challenge(s *setting, number, box, text, width MM) ([]strip, []Words) {
	style := r.style(s)
	const gap = MM(9) // a clear one, between challenge and response
	room := width - text
	left, right := r.split(s, style, room, gap)
	challenge := s.balanced(r.Challenge, style, left)
	response := s.balanced(r.Response, style, right)

	// A one-line response stands on the last line of the challenge, at the end of the leader; a longer one begins at its top.
	lift := 0
	if len(response) == 1 && len(challenge) > 1 {
		lift = len(challenge) - 1
	}
	lines := max(len(challenge), len(response)+lift, 1)
	var all []strip
	chunk := max(int(s.height*0.6/style.Leading), 1)
	for from := 0; from < lines; from += chunk {
		to := min(from+chunk, lines)
		st := strip{height: MM(to-from) * style.Leading}
		for i := from; i < to; i++ {
			y := MM(i-from) * style.Leading
			if i < len(challenge) {
				st.items = append(st.items, s.set(challenge[i], style, 0, text, y, left, Left)...)
			}
			if k := i - lift; k >= 0 && k < len(response) {
				st.items = append(st.items, s.set(response[k], style, 0, text+left+gap, y, right, Right)...)
				if k == 0 && i == len(challenge)-1 {
					st.items = append(st.items, leader(text+challenge[i].width, width-response[k].width, y+style.baseline())...)
				}
			}
		}
		all = append(all, st)
	}
	first, notes := &all[0], r.Notes
	if len(all) == 1 && r.Reading == nil && len(notes) > 0 {
		// Beside the lines of the response that have no challenge to their left there is more room than beside its first.
		free := room
		for _, l := range response[min(len(challenge), len(response)):] {
			free = min(free, room-l.width-gap)
		}
		below := s.wrap(notes[0], s.scale.Note, free)
		y := MM(len(challenge))*style.Leading + small*0.5
		if y+MM(len(below))*s.scale.Note.Leading <= first.height {
			first.items = append(first.items, s.setAll(below, s.scale.Note, 0, text, y, free, Left)...)
			notes = notes[1:]
		}
	}
	first.items = append(s.numbered(r, number, box), first.items...) // first, as it is read
	return all, notes
}

// split shares the room between challenge and response: the response takes what it needs, up to 45 % of the room or to what a short
// challenge leaves. Where another share saves a line it is taken.
func (r CheckRow) split(s *setting, style Style, room, gap MM) (left, right MM) {
	if r.Response.Empty() {
		return room, 0
	}
	natural, word := s.widest(r.Response, style)
	short, _ := s.widest(r.Challenge, style)
	usual := min(natural+0.01, max(room*0.45, room-gap-short-0.01))
	lines := func(right MM) int {
		return max(len(s.wrap(r.Challenge, style, room-right-gap)), len(s.wrap(r.Response, style, right)))
	}
	best, least := usual, lines(usual)
	for _, share := range [...]MM{0.5, 0.55, 0.4, 0.35, 0.6} {
		try := min(natural+0.01, room*share)
		if try < word || try > room-gap-leastColumn {
			continue
		}
		if n := lines(try); n < least {
			best, least = try, n
		}
	}
	return room - best - gap, best
}

// numbered draws the number and the box beside the first line.
func (s *setting) numbered(r CheckRow, number, box MM) []Item {
	style := r.style(s)
	var items []Item
	for _, l := range s.wrap(Plain(r.Number), style, number+1) {
		items = s.set(l, style, 0, 0, 0, number, Right)
	}
	if r.Name != "" {
		label := r.Label
		if label == "" {
			label = r.Challenge.String()
		}
		items = append(items, TickBox{box, (style.Leading - tickSize) / 2, tickSize, r.Name, label})
	}
	return items
}

// leader is a row of dots from one text to another, if there is room for at least three.
func leader(from, to, base MM) []Item {
	const step, clear = MM(1.6), MM(2)
	from, to = from+clear, to-clear
	if to-from < 3*step {
		return nil
	}
	return []Item{Line{from, base - 0.3, to, base - 0.3, Stroke{Width: 0.4, Ink: dotGrey, Dash: []MM{0, step}, Round: true}}}
}

// reading sets the line to write on, at the right, below the response. The lines of all rows end at one place, before their units.
func (r CheckRow) reading(s *setting, text, unit, width MM) []strip {
	style := s.scale.Check
	end := width
	if unit > 0 {
		end -= unit + small
	}
	writing := min(readingWidth, (width-text)*0.45)
	from := end - writing
	units := s.wrap(Plain(r.Reading.Unit), style, unit)
	label := s.wrap(Plain(r.Reading.Label), s.scale.Note, from-text-small)
	high := max(style.Leading, MM(len(label))*s.scale.Note.Leading, MM(len(units))*style.Leading)
	if high > s.height*0.6 {
		// Nobody measures in a unit a page long, but nothing may be lost.
		return append(s.text(Plain(r.Reading.Label), s.scale.Note, 0, text, width), s.text(Plain(r.Reading.Unit), style, 0, text, width)...)
	}
	// More room than a line of print takes: it is written by hand.
	height := high + small
	base := height - style.Leading + style.baseline()
	var items []Item
	for i, l := range label {
		top := base - s.scale.Note.baseline() - MM(len(label)-1-i)*s.scale.Note.Leading
		items = append(items, s.set(l, s.scale.Note, 0, text, top, from-text-small, Right)...)
	}
	items = append(items, s.setAll(units, style, 0, end+small, height-MM(len(units))*style.Leading, unit, Left)...)
	line := Field{Box: Box{from, base + belowWriting - style.Leading, writing, style.Leading}, Name: r.Name + ".reading", Label: r.Reading.Label, Size: style.Size * 0.85}
	if r.Name != "" {
		items = append(items, line)
	} else {
		items = append(items, Line{from, line.Bottom(), end, line.Bottom(), Stroke{Width: rule}})
	}
	return []strip{{before: small * 0.5, height: height, items: items}}
}
