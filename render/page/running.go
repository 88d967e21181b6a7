package page

// Running are the lines that every page repeats: above, the kit and what the sheet is; below, the digest and the page's number.
type Running struct {
	Kit      string             // name
	Revision string             // as it is to be printed, such as "Rev. 1.2.0"
	Made     []string           // for which place, by which rules, with what laid over the kit: behind the revision, on further lines where it is long
	More     func(n int) string // says that so many of Made have no room
	Digest   string             // short
	Title    string             // of the document; the section's, if it has one, goes before it
	// Page says "page n of m" in the reader's language.
	Page func(n, m int) string
	// Sheet says the same of a section of the document, which people take out and carry by itself.
	Sheet func(section string, n, m int) string
}

// Items draws the lines; it is handed to [Setup] as Running.
func (r Running) Items(p Place) []Item {
	style := p.Scale.Running
	strong := Style{Bold, style.Size, style.Leading}
	title := r.Title
	if p.Section != "" {
		title = p.Section
		if r.Sheet != nil && p.Sheets < p.Count {
			title = r.Sheet(p.Section, p.Sheet, p.Sheets)
		}
	}
	top := p.Text.Y - runningGap - style.Descent() - rule
	foot := p.Text.Bottom() + runningGap + style.Face.Ascent(style.Size) + rule
	half := (p.Text.W - columnGap) / 2
	var items []Item
	put := func(text string, st Style, x, base, room MM, align Align) MM {
		text = p.Fonts.Fit(st, text, room)
		if text == "" {
			return 0
		}
		items = append(items, Text{X: x, Y: base, Face: st.Face, Size: st.Size, Align: align, Text: text})
		return p.Fonts.Width(st.Face, st.Size, text)
	}
	left := p.Text.W - columnGap - p.Fonts.Width(style.Face, style.Size, p.Fonts.Fit(style, title, half))
	revision := p.Fonts.Width(style.Face, style.Size, p.Fonts.Fit(style, r.Revision, half/2))
	wide := func(text string) MM { return p.Fonts.Width(style.Face, style.Size, text) }
	kit := min(p.Fonts.Width(strong.Face, strong.Size, r.Kit), half, left-revision-small)
	about := r.about(left-kit-small, p.Text.W, wide)
	first := top - MM(len(about)-1)*style.Leading
	put(r.Kit, strong, p.Text.X, first, kit+0.01, Left)
	put(about[0], style, p.Text.X+kit+small, first, left-kit-small, Left)
	for i, line := range about[1:] {
		put(line, style, p.Text.X, first+MM(i+1)*style.Leading, p.Text.W, Left)
	}
	put(title, style, p.Text.Right(), first, half, Right)
	put(r.Digest, Style{Mono, style.Size * 0.95, style.Leading}, p.Text.X, foot, half, Left)
	if r.Page != nil {
		put(r.Page(p.Number, p.Count), strong, p.Text.Right(), foot, half, Right)
	}
	above, below := p.Text.Y-runningGap, p.Text.Bottom()+runningGap
	return append(items,
		Line{p.Text.X, above, p.Text.Right(), above, Stroke{Width: hairline}},
		Line{p.Text.X, below, p.Text.Right(), below, Stroke{Width: hairline}})
}

// aboutLines is how many lines the head of a page may take: above them an office printer's margin is left.
const aboutLines = 3

// about is the revision with all of Made, on lines of which the first has less room. Nothing that tells two sheets apart is cut: what has no
// room on all lines is counted.
func (r Running) about(first, full MM, wide func(string) MM) []string {
	lines := []string{r.Revision}
	for i, made := range r.Made {
		now := &lines[len(lines)-1]
		room := full
		if len(lines) == 1 {
			room = first
		}
		rest := ""
		if more := len(r.Made) - i - 1; len(lines) == aboutLines && more > 0 && r.More != nil {
			rest = separator + r.More(more)
		}
		switch joined := *now + separator + made; {
		case wide(joined+rest) <= room:
			*now = joined
		case len(lines) < aboutLines:
			lines = append(lines, made)
		case r.More != nil:
			*now += separator + r.More(len(r.Made)-i)
			return lines
		default:
			*now = joined
		}
	}
	return lines
}

// separator stands between what a running line says.
const separator = " · "

// Descent is how far the style's letters reach below the baseline.
func (st Style) Descent() MM { return st.Face.Descent(st.Size) }

// Fit shortens a text to a width, with an ellipsis where it was cut. It is for running lines; nothing in the text block is cut.
func (f *Fonts) Fit(st Style, text string, room MM) string {
	if f.Width(st.Face, st.Size, text) <= room {
		return text
	}
	letters := []rune(text)
	for n := len(letters) - 1; n > 0; n-- {
		if cut := string(letters[:n]) + "…"; f.Width(st.Face, st.Size, cut) <= room {
			return cut
		}
	}
	return ""
}
