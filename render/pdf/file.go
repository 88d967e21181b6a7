package pdf

import (
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"sync"

	"hoistbook/render/page"
)

// file is a PDF file as a list of objects. It begins with those that fpdf made.
type file struct {
	objects [][]byte // by number; 0 is not used
}

// The numbers that fpdf gives, as long as it writes no attachment: 1 the page tree, 2 the resources, then page and content in turn.
const (
	pageTree  = 1
	resources = 2
)

func pageObject(i int) int    { return 3 + 2*i }
func contentObject(i int) int { return 4 + 2*i }

// open takes fpdf's file apart by its cross-reference table.
func open(b []byte, pages int) (*file, error) {
	at := bytes.LastIndex(b, []byte("startxref\n"))
	if at < 0 {
		return nil, errors.New("the drawn file has no cross-reference table")
	}
	start, _, _ := bytes.Cut(b[at+len("startxref\n"):], []byte("\n"))
	table, err := strconv.Atoi(string(start))
	if err != nil || table >= at {
		return nil, errors.New("the drawn file has a damaged cross-reference table")
	}
	var offsets []int
	for i, line := range bytes.Split(b[table:at], []byte("\n")) {
		// "xref", "0 n", the entry of object 0, then one line for each object.
		if i < 3 || len(line) < 18 || line[17] != 'n' {
			continue
		}
		offset, err := strconv.Atoi(string(line[:10]))
		if err != nil || offset >= table {
			return nil, errors.New("the drawn file has a damaged cross-reference table")
		}
		offsets = append(offsets, offset)
	}
	if len(offsets) < contentObject(pages-1) {
		return nil, errors.New("the drawn file lacks pages")
	}
	ends := append(slices.Clone(offsets), table)
	slices.Sort(ends)
	f := &file{objects: make([][]byte, 1, 2*len(offsets))}
	for i, from := range offsets {
		k, _ := slices.BinarySearch(ends, from)
		body, ok := bytes.CutPrefix(b[from:ends[k+1]], fmt.Appendf(nil, "%d 0 obj\n", i+1))
		body, ok2 := bytes.CutSuffix(body, []byte("\nendobj\n"))
		if !ok || !ok2 {
			return nil, fmt.Errorf("object %d of the drawn file is not where its table says", i+1)
		}
		f.objects = append(f.objects, body)
	}
	// fpdf's last two are the information and the catalogue, which are made anew.
	f.objects = f.objects[:len(f.objects)-2]
	for i := range pages {
		_, content, ok := bytes.Cut(f.objects[contentObject(i)], []byte("stream\n"))
		content, ok2 := bytes.CutSuffix(content, []byte("\nendstream"))
		if !ok || !ok2 {
			return nil, fmt.Errorf("page %d of the drawn file has no content", i+1)
		}
		f.objects[contentObject(i)] = packed("", content)
	}
	return f, nil
}

// add appends an object and gives its number.
func (f *file) add(body string) int {
	f.objects = append(f.objects, []byte(body))
	return len(f.objects) - 1
}

// stream appends a stream object, compressed; dict holds the entries beside length and filter.
func (f *file) stream(dict string, data []byte) int {
	f.objects = append(f.objects, packed(dict, data))
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
	f.objects = append(f.objects, streamObject(dict, data))
	return len(f.objects) - 1
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

// finish adds everything that fpdf does not know and writes the file.
func (f *file) finish(doc *page.Document, letters *typeCase) ([]byte, error) {
	fonts, err := f.fonts(letters)
	if err != nil {
		return nil, fmt.Errorf("pdf: %w", err)
	}
	f.objects[resources] = []byte("<</Font<<" + fonts + ">>>>")
	notes := f.annotations(doc)
	for i, p := range doc.Pages {
		body := fmt.Sprintf("<</Type/Page/Parent %s/MediaBox[0 0 %s]/Resources %s/Contents %s",
			ref(pageTree), join(p.Paper.Width.Pt(), p.Paper.Height.Pt()), ref(resources), ref(contentObject(i)))
		if len(notes.of[i]) > 0 {
			// The order in which a reader steps through the fields: row by row.
			body += "/Annots[" + list(notes.of[i]) + "]/Tabs/R"
		}
		f.objects[pageObject(i)] = []byte(body + ">>")
	}
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
	if names := f.attachments(doc); names != "" {
		catalogue += "/Names<</EmbeddedFiles" + names + ">>"
	}
	catalogue += "/Metadata " + ref(f.metadata(doc)) + ">>"
	info := f.add(information(doc))
	return f.bytes(f.add(catalogue), info), nil
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
