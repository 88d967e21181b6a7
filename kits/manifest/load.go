package manifest

import (
	"fmt"

	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
	"hoistbook/schemas"
)

// A Source is one file: its name as messages print it, and its text.
type Source struct {
	Name string
	Data []byte
}

// schemaName is that of the published schema of manifests.
const schemaName = "manifest"

// Load reads a manifest, lays the overlays over it in their order (RFC 7396), and checks the result. The error is
// diag.Problems: everything that is wrong in all of the files.
func Load(base Source, overlays ...Source) (*Manifest, error) {
	schemas.Prepare(schemaName)
	m, err := merged(base, overlays)
	if err != nil {
		return nil, err
	}
	if err := m.fill(); err != nil {
		return nil, err
	}
	return m, nil
}

// Changed is the manifest with a merge patch over it that is no overlay: its layers stay as they are. It is for asking what
// would be.
func (m *Manifest) Changed(patch Source) (*Manifest, error) {
	change, err := jsontree.Parse(patch.Name, patch.Data)
	if err != nil {
		return nil, err
	}
	changed := &Manifest{tree: jsontree.Merge(m.tree, change), base: m.base, laid: m.laid, sources: m.sources, movedBy: m.movedBy}
	if err := changed.fill(); err != nil {
		return nil, err
	}
	return changed, nil
}

// fill fills the document from the tree, and checks it.
func (m *Manifest) fill() error {
	tree := m.tree
	violations := make(chan []schemas.Violation, 1)
	go func() { violations <- schemas.Validate(schemaName, tree.Any()) }()

	var problems diag.Problems
	jsontree.Bind(tree, &m.Document, &problems)
	confirm(tree, <-violations, &problems)
	if len(problems) > 0 {
		problems = m.strays(problems)
	}
	if onlyTexts(tree, places(problems)) {
		m.check(&problems)
	}
	if err := problems.Err(); err != nil {
		return err
	}
	text, err := tree.Canonical()
	if err != nil {
		return fmt.Errorf("%s: %w", tree.Place().File, err)
	}
	m.canonical = text
	return nil
}

// merged reads all files, so that the broken grammar of one does not hide that of another, and merges them.
func merged(base Source, overlays []Source) (*Manifest, error) {
	var problems diag.Problems
	parse := func(s Source) *jsontree.Node {
		tree, err := jsontree.Parse(s.Name, s.Data)
		problems.Join(err)
		if tree != nil {
			tree.Hidden(&problems)
		}
		return tree
	}
	m := &Manifest{base: parse(base), sources: append([]Source{base}, overlays...)}
	m.tree = m.base
	for _, o := range overlays {
		file := parse(o)
		if m.tree == nil || file == nil {
			continue
		}
		l := laid{name: o.Name, file: file}
		l.head, l.patch = behead(file, m.base, &problems)
		removals(m.tree, l.patch, &problems)
		m.tree = jsontree.Merge(m.tree, l.patch)
		m.laid = append(m.laid, l)
	}
	if m.tree != nil {
		m.leaveBehind()
	}
	return m, problems.Err()
}

// removals notes every null of an overlay that removes nothing: it is a misspelt key, and what was to go would stay.
func removals(target, patch *jsontree.Node, problems *diag.Problems) {
	if target == nil || target.Kind != jsontree.Object || patch.Kind != jsontree.Object {
		return
	}
	for _, change := range patch.Members {
		old := target.Get(change.Name)
		if old == nil && change.Value.Kind == jsontree.Null {
			problems.Add(change.Place(), fmt.Sprintf("there is nothing called %q here to remove", change.Name),
				diag.DidYouMean(change.Name, target.Names(), "take the line out"))
		}
		removals(old, change.Value, problems)
	}
}

// confirm notes what violates the published schema when nothing has been said yet. Bind tells the same in better words, and
// tests hold the two together; should they ever disagree, a file that the schema refuses must still not pass.
func confirm(tree *jsontree.Node, violations []schemas.Violation, problems *diag.Problems) {
	if len(*problems) > 0 {
		return
	}
	for _, v := range violations {
		place := tree.PlaceOf(v.Pointer)
		if n := tree.At(v.Pointer); n != nil && !v.Key {
			place = n.Place()
		}
		problems.Add(place, "this does not fit the schema of manifests", fmt.Sprintf("see %s there", v.Schema))
	}
}

// onlyTexts reports whether all that is wrong are texts and numbers, and no key, list or object: then it still makes sense
// to ask whether names lead anywhere.
func onlyTexts(tree *jsontree.Node, wrong map[diag.Place]bool) bool {
	count := 0
	var visit func(*jsontree.Node)
	visit = func(n *jsontree.Node) {
		if n.Kind != jsontree.Object && n.Kind != jsontree.Array && wrong[n.Place()] {
			count++
		}
		for _, m := range n.Members {
			visit(m.Value)
		}
		for _, item := range n.Items {
			visit(item)
		}
	}
	if len(wrong) > 0 {
		visit(tree)
	}
	return count == len(wrong)
}
