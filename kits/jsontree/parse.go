package jsontree

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"hoistbook/kits/diag"
)

// What a file may hold. They stop a hostile file long before it costs anything, and no honest one comes near them.
const (
	MaxBytes  = 1 << 20
	MaxDepth  = 64
	MaxValues = 100_000
	MaxNumber = 32     // characters of a number; its exponent has at most three digits
	MaxText   = 10_000 // bytes of one text or key
)

// Parse reads one JSON text. The name stands for the file in places. The error is diag.Problems: the first break of the
// grammar, or else every repeated key and every number out of range.
func Parse(name string, text []byte) (*Node, error) {
	var problems diag.Problems
	if len(text) > MaxBytes {
		problems.Add(diag.Place{File: name}, fmt.Sprintf("the file has %d bytes", len(text)), fmt.Sprintf("at most %d are read", MaxBytes))
		return nil, problems.Err()
	}
	p := parser{
		file: newFile(name, text), text: text,
		dec: jsontext.NewDecoder(bytes.NewBuffer(text), jsontext.AllowDuplicateNames(true)),
	}
	root, err := p.value(0)
	if err == nil {
		err = p.end()
	}
	if err != nil {
		p.problems.Add(p.file.place(err.at), err.what, err.fix)
	}
	if err := p.problems.Err(); err != nil {
		return nil, err
	}
	return root, nil
}

type parser struct {
	file     *file
	text     []byte
	dec      *jsontext.Decoder
	values   int
	problems diag.Problems

	// What has been read of the lists and objects that are still open: each takes its part when it closes.
	pending      []Member
	pendingItems []*Node
}

// A halt is a problem after which nothing more can be read.
type halt struct {
	at        int
	what, fix string
}

// next is the offset of the token that will be read next.
func (p *parser) next() int {
	at := int(p.dec.InputOffset())
	for at < len(p.text) && strings.IndexByte(" \t\r\n,:", p.text[at]) >= 0 {
		at++
	}
	return at
}

func (p *parser) value(depth int) (*Node, *halt) {
	at := p.next()
	if p.values++; p.values > MaxValues {
		return nil, &halt{at, fmt.Sprintf("the file has more than %d values", MaxValues), "split it"}
	}
	if depth > MaxDepth {
		return nil, &halt{at, fmt.Sprintf("values stand more than %d levels deep", MaxDepth), "make it flatter"}
	}
	token, err := p.dec.ReadToken()
	if err != nil {
		return nil, p.broken(err)
	}
	n := &Node{file: p.file, at: at}
	switch token.Kind() {
	case 't', 'f':
		n.Kind, n.Yes = Bool, token.Bool()
	case '"':
		n.Kind, n.Text = String, token.String()
		p.length(n.Text, n)
	case '0':
		n.Kind, n.Text = Number, token.String()
		p.number(n)
	case '[':
		n.Kind = Array
		return n, p.items(n, depth)
	case '{':
		n.Kind = Object
		return n, p.members(n, depth)
	}
	return n, nil
}

func (p *parser) items(n *Node, depth int) *halt {
	from := len(p.pendingItems)
	for p.dec.PeekKind() != ']' {
		item, err := p.value(depth + 1)
		if err != nil {
			return err
		}
		p.pendingItems = append(p.pendingItems, item)
	}
	n.Items = slices.Clone(p.pendingItems[from:])
	p.pendingItems = p.pendingItems[:from]
	return p.close()
}

func (p *parser) members(n *Node, depth int) *halt {
	from := len(p.pending)
	for p.dec.PeekKind() != '}' {
		at := p.next()
		token, err := p.dec.ReadToken()
		if err != nil {
			return p.broken(err)
		}
		m := Member{Name: token.String(), file: p.file, at: at}
		p.length(m.Name, m)
		var stop *halt
		if m.Value, stop = p.value(depth + 1); stop != nil {
			return stop
		}
		p.pending = append(p.pending, m)
	}
	n.Members = slices.Clone(p.pending[from:])
	p.pending = p.pending[:from]
	p.unique(n)
	return p.close()
}

func (p *parser) close() *halt {
	if _, err := p.dec.ReadToken(); err != nil {
		return p.broken(err)
	}
	return nil
}

// end refuses anything after the value.
func (p *parser) end() *halt {
	at := int(p.dec.InputOffset())
	at = len(p.text) - len(bytes.TrimLeft(p.text[at:], " \t\r\n"))
	if at < len(p.text) {
		return &halt{at, "something follows the end of the JSON value", "one file holds one value"}
	}
	return nil
}

// unique notes every key that stands twice in an object. A few keys are compared with each other faster than through a map.
func (p *parser) unique(n *Node) {
	const few = 12
	var first map[string]int
	if len(n.Members) > few {
		first = make(map[string]int, len(n.Members))
	}
	for i, m := range n.Members {
		earlier, again := first[m.Name]
		if first == nil {
			earlier = slices.IndexFunc(n.Members[:i], func(e Member) bool { return e.Name == m.Name })
			again = earlier >= 0
		} else if !again {
			first[m.Name] = i
		}
		if again {
			p.problems.Add(m.Place(), fmt.Sprintf("the key %q stands here again", m.Name),
				fmt.Sprintf("keep one of the two, the first is at %s", n.Members[earlier].Place()))
		}
	}
	n.index = first
}

// length notes a text that is too long to be one.
func (p *parser) length(text string, at placed) {
	if len(text) > MaxText {
		p.problems.Add(at.Place(), fmt.Sprintf("the text that begins %.20q has %d bytes", text, len(text)), fmt.Sprintf("write at most %d", MaxText))
	}
}

// number notes a number that is too long to handle safely or that no float64 can hold.
func (p *parser) number(n *Node) {
	_, exponent, _ := strings.Cut(strings.ToLower(n.Text), "e")
	value, err := strconv.ParseFloat(n.Text[:min(len(n.Text), MaxNumber)], 64)
	if len(n.Text) > MaxNumber || len(strings.TrimLeft(exponent, "+-")) > 3 || err != nil || math.IsInf(value, 0) {
		p.problems.Add(n.Place(), fmt.Sprintf("the number %.40s is out of range", n.Text),
			fmt.Sprintf("write at most %d characters and a value that a 64-bit float holds", MaxNumber))
	}
}

// broken says what is wrong with the grammar, in words for people who rarely write JSON.
func (p *parser) broken(err error) *halt {
	if len(bytes.TrimSpace(p.text)) == 0 {
		return &halt{0, "the file is empty", "write a JSON object"}
	}
	var syntax *jsontext.SyntacticError
	if !errors.As(err, &syntax) {
		return &halt{len(p.text), "the JSON text ends too early", "close every bracket, brace and quotation mark"}
	}
	at := min(int(syntax.ByteOffset), len(p.text))
	what := "not JSON: " + strings.TrimPrefix(syntax.Err.Error(), "jsontext: ")
	rest := bytes.TrimLeft(p.text[at:], " \t\r\n,:")
	switch {
	case bytes.HasPrefix(p.text, []byte("\xef\xbb\xbf")):
		return &halt{0, "the file starts with a byte order mark", "save it as plain UTF-8"}
	case bytes.HasPrefix(p.text, []byte("\xff\xfe")), bytes.HasPrefix(p.text, []byte("\xfe\xff")):
		return &halt{0, "the file is UTF-16", "save it as plain UTF-8"}
	case strings.Contains(what, "UTF-8"):
		return &halt{at, "these bytes are not UTF-8", "save the file as UTF-8"}
	case strings.Contains(what, "surrogate"):
		return &halt{at, "half of a surrogate pair stands here", "write the character itself"}
	case len(rest) == 0:
		return &halt{len(p.text), "the JSON text ends too early", "close every bracket, brace and quotation mark"}
	case bytes.HasPrefix(rest, []byte("//")), bytes.HasPrefix(rest, []byte("/*")), rest[0] == '#':
		return &halt{at, what, "JSON has no comments, a key that starts with \"x-\" may hold a note"}
	case rest[0] == '}' || rest[0] == ']':
		return &halt{at, what, "remove the comma before the closing bracket"}
	case rest[0] == '"':
		return &halt{at, what, "separate values with a comma"}
	case rest[0] == '\'':
		return &halt{at, what, "write texts in double quotation marks"}
	}
	return &halt{at, what, "write the value as JSON (RFC 8259)"}
}
