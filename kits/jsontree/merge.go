package jsontree

// Merge applies a merge patch (RFC 7396): objects merge key by key, null removes a key, anything else replaces. Every value
// keeps the place where it was written, so a problem in a patched value points into the patch. Order is the target's,
// new keys last.
func Merge(target, patch *Node) *Node {
	if patch.Kind != Object {
		return patch
	}
	merged := &Node{Kind: Object, file: patch.file, at: patch.at}
	if target != nil && target.Kind == Object {
		merged.file, merged.at = target.file, target.at
	} else {
		target = nil
	}
	changes := make(map[string]*Node, len(patch.Members))
	for _, m := range patch.Members {
		changes[m.Name] = m.Value
	}
	if target != nil {
		merged.Members = make([]Member, 0, len(target.Members)+len(patch.Members))
		for _, m := range target.Members {
			change, changed := changes[m.Name]
			delete(changes, m.Name)
			if changed && change.Kind == Null {
				continue
			}
			if changed {
				m.Value = Merge(m.Value, change)
			}
			merged.Members = append(merged.Members, m)
		}
	}
	for _, m := range patch.Members {
		if change, isNew := changes[m.Name]; isNew && change.Kind != Null {
			m.Value = Merge(nil, change)
			merged.Members = append(merged.Members, m)
		}
	}
	return merged
}
