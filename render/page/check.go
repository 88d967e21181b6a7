package page

import (
	"errors"
	"fmt"
	"math"
	"path"
	"slices"
	"strings"
	"unicode/utf8"
)

// Check finds what would make a file wrong or unreadable: characters that no font has, numbers that are not finite, text outside
// the sheet, links to nowhere, names given twice. All faults come back, joined, each with its page.
func (d *Document) Check() error {
	c := checker{d: d, fields: map[string]int{}, anchors: map[string]int{}}
	if len(d.Pages) == 0 {
		c.say("the document has no page")
	}
	for i, p := range d.Pages {
		for it := range p.All() {
			if a, ok := it.(Anchor); ok {
				if c.anchors[a.Name] != 0 {
					c.at(i, "anchor %q stands a second time, first on page %d", a.Name, c.anchors[a.Name])
				}
				c.anchors[a.Name] = i + 1
			}
		}
	}
	for i, p := range d.Pages {
		if !finite(p.Paper.Width, p.Paper.Height) || p.Paper.Width <= 0 || p.Paper.Height <= 0 {
			c.at(i, "the paper measures %v × %v mm", p.Paper.Width, p.Paper.Height)
			continue
		}
		for it := range p.All() {
			c.item(i, p.Paper, it)
		}
	}
	c.attachments()
	return errors.Join(c.faults...)
}

type checker struct {
	d               *Document
	faults          []error
	fields, anchors map[string]int
}

// manyFaults bounds the list: a missing font would give a fault for every line.
const manyFaults = 20

func (c *checker) say(format string, args ...any) {
	if len(c.faults) < manyFaults {
		c.faults = append(c.faults, fmt.Errorf(format, args...))
	}
}

func (c *checker) at(page int, format string, args ...any) {
	c.say("page %d: "+format, append([]any{page + 1}, args...)...)
}

func (c *checker) item(i int, paper Paper, it Item) {
	box, area := it.bounds(c.d.Fonts)
	if area && !finite(box.X, box.Y, box.W, box.H) {
		c.at(i, "a thing stands at a place that is no number: %s", describe(it))
		return
	}
	if area && !paper.Box().Holds(box) {
		c.at(i, "a thing reaches over the edge of the paper: %s", describe(it))
	}
	switch it := it.(type) {
	case Text:
		if !utf8.ValidString(it.Text) {
			c.at(i, "text %q is not valid UTF-8", it.Text)
		} else if lacking := c.d.Fonts.Missing(it.Face, it.Text); len(lacking) > 0 {
			c.at(i, "no font has %s in the text %q; give a font that has it", characters(lacking), it.Text)
		} else if wrong := scripts(it.Text); len(wrong) > 0 {
			c.at(i, "the script %s of the text %q cannot be set letter by letter from left to right; write it in another script", strings.Join(wrong, ", "), it.Text)
		}
		if !(it.Size > 0) || math.IsInf(float64(it.Size), 0) || math.IsNaN(it.Turn) || math.IsInf(it.Turn, 0) {
			c.at(i, "text %q has the size %v and the turn %v", it.Text, it.Size, it.Turn)
		}
	case Anchor:
		if !finite(it.X, it.Y) || it.Name == "" {
			c.at(i, "anchor %q stands at %v, %v", it.Name, it.X, it.Y)
		}
	case Outline:
		if it.Level < 0 || !finite(it.Y) {
			c.at(i, "outline entry %q has level %d and stands at %v", it.Title, it.Level, it.Y)
		}
	case Link:
		scheme, _, _ := strings.Cut(it.To, ":")
		switch {
		case !Outward(it.To) && c.anchors[it.To] == 0:
			c.at(i, "a link leads to %q, but nothing has that name", it.To)
		case Outward(it.To) && !slices.Contains(schemes, strings.ToLower(scheme)):
			c.at(i, "a link leads to %q; %s are possible", it.To, strings.Join(schemes, ", "))
		}
	case PageNumber:
		c.at(i, "the number of the page with anchor %q was not filled in", it.Anchor)
	case TickBox:
		c.field(i, it.Name)
	case Field:
		c.field(i, it.Name)
	}
}

func (c *checker) field(i int, name string) {
	key := FieldKey(name)
	switch {
	case name == "" || !utf8.ValidString(name):
		c.at(i, "a form field has the name %q", name)
	case c.fields[key] != 0:
		c.at(i, "the name %q of a form field is taken, on page %d", name, c.fields[key])
	}
	c.fields[key] = i + 1
}

// FieldKey is a form field's name as a file holds it. A full stop would part the name into levels (ISO 32000-1, 12.7.3.2).
func FieldKey(name string) string { return strings.ReplaceAll(name, ".", ":") }

func (c *checker) attachments() {
	seen := map[string]bool{}
	for _, a := range c.d.Attachments {
		if a.Name == "" || a.Name != path.Base(a.Name) || a.Name == ".." || strings.ContainsAny(a.Name, "\\/\x00") || !utf8.ValidString(a.Name) || seen[a.Name] {
			c.say("attachment %q needs a name of its own, without folders", a.Name)
		}
		seen[a.Name] = true
	}
}

// schemes are where a link may lead: nothing that runs a program or opens a file of the reader's.
var schemes = []string{"https", "http", "mailto", "tel", "geo"}

// Outward says that a link leads out of the document: it begins with a scheme.
func Outward(to string) bool {
	scheme, _, found := strings.Cut(to, ":")
	if !found || scheme == "" {
		return false
	}
	for _, r := range scheme {
		if (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') && (r < '0' || r > '9') && !strings.ContainsRune("+-.", r) {
			return false
		}
	}
	return true
}

func characters(rs []rune) string {
	var parts []string
	for _, r := range rs {
		parts = append(parts, fmt.Sprintf("%q (U+%04X)", string(r), r))
	}
	return strings.Join(parts, ", ")
}

func finite(values ...MM) bool {
	for _, v := range values {
		if math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) {
			return false
		}
	}
	return true
}
