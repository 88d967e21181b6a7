package pdf

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"strconv"
)

// Seen is what a reader of a file sees, taken apart so that two files can be held against each other: the one that came in and the one
// that would be printed today. Whatever decides how a page looks is in it: texts with their places and the shapes of their
// letters, drawings, what lies on top of the pages, and what the file does beside showing them.
type Seen struct {
	Pages  []SeenPage
	Extras []string // what a printed book does not have: scripts, actions
	// Letters are hashes of the shapes and widths of the letters that are used, by font and character.
	Letters map[Letter]string
}

// A Letter is a character in a font, by the font's name without the tag of its part.
type Letter struct {
	Font string
	Text string
}

// SeenPage is one page.
type SeenPage struct {
	Texts  []SeenText
	Shapes string // a hash over everything that is drawn but text
	Order  string // the same with the order in which texts and shapes are painted
	Marks  []SeenMark
}

// SeenText is one run of text: its place in points from the lower left corner, its font, size and turn.
type SeenText struct {
	X, Y  float64
	Style string
	Text  string
}

// SeenMark is something that lies on top of a page: a form field, a link, a remark.
type SeenMark struct {
	Kind   string // "Widget", "Link", …
	Name   string // of a field
	Where  string
	To     string // of a link
	Filled bool   // somebody has filled the field in
}

// The bounds of what is seen.
const (
	mostPages    = 5000
	mostUnpacked = 512 << 20
)

// See reads a file that [Write] made, also after people have filled in its form and saved it as [Attachment] describes.
func See(b []byte) (*Seen, error) {
	seen, err := see(b)
	if err != nil {
		return nil, fmt.Errorf("pdf: the file %w", err)
	}
	return seen, nil
}

func see(b []byte) (*Seen, error) {
	r, err := openReader(b)
	if err != nil {
		return nil, err
	}
	catalogue, err := r.dictionary(r.root)
	if err != nil {
		return nil, err
	}
	e := eye{reader: r, seen: &Seen{Letters: map[Letter]string{}}, fonts: map[reference]*seenFont{}}
	e.extras(catalogue)
	if err := e.pages(catalogue["Pages"], dictionary{}, 0); err != nil {
		return nil, err
	}
	slices.Sort(e.seen.Extras)
	e.seen.Extras = slices.Compact(e.seen.Extras)
	return e.seen, nil
}

// openReader reads the tables of a file.
func openReader(b []byte) (*reader, error) {
	if len(b) > greatestFile {
		return nil, fmt.Errorf("has %d MB; at most %d MB are read", len(b)>>20, greatestFile>>20)
	}
	r := &reader{b: b, offsets: map[int]int{}}
	return r, r.tables()
}

// An eye looks at one file.
type eye struct {
	*reader
	seen     *Seen
	fonts    map[reference]*seenFont
	unpacked int
}

// extras notes what the catalogue makes a reader do.
func (e *eye) extras(catalogue dictionary) {
	for key, what := range map[nameObject]string{"OpenAction": "an action when it is opened", "AA": "actions of its own"} {
		if _, there := catalogue[key]; there {
			e.seen.Extras = append(e.seen.Extras, what)
		}
	}
	if names, err := e.dictionary(catalogue["Names"]); err == nil && names["JavaScript"] != nil {
		e.seen.Extras = append(e.seen.Extras, "a script")
	}
	if form, err := e.dictionary(catalogue["AcroForm"]); err == nil && form["XFA"] != nil {
		e.seen.Extras = append(e.seen.Extras, "a second form that is shown in place of its pages")
	}
}

// inherited are what a page takes from the nodes above it.
var inherited = []nameObject{"Resources", "MediaBox", "CropBox", "Rotate"}

// pages walks the tree of pages.
func (e *eye) pages(node any, above dictionary, depth int) error {
	d, err := e.dictionary(node)
	if err != nil {
		return err
	}
	if depth > deepest || len(e.seen.Pages) > mostPages {
		return errors.New("has too many pages")
	}
	own := dictionary{}
	for _, key := range inherited {
		if own[key] = above[key]; d[key] != nil {
			own[key] = d[key]
		}
	}
	kids, more := d["Kids"].(array)
	if !more {
		return e.page(d, own)
	}
	before := len(e.seen.Pages)
	for _, kid := range kids {
		if err := e.pages(kid, own, depth+1); err != nil {
			return err
		}
	}
	// Others go by this number, and show no page where it is wrong.
	if count, ok := numberOf(d["Count"]); !ok || count != float64(len(e.seen.Pages)-before) {
		return errors.New("does not say how many pages it has")
	}
	return nil
}

// aside are keys of a page that are seen in another way, or not at all.
var aside = []nameObject{"Type", "Parent", "Contents", "Annots", "Tabs", "Resources", "LastModified", "Metadata", "PieceInfo", "StructParents", "ID"}

func (e *eye) page(d, own dictionary) error {
	p := painter{eye: e, order: sha256.New(), shapes: sha256.New()}
	for key, value := range own {
		if value != nil {
			d[key] = value
		}
	}
	rest := dictionary{}
	for key, value := range d {
		if !slices.Contains(aside, key) {
			rest[key] = value
		}
	}
	if err := e.fold(p.shapes, rest, 0); err != nil {
		return err
	}
	resources, err := e.dictionary(d["Resources"])
	if err != nil {
		return err
	}
	others := dictionary{}
	for key, value := range resources {
		if key != "Font" && key != "ProcSet" {
			others[key] = value
		}
	}
	if err := e.fold(p.shapes, others, 0); err != nil {
		return err
	}
	if p.fonts, err = e.fontsOf(resources["Font"]); err != nil {
		return err
	}
	content, err := e.content(d["Contents"])
	if err != nil {
		return err
	}
	if err := p.paint(content); err != nil {
		return err
	}
	page := SeenPage{Texts: p.texts, Shapes: hexOf(p.shapes), Order: hexOf(p.order)}
	if page.Marks, err = e.marks(d["Annots"]); err != nil {
		return err
	}
	e.seen.Pages = append(e.seen.Pages, page)
	return nil
}

// content is the content of a page, its parts joined as readers do.
func (e *eye) content(o any) ([]byte, error) {
	if list, err := e.list(o); err == nil {
		var all []byte
		for _, part := range list {
			data, err := e.data(part)
			if err != nil {
				return nil, err
			}
			all = append(append(all, data...), '\n')
		}
		return all, nil
	}
	if o == nil {
		return nil, nil
	}
	return e.data(o)
}

// list is an array, or the one that a reference leads to.
func (e *eye) list(o any) (array, error) {
	o, err := e.resolve(o)
	if err != nil {
		return nil, err
	}
	a, ok := o.(array)
	if !ok {
		return nil, errSyntax
	}
	return a, nil
}

// resolve follows a reference.
func (e *eye) resolve(o any) (any, error) {
	n, ok := o.(reference)
	if !ok {
		return o, nil
	}
	p, err := e.seek(n)
	if err != nil {
		return nil, err
	}
	return p.object(0)
}

// data unpacks a stream.
func (e *eye) data(o any) ([]byte, error) {
	n, ok := o.(reference)
	if !ok {
		return nil, errSyntax
	}
	_, data, err := e.stream(n)
	return data, err
}

// stream is a stream's dictionary and what it holds, unpacked.
func (e *eye) stream(n reference) (dictionary, []byte, error) {
	p, err := e.seek(n)
	if err != nil {
		return nil, nil, err
	}
	o, err := p.object(0)
	if err != nil {
		return nil, nil, err
	}
	dict, ok := o.(dictionary)
	if !ok || !p.take("stream") {
		return nil, nil, errSyntax
	}
	if length, ok := dict["Length"].(reference); ok {
		if dict["Length"], err = e.resolve(length); err != nil {
			return nil, nil, err
		}
	}
	data, err := unpack(e.b[p.at:], dict)
	if e.unpacked += len(data); e.unpacked > mostUnpacked {
		return nil, nil, errTooLarge
	}
	return dict, data, err
}

// number reads an object as a number.
func numberOf(o any) (float64, bool) {
	switch n := o.(type) {
	case int:
		return float64(n), true
	case wordObject:
		f, err := strconv.ParseFloat(string(n), 64)
		return f, err == nil
	}
	return 0, false
}
