package pdf

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"hoistbook/render/internal/sample"
	"hoistbook/render/page"
)

// A form that somebody filled in and saved, with the changes appended behind the file, still gives its attachment.
func TestAttachmentAfterSaving(t *testing.T) {
	_, b := written(t, sampleOn(t, page.A4))
	for range 3 {
		b = appended(t, b)
	}
	if got, err := Attachment(b, "manifest.json"); err != nil || !bytes.Equal(got, sample.Manifest) {
		t.Errorf("got %q, %v", got, err)
	}
}

// appended saves a file with a changed object 3 behind it (ISO 32000-1, 7.5.6).
func appended(t *testing.T, b []byte) []byte {
	t.Helper()
	at := bytes.LastIndex(b, []byte("startxref\n")) + len("startxref\n")
	before, _, _ := bytes.Cut(b[at:], []byte("\n"))
	_, trailer, _ := bytes.Cut(b[bytes.LastIndex(b, []byte("trailer\n")):], []byte("<<"))
	trailer, _, _ = bytes.Cut(trailer, []byte("\nstartxref"))
	object := len(b)
	b = append(bytes.Clone(b), "3 0 obj\n<</Type/Page/Parent 1 0 R>>\nendobj\n"...)
	table := len(b)
	return fmt.Appendf(b, "xref\n0 1\n0000000000 65535 f \n3 1\n%010d 00000 n \ntrailer\n<</Prev %s%s\nstartxref\n%d\n%%%%EOF\n", object, before, trailer, table)
}

// qpdf writes the file anew with a plain table, indirect lengths and other forms of strings: still read. With compressed objects it
// is refused, in words.
func TestAttachmentAfterRewriting(t *testing.T) {
	file, _ := written(t, sampleOn(t, page.A4))
	plain := tool(t, "qpdf", "--object-streams=disable", "--qdf", file, "-")
	if got, err := Attachment(plain, "Überblick.txt"); err != nil || string(got) != "ok" {
		t.Errorf("got %q, %v", got, err)
	}
	packed := tool(t, "qpdf", "--object-streams=generate", file, "-")
	if got, err := Attachment(packed, "manifest.json"); err == nil || !strings.Contains(err.Error(), "another program") {
		t.Errorf("got %q, %v; want an error that says why", got, err)
	}
	locked := tool(t, "qpdf", "--encrypt", "a", "b", "256", "--", "--object-streams=disable", file, "-")
	if got, err := Attachment(locked, "manifest.json"); err == nil || !strings.Contains(err.Error(), "encrypted") {
		t.Errorf("got %q, %v; want an error that says why", got, err)
	}
}

// What is no file of ours is refused in words, quickly, whatever it says about itself.
func TestAttachmentRefuses(t *testing.T) {
	_, whole := written(t, sampleOn(t, page.A4))
	none, err := Bytes(&page.Document{Title: "t", Pages: []page.Page{{Paper: page.A4}}})
	if err != nil {
		t.Fatal(err)
	}
	made := func(objects ...string) []byte {
		f := newFile()
		for _, o := range objects {
			f.add(o)
		}
		return f.bytes(1, 1)
	}
	bomb := func() []byte {
		f := newFile()
		n := f.addStream(packed("", make([]byte, greatestAttachment+1)))
		return f.bytes(f.add(fmt.Sprintf("<</Names<</EmbeddedFiles<</Names[(a)<</EF<</F %s>>>>]>>>>>>", ref(n))), 1)
	}
	for _, c := range []struct {
		name string
		b    []byte
		want string
	}{
		{"nothing", nil, "not a PDF"},
		{"text", []byte("no file"), "not a PDF"},
		{"cut short", whole[:len(whole)/2], "cut short"},
		{"no attachments", none, "no attachments"},
		{"a table that is no table", []byte("%PDF-1.7\nstartxref\n2\n"), "plain cross-reference"},
		{"a table outside", []byte("%PDF-1.7\nstartxref\n99\n"), "not where it says"},
		{"tables in a circle", []byte("%PDF-1.7\nxref\ntrailer<</Prev 9>>\nstartxref\n9\n"), "too many"},
		{"endless table", []byte("%PDF-1.7\nxref\n0 999999999\nstartxref\n9\n"), "cannot be read"},
		{"a tree in a circle", made("<</Names<</EmbeddedFiles 2 0 R>>>>", "<</Kids[2 0 R 2 0 R 2 0 R 2 0 R]>>"), "too many"},
		{"nested too deep", made("<</Names " + strings.Repeat("[", 5000) + ">>"), "too deep"},
		{"length in a circle", made("<</Names<</EmbeddedFiles<</Names[(a)<</EF<</F 2 0 R>>>>]>>>>>>", "<</Length 2 0 R>>\nstream\n\nendstream"), "cut short"},
		{"a bomb", bomb(), "more than 16 MB"},
	} {
		got, err := Attachment(c.b, "a")
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %d bytes, %v; want an error with %q", c.name, len(got), err, c.want)
		}
	}
}

func newFile() *file { return &file{objects: make([][]byte, 1)} }

// No bytes make the reader panic or run away.
func FuzzAttachment(f *testing.F) {
	doc := &page.Document{Title: "t", Pages: []page.Page{{Paper: page.A4}}, Attachments: []page.Attachment{{Name: "a", Data: []byte("data")}}}
	b, err := Bytes(doc)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(b)
	f.Add(bytes.Replace(b, []byte("/Names["), []byte("/Kids["), 1))
	f.Add([]byte("%PDF-1.7\nxref\n0 1\n0000000000 65535 f \ntrailer<</Root<</Names<</EmbeddedFiles<</Names[(a)(b)]>>>>>>>>startxref 9"))
	f.Fuzz(func(t *testing.T, b []byte) {
		data, err := Attachment(b, "a")
		if err != nil && data != nil || len(data) > greatestAttachment {
			t.Errorf("got %d bytes and %v", len(data), err)
		}
	})
}
