package cli

import (
	"os"
	"path/filepath"
	"testing"

	"hoistbook/kits/jsontree"
	"hoistbook/schemas"
)

// follows holds what a command printed against a published schema.
func follows(t *testing.T, schema, out string) *jsontree.Node {
	t.Helper()
	tree, err := jsontree.Parse(schema, []byte(out))
	if err != nil {
		t.Fatalf("%s: %v\n%.300s", schema, err, out)
	}
	for _, v := range schemas.Validate(schema, tree.Any()) {
		t.Errorf("%s: %s: %s", schema, v.Pointer, v.Schema)
	}
	return tree
}

// What --json prints follows the schema that is published of it, in fair weather and in foul.
func TestReportsFollowTheirSchemas(t *testing.T) {
	dir := t.TempDir()
	file := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	worse := file("worse.json", `{"made_for": {"id": "fen-relay", "revision": "1.0.0"}, "parts": {"LMP1": null, "TX1": {"name": "other", "load": {"current": {"transmit": "4 A"}}}, "ZIP1": {"name": "bag"}}, "station": {"wind": {"speed": "1 m/s"}}}`)
	silent := file("silent.json", `{"station": {"site": null}}`)
	for _, args := range [][]string{
		{"demo:fen-relay", "demo:fen-relay"}, {"demo:fen-relay", worse}, {worse, "demo:fen-relay"}, {"demo:fen-relay", silent}, {"demo:fen-relay", "demo:ridge-sphere"},
		{"demo:fen-relay", worse, "--units", "us"},
	} {
		_, out, errs := run(t, append([]string{"compare", "--json"}, args...)...)
		if errs != "" {
			t.Fatalf("%q: %s", args, errs)
		}
		follows(t, "comparison", out)
	}
	for _, args := range [][]string{{"BAT1=311g"}, {"TET1=90 g / 60 m", "TX1=60g"}, {"GAS1=80kg", "--sure"}} {
		_, out, errs := run(t, append([]string{"weigh", "--json", "--serial", "7"}, args...)...)
		if errs != "" {
			t.Fatalf("%q: %s", args, errs)
		}
		tree := follows(t, "weighing", out)
		follows(t, "comparison", string(tree.At("/copies/0/comparison").JSON()))
	}
	book := filepath.Join(dir, "book.pdf")
	key := ed25519Key(t, dir)
	write := func(data []byte) {
		if err := os.WriteFile(book, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	whole := printedBook(t, "preflight", "--with", worse)
	f := &forger{t, append([]byte(nil), whole...)}
	f.replace("manifest.json", `"298 g"`, `"198 g"`)
	f.replace("report.json", `"outcome":"met"`, `"outcome":"not met"`)
	f.page(0, func(s string) string { return codes.ReplaceAllString(s, "<${2}${1}${3}> Tj") })
	noRecord := &forger{t, append([]byte(nil), whole...)}
	noRecord.write(noRecord.find(attachmentOf("record.json"), 0), "/Type/EmbeddedFile", "{}")
	for _, data := range [][]byte{whole, f.b, noRecord.b} {
		write(data)
		for _, args := range [][]string{{book}, {book, "--signers", filepath.Join(dir, "signers")}} {
			_, out, _ := run(t, append([]string{"verify", "--json"}, args...)...)
			follows(t, "verification", out)
		}
	}
	if status, _, errs := run(t, "sign", book, worse, "--key", key); status != Done {
		t.Fatal(errs)
	}
	for _, name := range []string{book, worse} {
		_, out, _ := run(t, "verify", "--json", name, "--signers", filepath.Join(dir, "signers"))
		follows(t, "verification", out)
	}
}
