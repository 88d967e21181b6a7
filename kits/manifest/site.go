package manifest

import "hoistbook/kits/jsontree"

// sitePointer is where a manifest describes its site.
const sitePointer = "/station/site"

// where are the values of a site that say which place it is: an overlay that says another one is somewhere else.
var where = []string{"/name", "/elevation"}

// ofOneSite are distances that hold at one place and nowhere else, and whom a crew calls there. They stay behind when an overlay
// moves the kit: at the new site nobody has looked yet, and a distance from elsewhere would let a rule pass that must not.
var ofOneSite = []string{"nearest_airfield", "nearest_power_line", "contacts"}

// Moved names the last overlay that moves the kit to another site, and reports for a value of the manifest whether it is still
// that of the site before: said below the overlay, and neither by it nor by one that was laid later.
func (m *Manifest) Moved() (overlay string, inherited func(pointer string) bool) {
	below, from := m.base.At(sitePointer), -1
	for i, l := range m.laid {
		patch := l.patch.At(sitePointer)
		if patch == nil {
			continue
		}
		above := jsontree.Merge(below, patch)
		for _, name := range where {
			if was := below.At(name); was != nil && !was.Same(above.At(name)) {
				from = i
			}
		}
		below = above
	}
	if from < 0 {
		return "", func(string) bool { return false }
	}
	return FileName(m.laid[from].name), func(pointer string) bool {
		for _, l := range m.laid[from:] {
			if l.patch.At(pointer) != nil {
				return false
			}
		}
		return m.tree.At(pointer) != nil
	}
}

// leaveBehind takes the distances of the site before out of a manifest that was moved, and the waivers: a reason to do without
// something was given for the place that its author knew.
func (m *Manifest) leaveBehind() {
	overlay, inherited := m.Moved()
	take := func(gone *jsontree.Node, pointer, name string) {
		if inherited(pointer) {
			gone.Members = append(gone.Members, jsontree.Member{Name: name, Value: &jsontree.Node{Kind: jsontree.Null}})
			m.movedBy = overlay
		}
	}
	site, waivers := &jsontree.Node{Kind: jsontree.Object}, &jsontree.Node{Kind: jsontree.Object}
	for _, name := range ofOneSite {
		take(site, sitePointer+"/"+name, name)
	}
	if all := m.tree.Get("waivers"); all != nil && all.Kind == jsontree.Object {
		for _, w := range all.Members {
			take(waivers, jsontree.Pointer("waivers", w.Name), w.Name)
		}
	}
	if len(site.Members) > 0 {
		m.tree = jsontree.Merge(m.tree, within(site, "site", "station"))
	}
	if len(waivers.Members) > 0 {
		m.tree = jsontree.Merge(m.tree, within(waivers, "waivers"))
	}
}

// within wraps a patch in objects, the innermost name first.
func within(patch *jsontree.Node, names ...string) *jsontree.Node {
	for _, name := range names {
		patch = &jsontree.Node{Kind: jsontree.Object, Members: []jsontree.Member{{Name: name, Value: patch}}}
	}
	return patch
}

// LeftBehind names the overlay that moved the kit to another site, when what is said below it at a pointer was left behind with
// the site before.
func (m *Manifest) LeftBehind(pointer string) (overlay string, ok bool) {
	return m.movedBy, m.movedBy != "" && m.tree.At(pointer) == nil && m.base.At(pointer) != nil
}
