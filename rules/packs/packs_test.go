package packs_test

import (
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hoistbook/kits/jsontree"
	"hoistbook/rules/packs"
	"hoistbook/schemas"
)

func trees(t *testing.T) map[string]*jsontree.Node {
	t.Helper()
	all := map[string]*jsontree.Node{}
	for _, text := range packs.Texts() {
		tree, err := jsontree.Parse(text.Name, text.JSON)
		if err != nil {
			t.Fatal(err)
		}
		all[text.Name] = tree
	}
	return all
}

func TestEveryFileIsInTheOrder(t *testing.T) {
	found, err := filepath.Glob("*.json")
	if err != nil || len(found) != len(packs.Texts()) {
		t.Errorf("%d files, %d in the order (%v)", len(found), len(packs.Texts()), err)
	}
	for name, tree := range trees(t) {
		if id := tree.Get("id").Text; name != "rules/packs/"+id+".json" {
			t.Errorf("%s holds the pack %q", name, id)
		}
	}
}

// The built-in packs are not validated when the program runs; here they are.
func TestPacksFollowTheirSchema(t *testing.T) {
	for name, tree := range trees(t) {
		for _, v := range schemas.Validate("pack", tree.Any()) {
			t.Errorf("%s: %+v", tree.PlaceOf(v.Pointer), v)
		}
		if len(tree.Names()) < 5 {
			t.Errorf("%s is nearly empty", name)
		}
	}
}

// entries calls visit for every rule, checklist item, caution and notice.
func entries(t *testing.T, visit func(pack, entry *jsontree.Node, list string)) {
	t.Helper()
	for _, tree := range trees(t) {
		for _, list := range []string{"rules", "checklist", "cautions", "notices"} {
			if n := tree.Get(list); n != nil {
				for _, entry := range n.Items {
					visit(tree, entry, list)
				}
			}
		}
	}
}

func TestEveryRegionalEntryCitesALawToVerify(t *testing.T) {
	entries(t, func(pack, entry *jsontree.Node, _ string) {
		if pack.Get("region") == nil {
			return
		}
		for _, ref := range entry.Get("source").Items {
			work := pack.Get("sources").Get(ref.Get("work").Text)
			if work == nil || work.Get("verify") == nil || !work.Get("verify").Yes {
				t.Errorf("%s: %s cites no law of this pack that says verify", entry.Place(), entry.Get("id").Text)
			}
		}
	})
}

func TestEveryRuleCarriesItsExamples(t *testing.T) {
	entries(t, func(_, entry *jsontree.Node, list string) {
		if list == "rules" && (entry.Get("trips") == nil || entry.Get("quiet") == nil) {
			t.Errorf("%s: %s has no example that trips it, or none that leaves it quiet", entry.Place(), entry.Get("id").Text)
		}
	})
}

// Words in capitals shout; these are names of units and of materials, or the keys of a manifest in quotation marks.
var (
	capitals = regexp.MustCompile(`\b[A-Z]{3,}\b`)
	plain    = []string{"MHz", "CC-BY"}
)

func TestWordingIsPlain(t *testing.T) {
	entries(t, func(_, entry *jsontree.Node, _ string) {
		for _, key := range []string{"title", "message", "ok", "hint", "challenge", "response", "notes", "hazard", "consequence", "avoidance", "to", "phase", "role"} {
			text := entry.Get(key)
			if text == nil {
				continue
			}
			said := strings.NewReplacer(plain[0], "", plain[1], "").Replace(text.Text)
			if capitals.MatchString(said) {
				t.Errorf("%s: %q shouts", text.Place(), text.Text)
			}
			if strings.HasSuffix(text.Text, ".") || strings.Contains(text.Text, "  ") || strings.TrimSpace(text.Text) != text.Text {
				t.Errorf("%s: %q ends in a full stop or has stray spaces", text.Place(), text.Text)
			}
		}
	})
}

// An instrument shows one number: what asks for another thing beside it is another item.
func TestAReadingIsOneNumber(t *testing.T) {
	entries(t, func(_, entry *jsontree.Node, list string) {
		if list != "checklist" || entry.Get("reading") == nil {
			return
		}
		if text := entry.Get("challenge"); strings.Contains(text.Text, ", and ") {
			t.Errorf("%s: %q asks for two things and reads one", text.Place(), text.Text)
		}
	})
}

// The first phase decides whether to begin at all: nearly everything in it is critical, and it ends at a hold point.
func TestPreflightBeginsWithWhatIsCritical(t *testing.T) {
	first, critical := 0, 0
	var holds []string
	entries(t, func(_, entry *jsontree.Node, list string) {
		if list != "checklist" || entry.Get("list").Text != "preflight" {
			return
		}
		if hold := entry.Get("hold"); hold != nil && hold.Yes {
			holds = append(holds, entry.Get("phase").Text)
		}
		if entry.Get("phase").Text == "Go or no go" {
			first++
			if c := entry.Get("critical"); c != nil && c.Yes {
				critical++
			}
		}
	})
	if first < 8 || 4*critical < 3*first {
		t.Errorf("%d of %d items of the first phase are critical", critical, first)
	}
	for _, phase := range []string{"Go or no go", "Wake the relay", "Let it up"} {
		if !slices.Contains(holds, phase) {
			t.Errorf("the phase %q has no hold point", phase)
		}
	}
}

// What crews read follows the reader's units: a length, mass, force or speed stands in braces, as a fact or as a round quantity for each
// system. Hours, volts, watt-hours and joules are the same for all.
var (
	braces   = regexp.MustCompile(`\{[^}]*\}|"[^"]*"`) // and what is to be written into a manifest, which is as it is
	measured = regexp.MustCompile(`[0-9] ?(mm|cm|m|km|in|ft|mi|miles|g|kg|oz|lb|N|lbf|m/s|km/h|kn|mph|°C|°F)\b`)
)

func TestQuantitiesFollowTheReadersUnits(t *testing.T) {
	entries(t, func(_, entry *jsontree.Node, _ string) {
		for _, key := range []string{"challenge", "response", "notes", "hazard", "consequence", "avoidance", "message", "ok", "hint"} {
			if text := entry.Get(key); text != nil {
				if found := measured.FindString(braces.ReplaceAllString(text.Text, "")); found != "" {
					t.Errorf("%s: %q says %q to every reader; write it for both systems of units, such as {5 m|16 ft}", text.Place(), text.Text, found)
				}
			}
		}
	})
}
