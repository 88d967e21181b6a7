package manifest

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
)

// A Layer is one overlay that was laid over a manifest.
type Layer struct {
	Name    string   // of its file, without the folder: what stands in a document must not depend on where files lie
	MadeFor *MadeFor // nil when the overlay does not say
	// Changes are what it changes of what lies below it.
	Changes []jsontree.Difference
	// Stale says why it may no longer fit: it was made for another revision, and what of it no longer does what it did. It is
	// empty for an overlay that was made for this revision, or does not say.
	Stale diag.Problems
}

// laid is an overlay as it was read.
type laid struct {
	name  string
	head  OverlayHead
	file  *jsontree.Node // with its head
	patch *jsontree.Node // without
}

// Layers lists the overlays in the order in which they were laid.
func (m *Manifest) Layers() []Layer {
	var layers []Layer
	below := m.base
	for _, l := range m.laid {
		above := jsontree.Merge(below, l.patch)
		layers = append(layers, Layer{
			Name: FileName(l.name), MadeFor: l.head.MadeFor, Changes: jsontree.Diff(below, above), Stale: m.stale(l, below, above),
		})
		below = above
	}
	return layers
}

// FileName is the name of a file without its folder.
func FileName(path string) string { return path[strings.LastIndexAny(path, `/\\`)+1:] }

// Shared is the manifest below all overlays, which other clubs have too: its id, revision and digest.
func (m *Manifest) Shared() MadeFor {
	text := func(pointer string) string {
		if n := m.base.At(pointer); n != nil {
			return n.Text
		}
		return ""
	}
	return MadeFor{ID: Ref(text("/kit/id")), Revision: Revision(text("/kit/revision")), Digest: Hash(digest(canonical(m.base)))}
}

// Below is the value at a JSON pointer before any overlay was laid over it, as it is written; nil when nobody had said it.
func (m *Manifest) Below(pointer string) *jsontree.Node { return m.base.At(pointer) }

// Node is the value at a JSON pointer as it is written; nil when nobody has said it. The caller may not change it.
func (m *Manifest) Node(pointer string) *jsontree.Node { return m.tree.At(pointer) }

// stale says what may no longer fit of an overlay that was made for another revision.
func (m *Manifest) stale(l laid, below, above *jsontree.Node) diag.Problems {
	made := l.head.MadeFor
	if made == nil {
		return nil
	}
	shared := m.Shared()
	place := l.file.PlaceOf("/made_for/revision")
	var found diag.Problems
	switch {
	case made.Revision != shared.Revision:
		found.Add(place, fmt.Sprintf("made for revision %s, and this is %s", made.Revision, shared.Revision),
			fmt.Sprintf("look through it, then write %q and the digest %s", shared.Revision, shared.Digest))
	case made.Digest != "" && made.Digest != shared.Digest:
		found.Add(place, fmt.Sprintf("made for another text of revision %s: the manifest was changed without a new number", made.Revision),
			fmt.Sprintf("look through it, then write the digest %s", shared.Digest))
	default:
		return nil
	}
	told := map[string]bool{}
	for _, pointer := range slices.Sorted(maps.Keys(made.Values)) {
		was, now := made.Values[pointer], below.At(string(pointer))
		if says := textOf(now); says != was && l.patch.At(string(pointer)) != nil {
			found.Add(l.patch.PlaceOf(string(pointer)), fmt.Sprintf("the shared kit said %s here and says %s now", quoted(was), quoted(says)),
				fmt.Sprintf("decide whether %s still holds", quoted(textOf(l.patch.At(string(pointer))))))
			told[string(pointer)] = true
		}
	}
	eachLeaf(l.patch, nil, func(pointer string, n *jsontree.Node) {
		if !told[pointer] && n.Kind != jsontree.Null && below.At(pointer).Same(n) {
			found.Add(l.patch.PlaceOf(pointer), fmt.Sprintf("the shared kit says %s itself now", quoted(textOf(n))), "take it out")
		}
	})
	return found
}

// Said lists what a manifest says at the pointers that a patch changes: the values of a new overlay's head. What is only in
// lists, and notes, are left out.
func (m *Manifest) Said(patch *jsontree.Node) Values {
	values := Values{}
	eachLeaf(patch, nil, func(pointer string, n *jsontree.Node) {
		if old := m.tree.At(pointer); old != nil && (old.Kind == jsontree.String || old.Kind == jsontree.Number) {
			values[Pointer(pointer)] = old.Text
		}
	})
	return values
}

// eachLeaf visits what a patch says, notes left out.
func eachLeaf(n *jsontree.Node, names []string, visit func(pointer string, n *jsontree.Node)) {
	if n.Kind != jsontree.Object {
		visit(jsontree.Pointer(names...), n)
		return
	}
	for _, m := range n.Members {
		if len(m.Name) < 2 || m.Name[:2] != "x-" {
			eachLeaf(m.Value, append(slices.Clip(names), m.Name), visit)
		}
	}
}

// textOf is what a value says: a text or a number as it stands, anything else as JSON, and nothing for nothing.
func textOf(n *jsontree.Node) string {
	switch {
	case n == nil:
		return ""
	case n.Kind == jsontree.String || n.Kind == jsontree.Number:
		return n.Text
	}
	return string(n.JSON())
}

func quoted(text string) string {
	const most = 60
	if letters := []rune(text); len(letters) > most {
		text = string(letters[:most-1]) + "…"
	}
	if text == "" {
		return "nothing"
	}
	return fmt.Sprintf("%q", text)
}
