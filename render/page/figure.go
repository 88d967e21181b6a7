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
	if len(c.Dark) == 0 || c.Size <= 0 || c.Size > width/2 {
		s.fail(fmt.Errorf("a matrix code of %d rows and %.0f mm cannot be set on %.0f mm", len(c.Dark), c.Size, width))
		return nil
	}
	// ISO/IEC 18004 asks for a quiet zone of four modules.
	quiet := 4 * c.Size / MM(len(c.Dark))
	left := c.Size + 2*quiet
	lines := s.wrap(c.Words, s.scale.Small, width-left)
	leading := s.scale.Small.Leading
	height := c.Size + 2*quiet
	items := []Item{Modules{X: quiet, Y: quiet, Size: c.Size, Dark: c.Dark}}
	fit := max(int((height-2*quiet)/leading), 1)
	if len(lines) <= fit {
		items = append(items, s.setAll(lines, s.scale.Small, 0, left, quiet, width-left, Left)...)
		return []strip{{before: medium, after: medium, height: height, items: items}}
	}
	// More words than fit beside: they go on below, across the whole width.
	st := strip{before: medium, height: height, items: items, bond: loose}
	return append([]strip{st}, spaced(s.text(c.Words, s.scale.Small, 0, 0, width), 0, medium)...)
}
