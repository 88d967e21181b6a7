package doc

import (
	"fmt"
	"strings"

	"hoistbook/kits/manifest"
	"hoistbook/render/page"
)

var assembly = Document{Name: "assembly", title: "assembly.title", write: (*sheet).assembly}

// bench is for steps that are read at a workbench: smaller than in the field, larger than a table of numbers.
var bench = func() page.Scale {
	s := page.Desk
	s.Check = page.Style{Face: page.Sans, Size: 11, Leading: 5.2}
	s.Note = page.Style{Face: page.Sans, Size: 9, Leading: 4.3}
	return s
}()

// assembly are the steps of building one kit, with the parts and tools of each and a stop wherever a second person must look.
func (s *sheet) assembly() {
	s.flow.SetScale(&bench)
	s.warn(s.warnings("assembly"))
	var steps []manifest.Step
	if all := s.Facts.Manifest.Steps; all != nil {
		steps = all.Assembly
	}
	if len(steps) == 0 {
		s.paragraph(s.say("assembly.none"))
		return
	}
	s.paragraph(s.say("assembly.about"))
	number := "%d"
	if len(steps) > 9 {
		number = "%02d"
	}
	for i, step := range steps {
		field := s.field(string(step.ID))
		row := page.CheckRow{Number: fmt.Sprintf(number, i+1), Challenge: page.Plain(strings.TrimSuffix(step.Text, ".")), Name: field, Notes: s.stepNotes(step)}
		if step.Time != nil {
			row.Response = page.Plain(s.text(step.Time.Quantity()))
		}
		group := page.Together{page.Checklist{row}}
		if step.Hold {
			group = append(group, s.bar(s.say("assembly.go-on"), field+"/hold"))
		}
		if i == len(steps)-1 { // nobody signs a sheet that says nothing
			group = append(group, page.Space(6), s.signatures("sign.built", "sign.checker"))
		}
		s.add(group)
	}
}

// stepNotes say who, with what, and what helps.
func (s *sheet) stepNotes(step manifest.Step) []page.Words {
	var notes []page.Words
	if len(step.Roles) > 0 {
		notes = append(notes, page.Strong(s.roles(step.Roles)))
	}
	var parts []string
	for _, ref := range step.Parts {
		parts = append(parts, string(ref)+" "+s.Facts.Manifest.Parts[ref].Name)
	}
	for _, line := range []struct{ id, text string }{{"assembly.parts", strings.Join(parts, "; ")}, {"assembly.tools", strings.Join(step.Tools, ", ")}} {
		if line.text != "" {
			notes = append(notes, page.Plain(s.say(line.id, "list", line.text)))
		}
	}
	if step.Note != "" {
		notes = append(notes, page.Plain(step.Note))
	}
	return notes
}

// roles are who does it, in the reader's language.
func (s *sheet) roles(all []string) string {
	said := make([]string, len(all))
	for i, role := range all {
		said[i] = s.Words.Name("role", role)
	}
	return strings.Join(said, ", ")
}
