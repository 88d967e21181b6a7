package pdf

import (
	"fmt"

	"hoistbook/render/page"
)

// form is the dictionary of the interactive form (ISO 32000-1, 12.7); empty without fields. The two fonts are for what people type and
// for readers that draw check marks themselves; both are among those that every reader has.
func (f *file) form(fields []int) string {
	if len(fields) == 0 {
		return ""
	}
	typed := f.add("<</Type/Font/Subtype/Type1/BaseFont/Helvetica/Encoding/WinAnsiEncoding>>")
	marks := f.add("<</Type/Font/Subtype/Type1/BaseFont/ZapfDingbats>>")
	return fmt.Sprintf("<</Fields[%s]/DR<</Font<</Helv %s/ZaDb %s>>>>/DA(/Helv 0 Tf 0 g)>>", list(fields), ref(typed), ref(marks))
}

// tickBox lies over a drawn box: unticked it shows nothing of its own, so that the paper and the screen agree.
func tickBox(t page.TickBox, on int, height page.MM, looks *appearances) string {
	yes, off := looks.tick(t.Size)
	return fmt.Sprintf("<</Type/Annot/Subtype/Widget/FT/Btn/T%s%s/F 4/P %s/Rect%s/DA(/ZaDb 0 Tf 0 g)/MK<</CA(4)>>/V/Off/AS/Off/AP<</N<</Yes %s/Off %s>>>>>>",
		text(page.FieldKey(t.Name)), label(t.Label), ref(on),
		rect(page.Box{X: t.X, Y: t.Y, W: t.Size, H: t.Size}, height), ref(yes), ref(off))
}

func textField(t page.Field, on int, height page.MM, looks *appearances) string {
	flags := ""
	if t.Lines {
		flags = "/Ff 4096"
	}
	size := t.Size
	if size <= 0 {
		size = 10
	}
	return fmt.Sprintf("<</Type/Annot/Subtype/Widget/FT/Tx/T%s%s%s/F 4/P %s/Rect%s/DA(/Helv %s Tf 0 g)/V()/AP<</N %s>>>>",
		text(page.FieldKey(t.Name)), label(t.Label), flags, ref(on), rect(t.Box, height), join(size), ref(looks.empty(t.W, t.H)))
}

// label is what a field is called by a reader aloud.
func label(s string) string {
	if s == "" {
		return ""
	}
	return "/TU" + text(s)
}

// appearances are the drawings of fields, one for each size.
type appearances struct {
	f       *file
	ticks   map[page.MM][2]int
	empties map[[2]page.MM]int
}

// tick is a check mark drawn with two strokes, and nothing.
func (a *appearances) tick(size page.MM) (yes, off int) {
	if known, ok := a.ticks[size]; ok {
		return known[0], known[1]
	}
	s := size.Pt()
	box := "/Type/XObject/Subtype/Form/BBox[0 0 " + join(s, s) + "]/Resources<<>>"
	mark := fmt.Sprintf("q 0 G 1 J 1 j %s w %s m %s l %s l S Q",
		join(s*0.13), join(s*0.2, s*0.5), join(s*0.42, s*0.24), join(s*0.82, s*0.8))
	yes, off = a.f.plain(box, []byte(mark)), a.f.plain(box, nil)
	if a.ticks == nil {
		a.ticks = map[page.MM][2]int{}
	}
	a.ticks[size] = [2]int{yes, off}
	return yes, off
}

// empty is a text field that nobody has filled in.
func (a *appearances) empty(w, h page.MM) int {
	key := [2]page.MM{w, h}
	if known, ok := a.empties[key]; ok {
		return known
	}
	if a.empties == nil {
		a.empties = map[[2]page.MM]int{}
	}
	a.empties[key] = a.f.plain("/Type/XObject/Subtype/Form/BBox[0 0 "+join(w.Pt(), h.Pt())+"]/Resources<<>>", []byte("/Tx BMC EMC"))
	return a.empties[key]
}
