package pdf

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"fmt"
	"strconv"
	"strings"
	"sync"

	"hoistbook/render/page"
)

// file is a PDF file as a list of objects: the page tree, the resources, the fonts, the pages and everything else.
type file struct {
	objects [][]byte // by number; 0 is not used
	first   int      // page
}

const (
	pageTree  = 1
	resources = 2
	firstFont = 3
)

// pageObject is the number of a page by its place in the document.
func (f *file) pageObject(i int) int { return f.first + i }

// file puts a document together.
func (p *press) file(doc *page.Document) []byte {
	f := &file{objects: make([][]byte, firstFont, 16*len(doc.Pages)+64)}
	f.objects = append(f.objects, p.fonts.objects...)
	f.objects[resources] = []byte("<</Font<<" + p.fonts.entries + ">>>>")
	f.first = len(f.objects)
	f.objects = append(f.objects, make([][]byte, len(doc.Pages))...)
	written := map[*[]byte]int{}
	content := func(stream *[]byte) string {
		if stream == nil {
			return ""
		}
		if written[stream] == 0 {
			written[stream] = f.addStream(*stream)
		}
		return ref(written[stream])
	}
	notes := f.annotations(doc)
	kids := make([]int, len(doc.Pages))
	for i := range doc.Pages {
		at := &doc.Pages[i]
		body := fmt.Sprintf("<</Type/Page/Parent %s/MediaBox[0 0 %s]/Resources %s/Contents[%s]",
			ref(pageTree), join(at.Paper.Width.Pt(), at.Paper.Height.Pt()), ref(resources),
			strings.TrimSpace(content(p.running[at])+" "+content(p.bodies[sheetOf(*at)])))
		if len(notes.of[i]) > 0 {
			// The order in which a reader steps through the fields: row by row.
			body += "/Annots[" + list(notes.of[i]) + "]/Tabs/R"
		}
		f.objects[f.pageObject(i)], kids[i] = []byte(body+">>"), f.pageObject(i)
	}
	f.objects[pageTree] = fmt.Appendf(nil, "<</Type/Pages/Kids[%s]/Count %d>>", list(kids), len(kids))
	catalogue := "<</Type/Catalog/Pages " + ref(pageTree) + "/ViewerPreferences<</DisplayDocTitle true>>/PageLabels<</Nums[0<</S/D>>]>>"
	if doc.Language != "" {
		catalogue += "/Lang" + text(doc.Language)
	}
	if root := f.outline(doc); root != 0 {
		catalogue += "/Outlines " + ref(root) + "/PageMode/UseOutlines"
	}
	if form := f.form(notes.fields); form != "" {
		catalogue += "/AcroForm" + form
	}
	if names := f.attachments(doc, p); names != "" {
		catalogue += "/Names<</EmbeddedFiles" + names + ">>"
	}
	catalogue += "/Metadata " + ref(f.metadata(doc)) + ">>"
	info := f.add(information(doc))
	return f.bytes(f.add(catalogue), info)
}

// add appends an object and gives its number.
func (f *file) add(body string) int {
	f.objects = append(f.objects, []byte(body))
	return len(f.objects) - 1
}

// addStream appends a stream object and gives its number.
func (f *file) addStream(stream []byte) int {
	f.objects = append(f.objects, stream)
	return len(f.objects) - 1
}

// compressors are lent out one at a time: each is a megabyte of tables, dear to set up for every stream. Their level: more would
// save a few per cent of pages and fonts for three times the time.
var compressors = sync.Pool{New: func() any {
	z, err := zlib.NewWriterLevel(nil, zlib.BestSpeed)
	if err != nil {
		panic(err) // the level is a constant
	}
	return z
}}

// packed is a stream object, compressed.
func packed(dict string, data []byte) []byte {
	var out bytes.Buffer
	zip := compressors.Get().(*zlib.Writer)
	defer compressors.Put(zip)
	zip.Reset(&out)
	zip.Write(data) // into memory: cannot fail
	zip.Close()
	return streamObject(dict+"/Filter/FlateDecode", out.Bytes())
}

// plain appends a stream object as it is.
func (f *file) plain(dict string, data []byte) int {
	return f.addStream(streamObject(dict, data))
}

func streamObject(dict string, data []byte) []byte {
	b := fmt.Appendf(make([]byte, 0, len(data)+len(dict)+64), "<<%s/Length %d>>\nstream\n", dict, len(data))
	return append(append(b, data...), "\nendstream"...)
}

// bytes writes the file. Its identifier is a hash of its content, so that equal content has equal bytes.
func (f *file) bytes(catalogue, info int) []byte {
	size := 1024
	for _, o := range f.objects {
		size += len(o) + 48
	}
	// The second line marks the file as binary (7.5.2).
	b := append(make([]byte, 0, size), "%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"...)
	offsets := make([]int, len(f.objects))
	for n, o := range f.objects[1:] {
		offsets[n+1] = len(b)
		b = append(strconv.AppendInt(b, int64(n+1), 10), " 0 obj\n"...)
		b = append(append(b, o...), "\nendobj\n"...)
	}
	id := sha256.Sum256(b)
	start := len(b)
	b = fmt.Appendf(b, "xref\n0 %d\n0000000000 65535 f \n", len(f.objects))
	for _, o := range offsets[1:] {
		b = fmt.Appendf(b, "%010d 00000 n \n", o)
	}
	return fmt.Appendf(b, "trailer\n<</Size %d/Root %s/Info %s/ID[<%x><%x>]>>\nstartxref\n%d\n%%%%EOF\n",
		len(f.objects), ref(catalogue), ref(info), id[:16], id[:16], start)
}

func list(numbers []int) string {
	var b []byte
	for i, n := range numbers {
		if i > 0 {
			b = append(b, ' ')
		}
		b = append(strconv.AppendInt(b, int64(n), 10), " 0 R"...)
	}
	return string(b)
}
