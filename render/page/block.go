package page

import (
	"fmt"
	"strconv"
)

// Heading begins a part of the document. It is an entry of the outline and never stands alone at the foot of a page.
type Heading struct {
	Level  int // 0 to 2
	Text   string
	Aside  string // optional: at the right end of the same line, in the type of the text
	Anchor string // optional: a name to lead to
	Silent bool   // not in the outline
}

func (h Heading) strips(s *setting, width MM) []strip {
	if h.Level < 0 || h.Level >= len(s.scale.Headings) {
		s.fail(fmt.Errorf("heading %q has level %d; 0 to %d are possible", h.Text, h.Level, len(s.scale.Headings)-1))
		return nil
	}
	style := s.scale.Headings[h.Level]
	lines := s.wrap(Plain(h.Text), style, width)
	if len(lines) == 0 {
		return nil
	}
	st := strip{
		before: [...]MM{large * 2, large, medium * 1.5}[h.Level],
		after:  [...]MM{large, medium, small}[h.Level],
		height: MM(len(lines)) * style.Leading,
		items:  s.setAll(lines, style, 0, 0, 0, width, Left),
		bond:   strong,
	}
	if h.Aside != "" {
		h.beside(s, &st, lines[len(lines)-1].width, style, width)
	}
	if h.Level == 0 {
		// A short thick bar over the title: seen when leafing through a stack of sheets.
		const bar = MM(18)
		st.items = append([]Item{Rect{Box: Box{0, 0, bar, heavy * 1.5}, Fill: Black}}, move(st.items, 0, medium)...)
		st.height += medium
	}
	if !h.Silent {
		st.items = append(st.items, Outline{Title: h.Text, Level: h.Level})
	}
	if h.Anchor != "" {
		st.items = append(st.items, Anchor{Name: h.Anchor})
	}
	return []strip{st}
}

// beside sets the aside on the baseline of the heading's last line, or below where there is no room.
func (h Heading) beside(s *setting, st *strip, taken MM, heading Style, width MM) {
	style := s.scale.Body
	lines := s.wrap(Plain(h.Aside), style, width)
	y := st.height - heading.Leading + heading.baseline() - style.baseline()
	if len(lines) > 1 || len(lines) == 1 && taken+columnGap+lines[0].width > width {
		y = st.height
		st.height += MM(len(lines)) * style.Leading
	}
	st.items = append(st.items, s.setAll(lines, style, 0, 0, y, width, Right)...)
}

// Paragraph is running text, ragged on the right.
type Paragraph struct {
	Text  Words
	Fine  bool // in the small style
	Leads bool // to what follows, and stays with it
}

func (p Paragraph) strips(s *setting, width MM) []strip {
	style := s.scale.Body
	if p.Fine {
		style = s.scale.Small
	}
	strips := spaced(s.text(p.Text, style, 0, 0, width), small, medium)
	if n := len(strips); p.Leads && n > 0 {
		strips[n-1].bond = strong
	}
	return strips
}

// List is a list with bullets, or with numbers from First on.
type List struct {
	Items    []Words
	Numbered bool
	First    int // 0 is 1
}

func (l List) strips(s *setting, width MM) []strip {
	var all []strip
	style := s.scale.Body
	first := max(l.First, 1)
	for i, item := range l.Items {
		mark, indent := "•", listIndent
		if l.Numbered {
			mark, indent = strconv.Itoa(first+i)+".", numberIndent
			last := strconv.Itoa(first+len(l.Items)-1) + "."
			indent = max(indent, s.fonts.Width(Sans, style.Size, last)+2*small)
		}
		strips := s.text(item, style, 0, indent, width)
		if len(strips) == 0 {
			continue
		}
		base, at := style.baseline(), small
		text := Text{X: at, Y: base, Face: style.Face, Size: style.Size, Text: mark}
		if l.Numbered {
			text.X, text.Align = indent-small, Right
		}
		strips[0].items = append([]Item{text}, strips[0].items...)
		if i == 0 && len(l.Items) > 1 || i == len(l.Items)-2 {
			strips[len(strips)-1].bond = loose // no item stands alone
		}
		all = append(all, spaced(strips, small*0.6, small*0.6)...)
	}
	return spaced(all, small, medium)
}

// Space is white between two blocks; at the top of a page it falls away.
type Space MM

func (sp Space) strips(*setting, MM) []strip {
	return []strip{{before: MM(sp)}}
}

// Rule is a line across the text, above what follows.
type Rule struct{}

func (Rule) strips(_ *setting, width MM) []strip {
	return []strip{{before: medium, after: medium, height: rule, bond: loose, items: []Item{Line{0, rule / 2, width, rule / 2, Stroke{Width: rule}}}}}
}

// PageBreak begins a page, unless one has just begun.
type PageBreak struct{}

func (PageBreak) strips(*setting, MM) []strip { return []strip{{breaks: true}} }

// Together keeps blocks on one page, as long as they are not higher than a page.
type Together []Block

func (t Together) strips(s *setting, width MM) []strip {
	var all []strip
	for _, b := range t {
		all = append(all, b.strips(s, width)...)
	}
	return bonded(all, loose)
}

// Under repeats a head on top of every further page that its blocks reach.
type Under struct {
	Head   Block
	Blocks []Block
}

func (u Under) strips(s *setting, width MM) []strip {
	head := u.Head.strips(s, width)
	all := allStrips(s, u.Blocks, width)
	for i := range all {
		if len(all[i].head) == 0 && all[i].elastic == nil {
			all[i].head = head
		}
	}
	return all
}

// KeyValue is one line of [KeyValues].
type KeyValue struct {
	Key   string
	Value Words
}

// KeyValues sets names on the left and what they are on the right.
type KeyValues []KeyValue

func (kv KeyValues) strips(s *setting, width MM) []strip {
	style := s.scale.Body
	keyStyle := Style{Bold, style.Size, style.Leading}
	var widest MM
	for _, row := range kv {
		natural, _ := s.widest(Plain(row.Key), keyStyle)
		widest = max(widest, natural)
	}
	left := min(widest, width*0.4)
	rows := make([]tableRow, len(kv))
	for i, row := range kv {
		rows[i] = tableRow{cells: []setCell{
			{lines: s.wrap(Plain(row.Key), keyStyle, left), style: keyStyle, w: left},
			{lines: s.wrap(row.Value, style, width-left-columnGap), style: style, x: left + columnGap, w: width - left - columnGap},
		}}
	}
	var all []strip
	for _, row := range rows {
		all = append(all, spaced(s.rowStrips(row), small*0.4, small*0.4)...)
	}
	return spaced(all, small, medium)
}
