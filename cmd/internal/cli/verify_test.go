package cli

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"hoistbook/cmd/internal/truth"
)

// run runs a command line and returns its exit status and what it printed.
func run(t testing.TB, args ...string) (status int, out, errs string) {
	t.Helper()
	var o, e bytes.Buffer
	status = Run(args, Streams{In: strings.NewReader(""), Out: &o, Err: &e})
	return status, o.String(), e.String()
}

// printed prints the books of a kit and returns the file of one document.
func printedBook(t testing.TB, document string, args ...string) []byte {
	t.Helper()
	dir := t.TempDir()
	if status, _, errs := run(t, append([]string{"book", "-o", dir}, args...)...); status == Unusable {
		t.Fatal(errs)
	}
	b, err := os.ReadFile(filepath.Join(dir, document+".pdf"))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// verified verifies a file.
func verified(t testing.TB, b []byte, args ...string) (int, truth.Verification) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "book.pdf")
	if err := os.WriteFile(path, b, 0o600); err != nil {
		t.Fatal(err)
	}
	status, out, errs := run(t, append([]string{"verify", path, "--json"}, args...)...)
	var v truth.Verification
	if status != Unusable {
		if err := json.Unmarshal([]byte(out), &v); err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
	} else {
		v.Wrong = []string{errs}
	}
	return status, v
}

// A forger knows the format of the file and appends changed objects, as editors do (ISO 32000-1, 7.5.6).
type forger struct {
	t testing.TB
	b []byte
}

var (
	startxref = regexp.MustCompile(`startxref\n(\d+)\n`)
	trailer   = regexp.MustCompile(`/Size (\d+)/Root (\d+) 0 R/Info (\d+) 0 R`)
	contents  = regexp.MustCompile(`/Type/Page/Parent.*?/Contents\[(?:\d+ 0 R )?(\d+) 0 R\]`)
)

// object returns the body of an object.
func (f *forger) object(n int) []byte {
	head := fmt.Appendf(nil, "\n%d 0 obj\n", n)
	from := bytes.LastIndex(f.b, head) + len(head)
	to := bytes.Index(f.b[from:], []byte("\nendobj"))
	if from < len(head) || to < 0 {
		f.t.Fatalf("there is no object %d", n)
	}
	return f.b[from : from+to]
}

// stream returns what a stream object holds.
func (f *forger) stream(n int) string {
	_, data, ok := bytes.Cut(f.object(n), []byte("stream\n"))
	z, err := zlib.NewReader(bytes.NewReader(data))
	if !ok || err != nil {
		f.t.Fatalf("object %d holds nothing: %v", n, err)
	}
	text, err := io.ReadAll(z)
	if err != nil {
		f.t.Fatal(err)
	}
	return string(text)
}

// change puts another body in the place of an object.
func (f *forger) change(n int, body string) {
	last := startxref.FindAllSubmatch(f.b, -1)
	size := trailer.FindSubmatch(f.b)
	if len(last) == 0 || size == nil {
		f.t.Fatal("the file has no tables")
	}
	at := len(f.b)
	f.b = fmt.Appendf(f.b, "%d 0 obj\n%s\nendobj\n", n, body)
	table := len(f.b)
	f.b = fmt.Appendf(f.b, "xref\n%d 1\n%010d 00000 n \ntrailer\n<</Size %s/Root %s 0 R/Info %s 0 R/Prev %s>>\nstartxref\n%d\n%%%%EOF\n",
		n, at, size[1], size[2], size[3], last[len(last)-1][1], table)
}

func (f *forger) write(n int, dict, data string) {
	f.change(n, fmt.Sprintf("<<%s/Length %d>>\nstream\n%s\nendstream", dict, len(data), data))
}

func (f *forger) find(pattern *regexp.Regexp, nth int) int {
	all := pattern.FindAllSubmatch(f.b, -1)
	if nth >= len(all) {
		f.t.Fatalf("%s is there %d times", pattern, len(all))
	}
	n, err := strconv.Atoi(string(all[nth][1]))
	if err != nil {
		f.t.Fatal(err)
	}
	return n
}

func attachmentOf(name string) *regexp.Regexp {
	return regexp.MustCompile(`/F\(` + regexp.QuoteMeta(name) + `\)/UF\([^)]*\)/EF<</F (\d+) 0 R`)
}

// replace changes a text in an attachment.
func (f *forger) replace(name, from, to string) {
	n := f.find(attachmentOf(name), 0)
	text := f.stream(n)
	if !strings.Contains(text, from) {
		f.t.Fatalf("%s does not say %q", name, from)
	}
	f.write(n, "/Type/EmbeddedFile", strings.Replace(text, from, to, 1))
}

// page changes the content of a page.
func (f *forger) page(nth int, change func(string) string) {
	n := f.find(contents, nth)
	old := f.stream(n)
	text := change(old)
	if text == old {
		f.t.Fatal("nothing was changed")
	}
	f.write(n, "", text)
}

// codes is the beginning of a run of text with two letters or more.
var codes = regexp.MustCompile(`(?s)Tf \((\x00[^()\\])(\x00[^()\\])`)

func TestABookTellsTheTruth(t *testing.T) {
	for _, args := range [][]string{{"demo:fen-relay"}, {"demo:ridge-sphere", "--units", "us", "--paper", "letter"}, {"demo:marsh-data", "--lang", "de", "--date", "2031-05-04"}} {
		for _, document := range []string{"book", "preflight"} {
			status, v := verified(t, printedBook(t, document, args...))
			if status != Done || !v.True || v.Compared < 3 || v.Document != document || v.Today != "GO" || v.Printed != "GO" {
				t.Errorf("%q, %s: status %d, %+v", args, document, status, v)
			}
		}
	}
}

func TestTheSameBookAgainHasTheSameBytes(t *testing.T) {
	if !bytes.Equal(printedBook(t, "book"), printedBook(t, "book")) {
		t.Error("the same kit is printed in other bytes")
	}
}

// Whatever is changed in a file is told, in words that name it.
func TestTamperedBooks(t *testing.T) {
	book := printedBook(t, "preflight")
	for name, c := range map[string]struct {
		forge func(f *forger)
		want  string // in what is wrong, or in the differences
	}{
		"a word of a page": {func(f *forger) {
			f.page(0, func(s string) string { return codes.ReplaceAllString(s, "Tf (${2}${1}") })
		}, "and today it would be"},
		"a rectangle over a page": {func(f *forger) {
			f.page(1, func(s string) string { return s + "\n1 1 1 rg 50 50 300 300 re f" })
		}, "page 2: lines and shapes are drawn otherwise"},
		"white ink": {func(f *forger) {
			f.page(1, func(s string) string { return "1 1 1 rg\n" + s })
		}, "page 2: lines and shapes"},
		"a text that moved": {func(f *forger) {
			f.page(1, func(s string) string { return regexp.MustCompile(`(\d+)(\.\d+)? Tm`).ReplaceAllString(s, "9${1} Tm") })
		}, "stand elsewhere"},
		"a page that is empty": {func(f *forger) { f.page(1, func(string) string { return " " }) }, "page 2 does not say"},
		"a page less": {func(f *forger) {
			n := 1
			less := regexp.MustCompile(`/Kids ?\[\d+ 0 R `).ReplaceAllString(string(f.object(n)), "/Kids [")
			f.change(n, regexp.MustCompile(`/Count \d+`).ReplaceAllString(less, fmt.Sprintf("/Count %d", strings.Count(less, " 0 R"))))
		}, "pages, and today there would be"},
		"a page less than it says": {func(f *forger) {
			n := 1
			f.change(n, regexp.MustCompile(`/Kids ?\[\d+ 0 R `).ReplaceAllString(string(f.object(n)), "/Kids ["))
		}, "how many pages it has"},
		"a remark over a number": {func(f *forger) {
			n := f.find(regexp.MustCompile(`(?:^|\n)(\d+) 0 obj\n<</Type/Page/Parent`), 0)
			f.change(n, strings.Replace(string(f.object(n)), "/Annots[", "/Annots[<</Type/Annot/Subtype/FreeText/Rect[50 50 200 90]/Contents(3.7 kg)>> ", 1))
		}, "were not printed there (FreeText)"},
		"a script": {func(f *forger) {
			n := f.find(regexp.MustCompile(`/Root (\d+) 0 R`), 0)
			f.change(n, strings.Replace(string(f.object(n)), "<<", "<</OpenAction<</S/JavaScript/JS(1)>>", 1))
		}, "the file carries an action when it is opened"},
		"letters that look like others": {func(f *forger) {
			n := f.find(regexp.MustCompile(`/FontFile2 (\d+) 0 R`), 0)
			f.write(n, "", swapGlyphs(f.stream(n)))
		}, "letters do not look like what they are"},
		"a font that readers cannot open": {func(f *forger) {
			n := f.find(regexp.MustCompile(`/DescendantFonts\[(\d+) 0 R`), 0)
			f.change(n, strings.Replace(string(f.object(n)), "/CIDSystemInfo", "/CIDSystmInfo", 1))
		}, "letters do not look like what they are"},
		"an em of another size": {func(f *forger) {
			n := f.find(regexp.MustCompile(`/FontFile2 (\d+) 0 R`), 0)
			f.write(n, "", widerEm(f.stream(n)))
		}, "letters do not look like what they are"},
		"a map of letters that lies": {func(f *forger) {
			n := f.find(regexp.MustCompile(`/ToUnicode (\d+) 0 R`), 0)
			text := f.stream(n)
			text = strings.Replace(strings.Replace(strings.Replace(text, "><0033>", "><x>", 1), "><0037>", "><0033>", 1), "><x>", "><0037>", 1)
			f.write(n, "", text)
		}, "letters do not look like what they are"},
		"the manifest": {func(f *forger) { f.replace("manifest.json", `"298 g"`, `"198 g"`) }, `/parts/BAT1/mass: the files say "298 g", and the manifest inside says "198 g"`},
		"the source":   {func(f *forger) { f.replace("source-1-demo:fen-relay", `"298 g"`, `"198 g"`) }, "is not the one that it was printed from"},
		"the report":   {func(f *forger) { f.replace("report.json", `"lift.neck_needed_kg":3.`, `"lift.neck_needed_kg":2.`) }, "lift.neck_needed_kg"},
		"the verdict":  {func(f *forger) { f.replace("report.json", `"outcome":"met"`, `"outcome":"not met"`) }, "not met"},
		"the record":   {func(f *forger) { f.replace("record.json", `"paper":"a4"`, `"paper":"letter"`) }, "nothing is printed there today"},
		"no record":    {func(f *forger) { f.write(f.find(attachmentOf("record.json"), 0), "/Type/EmbeddedFile", "{}") }, "the record of how it was printed cannot be read"},
		"a strange document": {func(f *forger) { f.replace("record.json", `"document":"preflight"`, `"document":"prefligth"`) },
			`this program prints no document "prefligth"`},
		"a manifest that is none": {func(f *forger) { f.replace("source-1-demo:fen-relay", `"parts"`, `"ports"`) }, "the manifest inside cannot be used"},
		"both of manifest and source": {func(f *forger) {
			f.replace("manifest.json", `"298 g"`, `"198 g"`)
			f.replace("source-1-demo:fen-relay", `"298 g"`, `"198 g"`)
		}, "is not the one that it was printed from"},
	} {
		f := &forger{t, bytes.Clone(book)}
		c.forge(f)
		status, v := verified(t, f.b)
		told := strings.Join(v.Wrong, "\n") + "\n" + v.Why
		for _, d := range v.Pages {
			told += "\n" + d.String()
		}
		for _, d := range v.Facts {
			told += "\n" + d.ID
		}
		for _, d := range v.Findings {
			told += "\n" + d.Printed + d.Today
		}
		if status != NoGo || v.True || !strings.Contains(told, c.want) {
			t.Errorf("%s: status %d, true %v, %.600s\nwant %q", name, status, v.True, told, c.want)
		}
	}
}

// widerEm doubles the size of a font's em, so that its letters shrink in their places.
func widerEm(font string) string {
	b := []byte(font)
	for i := range int(binary.BigEndian.Uint16(b[4:])) {
		at := 12 + 16*i
		if string(b[at:at+4]) == "head" {
			em := b[binary.BigEndian.Uint32(b[at+8:])+18:]
			binary.BigEndian.PutUint16(em, 2*binary.BigEndian.Uint16(em))
		}
	}
	return string(b)
}

// swapGlyphs makes two glyphs of a font look like each other's: codes 3 and 4 change places in its table of outlines.
func swapGlyphs(font string) string {
	b := []byte(font)
	for i := range int(b[5]) {
		entry := b[12+16*i:]
		if string(entry[:4]) == "loca" {
			at := int(entry[8])<<24 | int(entry[9])<<16 | int(entry[10])<<8 | int(entry[11])
			loca := b[at:]
			copy(loca[4*3:], loca[4*5:4*5+4]) // glyph 3 begins where glyph 5 does: both are others now
		}
	}
	return string(b)
}

func TestDamagedFiles(t *testing.T) {
	book := printedBook(t, "preflight")
	for name, b := range map[string][]byte{
		"cut short": book[:len(book)/2], "empty": {}, "no PDF": []byte("%PDF-1.7\n"), "without attachments": bytes.ReplaceAll(book, []byte("/EmbeddedFiles"), []byte("/EmbeddedFilez")),
	} {
		if status, v := verified(t, b); status != Unusable || v.True {
			t.Errorf("%s: status %d, %+v", name, status, v)
		}
	}
}

// A bit that is flipped anywhere: a file that is called true says on its pages what the whole one says, for another reader too.
func TestFlippedBits(t *testing.T) {
	pdftotext, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("pdftotext is not installed (Debian: poppler-utils)")
		}
		t.Skip("pdftotext is not installed (Debian: poppler-utils)")
	}
	read := func(b []byte) string {
		cmd := exec.Command(pdftotext, "-layout", "-", "-")
		cmd.Stdin = bytes.NewReader(b)
		out, _ := cmd.Output() // of a broken file, as much as it finds
		// A flip may tick a box, as people do on a tablet: that is no tampering with what was printed.
		return strings.Join(strings.Fields(strings.ReplaceAll(string(out), "✔", " ")), " ")
	}
	book := printedBook(t, "preflight")
	want, passed := read(book), 0
	for at := 100; at < len(book)-100; at += len(book) / 60 {
		b := bytes.Clone(book)
		b[at] ^= 0x10
		if status, _ := verified(t, b); status == Done {
			passed++
			if got := read(b); got != want {
				t.Errorf("byte %d: the file is called true and reads otherwise", at)
			}
		}
	}
	if passed > 30 {
		t.Errorf("%d of 60 flips changed nothing that matters", passed)
	}
}

// What people wrote into the form is no tampering.
func TestFilledBooks(t *testing.T) {
	f := &forger{t, printedBook(t, "preflight")}
	n := f.find(regexp.MustCompile(`(?:^|\n)(\d+) 0 obj\n<</Type/Annot/Subtype/Widget/FT/Btn`), 0)
	f.change(n, strings.Replace(strings.Replace(string(f.object(n)), "/V/Off", "/V/Yes", 1), "/AS/Off", "/AS/Yes", 1))
	n = f.find(regexp.MustCompile(`(?:^|\n)(\d+) 0 obj\n<</Type/Annot/Subtype/Widget/FT/Tx`), 0)
	f.change(n, strings.Replace(string(f.object(n)), "/V()", "/V(Fen meadow)", 1))
	status, v := verified(t, f.b)
	if status != Done || !v.True || v.Filled != 2 {
		t.Errorf("status %d, %d filled, %+v", status, v.Filled, v.Pages)
	}
	// but a field that has grown hides what is below
	f.change(n, regexp.MustCompile(`/Rect\[[^]]*\]`).ReplaceAllString(string(f.object(n)), "/Rect[0 0 500 500]"))
	if status, v := verified(t, f.b); status != NoGo || v.True {
		t.Errorf("a field over the whole page: status %d, %+v", status, v)
	}
}

// A book that was true when it was printed is not true under the rules of another day, and what differs is told.
func TestRulesOfAnotherDay(t *testing.T) {
	dir := t.TempDir()
	pack := func(name, limit string) string {
		text := `{"format": "hoistbook-pack/1", "id": "ours", "title": "Ours", "rules": [{"id": "ours.calm", "title": "Calm days", "level": "must",
"check": {"fact": "wind.greatest_m_s", "at_least": "` + limit + `"}, "message": "it bears {value}, and {limit} is asked for", "source": [{"work": "policy"}]}]}`
		path := filepath.Join(dir, name, "ours.json")
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	old, fresh := pack("old", "2 m/s"), pack("new", "4 m/s")
	book := printedBook(t, "book", "--rules", old)
	if status, v := verified(t, book); status != Done || !v.True {
		t.Errorf("with the rules inside: status %d, %+v", status, v)
	}
	status, v := verified(t, book, "--rules", fresh)
	if status != NoGo || v.True || v.Printed != "GO" || v.Today != "NO-GO" || len(v.Pages) == 0 || len(v.Wrong) > 0 {
		t.Fatalf("status %d, %+v", status, v)
	}
	if len(v.Findings) != 1 || v.Findings[0].Rule != "ours.calm" || !strings.HasPrefix(v.Findings[0].Today, "not met") {
		t.Errorf("the findings that differ: %+v", v.Findings)
	}
}

func TestSignedBooks(t *testing.T) {
	dir := t.TempDir()
	key := ed25519Key(t, dir)
	kit := filepath.Join(dir, "kit.json")
	if status, out, errs := run(t, "new", filepath.Join(dir, "kit")); status != Done {
		t.Fatal(out, errs)
	}
	text, err := os.ReadFile(filepath.Join(dir, "kit", "kit.json"))
	if err != nil {
		t.Fatal(err)
	}
	write := func(path string, data []byte) {
		t.Helper()
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write(kit, text)
	overlay := filepath.Join(dir, "club.json")
	write(overlay, []byte(`{"kit": {"maintainer": "ours"}}`))
	state := func(args ...string) (int, truth.Signed) {
		t.Helper()
		status, out, errs := run(t, append([]string{"verify", "--json"}, args...)...)
		var v truth.Verification
		if err := json.Unmarshal([]byte(out), &v); err != nil {
			t.Fatalf("%q: %v %s %s", args, err, out, errs)
		}
		return status, v.Signed
	}
	signers := filepath.Join(dir, "signers")
	if status, s := state(kit, "--signers", signers); status != NoGo || s.Verified || s.Files[0].State != truth.NotSigned {
		t.Errorf("not signed: status %d, %+v", status, s)
	}
	if status, out, errs := run(t, "sign", kit, "--key", key); status != Done || !strings.Contains(out, "manifest of") {
		t.Fatal(out, errs)
	}
	if status, s := state(kit, "--signers", signers); status != Done || !s.Verified || s.Files[0].Signer != "ann@club.example" {
		t.Errorf("signed: status %d, %+v", status, s)
	}
	if status, s := state(kit); status != Done || s.Verified || s.Files[0].State != truth.NotChecked {
		t.Errorf("signed and nobody named: status %d, %+v", status, s)
	}
	if status, s := state(kit, "--signers", signers, "--signer", "bob@club.example"); status != NoGo || s.Verified {
		t.Errorf("signed by another: status %d, %+v", status, s)
	}
	book := func(args ...string) string {
		t.Helper()
		path := filepath.Join(t.TempDir(), "book.pdf")
		write(path, printedBook(t, "preflight", args...))
		return path
	}
	if status, s := state(book(kit), "--signers", signers); status != Done || !s.Verified || s.Files[1].State != truth.Verified {
		t.Errorf("the book of a signed kit: status %d, %+v", status, s)
	}
	mixed := book(kit, "--with", overlay)
	if status, s := state(mixed, "--signers", signers); status != NoGo || s.Verified || s.Files[1].State != truth.Verified || s.Files[2].State != truth.NotSigned {
		t.Errorf("with an overlay that is not signed: status %d, %+v", status, s)
	}
	if status, out, errs := run(t, "sign", mixed, "--key", key); status != Done || !strings.Contains(out, "book of") {
		t.Fatal(out, errs)
	}
	if status, s := state(mixed, "--signers", signers); status != Done || !s.Verified {
		t.Errorf("a signed book: status %d, %+v", status, s)
	}
	// altered after it was signed: the book, and then the manifest
	data, err := os.ReadFile(mixed)
	if err != nil {
		t.Fatal(err)
	}
	write(mixed, append(data, "%\n"...))
	if status, s := state(mixed, "--signers", signers); status != NoGo || s.Verified || s.Files[0].State != truth.Altered {
		t.Errorf("an altered book: status %d, %+v", status, s)
	}
	write(kit, bytes.Replace(text, []byte(`"298 g"`), []byte(`"198 g"`), 1))
	for _, args := range [][]string{{kit}, {kit, "--signers", signers}, {book(kit)}, {book(kit), "--signers", signers}} {
		if status, s := state(args...); status != NoGo || s.Verified || s.Files[len(s.Files)-1].State != truth.Altered {
			t.Errorf("%q: status %d, %+v", args, status, s)
		}
	}
}
