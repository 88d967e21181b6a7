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

// A Verification is what can be said of a printed file.
type Verification struct {
	// Format is the format of this report.
	Format string `json:"format"`
	// File is the file as it was named.
	File string `json:"file"`
	// Document is what was printed, "book" or one of its documents; empty where no record says it.
	Document string `json:"document"`
	// PrintedBy and Program are the program that printed and this one.
	PrintedBy string `json:"printed_by"`
	Program   string `json:"program"`
	// Kit is the kit of the manifest inside.
	Kit *assess.Kit `json:"kit"`
	// Sources are the manifest and its overlays.
	Sources []string `json:"sources"`
	// Wrong says what rides inside that does not agree with itself.
	Wrong []string `json:"wrong"`
	// Facts and Findings are what the report inside says otherwise than today's formulas and rules.
	Facts    []FactDifference    `json:"facts"`
	Findings []FindingDifference `json:"findings"`
	// Pages are what the pages say otherwise than would be printed today.
	Pages []PageDifference `json:"pages"`
	// Compared is how many pages were held against today's; Why says why none were.
	Compared int    `json:"pages_compared"`
	Why      string `json:"pages_not_compared,omitempty"`
	// Filled is how many form fields people have filled in.
	Filled int `json:"fields_filled_in"`
	// Printed and Today are the verdicts; empty is not known.
	Printed rules.Decision `json:"printed_verdict"`
	Today   rules.Decision `json:"verdict"`
	// Signed is what the signatures say.
	Signed Signed `json:"signatures"`
	// True reports whether the pages tell the truth under today's rules.
	True bool `json:"true"`
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

// Of verifies a book. An error is one of this program; whatever is wrong with the book is in the verification.
func (v Verify) Of(file string, b *record.Book) (*Verification, error) {
	found := &Verification{
		Format: Format, File: file, Program: v.Program, Wrong: append([]string{}, b.Wrong...), Facts: []FactDifference{}, Findings: []FindingDifference{},
		Pages: []PageDifference{}, Sources: []string{},
	}
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
	found.Kit = &assess.Kit{ID: string(m.Kit.ID), Name: m.Kit.Name, Revision: string(m.Kit.Revision), Digest: m.Digest()}
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
