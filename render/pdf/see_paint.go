package pdf

import (
	"fmt"
	"hash"
	"io"
	"strconv"
)

// A painter follows the content of a page (ISO 32000-1, 7.8.2): texts are gathered, everything else goes into a hash.
type painter struct {
	*eye
	fonts  map[nameObject]*seenFont
	texts  []SeenText
	order  hash.Hash
	shapes hash.Hash

	font   *seenFont
	size   float64
	matrix [6]float64 // of the text line
}

// mostOperands bounds what stands before an operator.
const mostOperands = 4096

func (p *painter) paint(content []byte) error {
	in := parser{b: content}
	var operands []any
	for {
		in.skip()
		if in.at >= len(in.b) {
			return nil
		}
		if operand, ok, err := in.operand(); err != nil {
			return err
		} else if ok {
			if operands = append(operands, operand); len(operands) > mostOperands {
				return errSyntax
			}
			continue
		}
		operator := in.word()
		if operator == "" {
			return errSyntax
		}
		if err := p.do(operator, operands); err != nil {
			return err
		}
		operands = operands[:0]
	}
}

// operand reads an operand, if one comes next.
func (p *parser) operand() (o any, ok bool, err error) {
	switch c := p.b[p.at]; {
	case c == '/' || c == '(' || c == '<' || c == '[':
		o, err = p.object(0)
		return o, true, err
	case c == '+' || c == '-' || c == '.' || c >= '0' && c <= '9':
		word := p.word()
		if n, err := strconv.Atoi(word); err == nil {
			return n, true, nil
		}
		return wordObject(word), true, nil
	}
	return nil, false, nil
}

// do carries out an operator.
func (p *painter) do(operator string, operands []any) error {
	switch {
	case operator == "BT" || operator == "ET":
		p.matrix = [6]float64{1, 0, 0, 1, 0, 0}
	case operator == "Tm" && len(operands) == 6:
		for i, o := range operands {
			p.matrix[i], _ = numberOf(o)
		}
	case operator == "Tf" && len(operands) == 2:
		name, _ := operands[0].(nameObject)
		p.font = p.fonts[name]
		p.size, _ = numberOf(operands[1])
	case operator == "Tj" && len(operands) == 1 && p.font != nil:
		codes, _ := operands[0].(string)
		p.text(codes)
	default: // whatever the writer does not write to show text is a shape here, and differs
		for _, o := range operands {
			if err := p.fold(p.shapes, o, 0); err != nil {
				return err
			}
			if err := p.fold(p.order, o, 0); err != nil {
				return err
			}
		}
		io.WriteString(p.shapes, operator+"\n")
		io.WriteString(p.order, operator+"\n")
		return nil
	}
	return nil
}

// text notes a run of text. One that goes on in another font from the same place is joined to the one before.
func (p *painter) text(codes string) {
	io.WriteString(p.order, "text\n")
	text := p.font.read(p.seen.Letters, codes)
	m := p.matrix
	t := SeenText{X: m[4], Y: m[5], Text: text, Style: p.font.name + " " + strconv.FormatFloat(p.size, 'g', 6, 64)}
	if m[0] != 1 || m[1] != 0 || m[2] != 0 || m[3] != 1 {
		t.Style += fmt.Sprintf(" turned %g %g %g %g", m[0], m[1], m[2], m[3])
	}
	if n := len(p.texts); n > 0 && p.texts[n-1].X == t.X && p.texts[n-1].Y == t.Y {
		last := &p.texts[n-1]
		last.Text += t.Text
		last.Style += ", " + t.Style
		return
	}
	p.texts = append(p.texts, t)
}
