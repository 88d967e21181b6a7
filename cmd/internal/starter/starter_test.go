package starter

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hoistbook/cmd/internal/whole"
	"hoistbook/kits"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/schemas"
)

func example(t testing.TB, id string) manifest.Source {
	t.Helper()
	s, ok := kits.Demo(id)
	if !ok {
		t.Fatalf("there is no demonstration kit %q", id)
	}
	return s
}

func begin(t testing.TB, id string, a Answers) map[string][]byte {
	t.Helper()
	if err := a.Check(); err != nil {
		t.Fatal(err)
	}
	files, err := Begin("d", example(t, id), a)
	if err != nil {
		t.Fatal(err)
	}
	return byName(files)
}

func byName(files []whole.File) map[string][]byte {
	all := map[string][]byte{}
	for _, f := range files {
		all[filepath.Base(f.Path)] = f.Data
	}
	return all
}

func parsed(t testing.TB, name string, text []byte) *jsontree.Node {
	t.Helper()
	tree, err := jsontree.Parse(name, text)
	if err != nil {
		t.Fatal(err)
	}
	return tree
}

// Every file follows the schema that it points to and that lies beside it: so that an editor helps.
func TestFilesFollowTheirSchemas(t *testing.T) {
	for _, id := range kits.Demos() {
		for _, blank := range []bool{false, true} {
			files := begin(t, id, Answers{Name: "Our relay", Blank: blank})
			for file, schema := range map[string]string{Manifest: "manifest", Overlay: "overlay", Pack: "pack"} {
				tree := parsed(t, file, files[file])
				if wrong := schemas.Validate(schema, tree.Any()); len(wrong) > 0 {
					t.Errorf("%s, blank %v: %s does not follow its schema: %v", id, blank, file, wrong)
				}
				if at := tree.Get("$schema").Text; files[at] == nil || at != schema+".schema.json" {
					t.Errorf("%s points to %q, and no such file is there", file, at)
				}
			}
			if _, err := manifest.Load(manifest.Source{Name: Manifest, Data: files[Manifest]}, manifest.Source{Name: Overlay, Data: files[Overlay]}); err != nil {
				t.Errorf("%s, blank %v: %v", id, blank, err)
			}
		}
	}
}

func TestAnswersAreTaken(t *testing.T) {
	for _, blank := range []bool{false, true} {
		a := Answers{Name: `The "long" relay`, Maintainer: "our club & co", Licence: "MIT", Currency: "PLN", Region: "de", Site: "$1 meadow", PowerLine: "350 m", Blank: blank}
		m, err := manifest.Load(manifest.Source{Name: Manifest, Data: begin(t, "fen-relay", a)[Manifest]})
		if err != nil {
			t.Fatal(err)
		}
		if m.Kit.ID != "the-long-relay" || m.Kit.Name != a.Name || m.Kit.Revision != firstRevision || m.Kit.Maintainer != a.Maintainer || m.Kit.Licence != a.Licence {
			t.Errorf("blank %v: the kit is %+v", blank, m.Kit)
		}
		if m.Budget.Currency.Code() != "PLN" || m.Station.Site.Name != a.Site || m.Station.Site.NearestPowerLine.SI() != 350 || m.Station.Site.NearestAirfield != nil || m.Station.Rules[0] != "de" || len(m.Station.Rules) != 1 {
			t.Errorf("blank %v: %s, %q, %v", blank, m.Budget.Currency, m.Station.Site.Name, m.Station.Rules)
		}
	}
}

// A blank manifest has no number of the example, and loses nothing of it: with what stands under x-example, it is the example again.
func TestBlankIsTheExampleWithoutItsNumbers(t *testing.T) {
	for _, id := range kits.Demos() {
		text := begin(t, id, Answers{Blank: true})[Manifest]
		m, err := manifest.Load(manifest.Source{Name: Manifest, Data: text})
		if err != nil {
			t.Fatal(err)
		}
		if left := m.Numbers(); len(left) > 0 {
			t.Errorf("%s: a blank manifest says %d numbers, the first at %s", id, len(left), left[0].Pointer)
		}
		whole, err := json.Marshal(restored(parsed(t, Manifest, text)))
		if err != nil {
			t.Fatal(err)
		}
		again, err := manifest.Load(manifest.Source{Name: "again", Data: whole})
		if err != nil {
			t.Fatalf("%s: %v", id, err)
		}
		first, err := manifest.Load(example(t, id))
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range jsontree.Diff(first.Node(""), again.Node("")) {
			switch d.Pointer {
			case "/$schema", "/kit/id", "/kit/name", "/kit/revision", "/kit/maintainer":
			default:
				if !strings.Contains(d.Pointer, "/x-") {
					t.Errorf("%s: %s is lost", id, d.Pointer)
				}
			}
		}
	}
}

// restored puts every example into the object that it stands in.
func restored(n *jsontree.Node) any {
	if n.Kind != jsontree.Object {
		return n.Any()
	}
	all := map[string]any{}
	for _, m := range n.Members {
		if m.Name != exampleKey {
			all[m.Name] = restored(m.Value)
		}
	}
	if example := n.Get(exampleKey); example != nil {
		for _, m := range example.Members {
			if _, said := all[m.Name]; !said {
				all[m.Name] = m.Value.Any()
			}
		}
	}
	return all
}

// Notes stand where they are said to, each once.
func TestNotesStandBeforeTheirKeys(t *testing.T) {
	text := string(begin(t, "fen-relay", Answers{})[Manifest])
	found := 0
	for _, n := range notes {
		if strings.Count(text, `"x-`+n.key+`": `) == 1 && strings.Contains(text, "\",\n  \""+n.key+`":`) {
			found++
		}
	}
	if found < 10 {
		t.Errorf("only %d of %d notes are there", found, len(notes))
	}
}

// A kit that was given is taken over byte for byte, with its signature, and the overlay knows its digest.
func TestAdopt(t *testing.T) {
	kit := example(t, "ridge-sphere")
	files, err := Adopt("d", kit, []byte("signature"), Answers{Maintainer: "ours", Region: "us"})
	if err != nil {
		t.Fatal(err)
	}
	got := byName(files)
	if string(got[Manifest]) != string(kit.Data) || string(got[Manifest+".sig"]) != "signature" {
		t.Error("the kit or its signature is not as it was")
	}
	m, err := manifest.Load(kit, manifest.Source{Name: Overlay, Data: got[Overlay]})
	if err != nil {
		t.Fatal(err)
	}
	l := m.Layers()[0]
	if m.Kit.Maintainer != "ours" || l.MadeFor == nil || l.MadeFor.Digest == "" || len(l.Stale) > 0 {
		t.Errorf("the overlay is %+v", l)
	}
}

func TestAnswersThatCannotBe(t *testing.T) {
	for want, a := range map[string]Answers{
		"cannot be the id":             {ID: "a b"},
		"cannot be the region":         {Region: "UK"},
		"no short name can be made of": {Name: "…"},
	} {
		if err := a.Check(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: got %v, want %q", a, err, want)
		}
	}
	if _, err := Begin("d", example(t, "fen-relay"), Answers{Currency: "EUX"}); err == nil || !strings.Contains(err.Error(), "EUX") {
		t.Errorf("a currency that is none: %v", err)
	}
	if _, err := os.Stat("d"); err == nil {
		t.Error("something was written")
	}
}
