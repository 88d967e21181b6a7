package page

import "fmt"

// Figure is a drawing with a caption below. Items stand in a box of W × H from its own top-left corner. A drawing that is wider
// than the text or higher than a page is scaled down as a whole; one that leaves its own box is an error.
type Figure struct {
	W, H    MM
	Items   []Item
	Caption Words
	Anchor  string
}

func (fig Figure) strips(s *setting, width MM) []strip {
	if fig.W <= 0 || fig.H <= 0 {
		s.fail(fmt.Errorf("figure %q measures %.1f × %.1f mm; both must be positive", fig.Caption, fig.W, fig.H))
		return nil
	}
	if reach := Extent(fig.Items, s.fonts); len(fig.Items) > 0 && !(Box{0, 0, fig.W, fig.H}).grown(heavy).Holds(reach) {
		s.fail(fmt.Errorf("figure %q: its items reach from (%.1f, %.1f) to (%.1f, %.1f) mm, outside its box of %.1f × %.1f mm",
			fig.Caption, reach.X, reach.Y, reach.Right(), reach.Bottom(), fig.W, fig.H))
		return nil
	}
	caption := s.wrap(fig.Caption, s.scale.Small, width)
	below := MM(len(caption))*s.scale.Small.Leading + small
	if below > s.height/2 {
		s.fail(fmt.Errorf("figure caption of %d lines is longer than half a page", len(caption)))
		return nil
	}
	// The stroke on an edge of the box is let in, so that it stays inside the text block.
	room := min(1, (width-2*heavy)/fig.W, (s.height-below-2*heavy)/fig.H)
	items := move(Scaled(fig.Items, float64(room)), max(0, (width-fig.W*room)/2), heavy)
	st := strip{before: medium, after: medium, height: fig.H*room + 2*heavy, items: items}
	if fig.Anchor != "" {
		st.items = append(st.items, Anchor{Name: fig.Anchor})
	}
	if len(caption) > 0 {
		st.items = append(st.items, s.setAll(caption, s.scale.Small, 0, 0, st.height+small, width, Left)...)
		st.height += below
	}
	return []strip{st}
}

// Code2D is a matrix code with words beside it.
type Code2D struct {
	Dark  [][]bool
	Size  MM // edge, without the quiet zone
	Words Words
}

func (c Code2D) strips(s *setting, width MM) []strip {
	// ISO/IEC 18004 asks for a quiet zone of four modules.
	quiet := 4 * c.Size / MM(max(len(c.Dark), 1))
	edge := c.Size + 2*quiet
	if len(c.Dark) == 0 || c.Size <= 0 || edge > min(width, s.height) {
		s.fail(fmt.Errorf("a matrix code of %d rows takes %.0f mm with the quiet zone around it; it cannot be set on %.0f × %.0f mm", len(c.Dark), edge, width, s.height))
		return nil
	}
	style := s.scale.Small
	st := strip{before: medium, after: medium, height: edge, items: []Item{Modules{X: quiet, Y: quiet, Size: c.Size, Dark: c.Dark}}}
	if beside := width - edge; beside >= 3*leastColumn {
		lines := s.wrap(c.Words, style, beside)
		if MM(len(lines))*style.Leading <= edge-quiet {
			st.items = append(st.items, s.setAll(lines, style, 0, edge, quiet, beside, Left)...)
			return []strip{st}
		}
	}
	// More words than fit beside: they go below.
	st.bond = loose
	return append([]strip{st}, spaced(s.text(c.Words, style, 0, quiet, width), 0, medium)...)
}
