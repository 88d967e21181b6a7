package doc

import (
	"embed"
	"fmt"
	"slices"
	"strings"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"

	"hoistbook/kits/diag"
	"hoistbook/rules"
)

//go:embed words/*.json
var languages embed.FS

// DefaultLanguage is the language that every other one is held against.
const DefaultLanguage = "en"

// Words are the fixed words of the documents in one language: a flat table from an id to a text, in which numbers and names
// stand in braces. A text that counts something has a form for each plural of the language (CLDR: zero, one, two, few, many,
// other). What packs say may stand there too, and what manifests say is printed as it is written.
type Words struct {
	tag   language.Tag
	point string // between whole and decimals
	table map[string]entry
	own   bool // has texts for those of packs
}

// An entry has one text, or one for each plural form.
type entry struct {
	text  string
	forms map[plural.Form]string
}

// languageID is the id under which a language file names its language by its BCP 47 tag.
const languageID = "language"

// factTitles begins the ids of titles of facts, which a language may have and need not: the catalogue has them in English.
const factTitles = "fact."

// freely are the beginnings of ids that a language may have and need not: what packs say, by the id of the entry and the key, is printed
// as the packs have it where a language is silent, and so are their phases, their roles and the words that facts are.
var freely = []string{factTitles, labels, packTexts, "phase.", "role.", "word.", "call.", "box."}

// packTexts begins the ids of texts of checklist items and cautions.
const packTexts = "pack."

// labels begins the ids of what a manifest's places are called on change sheets: a language may have them and need not.
const labels = "label."

var forms = map[string]plural.Form{
	"zero": plural.Zero, "one": plural.One, "two": plural.Two, "few": plural.Few, "many": plural.Many, "other": plural.Other,
}

// Languages lists the languages that are built in.
func Languages() []string {
	files, err := languages.ReadDir("words")
	if err != nil {
		panic("doc: " + err.Error()) // the folder is part of the program
	}
	names := make([]string, len(files))
	for i, f := range files {
		names[i] = strings.TrimSuffix(f.Name(), ".json")
	}
	return names
}

// Language returns the words of a built-in language.
func Language(name string) (*Words, error) {
	data, err := languages.ReadFile("words/" + name + ".json")
	if err != nil {
		return nil, fmt.Errorf("there is no language %q; %s", name, diag.DidYouMean(name, Languages(), "there are "+strings.Join(Languages(), ", ")))
	}
	return ReadWords(name+".json", data)
}

// IDs lists the ids in their order.
func (w *Words) IDs() []string {
	ids := make([]string, 0, len(w.table))
	for id := range w.table {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}

// sample is the text with all braces that an entry has.
func (e entry) sample() string {
	if e.forms == nil {
		return e.text
	}
	return e.forms[plural.Other]
}

// Tag is the language by its BCP 47 tag.
func (w *Words) Tag() string { return w.tag.String() }

// Say returns a text with its braces filled: pairs are a name and what stands for it, in turn. An id that there is not comes
// back in braces, which no page may have.
func (w *Words) Say(id string, pairs ...string) string {
	e, ok := w.table[id]
	if !ok {
		return "{" + id + "}"
	}
	return filled(e.sample(), pairs)
}

// Count is Say in the plural form for n; {n} stands for n.
func (w *Words) Count(id string, n int, pairs ...string) string {
	e := w.table[id]
	text, ok := e.forms[plural.Cardinal.MatchPlural(w.tag, n, 0, 0, 0, 0)]
	if !ok {
		text = e.sample()
	}
	return filled(text, append(pairs, "n", fmt.Sprint(n)))
}

// Name translates a word of a closed vocabulary; the id is the vocabulary, a dot and the word with hyphens for spaces. A word
// that is not in the table stays as it is.
func (w *Words) Name(vocabulary, word string) string {
	if e, ok := w.table[vocabulary+"."+strings.ReplaceAll(word, " ", "-")]; ok {
		return e.sample()
	}
	return word
}

// Label is what a change sheet calls a place in a manifest, in this language where it has a word for it. Behind some stands a name
// of the reader's own, such as "pin 3".
func (w *Words) Label(text string) string {
	if word := w.Name("label", text); word != text {
		return word
	}
	if at := strings.LastIndexByte(text, ' '); at > 0 {
		if word := w.Name("label", text[:at]); word != text[:at] {
			return word + text[at:]
		}
	}
	return text
}

// Packs are the checklists and cautions of packs in this language, as far as it has them.
func (w *Words) Packs(packs rules.Packs) rules.Packs {
	if !w.own {
		return packs
	}
	return packs.In(func(id, key string) string { return w.table[packTexts+id+"."+key].text })
}

// word is what a word that a fact is, or "not shown", is called in this language.
func (w *Words) word(text string) string {
	if text == notShown {
		return w.Say("value.not-shown")
	}
	return w.Name("word", text)
}

// notShown is how the rules print what is not shown.
const notShown = "not shown"

// Fact is a fact's title: the catalogue's own, unless the language has one for its id.
func (w *Words) Fact(id, title string) string {
	if e, ok := w.table[factTitles+id]; ok {
		return e.sample()
	}
	return title
}

// Number puts the language's decimal sign into a number that was printed with a point.
func (w *Words) Number(text string) string {
	if w.point == "." {
		return text
	}
	digit := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= '0' && text[i] <= '9' }
	var b strings.Builder
	for i := range len(text) {
		if text[i] == '.' && digit(i-1) && digit(i+1) {
			b.WriteString(w.point)
		} else {
			b.WriteByte(text[i])
		}
	}
	return b.String()
}

// filled puts values in the place of braces. Braces that name no value stay.
func filled(text string, pairs []string) string {
	var b strings.Builder
	for {
		before, rest, open := strings.Cut(text, "{")
		b.WriteString(before)
		if !open {
			return b.String()
		}
		name, after, shut := strings.Cut(rest, "}")
		value, known := valueOf(pairs, name)
		if !shut || !known {
			b.WriteString("{")
			text = rest
			continue
		}
		b.WriteString(value)
		text = after
	}
}

func valueOf(pairs []string, name string) (string, bool) {
	for i := 0; i+1 < len(pairs); i += 2 {
		if pairs[i] == name {
			return pairs[i+1], true
		}
	}
	return "", false
}
