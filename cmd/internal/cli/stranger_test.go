package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode"

	"hoistbook/cmd/internal/record"
	"hoistbook/kits"
	"hoistbook/render/doc"
	"hoistbook/render/page"
	"hoistbook/render/pdf"
)

// forged is a printed file as a stranger may make one: a page, and whatever rides inside.
func forged(t testing.TB, inside map[string][]byte) []byte {
	t.Helper()
	d := &page.Document{Title: "t", Pages: []page.Page{{Paper: page.A4, Items: []page.Item{page.Text{X: 20, Y: 20, Size: 10, Text: "GO"}}}}}
	for _, name := range []string{doc.ManifestName, record.Name, record.Report, "source-1-kit.json", "rules-1-ours.json"} {
		if data := inside[name]; data != nil {
			d.Attachments = append(d.Attachments, page.Attachment{Name: name, Data: data})
		}
	}
	b, err := pdf.Bytes(d)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// taken is what rides inside a document that the program has printed itself.
func taken(t testing.TB, b []byte, name string) []byte {
	t.Helper()
	data, err := pdf.Attachment(b, name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Whatever rides inside a file of a stranger, reading it ends in words, and a page that the program has not printed is never
// called true.
func FuzzVerify(f *testing.F) {
	summary := printedBook(f, "summary")
	kit, err := json.Marshal(json.RawMessage(taken(f, summary, doc.ManifestName)))
	if err != nil {
		f.Fatal(err)
	}
	printed, report := taken(f, summary, record.Name), taken(f, summary, record.Report)
	pack := []byte(`{"format": "hoistbook-pack/1", "id": "x", "title": "x"}`)
	f.Add(kit, printed, report, pack)
	f.Add([]byte(`{}`), []byte(`{"format": "hoistbook-record/1", "document": "book", "sources": [{"name": "../../kit.json", "attachment": "source-1-kit.json"}]}`), []byte(`{"facts": {"lift.gross_kg": null}}`), pack)
	f.Add(kit, bytes.Replace(printed, []byte(`"document":"summary"`), []byte(`"document":"cover","packs":[{"name":"x","attachment":"rules-1-ours.json"}]`), 1), report, pack)
	f.Fuzz(func(t *testing.T, manifest, how, report, pack []byte) {
		file := filepath.Join(t.TempDir(), "book.pdf")
		b := forged(t, map[string][]byte{doc.ManifestName: manifest, record.Name: how, record.Report: report, "source-1-kit.json": manifest, "rules-1-ours.json": pack})
		if err := os.WriteFile(file, b, 0o600); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{{"verify", file}, {"verify", file, "--json"}, {"extract", file}} {
			status, out, errs := run(t, args...)
			if status == Unusable && errs == "" || status != Unusable && out == "" {
				t.Fatalf("%q ends with %d in silence", args, status)
			}
			if args[0] == "verify" && status == Done {
				t.Fatalf("a forged page is called true:\n%s", out)
			}
		}
	})
}

// Books of strangers are refused, or told about, in bounded time and in words that no terminal obeys; nothing leaves the
// folder that it was to be written into.
func TestHostileBooks(t *testing.T) {
	demo, _ := kits.Demo(kits.FirstDemo)
	many := func(list, attachment string) []byte {
		one := fmt.Sprintf(`{"name":"x","attachment":%q},`, attachment)
		return []byte(`{"format":"hoistbook-record/1","` + list + `":[` + strings.TrimSuffix(strings.Repeat(one, 100_000), ",") + `]}`)
	}
	for name, c := range map[string]struct {
		record string
		said   string
	}{
		"100 000 sources":            {string(many("sources", "source-1-kit.json")), "more than"},
		"100 000 packs":              {string(many("packs", "rules-1-ours.json")), "more than"},
		"sources that are not there": {string(many("sources", "")), "more than"},
		"a name that is a path":      {`{"format":"hoistbook-record/1","sources":[{"name":"../../../evil.json","attachment":"source-1-kit.json"}]}`, "not the one that it was printed from"},
		"a document that is a path":  {`{"format":"hoistbook-record/1","document":"../../etc/passwd","units":"si","paper":"a4","sources":[]}`, "passwd"},
		"an escape sequence":         {`{"format":"hoistbook-record/1","document":"\u001b[2J\u001b[32mGO","units":"si","paper":"a4","sources":[]}`, ""},
		"a turned name":              {`{"format":"hoistbook-record/1","sources":[{"name":"gnp.\u202eexe","attachment":"source-1-kit.json"}]}`, ""},
		"deep nesting":               {`{"format":"hoistbook-record/1","sources":` + strings.Repeat("[", 200_000) + strings.Repeat("]", 200_000) + `}`, "cannot be read"},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			file := filepath.Join(dir, "book.pdf")
			b := forged(t, map[string][]byte{doc.ManifestName: demo.Data, record.Name: []byte(c.record), "source-1-kit.json": demo.Data, "rules-1-ours.json": []byte(`{}`)})
			if err := os.WriteFile(file, b, 0o600); err != nil {
				t.Fatal(err)
			}
			start := time.Now()
			status, out, errs := run(t, "verify", file)
			if status == Done {
				t.Errorf("it is called true:\n%s", out)
			}
			said := out + errs
			if !strings.Contains(said, c.said) || len(said) > 500_000 {
				t.Errorf("%d bytes are said, want %q in them: %.500s", len(said), c.said, said)
			}
			inner := filepath.Join(dir, "a", "b", "c")
			_, _, _ = run(t, "extract", file, "-o", inner+"/")
			if err := filepath.WalkDir(dir, func(path string, entry os.DirEntry, err error) error {
				if err == nil && !entry.IsDir() && path != file && filepath.Dir(path) != inner {
					t.Errorf("%s is written", path)
				}
				if strings.ContainsFunc(filepath.Base(path), func(r rune) bool { return !unicode.IsGraphic(r) }) {
					t.Errorf("%q is written", path)
				}
				return err
			}); err != nil {
				t.Fatal(err)
			}
			if took := time.Since(start); took > 60*time.Second {
				t.Errorf("took %v", took)
			}
			t.Logf("%v, %d bytes said: %.200s", time.Since(start), len(said), said)
		})
	}
}
