package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"unicode/utf16"
)

// The objects of a PDF file as far as attachments need them (ISO 32000-1, 7.3). A file may come from anybody: nesting is bounded, and
// nothing is believed that the bytes do not show.
type (
	nameObject string
	wordObject string // a number with a point, true, false, null
	reference  int
	dictionary map[nameObject]any
	array      []any
)

// deepest bounds how far arrays and dictionaries may nest.
const deepest = 32

var errSyntax = errors.New("is damaged: an object cannot be read")

// parser reads objects from the front of a file.
type parser struct {
	b  []byte
	at int
}

func (p *parser) skip() {
	for p.at < len(p.b) {
		switch c := p.b[p.at]; {
		case blank(c):
			p.at++
		case c == '%':
			for p.at < len(p.b) && p.b[p.at] != '\n' && p.b[p.at] != '\r' {
				p.at++
			}
		default:
			return
		}
	}
}

func blank(c byte) bool {
	return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f' || c == 0
}
func delimiter(c byte) bool { return bytes.IndexByte([]byte("()<>[]{}/%"), c) >= 0 }

// word takes what stands up to the next blank or delimiter.
func (p *parser) word() string {
	p.skip()
	from := p.at
	for p.at < len(p.b) && !blank(p.b[p.at]) && !delimiter(p.b[p.at]) {
		p.at++
	}
	return string(p.b[from:p.at])
}

// take consumes a mark if it comes next.
func (p *parser) take(mark string) bool {
	p.skip()
	if !bytes.HasPrefix(p.b[p.at:], []byte(mark)) {
		return false
	}
	p.at += len(mark)
	return true
}

func (p *parser) object(depth int) (any, error) {
	if depth > deepest {
		return nil, errors.New("nests its objects too deep")
	}
	switch {
	case p.take("<<"):
		return p.dictionary(depth)
	case p.take("["):
		var a array
		for !p.take("]") {
			o, err := p.object(depth + 1)
			if err != nil {
				return nil, err
			}
			a = append(a, o)
		}
		return a, nil
	case p.take("/"):
		return p.name()
	case p.take("("):
		return p.literal()
	case p.take("<"):
		return p.hexadecimal()
	}
	return p.number()
}

func (p *parser) dictionary(depth int) (any, error) {
	d := dictionary{}
	for !p.take(">>") {
		if !p.take("/") {
			return nil, errSyntax
		}
		key, err := p.name()
		if err != nil {
			return nil, err
		}
		if d[key], err = p.object(depth + 1); err != nil {
			return nil, err
		}
	}
	return d, nil
}

func (p *parser) name() (nameObject, error) {
	from := p.at
	for p.at < len(p.b) && !blank(p.b[p.at]) && !delimiter(p.b[p.at]) {
		p.at++
	}
	var out []byte
	for raw := p.b[from:p.at]; len(raw) > 0; {
		if raw[0] == '#' && len(raw) >= 3 {
			v, err := strconv.ParseUint(string(raw[1:3]), 16, 8)
			if err != nil {
				return "", errSyntax
			}
			out, raw = append(out, byte(v)), raw[3:]
			continue
		}
		out, raw = append(out, raw[0]), raw[1:]
	}
	return nameObject(out), nil
}

func (p *parser) literal() (string, error) {
	var out []byte
	for open := 1; p.at < len(p.b); {
		c := p.b[p.at]
		p.at++
		switch c {
		case '(':
			open++
		case ')':
			if open--; open == 0 {
				return textOf(out), nil
			}
		case '\\':
			if p.at == len(p.b) {
				return "", errSyntax
			}
			var goesOn bool
			if c, goesOn = p.escape(); goesOn {
				continue
			}
		}
		out = append(out, c)
	}
	return "", errSyntax
}

// escape reads what follows a backslash: a byte, or a line that goes on.
func (p *parser) escape() (c byte, goesOn bool) {
	c = p.b[p.at]
	p.at++
	if i := bytes.IndexByte([]byte("nrtbf"), c); i >= 0 {
		return "\n\r\t\b\f"[i], false
	}
	if c == '\n' || c == '\r' {
		return 0, true
	}
	if c < '0' || c > '7' {
		return c, false
	}
	v := int(c - '0')
	for n := 0; n < 2 && p.at < len(p.b) && p.b[p.at] >= '0' && p.b[p.at] <= '7'; n++ {
		v = v*8 + int(p.b[p.at]-'0')
		p.at++
	}
	return byte(v), false
}

func (p *parser) hexadecimal() (string, error) {
	var out []byte
	half := -1
	for p.at < len(p.b) {
		c := p.b[p.at]
		p.at++
		if c == '>' {
			if half >= 0 {
				out = append(out, byte(half<<4))
			}
			return textOf(out), nil
		}
		if blank(c) {
			continue
		}
		v, err := strconv.ParseUint(string(c), 16, 8)
		if err != nil {
			return "", errSyntax
		}
		if half < 0 {
			half = int(v)
		} else {
			out, half = append(out, byte(half<<4|int(v))), -1
		}
	}
	return "", errSyntax
}

// number reads a number, a reference or a word such as "true".
func (p *parser) number() (any, error) {
	w := p.word()
	if w == "" {
		return nil, errSyntax
	}
	n, err := strconv.Atoi(w)
	if err != nil {
		return wordObject(w), nil
	}
	back := p.at
	if generation := p.word(); generation == "0" && p.word() == "R" {
		return reference(n), nil
	}
	p.at = back
	return n, nil
}

// textOf decodes a text string: UTF-16 with its mark, else bytes.
func textOf(b []byte) string {
	if len(b) < 2 || b[0] != 0xfe || b[1] != 0xff {
		return string(b)
	}
	var units []uint16
	for i := 2; i+1 < len(b); i += 2 {
		units = append(units, uint16(b[i])<<8|uint16(b[i+1]))
	}
	return string(utf16.Decode(units))
}

// atObject reads the head of an indirect object, which must have the number that was asked for.
func (p *parser) atObject(n int) error {
	if p.word() != strconv.Itoa(n) || p.word() != "0" || p.word() != "obj" {
		return fmt.Errorf("is damaged: object %d is not where its table says", n)
	}
	return nil
}
