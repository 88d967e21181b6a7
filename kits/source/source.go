// Package source is the bibliography: every formula, constant, limit and caution of the project names one of these
// works, and where in it to look. A work's standing says how sure the citation is; documents print it.
package source

import "fmt"

// Standing says how a statement is known.
type Standing string

// The standings, from the firmest to the weakest.
const (
	Published  Standing = "published"       // the text, or a published copy of the passage, was read
	FromMemory Standing = "from memory"     // the work exists, the passage was recalled and not seen
	Practice   Standing = "common practice" // no work: what the trade does
	Policy     Standing = "kit policy"      // no work: decided for these kits, and said so
)

// A Work is one entry of the bibliography.
type Work struct {
	ID       string
	Citation string
	Standing Standing
	Verify   bool // a law or regulation: printed with "verify against the current text"
}

// A Ref points into a work: At is the clause, equation, table or page, and may be empty. Standing, when set, replaces the work's own for this passage.
type Ref struct {
	Work     string
	At       string
	Standing Standing
}

// At points to a passage of a work. It panics for an id that is not in the bibliography, so a misspelt citation cannot be built.
func At(id, at string) Ref {
	if _, ok := Find(id); !ok {
		panic(fmt.Sprintf("source: no work %q", id))
	}
	return Ref{Work: id, At: at}
}

// Recalled is At for a passage that was recalled and not seen.
func Recalled(id, at string) Ref {
	ref := At(id, at)
	ref.Standing = FromMemory
	return ref
}

// Find returns the work with this id.
func Find(id string) (Work, bool) {
	for _, w := range works {
		if w.ID == id {
			return w, true
		}
	}
	return Work{}, false
}

// All lists the works in the order of the bibliography. The caller may not change the list.
func All() []Work { return works }

// IDs lists the ids, for near names in messages.
func IDs() []string {
	ids := make([]string, len(works))
	for i, w := range works {
		ids[i] = w.ID
	}
	return ids
}

// String prints the citation with its passage and, unless it is published, its standing.
func (r Ref) String() string {
	w, ok := Find(r.Work)
	if !ok {
		return ""
	}
	return w.Cite(r.At, r.Standing)
}

// Cite prints the citation with a passage and, unless it is published, its standing; an empty standing is the work's own.
func (w Work) Cite(at string, standing Standing) string {
	text := w.Citation
	if at != "" {
		text += ", " + at
	}
	if standing == "" {
		standing = w.Standing
	}
	if standing == FromMemory {
		text += " (from memory)"
	}
	if w.Verify {
		text += " (verify against the current text)"
	}
	return text
}
