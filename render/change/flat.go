package change

import (
	"slices"
	"strconv"
	"strings"

	"hoistbook/kits/jsontree"
)

// A leaf is one thing that a manifest says, with the key by which it is found again in another one: entries of lists are told by
// what they are and not by where they stand.
type leaf struct {
	key     string
	label   string
	text    string
	pointer string
	entry   string // of a list: the key of the whole entry
	main    bool   // it is the one thing to say of an entry that is new or gone
}

// flatten lists what a value says. Names are its chain of keys, the first ones those of the subject.
func flatten(n *jsontree.Node, names []string) []leaf {
	return visit(n, leaf{}, names, names)
}

// visit lists what a node says: names lead to its words, way to its place; of the entry of a list, in has what is known of it.
func visit(n *jsontree.Node, in leaf, names, way []string) []leaf {
	var all []leaf
	switch {
	case n == nil:
	case n.Kind == jsontree.Object:
		for _, m := range n.Members {
			if !strings.HasPrefix(m.Name, "x-") && m.Name != "$schema" && !(in.entry != "" && slices.Contains(identities, m.Name)) {
				all = append(all, visit(m.Value, in, append(slices.Clip(names), m.Name), append(slices.Clip(way), m.Name))...)
			}
		}
	case n.Kind == jsontree.Array && len(n.Items) > 0 && n.Items[0].Kind == jsontree.Object:
		for i, item := range n.Items {
			id, called, words := entryOf(names[len(names)-1], item)
			inner := append(slices.Clip(names), id)
			entry := leaf{entry: strings.Join(inner, keyMark), label: called}
			if words != "" {
				inner = append(inner, words)
			}
			all = append(all, visit(item, entry, inner, append(slices.Clip(way), strconv.Itoa(i)))...)
		}
	default:
		last := names[len(names)-1]
		all = append(all, leaf{
			key: strings.Join(names, keyMark), label: labelled(in.label, label(names)), text: say(n), pointer: jsontree.Pointer(way...),
			entry: in.entry, main: slices.Contains(mains, last),
		})
	}
	return all
}

// keyMark parts the names of a key; no name has it.
const keyMark = "\x00"

// identities are keys by which an entry of a list is known: they are said in what it is called.
var identities = []string{"supplier", "order_code", "id"}

// mains are the keys that say the most of an entry.
var mains = []string{"price", "text", "hazard"}

func labelled(lead, text string) string {
	if lead == "" {
		return text
	}
	return lead + ": " + text
}

// entryOf says by what an entry of a list is known again, what it is called, and in which words its keys are told.
func entryOf(list string, n *jsontree.Node) (id, called, words string) {
	text := func(key string) string {
		if v := n.Get(key); v != nil {
			return v.Text
		}
		return ""
	}
	switch list {
	case "offers":
		id = strings.TrimSpace(text("supplier") + " " + text("order_code"))
		return id, "at " + id, ""
	case "assembly", "preflight", "recovery":
		return text("id"), list + " step " + text("id"), "step"
	case "cautions":
		return text("hazard"), "caution", "caution"
	}
	return string(n.JSON()), list, ""
}

// say is what a value says to a reader.
func say(n *jsontree.Node) string {
	switch n.Kind {
	case jsontree.String, jsontree.Number:
		return n.Text
	case jsontree.Bool:
		if n.Yes {
			return "yes"
		}
		return "no"
	case jsontree.Array:
		texts := make([]string, len(n.Items))
		for i, item := range n.Items {
			texts[i] = say(item)
		}
		return strings.Join(texts, ", ")
	}
	return string(n.JSON())
}
