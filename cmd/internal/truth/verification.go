package truth

import (
	"bytes"
	"errors"
	"fmt"

	"hoistbook/cmd/internal/assess"
	"hoistbook/cmd/internal/record"
	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/render/pdf"
	"hoistbook/rules"
)

// Format is the format of verifications as programs read them.
const Format = "hoistbook-verification/1"

// Verification is what can be said of a file.
type Verification struct {
	// The format of this report.
	Format string `json:"format" jsonschema:"enum=hoistbook-verification/1,example=hoistbook-verification/1"`
	// The file as it was named.
	File string `json:"file" jsonschema:"example=book.pdf"`
	// What was printed, "book" or one of its documents, or "manifest" or "overlay"; empty where no record says it.
	Document string `json:"document" jsonschema:"example=book"`
	// The program that printed.
	PrintedBy string `json:"printed_by" jsonschema:"example=Hoistbook 1.0"`
	// The program that verifies.
	Program string `json:"program" jsonschema:"example=Hoistbook 1.0"`
	// The kit of the manifest inside.
	Kit *manifest.Identity `json:"kit,omitempty"`
	// The manifest and its overlays.
	Sources []string `json:"sources"`
	// What rides inside and does not agree with itself.
	Wrong []string `json:"wrong"`
	// What the report inside says otherwise than today's formulas.
	Facts []FactDifference `json:"facts"`
	// What the report inside says otherwise than today's rules.
	Findings []FindingDifference `json:"findings"`
	// What the pages say otherwise than would be printed today.
	Pages []PageDifference `json:"pages"`
	// How many pages were held against today's.
	Compared int `json:"pages_compared" jsonschema:"example=69"`
	// Why none were.
	Why string `json:"pages_not_compared,omitempty" jsonschema:"example=it has no record of how it was printed"`
	// How many form fields people have filled in.
	Filled int `json:"fields_filled_in" jsonschema:"example=12"`
	// The verdict on the day of printing, where it is known.
	Printed rules.Decision `json:"printed_verdict,omitempty" jsonschema:"enum=GO,enum=NO-GO,example=GO"`
	// The verdict under today's rules, where there is one.
	Today rules.Decision `json:"verdict,omitempty" jsonschema:"enum=GO,enum=NO-GO,example=GO"`
	// What the signatures say.
	Signed Signed `json:"signatures"`
	// Whether the pages tell the truth under today's rules; of a file without pages, whether it can be used.
	True bool `json:"true" jsonschema:"example=true"`
}

// Verify holds a printed file against what today's program makes of the manifest inside it.
type Verify struct {
	Program string
	// Packs loads the built-in packs, those inside and those of the command line.
	Packs func(inside []rules.Text) (rules.Packs, error)
	// Assess assesses a manifest for readers of the units that the record names.
	Assess func(m *manifest.Manifest, packs rules.Packs, r record.Record) (*assess.Assessment, error)
	// Print prints the document of a record anew.
	Print func(a *assess.Assessment, b *record.Book) ([]byte, error)
}

// New is a verification that has found nothing yet.
func New(file, program string) *Verification {
	return &Verification{
		Format: Format, File: file, Program: program, Sources: []string{}, Wrong: []string{}, Facts: []FactDifference{}, Findings: []FindingDifference{}, Pages: []PageDifference{},
	}
}

// Of verifies a book. An error is one of this program; whatever is wrong with the book is in the verification.
func (v Verify) Of(file string, b *record.Book) (*Verification, error) {
	found := New(file, v.Program)
	found.Wrong = append(found.Wrong, b.Wrong...)
	for _, s := range b.Sources {
		found.Sources = append(found.Sources, s.Name)
	}
	r := record.Record{}
	if b.Record != nil {
		r = *b.Record
		found.Document, found.PrintedBy = r.Document, r.Program
	}
	m, err := b.Load(file)
	if err != nil {
		found.say("the manifest inside cannot be used", err)
		return found, nil
	}
	kit := m.Identity()
	found.Kit = &kit
	found.exchanged(b.Manifest, m)
	packs, err := v.Packs(b.Packs)
	if err != nil {
		found.say("the rule packs inside cannot be used", err)
		return found, nil
	}
	a, err := v.Assess(m, packs, r)
	if err != nil {
		found.say("the manifest inside cannot be judged", err)
		return found, nil
	}
	found.Today = a.Verdict
	found.reported(b, a)
	if b.Record == nil {
		found.Why = "it has no record of how it was printed"
	} else {
		found.compare(v, a, b)
	}
	found.True = found.Compared > 0 && len(found.Wrong)+len(found.Facts)+len(found.Findings)+len(found.Pages) == 0
	return found, nil
}

func (f *Verification) say(what string, err error) {
	var problems diag.Problems
	if !errors.As(err, &problems) {
		f.Wrong = append(f.Wrong, what+": "+err.Error())
		return
	}
	for _, p := range problems {
		f.Wrong = append(f.Wrong, what+": "+p.String())
	}
}

// exchanged tells a merged manifest that is not what its files say.
func (f *Verification) exchanged(inside []byte, m *manifest.Manifest) {
	if bytes.Equal(inside, m.JSON()) {
		return
	}
	f.Wrong = append(f.Wrong, "the manifest inside is not that of the files that it was printed from")
	tree, err := jsontree.Parse("manifest.json", inside)
	if err != nil {
		return
	}
	const most = 10
	for i, d := range jsontree.Diff(m.Node(""), tree) {
		if i == most {
			f.Wrong = append(f.Wrong, "and more")
			break
		}
		f.Wrong = append(f.Wrong, fmt.Sprintf("%s: the files say %s, and the manifest inside says %s", d.Pointer, text(d.Before), text(d.After)))
	}
}

func text(n *jsontree.Node) string {
	if n == nil {
		return "nothing"
	}
	return string(n.JSON())
}

// reported holds the report inside against today's.
func (f *Verification) reported(b *record.Book, a *assess.Assessment) {
	if b.Report == nil {
		return
	}
	digest, verdict, facts, findings, err := Reports(b.Report, a)
	if err != nil {
		f.Wrong = append(f.Wrong, err.Error())
		return
	}
	f.Printed = rules.Decision(verdict)
	if digest != a.Manifest.Digest() {
		f.Wrong = append(f.Wrong, "the report inside is of another manifest: "+digest)
	}
	f.Facts, f.Findings = append(f.Facts, facts...), append(f.Findings, findings...)
}

// compare prints the document anew and holds its pages against those of the file.
func (f *Verification) compare(v Verify, a *assess.Assessment, b *record.Book) {
	printed, err := pdf.See(b.File)
	if err != nil {
		f.Why = err.Error()
		return
	}
	fresh, err := v.Print(a, b)
	if err != nil {
		f.Why = err.Error()
		return
	}
	today, err := pdf.See(fresh)
	if err != nil {
		f.Why = err.Error()
		return
	}
	differences, filled := Pages(printed, today)
	f.Pages, f.Filled, f.Compared = append(f.Pages, differences...), filled, len(printed.Pages)
}
