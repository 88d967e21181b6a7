package pdf

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"strconv"
)

// The bounds of what is read: a hostile file shall cost neither time nor memory.
const (
	greatestFile       = 256 << 20
	greatestAttachment = 16 << 20
	mostSections       = 64      // of the cross-reference table: one for each time the file was saved
	mostObjects        = 1 << 20 // in all tables together
	mostNames          = 1 << 10 // nodes and leaves of the tree of attachments
)

// Is reports whether the bytes begin as a PDF file does.
func Is(b []byte) bool { return bytes.HasPrefix(b, []byte("%PDF-")) }

// Attachment takes a file by its name out of a PDF file that [Write] made. It also reads such a file after people have filled in its
// form and saved it, if their program appended its changes, as is usual; a file that was written anew in another form
// of PDF (compressed object streams, encryption) is refused with an error that says so.
func Attachment(b []byte, name string) ([]byte, error) {
	data, err := attachment(b, name)
	if err != nil {
		return nil, fmt.Errorf("pdf: the file %w", err)
	}
	return data, nil
}

func attachment(b []byte, name string) ([]byte, error) {
	r, err := openReader(b)
	if err != nil {
		return nil, err
	}
	catalogue, err := r.dictionary(r.root)
	if err != nil {
		return nil, err
	}
	names, err := r.dictionary(catalogue["Names"])
	if err != nil {
		return nil, errNone
	}
	tree, err := r.dictionary(names["EmbeddedFiles"])
	if err != nil {
		return nil, errNone
	}
	found := map[string]any{}
	if err := r.names(tree, found, 0); err != nil {
		return nil, err
	}
	if spec, ok := found[name]; ok {
		return r.embedded(spec)
	}
	return nil, fmt.Errorf("has no attachment %q; it has %d others", name, len(found))
}

var errNone = errors.New("has no attachments: it was not written by this program, or its attachments were taken out")

// reader finds objects by the cross-reference tables.
type reader struct {
	b       []byte
	offsets map[int]int
	root    any
	entries int // of the tables read so far
	named   int // nodes and leaves of the tree of attachments seen so far
}

// tables reads the cross-reference tables from the newest to the oldest; the newest place of an object counts.
func (r *reader) tables() error {
	if !Is(r.b) {
		return errors.New("is not a PDF file")
	}
	at := bytes.LastIndex(r.b, []byte("startxref"))
	if at < 0 {
		return errors.New("is cut short: it has no cross-reference table")
	}
	p := parser{b: r.b, at: at + len("startxref")}
	next, err := strconv.Atoi(p.word())
	for range mostSections {
		if err != nil || next < 0 || next >= len(r.b) {
			return errors.New("is damaged: its cross-reference table is not where it says")
		}
		trailer, fault := r.table(next)
		if fault != nil {
			return fault
		}
		if r.root == nil {
			r.root = trailer["Root"]
		}
		if _, locked := trailer["Encrypt"]; locked {
			return errors.New("is encrypted")
		}
		before, more := trailer["Prev"].(int)
		if !more {
			return nil
		}
		next = before
	}
	return errors.New("has too many cross-reference tables")
}

// table reads one table and the trailer behind it.
func (r *reader) table(at int) (dictionary, error) {
	p := parser{b: r.b, at: at}
	if p.word() != "xref" {
		return nil, errors.New("was saved by another program in a form without a plain cross-reference table; use the file as it was written")
	}
	for !p.take("trailer") {
		first, err := strconv.Atoi(p.word())
		count, err2 := strconv.Atoi(p.word())
		if err != nil || err2 != nil || first < 0 || count < 0 || first > mostObjects || count > mostObjects {
			return nil, errors.New("is damaged: its cross-reference table cannot be read")
		}
		if r.entries += count; r.entries > mostObjects {
			return nil, errors.New("has too many objects")
		}
		for n := first; n < first+count; n++ {
			offset, err := strconv.Atoi(p.word())
			p.word()
			kind := p.word()
			if err != nil || kind != "n" && kind != "f" || offset < 0 {
				return nil, errors.New("is damaged: its cross-reference table cannot be read")
			}
			if _, newer := r.offsets[n]; !newer {
				if kind == "f" {
					offset = 0
				}
				r.offsets[n] = offset
			}
		}
	}
	o, err := p.object(0)
	if err != nil {
		return nil, err
	}
	trailer, ok := o.(dictionary)
	if !ok {
		return nil, errors.New("is damaged: it has no trailer")
	}
	return trailer, nil
}

// seek is a parser behind the head of an indirect object.
func (r *reader) seek(n reference) (parser, error) {
	offset := r.offsets[int(n)]
	if offset <= 0 || offset >= len(r.b) {
		return parser{}, fmt.Errorf("is damaged: object %d is missing", n)
	}
	p := parser{b: r.b, at: offset}
	return p, p.atObject(int(n))
}

// dictionary is a dictionary, or the one that a reference leads to.
func (r *reader) dictionary(o any) (dictionary, error) {
	if n, ok := o.(reference); ok {
		p, err := r.seek(n)
		if err != nil {
			return nil, err
		}
		if o, err = p.object(0); err != nil {
			return nil, err
		}
	}
	d, ok := o.(dictionary)
	if !ok {
		return nil, errSyntax
	}
	return d, nil
}

// names gathers the leaves of a name tree (ISO 32000-1, 7.9.6).
func (r *reader) names(node dictionary, found map[string]any, depth int) error {
	pairs, _ := node["Names"].(array)
	kids, _ := node["Kids"].(array)
	r.named += 1 + len(pairs)/2
	if depth > deepest || r.named > mostNames {
		return errors.New("has too many attachments")
	}
	for i := 0; i+1 < len(pairs); i += 2 {
		if name, ok := pairs[i].(string); ok {
			found[name] = pairs[i+1]
		}
	}
	for _, kid := range kids {
		d, err := r.dictionary(kid)
		if err != nil {
			return err
		}
		if err := r.names(d, found, depth+1); err != nil {
			return err
		}
	}
	return nil
}

// embedded unpacks the file that a file specification holds.
func (r *reader) embedded(o any) ([]byte, error) {
	spec, err := r.dictionary(o)
	if err != nil {
		return nil, err
	}
	files, err := r.dictionary(spec["EF"])
	if err != nil {
		return nil, err
	}
	n, ok := files["F"].(reference)
	if !ok {
		return nil, errors.New("is damaged: an attachment has no content")
	}
	p, err := r.seek(n)
	if err != nil {
		return nil, err
	}
	o, err = p.object(0)
	if err != nil {
		return nil, err
	}
	dict, ok := o.(dictionary)
	if !ok || !p.take("stream") {
		return nil, errors.New("is damaged: an attachment has no content")
	}
	if n, ok := dict["Length"].(reference); ok {
		at, err := r.seek(n)
		if err != nil {
			return nil, err
		}
		if dict["Length"], err = at.object(0); err != nil {
			return nil, err
		}
	}
	return unpack(r.b[p.at:], dict)
}

// unpack reads a stream's bytes, which begin behind the end of a line.
func unpack(b []byte, dict dictionary) ([]byte, error) {
	b = bytes.TrimPrefix(b, []byte("\r"))
	b = bytes.TrimPrefix(b, []byte("\n"))
	length, ok := dict["Length"].(int)
	if !ok || length < 0 || length > len(b) {
		return nil, errors.New("is damaged: an attachment is cut short")
	}
	b = b[:length]
	switch filter := dict["Filter"].(type) {
	case nil:
		if len(b) > greatestAttachment {
			return nil, errTooLarge
		}
		return bytes.Clone(b), nil
	case nameObject:
		if filter == "FlateDecode" {
			return inflate(b)
		}
	}
	return nil, errors.New("was saved by another program: an attachment is packed in an unknown way")
}

var errTooLarge = fmt.Errorf("has an attachment of more than %d MB", greatestAttachment>>20)

func inflate(b []byte) ([]byte, error) {
	z, err := zlib.NewReader(bytes.NewReader(b))
	if err != nil {
		return nil, fmt.Errorf("is damaged: %w", err)
	}
	defer z.Close()
	data, err := io.ReadAll(io.LimitReader(z, greatestAttachment+1))
	switch {
	case err != nil:
		return nil, fmt.Errorf("is damaged: %w", err)
	case len(data) > greatestAttachment:
		return nil, errTooLarge
	}
	return data, nil
}
