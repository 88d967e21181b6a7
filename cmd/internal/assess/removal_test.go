package assess

import (
	"encoding/json"
	"path"
	"strings"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

func builtIn(t testing.TB) rules.Packs {
	t.Helper()
	ps, err := rules.Load(kits.Catalogue{}, packs.Texts()...)
	if err != nil {
		t.Fatal(err)
	}
	return ps
}

func demo(t testing.TB, id string) manifest.Source {
	t.Helper()
	s, ok := kits.Demo(id)
	if !ok {
		t.Fatalf("there is no demonstration kit %q", id)
	}
	return s
}

func TestDemonstrationKitsAreGo(t *testing.T) {
	ps := builtIn(t)
	for _, id := range kits.Demos() {
		m, err := manifest.Load(demo(t, id))
		if err != nil {
			t.Fatal(err)
		}
		a, err := Of(m, ps, unit.SI)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range a.Findings {
			if f.Outcome != rules.Met && f.Waived == "" {
				t.Errorf("%s: %s %s %s: %s", id, f.Rule, f.Subject, f.Outcome, f.Message)
			}
		}
		if a.Verdict != rules.Go {
			t.Errorf("%s: got %s, want GO", id, a.Verdict)
		}
	}
}

// harmless says why a kit may stay GO without a value: by the ending of its pointer or a part of it.
var harmless = []struct{ pointer, why string }{
	{"/$schema", "only editors read it"},
	{"/kit/summary", "words"}, {"/kit/maintainer", "recommended, not demanded"}, {"/kit/licence", "recommended, not demanded"},
	{"/site/name", "words"}, {"/site/pressure", "the standard atmosphere takes its place, and is printed as an assumption"},
	{"/site/humidity", "50 % takes its place, and is printed as an assumption"},
	{"/gust_factor", "1.5 takes its place"}, {"/least_free_lift", "20 % takes its place"}, {"/deployments", "only orders use it"},
	{"/identification_interval", "only some regions demand it"}, {"/no_identification", "its paper then says that the interval is not shown"}, {"/station/rules", "a club asks for the rules of its region by name"},
	{"/site/nearest_airfield", "recommended; regions demand it"},
	{"/consumable", "money"}, {"/spares", "money"}, {"/quantity", "one takes its place: of cylinders it is too few, of markers it is lighter"},
	{"/mass_basis", "estimated takes its place: heavier"}, {"/packed_in", "words"}, {"/TET1/place", "a tether flies by its length paid out"},
	{"/conductive", "recommended"}, {"/purity", "99 % takes its place, and is printed as an assumption"}, {"/drag_coefficient", "the cautious default takes its place"},
	{"/knot_efficiency", "50 % takes its place"}, {"/design_factor", "the cautious default takes its place"},
	{"/usable", "80 % takes its place"}, {"/cold_capacity", "100 % takes its place, and is printed as an assumption"},
	{"/in_rotation", "one takes its place"}, {"/storage_charge", "recommended"}, {"/charged_at", "storage"},
	{"/charger", "spare sets cover the changes"}, {"/CHG1", "spare sets cover the changes"}, {"/connector", "words"}, {"/pins", "words"}, {"/colours", "words"},
	{"/emission", "words"}, {"/tone", "the crew sets it"}, {"/deflation", "recommended; regions demand it"}, {"/marker", "recommended; regions demand it"},
	{"/postage", "orders"}, {"/free_postage_from", "orders"}, {"/least_order", "orders"}, {"/contact", "orders"}, {"/steps", "words"}, {"/cautions", "words"}, {"/storage", "recommended"}, {"/recovery", "recommended"}, {"/waivers", "a recommendation less set aside"},
	{"/fade_margin", "10 dB takes its place"}, {"/ground/*", "a station that is not there is not served; the last one is demanded"},
	{"/signals/PTT/wire", "a signal carries no current to speak of"}, {"/signals/COS/wire", "a signal carries no current to speak of"},
	{"/signals/AF-IN/wire", "a signal carries no current to speak of"},
	{"/signals/AF-OUT/wire", "a signal carries no current to speak of"},
	{"/signals/KEY/wire", "a signal carries no current to speak of"},
	{"/signals/BUSY/wire", "a signal carries no current to speak of"},
	{"/signals/IRQ/wire", "a signal carries no current to speak of"},
	{"/signals/SCK/wire", "a signal carries no current to speak of"},
	{"/signals/MOSI/wire", "a signal carries no current to speak of"},
	{"/signals/MISO/wire", "a signal carries no current to speak of"},
	{"/signals/CS/wire", "a signal carries no current to speak of"},
	{"/handheld/name", "words"}, {"/boat/name", "words"}, {"/node/name", "words"}, {"/searcher/name", "words"}, {"/base/name", "words"},
	{"/base/feed_loss", "as boat"}, {"/boat/feed_loss", "none takes its place, and is printed as an assumption"},
	{"/signals/*", "a line that is not described is not connected"},
	{"/RAD1/transmitter/harmonic_suppression", "its receiver is muted meanwhile"}, {"/RAD1/transmitter/noise_floor", "its receiver is muted meanwhile"},
	{"/RAD1/receiver/blocking", "it is muted while the relay transmits"}, {"/RAD1/receiver/channel_width", "it is muted while the relay transmits"},
	{"/REG9", "a part without a facet: what it does is the designer's to know"}, {"/VAL1", "as REG9"}, {"/FIL9", "as REG9"}, {"/FLY1", "as REG9, and lighter"},
	{"/BOX1", "as REG9, and lighter"}, {"/WIR1", "as REG9, and lighter"}, {"/DEF1", "recommended; regions demand it"}, {"/PEN1", "recommended; regions demand it"},
	{"/anchor/pieces", "only cautions read it"}, {"/anchor/filled_on_site", "only the checklist reads it"}, {"/transmitter/stop", "only the checklist reads it"},
	{"/LMP1", "recommended; regions demand it"},
}

// A manifest that lost a value is an error, NO-GO, or stays GO for a reason written down above.
func TestNothingRemovedGivesGo(t *testing.T) {
	type removal struct {
		of      *subject
		pointer string
		out     outcome
	}
	var tried []*removal
	for _, s := range subjectsOf(t) {
		for _, pointer := range pointers(s.tree, "") {
			tried = append(tried, &removal{of: s, pointer: pointer})
		}
	}
	inParallel(len(tried), func(i int) { tried[i].out = tried[i].of.without(t, tried[i].pointer) })
	used := map[string]bool{}
	for _, r := range tried {
		if r.out.refused == "" && r.out.verdict != rules.NoGo && excuse(r.pointer, used) == "" {
			t.Errorf("%s without %s is GO", r.of.id, r.pointer)
		}
	}
	if len(tried) < 600 {
		t.Errorf("only %d values were removed", len(tried))
	}
	for _, h := range harmless {
		if !used[h.pointer] {
			t.Errorf("%s is called harmless and no kit stays GO without it: take it off the list", h.pointer)
		}
	}
}

func excuse(pointer string, used map[string]bool) string {
	for _, h := range harmless {
		whole, ok := strings.CutSuffix(h.pointer, "/*") // the table or one entry of it, nothing within
		if ok && (pointer == whole || path.Dir(pointer) == whole) || !ok && strings.Contains(pointer+"/", h.pointer+"/") {
			used[h.pointer] = true
			return h.why
		}
	}
	return ""
}

// pointers lists every value of a tree but the items of lists.
func pointers(n *jsontree.Node, at string) []string {
	var all []string
	for _, m := range n.Members {
		here := at + jsontree.Pointer(m.Name)
		all = append(all, here)
		all = append(all, pointers(m.Value, here)...)
	}
	return all
}

// without judges a kit with one value taken out.
func (s *subject) without(t *testing.T, pointer string) outcome {
	var patch any
	names, _ := jsontree.SplitPointer(pointer)
	for i := len(names) - 1; i >= 0; i-- {
		patch = map[string]any{names[i]: patch}
	}
	text, err := json.Marshal(patch)
	if err != nil {
		t.Error(err)
	}
	tree, err := jsontree.Parse("patch", text)
	if err != nil {
		t.Error(err)
	}
	return s.try(jsontree.Merge(s.tree, tree))
}
