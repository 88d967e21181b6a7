package manifest

import "hoistbook/kits/jsontree"

// Overlaid lists the pointers of the values that an overlay has said, in the order of the manifest: what a club has made its
// own. A value that an overlay has taken away leaves no trace.
func (m *Manifest) Overlaid() []string {
	base := m.tree.Place().File
	var pointers []string
	var visit func(n *jsontree.Node, names []string)
	visit = func(n *jsontree.Node, names []string) {
		if n.Kind != jsontree.Object {
			if n.Place().File != base {
				pointers = append(pointers, jsontree.Pointer(names...))
			}
			return
		}
		for _, member := range n.Members {
			visit(member.Value, append(names[:len(names):len(names)], member.Name))
		}
	}
	visit(m.tree, nil)
	return pointers
}
