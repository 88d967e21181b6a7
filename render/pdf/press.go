package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"sync"

	"github.com/go-pdf/fpdf"

	"hoistbook/render/page"
)

// sheet is a page's content by what it was drawn from: two pages that hold the same items on the same paper have one.
type sheet struct {
	first  *page.Item
	count  int
	height page.MM
}

func sheetOf(p page.Page) sheet {
	s := sheet{count: len(p.Items), height: p.Paper.Height}
	if s.count > 0 {
		s.first = &p.Items[0]
	}
	return s
}

// attached is an attachment by its bytes, which the documents share.
type attached struct {
	first *byte
	count int
	dict  string
}

// press holds what documents that are written together have in common, ready for a file.
type press struct {
	bodies  map[sheet]*[]byte
	running map[*page.Page]*[]byte
	fonts   fonts

	lock     sync.Mutex
	attached map[attached]*packing
}

// slot is where a packed content goes, and what stands around it.
type slot struct {
	stream     *[]byte
	open, shut string
}

// packing is an attachment that is packed by who needs it first.
type packing struct {
	sync.Once
	stream []byte
}

// draw draws all pages, one document after the other, as letters get their codes in the order of their first use. The contents of one
// document are packed while the next is drawn. What running lines set is put back behind them: the body begins as a page does.
func draw(docs []*page.Document) (*press, error) {
	p := &press{bodies: map[sheet]*[]byte{}, running: map[*page.Page]*[]byte{}, attached: map[attached]*packing{}}
	var packs sync.WaitGroup
	defer packs.Wait()
	letters := newTypeCase(docs[0].Fonts)
	for _, doc := range docs {
		if doc.Fonts != letters.fonts {
			return nil, errors.New("documents that are written together need the same fonts")
		}
		var into []slot // where the contents go, in their order
		f := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: size(doc.Pages[0].Paper)})
		f.SetCompression(false) // it sets up a new compressor for every page
		f.SetAutoPageBreak(false, 0)
		f.SetMargins(0, 0, 0)
		content := func(paper page.Paper, items []page.Item, open, shut string) *[]byte {
			f.AddPageFormat("P", size(paper))
			f.RawWriteStr(begun)
			c := canvas{f: f, fonts: letters, height: paper.Height}
			for _, it := range items {
				c.item(it)
			}
			into = append(into, slot{new([]byte), open, shut})
			return into[len(into)-1].stream
		}
		for i := range doc.Pages {
			at := &doc.Pages[i]
			if len(at.Running) > 0 {
				p.running[at] = content(at.Paper, at.Running, "q\n", "\nQ")
			}
			if key := sheetOf(*at); p.bodies[key] == nil {
				p.bodies[key] = content(at.Paper, at.Items, "", "")
			}
		}
		if len(into) == 0 {
			continue
		}
		contents, err := contentsOf(f, len(into))
		if err != nil {
			return nil, err
		}
		packs.Go(func() {
			for i, c := range contents {
				s := into[i]
				if s.open != "" {
					c = slices.Concat([]byte(s.open), c, []byte(s.shut))
				}
				*s.stream = packed("", c)
			}
		})
	}
	var err error
	p.fonts, err = cast(letters)
	return p, err
}

// attachment is the stream of an embedded file.
func (p *press) attachment(dict string, data []byte) []byte {
	if len(data) == 0 {
		return packed(dict, data)
	}
	key := attached{&data[0], len(data), dict}
	p.lock.Lock()
	one := p.attached[key]
	if one == nil {
		one = &packing{}
		p.attached[key] = one
	}
	p.lock.Unlock()
	one.Do(func() { one.stream = packed(dict, data) })
	return one.stream
}

func size(p page.Paper) fpdf.SizeType {
	return fpdf.SizeType{Wd: float64(p.Width), Ht: float64(p.Height)}
}

// begun is a comment that parts what a page's own things draw from what fpdf writes before them: the pen of the page before, which a
// canvas does not count on.
const begun = "% begun"

// contentsOf takes the contents of the pages out of what fpdf writes. It numbers its objects, as long as it writes no attachment: 1 the
// page tree, 2 the resources, then page and content in turn.
func contentsOf(f *fpdf.Fpdf, pages int) ([][]byte, error) {
	var rest kept
	if err := f.Output(&rest); err != nil {
		return nil, err
	}
	contents := make([][]byte, pages)
	for i := range contents {
		_, object, found := bytes.Cut(rest, fmt.Appendf(nil, "\n%d 0 obj\n<</Length ", 4+2*i))
		length, stream, found2 := bytes.Cut(object, []byte(">>\nstream\n"))
		n, err := strconv.Atoi(string(length))
		if !found || !found2 || err != nil || n < 0 || n > len(stream) || !bytes.HasPrefix(stream[n:], []byte("\nendstream\n")) {
			return nil, fmt.Errorf("the drawn file has no content of page %d where it should be", i+1)
		}
		_, contents[i], found = bytes.Cut(stream[:n:n], []byte(begun+"\n"))
		if !found {
			return nil, fmt.Errorf("the content of page %d of the drawn file does not begin as it should", i+1)
		}
		rest = stream[n:]
	}
	return contents, nil
}

// kept keeps what is written last without a copy: fpdf writes its whole file at once, and is not asked again.
type kept []byte

func (k *kept) Write(b []byte) (int, error) {
	*k = b
	return len(b), nil
}
