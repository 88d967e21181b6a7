package manifest

import "hoistbook/kits/jsontree"

// sitePointer is where a manifest describes its site.
const sitePointer = "/station/site"

// where are the values of a site that say which place it is: an overlay that says another one is somewhere else.
var where = []string{"/name", "/elevation"}

// ofOneSite are distances that hold at one place and nowhere else. They stay behind when an overlay moves the kit: at the new
// site nobody has looked yet, and a distance from elsewhere would let a rule pass that must not.
var ofOneSite = []string{"nearest_airfield", "nearest_power_line"}

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

// leaveBehind takes the distances of the site before out of a manifest that was moved.
func (m *Manifest) leaveBehind() {
	overlay, inherited := m.Moved()
	gone := &jsontree.Node{Kind: jsontree.Object}
	for _, name := range ofOneSite {
		if inherited(sitePointer + "/" + name) {
			gone.Members = append(gone.Members, jsontree.Member{Name: name, Value: &jsontree.Node{Kind: jsontree.Null}})
			m.movedBy = overlay
		}
	}
	if len(gone.Members) == 0 {
		return
	}
	for _, name := range []string{"site", "station"} {
		gone = &jsontree.Node{Kind: jsontree.Object, Members: []jsontree.Member{{Name: name, Value: gone}}}
	}
	m.tree = jsontree.Merge(m.tree, gone)
}

// LeftBehind names the overlay that moved the kit to another site, when what is said below it at a pointer was left behind with
// the site before.
func (m *Manifest) LeftBehind(pointer string) (overlay string, ok bool) {
	return m.movedBy, m.movedBy != "" && m.tree.At(pointer) == nil && m.base.At(pointer) != nil
}
