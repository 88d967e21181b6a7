package starter

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"reflect"
	"regexp"
	"strings"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// firstRevision is that of a kit which nobody else has yet.
const firstRevision = "0.1.0"

// notes stand before the keys of the manifest that they are about. JSON has no comments; a key that begins with x- is one.
var notes = []struct{ key, note string }{
	{"format", "Keys that begin with x- are notes: write what you like. In an editor that knows JSON Schema every key is completed and explained. What nobody says is never guessed: it is not shown, and what must be shown and is not makes the verdict NO-GO. Quantities carry their units, prices are exact decimals in quotation marks."},
	{"kit", "Who this kit is. Give the revision a new number with every change that others get: three numbers, by semver.org."},
	{"station", "The deployment that the kit is designed for. Take the coldest and the hottest air of the whole season, and the wind that you will still fly in, measured where your meter is held."},
	{"parts", "Everything that is bought, by a reference of your own. What a part does stands in its facets: envelope, cylinder, tether, anchor, battery, converter, fuse, load, transmitter, receiver, antenna, filter, marker, deflation, charger. Weigh what flies: a mass that is estimated is taken 20 % heavier, a calculated one 10 %, a weighed one 2 %."},
	{"signals", "Control lines: what the driver gives, what the input needs to read high, and what it withstands. Read them off both data sheets."},
	{"ground", "The radios that work through the relay."},
	{"antennas", "How the relay's own antennas hang to each other: it decides whether the relay deafens itself."},
	{"coverage", "The country that is to be covered, and how far."},
	{"budget", "What one kit may cost, tax included, and in which currency all prices are."},
	{"suppliers", "Where offers come from: postage, and from what value an order travels free."},
	{"steps", "What people do, beyond the checklists that every kit has."},
	{"cautions", "What can hurt somebody at your site or with your parts, beyond the cautions that every kit carries."},
	{"storage", "How the kit is kept between deployments."},
	{"recovery", "How a lost kit finds its way home."},
}

// own makes somebody's own manifest of an example: with notes, with what was answered, and without its numbers if so asked.
func own(example manifest.Source, a Answers) ([]byte, error) {
	tree, err := jsontree.Parse(example.Name, example.Data)
	if err != nil {
		return nil, err
	}
	a.Name, a.Maintainer = cmp.Or(a.Name, "Our relay"), cmp.Or(a.Maintainer, "our club")
	a.ID = cmp.Or(a.ID, idOf(a.Name))
	text := a.into(example.Data)
	if a.Blank {
		answered, err := a.patch()
		if err != nil {
			return nil, err
		}
		text = pretty(jsontree.Merge(blank(tree, reflect.TypeFor[manifest.Document]()), answered))
	}
	text = bytes.Replace(text, []byte(`"../../schemas/`), []byte(`"`), 1)
	for _, n := range notes {
		at := regexp.MustCompile(`(?m)^  "` + n.key + `":`)
		text = at.ReplaceAllLiteral(text, []byte(`  "x-`+n.key+`": `+quoted(n.note)+",\n  \""+n.key+`":`))
	}
	return text, nil
}

// into puts what was answered into an example, whose layout stays as it is.
func (a Answers) into(text []byte) []byte {
	for _, said := range [][2]string{{"id", a.ID}, {"name", a.Name}, {"revision", firstRevision}, {"maintainer", a.Maintainer}, {"licence", a.Licence}, {"currency", a.Currency}} {
		if said[1] != "" {
			text = say(text, said[0], said[1])
		}
	}
	if a.Region != "" {
		text = regexp.MustCompile(`"rules": ?\[[^]]*\]`).ReplaceAllLiteral(text, []byte(`"rules": [`+quoted(a.Region)+`]`))
	}
	if a.Site != "" {
		site := regexp.MustCompile(`("site": ?\{\s*"name": ?)"[^"]*"`)
		text = site.ReplaceAll(text, []byte("${1}"+strings.ReplaceAll(quoted(a.Site), "$", "$$")))
	}
	for _, d := range a.distances() {
		switch {
		case d.said != "":
			text = say(text, d.key, d.said)
		case a.Site != "": // how far it is from the example's field says nothing about another place
			text = regexp.MustCompile(`,\s*"`+d.key+`": ?"[^"]*"`).ReplaceAllLiteral(text, nil)
		}
	}
	return text
}

// distances are those that belong to one place.
func (a Answers) distances() []struct{ key, said string } {
	return []struct{ key, said string }{{"nearest_airfield", a.Airfield}, {"nearest_power_line", a.PowerLine}}
}

// site is what was answered about the place; nil when that is nothing.
func (a Answers) site() map[string]string {
	site := map[string]string{}
	if a.Site != "" {
		site["name"] = a.Site
	}
	for _, d := range a.distances() {
		if d.said != "" {
			site[d.key] = d.said
		}
	}
	if len(site) == 0 {
		return nil
	}
	return site
}

// patch is what was answered as a merge patch, for a manifest that says nothing else.
func (a Answers) patch() (*jsontree.Node, error) {
	kit := map[string]any{"id": a.ID, "name": a.Name, "revision": firstRevision, "maintainer": a.Maintainer}
	patch := map[string]any{"kit": kit}
	if a.Licence != "" {
		kit["licence"] = a.Licence
	}
	station := map[string]any{}
	if a.Region != "" {
		station["rules"] = []string{a.Region}
	}
	if site := a.site(); site != nil {
		station["site"] = site
	}
	if len(station) > 0 {
		patch["station"] = station
	}
	if a.Currency != "" {
		patch["budget"] = map[string]any{"currency": a.Currency}
	}
	text, err := json.Marshal(patch)
	if err != nil {
		return nil, err
	}
	return jsontree.Parse("answers", text)
}

// say puts a text in the place of the first one that stands under a key: those of the kit come first in every manifest of ours.
func say(text []byte, key, value string) []byte {
	at := regexp.MustCompile(`("` + key + `": ?)"(?:[^"\\]|\\.)*"`)
	done := false
	return at.ReplaceAllFunc(text, func(found []byte) []byte {
		if done {
			return found
		}
		done = true
		return append(bytes.Clone(at.FindSubmatch(found)[1]), quoted(value)...)
	})
}

func quoted(text string) string {
	var b bytes.Buffer
	out := json.NewEncoder(&b)
	out.SetEscapeHTML(false)
	if err := out.Encode(text); err != nil {
		panic("starter: " + err.Error()) // a text
	}
	return strings.TrimSpace(b.String())
}

// idOf makes a short name of a name: "Our relay" becomes "our-relay".
func idOf(name string) string {
	var id strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			id.WriteRune(r)
		case id.Len() > 0 && !strings.HasSuffix(id.String(), "-"):
			id.WriteByte('-')
		}
	}
	text := strings.TrimRight(id.String(), "-")
	return text[:min(len(text), 32)]
}

// Check says what is wrong with answers, before anything is written.
func (a Answers) Check() error {
	for _, c := range []struct {
		flag, value string
		form        interface {
			Pattern() string
			Form() string
		}
	}{{"id", a.ID, manifest.Ref("")}, {"region", a.Region, manifest.PackID("")}} {
		if c.value != "" && !regexp.MustCompile("^("+c.form.Pattern()+")$").MatchString(c.value) {
			return fmt.Errorf("%q cannot be the %s; write %s", c.value, c.flag, c.form.Form())
		}
	}
	for _, d := range a.distances() {
		if _, err := unit.ParseQuantity(unit.DimLength, d.said); d.said != "" && err != nil {
			return err
		}
	}
	if a.Name != "" && a.ID == "" && idOf(a.Name) == "" {
		return fmt.Errorf("no short name can be made of %q; say one with --id", a.Name)
	}
	return nil
}
