package doc

import (
	"strings"

	"hoistbook/kits"
)

// inputLists remember what went into the facts that were told so far. Ten facts about the line take the same fourteen values; the
// list stands once, and the others point to it.
type inputLists struct {
	of map[string][]inputList // by subject; those of facts without one may be pointed to by all
}

type inputList struct {
	fact  string
	texts []string
}

// worthPointing is how long a list must be so that pointing to it is shorter than repeating it.
const worthPointing = 4

// shorten replaces the inputs that an earlier fact took, all of its list and the longest such list, by its name.
func (l *inputLists) shorten(f kits.Fact, texts []string) (earlier string, rest []string) {
	if len(texts) < worthPointing {
		return "", texts
	}
	have := make(map[string]bool, len(texts))
	for _, t := range texts {
		have[t] = true
	}
	var best inputList
	subjects := []string{""}
	if f.Subject != "" {
		subjects = append(subjects, f.Subject)
	}
	for _, subject := range subjects {
		for _, e := range l.of[subject] {
			if len(e.texts) > len(best.texts) && len(e.texts) <= len(texts) && e.within(have) {
				best = e
			}
		}
	}
	if l.of == nil {
		l.of = map[string][]inputList{}
	}
	if len(best.texts) < len(texts) {
		l.of[f.Subject] = append(l.of[f.Subject], inputList{f.ID, texts})
	}
	if best.fact == "" {
		return "", texts
	}
	for _, t := range best.texts {
		delete(have, t)
	}
	for _, t := range texts {
		if have[t] {
			rest = append(rest, t)
		}
	}
	return best.fact, rest
}

func (e inputList) within(have map[string]bool) bool {
	for _, t := range e.texts {
		if !have[t] {
			return false
		}
	}
	return true
}

// inputs is what a formula read, with its names. That there is one of a part where the manifest says nothing else needs no
// words.
func (s *sheet) inputs(f kits.Fact, spoken *inputLists) string {
	var texts []string
	for _, in := range f.Inputs {
		if in.Assumed && strings.HasSuffix(in.Name, "/quantity") {
			continue
		}
		text := strings.TrimPrefix(in.Name, "/parts/") + " " + s.value(in.Value)
		if in.Assumed {
			text += " " + s.say("calculation.assumed")
		}
		texts = append(texts, text)
	}
	earlier, rest := spoken.shorten(f, texts)
	with := gathered(rest)
	if earlier == "" {
		return with
	}
	with = s.say("calculation.as-for", "fact", earlier) + "; " + with
	return strings.TrimSuffix(with, "; ")
}

// gathered joins inputs; of neighbours in one object of the manifest, its place is written once: "REG1/converter/output 5 V,
// …/efficiency 90 %".
func gathered(texts []string) string {
	var b strings.Builder
	object := ""
	for i, t := range texts {
		name, _, _ := strings.Cut(t, " ")
		within := name[:strings.LastIndex(name, "/")+1]
		switch {
		case i > 0 && within != "" && within == object:
			b.WriteString(", …/" + t[len(within):])
		case i > 0:
			b.WriteString("; " + t)
		default:
			b.WriteString(t)
		}
		object = within
	}
	return b.String()
}
