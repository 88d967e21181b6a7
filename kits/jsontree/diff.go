package jsontree

import "slices"

// A Difference is a value that two trees do not share. Before is nil when the second tree has it alone, After when the first
// has. An object that only one of them has is one difference, and so is a list that is not the same in both.
type Difference struct {
	Pointer       string
	Before, After *Node
}

// Diff lists what differs between two trees, in the order of the first, what is new behind it. Values are compared as
// they are written: 1.0 and 1 differ, and so do "85 g" and "0.085 kg"; the order of keys makes no difference.
func Diff(before, after *Node) []Difference {
	var all []Difference
	diff(before, after, nil, &all)
	return all
}

func diff(before, after *Node, names []string, all *[]Difference) {
	if before == nil || after == nil || before.Kind != Object || after.Kind != Object {
		if !before.Same(after) {
			*all = append(*all, Difference{Pointer(names...), before, after})
		}
		return
	}
	for _, m := range before.Members {
		diff(m.Value, after.Get(m.Name), append(slices.Clip(names), m.Name), all)
	}
	for _, m := range after.Members {
		if before.Get(m.Name) == nil {
			diff(nil, m.Value, append(slices.Clip(names), m.Name), all)
		}
	}
}

// Same reports whether two trees say the same, wherever they stand and in whatever order their keys are.
func (n *Node) Same(other *Node) bool {
	switch {
	case n == nil || other == nil:
		return n == other
	case n == other:
		return true
	case n.Kind != other.Kind || n.Yes != other.Yes || n.Text != other.Text || len(n.Members) != len(other.Members):
		return false
	}
	for _, m := range n.Members {
		if !m.Value.Same(other.Get(m.Name)) {
			return false
		}
	}
	return slices.EqualFunc(n.Items, other.Items, (*Node).Same)
}

// Without is the object without some of its keys; the rest is shared.
func (n *Node) Without(names ...string) *Node {
	less := *n
	less.Members = slices.DeleteFunc(slices.Clone(n.Members), func(m Member) bool { return slices.Contains(names, m.Name) })
	return &less
}
