package manifest

import (
	"fmt"
	"slices"

	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
)

// OverlayFormat is the format of an overlay file.
type OverlayFormat string

// OverlayFormat1 is the only one so far.
const OverlayFormat1 OverlayFormat = "hoistbook-overlay/1"

// Words lists what may be written.
func (OverlayFormat) Words() []string { return words(OverlayFormat1) }

// Hash is a digest of a manifest.
type Hash string

// Pattern is what a digest may look like.
func (Hash) Pattern() string { return `sha256:[0-9a-f]{64}` }

// Form says so in words.
func (Hash) Form() string {
	return `"sha256:" and 64 hexadecimal digits, as check and compare print them`
}

// OverlayHead is what an overlay says of itself. It may say nothing; then it is a bare merge patch (RFC 7396). What it says is
// not laid over the manifest.
type OverlayHead struct {
	// Where the schema of this file is kept; editors use it.
	Schema string `json:"$schema,omitempty" jsonschema:"example=overlay.schema.json"`
	// The format of this file.
	Format OverlayFormat `json:"format,omitempty" jsonschema:"example=hoistbook-overlay/1"`
	// The revision of the shared kit that this overlay was made for.
	MadeFor *MadeFor `json:"made_for,omitempty"`
}

// MadeFor is the shared revision that an overlay was made for.
type MadeFor struct {
	// The id of the kit.
	ID Ref `json:"id" jsonschema:"example=fen-relay"`
	// The revision.
	Revision Revision `json:"revision" jsonschema:"example=1.2.0"`
	// The digest of the manifest, which tells a revision that was changed without a new number.
	Digest Hash `json:"digest,omitempty"`
	// What the kit said where this overlay says something else, by JSON pointer: so that a later revision which says something new there can be told.
	Values Values `json:"values,omitempty" jsonschema:"maxProperties=2000"`
}

// Values are texts of a manifest by the JSON pointers at which they stand.
type Values map[Pointer]string

// Pointer is a JSON pointer (RFC 6901) into a manifest.
type Pointer string

// Pattern is what a pointer may look like.
func (Pointer) Pattern() string { return `(/[^/]+)+` }

// Form says so in words.
func (Pointer) Form() string { return `a JSON pointer, such as "/parts/BAT1/mass"` }

// headKeys are the keys of OverlayHead.
var headKeys = []string{"$schema", "format", "made_for"}

// IsOverlay reports whether a file is an overlay and no manifest: it says so, or it names no kit and has no format of its own.
// It decides about nothing else; a file that cannot be read is no overlay.
func IsOverlay(s Source) bool {
	tree, err := jsontree.Parse(s.Name, s.Data)
	if err != nil || tree.Kind != jsontree.Object {
		return false
	}
	format := tree.Get("format")
	return format == nil && tree.At("/kit/id") == nil || format != nil && format.Text == string(OverlayFormat1)
}

// behead takes the head off an overlay. A file that says it is a manifest has none: it is laid over whole.
func behead(overlay, base *jsontree.Node, problems *diag.Problems) (head OverlayHead, patch *jsontree.Node) {
	if overlay.Kind != jsontree.Object {
		return head, overlay
	}
	if f := overlay.Get("format"); f != nil && f.Text == string(Format1) {
		return head, overlay
	}
	said := &jsontree.Node{Kind: jsontree.Object}
	for _, m := range overlay.Members {
		for _, key := range headKeys {
			if m.Name == key {
				said.Members = append(said.Members, m)
			}
		}
	}
	jsontree.Bind(said, &head, problems)
	if id := base.At("/kit/id"); head.MadeFor != nil && head.MadeFor.ID != "" && id != nil && id.Text != string(head.MadeFor.ID) {
		problems.Add(overlay.At("/made_for/id").Place(), fmt.Sprintf("this overlay was made for the kit %q, and the manifest is of the kit %q", head.MadeFor.ID, id.Text),
			"lay it over the kit that it was made for")
	}
	return head, overlay.Without(headKeys...)
}

// tables are the tables of named things, and what one of them is called.
var tables = map[string]string{"parts": "part", "suppliers": "supplier", "signals": "signal", "ground": "ground station"}

// strays puts what an overlay changes that is not there into the place of what is missing in it: a new part has a name of its
// own, and one without is a change to a part that the overlay's maker knew and this revision has not.
func (m *Manifest) strays(problems diag.Problems) diag.Problems {
	below := m.base
	for _, l := range m.laid {
		for table, kind := range tables {
			change, there := l.patch.Get(table), below.Get(table)
			if change == nil || there == nil {
				continue
			}
			for _, entry := range change.Members {
				missing := func(p diag.Problem) bool { return p.Place == entry.Value.Place() }
				if there.Get(entry.Name) != nil || !slices.ContainsFunc(problems, missing) {
					continue
				}
				what := fmt.Sprintf("there is no %s %q to change", kind, entry.Name)
				if l.head.MadeFor != nil {
					what += fmt.Sprintf(", and this overlay was made for revision %s", l.head.MadeFor.Revision)
				}
				problems = slices.DeleteFunc(problems, missing)
				problems.Add(entry.Place(), what, diag.DidYouMean(entry.Name, there.Names(), "take it out, or describe it whole"))
			}
		}
		below = jsontree.Merge(below, l.patch)
	}
	return problems
}
