package jsontree

import (
	"encoding/json"

	"github.com/go-json-experiment/json/jsontext"
)

// JSON writes the tree as one line, keys in their order, numbers as they were written.
func (n *Node) JSON() []byte { return n.append(nil) }

func (n *Node) append(to []byte) []byte {
	switch n.Kind {
	case Bool:
		if n.Yes {
			return append(to, "true"...)
		}
		return append(to, "false"...)
	case Number:
		return append(to, n.Text...)
	case String:
		return quote(to, n.Text)
	case Array:
		to = append(to, '[')
		for i, item := range n.Items {
			if i > 0 {
				to = append(to, ',')
			}
			to = item.append(to)
		}
		return append(to, ']')
	case Object:
		to = append(to, '{')
		for i, m := range n.Members {
			if i > 0 {
				to = append(to, ',')
			}
			to = m.Value.append(append(quote(to, m.Name), ':'))
		}
		return append(to, '}')
	}
	return append(to, "null"...)
}

// quote cannot fail: the texts of a tree have been read as JSON, which refuses what is not UTF-8.
func quote(to []byte, text string) []byte {
	quoted, err := jsontext.AppendQuote(to, text)
	if err != nil {
		panic("jsontree: " + err.Error())
	}
	return quoted
}

// Canonical writes the canonical form of RFC 8785: the bytes over which digests are taken.
func (n *Node) Canonical() ([]byte, error) {
	text := jsontext.Value(n.JSON())
	err := text.Canonicalize()
	return text, err
}

// Any returns the tree as the values that encoding/json makes, with json.Number for numbers: what schema validators take.
func (n *Node) Any() any {
	switch n.Kind {
	case Bool:
		return n.Yes
	case Number:
		return json.Number(n.Text)
	case String:
		return n.Text
	case Array:
		items := make([]any, len(n.Items))
		for i, item := range n.Items {
			items[i] = item.Any()
		}
		return items
	case Object:
		members := make(map[string]any, len(n.Members))
		for _, m := range n.Members {
			members[m.Name] = m.Value.Any()
		}
		return members
	}
	return nil
}
