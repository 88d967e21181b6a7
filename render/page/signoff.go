package page

import "fmt"

// SignOff is a set of lines to sign: who, signature, when. The captions below them are handed in.
type SignOff struct {
	Lines []SignLine
	// Captions stand below the three lines: name, signature, date and time.
	Captions [3]string
}

// SignLine is one line to sign.
type SignLine struct {
	Role string // what the signature stands for
	Name string // of the form fields: ".name" and ".when" are added; the signature is by hand
}

func (so SignOff) strips(s *setting, width MM) []strip {
	const gap = MM(5)
	each := (width - 2*gap) / 3
	if each < leastColumn {
		s.fail(fmt.Errorf("three lines to sign do not fit on %.0f mm", width))
		return nil
	}
	var all []strip
	for _, l := range so.Lines {
		role := s.text(Plain(l.Role), Style{Bold, s.scale.Body.Size, s.scale.Body.Leading}, 0, 0, width)
		line := tableRow{}
		st := strip{height: signHeight}
		for i, caption := range so.Captions {
			x := MM(i) * (each + gap)
			st.items = append(st.items, Line{x, signHeight, x + each, signHeight, Stroke{Width: rule}})
			if suffix := [3]string{".name", "", ".when"}[i]; l.Name != "" && suffix != "" {
				st.items = append(st.items, Field{Box: Box{x, signHeight - s.scale.Check.Leading - small*0.5, each, s.scale.Check.Leading},
					Name: l.Name + suffix, Label: l.Role + ": " + caption, Size: s.scale.Body.Size, Bare: true})
			}
			line.cells = append(line.cells, setCell{lines: s.wrap(Plain(caption), s.scale.Small, each), style: s.scale.Small, x: x, w: each})
		}
		strips := append(role, st)
		strips = append(strips, spaced(s.rowStrips(line), small*0.4, 0)...)
		all = append(all, spaced(bonded(strips, loose), medium, medium)...)
	}
	return spaced(all, medium, medium)
}
