package doc

import (
	"fmt"
	"slices"
	"strings"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
	"golang.org/x/text/message"
	"golang.org/x/text/number"

	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
)

// ReadWords reads a language file. The error is diag.Problems with everything that is wrong in it: an id too many or too
// few, braces that the English text does not have, a plural form that the language needs and the file lacks.
func ReadWords(name string, data []byte) (*Words, error) {
	root, err := jsontree.Parse(name, data)
	if err != nil {
		return nil, err
	}
	var problems diag.Problems
	w := readTable(root, &problems)
	if len(problems) == 0 && w.tag.String() != DefaultLanguage {
		english, err := Language(DefaultLanguage)
		if err != nil {
			return nil, err
		}
		w.holdAgainst(english, root, &problems)
	}
	if err := problems.Err(); err != nil {
		return nil, err
	}
	return w, nil
}

func readTable(root *jsontree.Node, problems *diag.Problems) *Words {
	w := &Words{table: map[string]entry{}}
	tag := root.Get(languageID)
	if root.Kind != jsontree.Object || tag == nil {
		problems.Add(root.Place(), "this is no language file", `write an object whose "language" is a BCP 47 tag, such as "en"`)
		return w
	}
	var err error
	if w.tag, err = language.Parse(tag.Text); err != nil {
		problems.Add(tag.Place(), fmt.Sprintf("%q is no language", tag.Text), `write a BCP 47 tag, such as "en"`)
	}
	for _, m := range root.Members {
		if m.Name != languageID {
			w.table[m.Name] = readEntry(m.Value, problems)
			w.own = w.own || strings.HasPrefix(m.Name, packTexts)
		}
	}
	w.point = strings.Trim(message.NewPrinter(w.tag).Sprint(number.Decimal(0.5)), "05")
	return w
}

func readEntry(n *jsontree.Node, problems *diag.Problems) entry {
	if n.Kind == jsontree.String {
		return entry{text: n.Text}
	}
	e := entry{forms: map[plural.Form]string{}}
	if n.Kind != jsontree.Object || n.Get("other") == nil {
		problems.Add(n.Place(), "this is neither a text nor a text for each plural form", `write a text, or an object with "one", "other" …`)
		return e
	}
	for _, m := range n.Members {
		form, ok := forms[m.Name]
		if !ok || m.Value.Kind != jsontree.String {
			problems.Add(m.Place(), fmt.Sprintf("%q is no plural form with a text", m.Name), "the forms are zero, one, two, few, many and other")
			continue
		}
		e.forms[form] = m.Value.Text
	}
	return e
}

// holdAgainst notes where the words differ from the English ones in more than language.
func (w *Words) holdAgainst(english *Words, root *jsontree.Node, problems *diag.Problems) {
	for _, id := range english.IDs() {
		n := root.Get(id)
		if n == nil {
			problems.Add(root.Place(), fmt.Sprintf("the text %q is missing", id), fmt.Sprintf("in English it is %q", english.table[id].sample()))
			continue
		}
		mine, theirs := w.table[id], english.table[id]
		if (mine.forms == nil) != (theirs.forms == nil) {
			problems.Add(n.Place(), fmt.Sprintf("%q counts in one language and not in the other", id), "write plural forms where the English file has them")
			continue
		}
		for _, text := range mine.texts() {
			if stray := without(holes(text), holes(theirs.sample())); len(stray) > 0 {
				problems.Add(n.Place(), fmt.Sprintf("nothing stands for {%s} in %q", stray[0], id), fmt.Sprintf("in English it is %q", theirs.sample()))
			}
		}
		if lacking := without(holes(theirs.sample()), holes(mine.sample())); len(lacking) > 0 {
			problems.Add(n.Place(), fmt.Sprintf("%q does not say {%s}", id, lacking[0]), fmt.Sprintf("in English it is %q", theirs.sample()))
		}
		if form := w.lacks(mine); form != "" {
			problems.Add(n.Place(), fmt.Sprintf("%q lacks the plural form %q", id, form), "this language has it")
		}
	}
	for _, m := range root.Members {
		if _, ok := english.table[m.Name]; !ok && m.Name != languageID && !slices.ContainsFunc(freely, func(start string) bool { return strings.HasPrefix(m.Name, start) }) {
			problems.Add(m.Place(), fmt.Sprintf("no document says %q", m.Name), diag.DidYouMean(m.Name, english.IDs(), "take the line out"))
		}
	}
}

// lacks names a plural form that whole numbers take in this language and an entry does not have.
func (w *Words) lacks(e entry) string {
	if e.forms == nil {
		return ""
	}
	for n := range 201 { // the rules of CLDR look at the last two digits
		form := plural.Cardinal.MatchPlural(w.tag, n, 0, 0, 0, 0)
		if _, ok := e.forms[form]; !ok {
			for name, f := range forms {
				if f == form {
					return name
				}
			}
		}
	}
	return ""
}

func (e entry) texts() []string {
	if e.forms == nil {
		return []string{e.text}
	}
	var all []string
	for _, text := range e.forms {
		all = append(all, text)
	}
	slices.Sort(all)
	return all
}

// holes lists the names in braces, each once.
func holes(text string) []string {
	var names []string
	for {
		_, rest, found := strings.Cut(text, "{")
		if !found {
			return names
		}
		name, after, closed := strings.Cut(rest, "}")
		if !closed {
			return names
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
		text = after
	}
}

func without(names, known []string) []string {
	return slices.DeleteFunc(slices.Clone(names), func(n string) bool { return slices.Contains(known, n) })
}
