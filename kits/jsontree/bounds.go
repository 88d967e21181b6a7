package jsontree

import (
	"fmt"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"

	"hoistbook/kits/diag"
)

// placed is a node or a member: its place is only worked out when there is something to say.
type placed interface{ Place() diag.Place }

func (b binder) among(text string, at placed, enum []string, t reflect.Type) bool {
	if enum == nil || slices.Contains(enum, text) {
		return true
	}
	b.problems.Add(at.Place(), fmt.Sprintf("%q is not one of the words that may stand here", text),
		diag.DidYouMean(text, enum, "write "+meant(enum, t)))
	return false
}

// A glossary is a type of text whose words a reader may not know.
type glossary interface{ Meaning() string }

var glossaryType = reflect.TypeFor[glossary]()

// meant lists words, with what they mean where their type says so.
func meant(enum []string, t reflect.Type) string {
	if t.PkgPath() == "" || !t.Implements(glossaryType) {
		return orList(enum)
	}
	list := make([]string, len(enum))
	for i, word := range enum {
		list[i] = fmt.Sprintf("%q (%s)", word, reflect.ValueOf(word).Convert(t).Interface().(glossary).Meaning())
	}
	last := len(list) - 1
	return strings.Join(list[:last], ", ") + " or " + list[last]
}

func wordsOf(t reflect.Type) []string {
	if t.PkgPath() == "" || !t.Implements(wordsType) {
		return nil
	}
	return reflect.Zero(t).Interface().(vocabulary).Words()
}

// formed holds a text against the form of its type.
func (b binder) formed(text string, at placed, t reflect.Type) bool {
	if t.PkgPath() == "" || !t.Implements(formType) {
		return true
	}
	form := reflect.Zero(t).Interface().(form)
	pattern, ok := patterns.Load(t)
	if !ok {
		pattern, _ = patterns.LoadOrStore(t, regexp.MustCompile("^("+form.Pattern()+")$"))
	}
	if pattern.(*regexp.Regexp).MatchString(text) {
		return true
	}
	b.problems.Add(at.Place(), fmt.Sprintf("%q does not have the form that belongs here", text), "write "+form.Form())
	return false
}

// patterns keeps the compiled patterns of types.
var patterns sync.Map

// wording holds a text against its bounds.
func (b binder) wording(n *Node, bounds *bounds) bool {
	switch count := utf8.RuneCountInString(n.Text); {
	case count < bounds.minLength && count == 0:
		b.problems.Add(n.Place(), "the text is empty", fmt.Sprintf("write something like %q", bounds.example))
	case count < bounds.minLength:
		b.problems.Add(n.Place(), fmt.Sprintf("%q is too short", n.Text), fmt.Sprintf("write at least %d characters", bounds.minLength))
	case count > bounds.maxLength:
		b.problems.Add(n.Place(), fmt.Sprintf("the text has %d characters", count), fmt.Sprintf("write at most %d", bounds.maxLength))
	case bounds.pattern != nil && !bounds.pattern.MatchString(n.Text):
		b.problems.Add(n.Place(), fmt.Sprintf("%q does not have the form that belongs here", n.Text),
			fmt.Sprintf("write something like %q", bounds.example))
	default:
		return true
	}
	return false
}

// size holds a number against its bounds.
func (b binder) size(n *Node, value float64, bounds *bounds) bool {
	switch {
	case value < bounds.minimum:
		b.problems.Add(n.Place(), n.Text+" is too small", fmt.Sprintf("write at least %v", bounds.minimum))
	case value > bounds.maximum:
		b.problems.Add(n.Place(), n.Text+" is too large", fmt.Sprintf("write at most %v", bounds.maximum))
	default:
		return true
	}
	return false
}

// entries holds the length of a list or a map against its bounds.
func (b binder) entries(n *Node, count, least, most int) {
	switch {
	case count < least:
		b.problems.Add(n.Place(), fmt.Sprintf("%d entries stand here", count), fmt.Sprintf("write at least %d", least))
	case count > most:
		b.problems.Add(n.Place(), fmt.Sprintf("%d entries stand here", count), fmt.Sprintf("write at most %d", most))
	}
}

// unique notes entries of a list that say the same thing again, where that is not allowed.
func (b binder) unique(n *Node, bounds *bounds) {
	if !bounds.unique {
		return
	}
	seen := map[string]bool{}
	for _, item := range n.Items {
		text := string(item.JSON())
		if seen[text] {
			b.problems.Add(item.Place(), text+" stands here again", "keep one of the two")
		}
		seen[text] = true
	}
}

func orList(words []string) string {
	if len(words) == 1 {
		return strconv.Quote(words[0])
	}
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = strconv.Quote(w)
	}
	return strings.Join(quoted[:len(quoted)-1], ", ") + " or " + quoted[len(quoted)-1]
}
