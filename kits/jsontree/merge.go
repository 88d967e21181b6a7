package jsontree

import "slices"

// Merge applies a merge patch (RFC 7396): objects merge key by key, null removes a key, anything else replaces. Every value
// and its key keep the place where they were written, so a problem in a patched value points into the patch. Order is the
// target's, new keys last.
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
	changes := make(map[string]Member, len(patch.Members))
	for _, m := range patch.Members {
		changes[m.Name] = m
	}
	if target != nil {
		merged.Members = make([]Member, 0, len(target.Members)+len(patch.Members))
		for _, m := range target.Members {
			change, changed := changes[m.Name]
			delete(changes, m.Name)
			switch {
			case changed && change.Value.Kind == Null:
				continue
			case changed && change.Value.Kind == Object && m.Value.Kind == Object:
				m.Value = Merge(m.Value, change.Value)
			case changed:
				m = Member{m.Name, Merge(nil, change.Value), change.file, change.at}
			}
			merged.Members = append(merged.Members, m)
		}
	}
	for _, m := range patch.Members {
		if change, isNew := changes[m.Name]; isNew && change.Value.Kind != Null {
			m.Value = Merge(nil, change.Value)
			merged.Members = append(merged.Members, m)
		}
	}
	return merged
}

// With is the tree with another text in the place of the text or number at a pointer; the rest is shared. A pointer that
// leads to no text and no number changes nothing.
func (n *Node) With(pointer, text string) *Node {
	names, ok := SplitPointer(pointer)
	if !ok {
		return n
	}
	return n.with(names, text)
}

func (n *Node) with(names []string, text string) *Node {
	changed := *n
	switch {
	case len(names) == 0 && (n.Kind == String || n.Kind == Number):
		changed.Text = text
	case len(names) > 0 && n.Kind == Object:
		changed.Members = slices.Clone(n.Members)
		for i, m := range n.Members {
			if m.Name == names[0] {
				changed.Members[i].Value = m.Value.with(names[1:], text)
			}
		}
	case len(names) > 0 && n.Kind == Array:
		if item := n.child(names[0]); item != nil {
			changed.Items = slices.Clone(n.Items)
			changed.Items[slices.Index(n.Items, item)] = item.with(names[1:], text)
		}
	default:
		return n
	}
	return &changed
}
