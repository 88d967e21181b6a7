package change

import (
	"hoistbook/kits/manifest"
	"math"

	"hoistbook/rules"
)

// Format is the format of comparisons as programs read them.
const Format = "hoistbook-comparison/1"

// Report is a comparison as programs read it.
type Report struct {
	// The format of this report.
	Format string `json:"format" jsonschema:"enum=hoistbook-comparison/1,example=hoistbook-comparison/1"`
	// The first kit.
	Before ReportedSide `json:"before"`
	// The second kit.
	After ReportedSide `json:"after"`
	// What is said otherwise, by the thing that it is said of.
	Changes []ReportedSubject `json:"changes"`
	// What became of each finding, the worst first; those that are the same are left out.
	Margins []ReportedMargin `json:"margins"`
	// How many findings are the same.
	Same int `json:"same" jsonschema:"example=60"`
	// The judgements of parts that were replaced or added.
	Parts []ReportedFit `json:"parts"`
	// What the crew reads otherwise.
	Crew []ReportedOrder `json:"crew"`
}

// ReportedSide is one kit of a comparison.
type ReportedSide struct {
	// The file, the demonstration kit or the book, with its overlays.
	File string `json:"file" jsonschema:"example=demo:fen-relay with our-club.json"`
	manifest.Identity
	// Whether the kit may fly as far as the rules can say.
	Verdict string `json:"verdict" jsonschema:"enum=GO,enum=NO-GO,example=GO"`
	// The digest of the shared manifest below all overlays.
	Shared string `json:"shared_digest" jsonschema:"pattern=^sha256:[0-9a-f]{64}$"`
	// The overlays, in the order in which they were laid.
	Overlays []string `json:"overlays"`
	// What no longer fits of overlays that were made for another revision.
	Stale []string `json:"stale"`
}

// ReportedSubject is a thing of which something is said otherwise.
type ReportedSubject struct {
	// What kind of thing it is.
	Kind string `json:"kind" jsonschema:"example=part"`
	// Its reference in the manifest, where it has one.
	Ref string `json:"ref,omitempty" jsonschema:"example=TX1"`
	// Its name, where it has one.
	Name string `json:"name,omitempty" jsonschema:"example=FM transmitter module"`
	// What happened to it.
	State string `json:"state" jsonschema:"enum=new,enum=gone,enum=replaced,enum=changed,example=replaced"`
	// What is said of it otherwise.
	Lines []ReportedLine `json:"lines"`
}

// ReportedLine is one thing that is said otherwise.
type ReportedLine struct {
	// Where it stands in the manifest, as a JSON pointer.
	Pointer string `json:"pointer" jsonschema:"example=/parts/TX1/mass"`
	// What it is, in words.
	What string `json:"what" jsonschema:"example=mass"`
	// What was said; left out where nobody said it.
	Before string `json:"before,omitempty" jsonschema:"example=31 g"`
	// What is said; left out where nobody says it.
	After string `json:"after,omitempty" jsonschema:"example=47 g"`
	// By how much a number grew.
	Difference string `json:"difference,omitempty" jsonschema:"example=+16 g (+52 %)"`
}

// ReportedMargin is what became of a finding.
type ReportedMargin struct {
	// The id of the rule.
	Rule string `json:"rule" jsonschema:"example=cost.budget"`
	// What it is about, where the rule runs over several.
	Subject string `json:"subject,omitempty" jsonschema:"example=TX1"`
	// In one word.
	Kind string `json:"kind" jsonschema:"enum=broken,enum=thinner,enum=gone,enum=begun,enum=changed,enum=wider,enum=mended,example=thinner"`
	// The finding of the first kit; left out where the rule did not apply.
	Before *rules.Reported `json:"before,omitempty"`
	// The finding of the second kit; left out where the rule no longer applies.
	After *rules.Reported `json:"after,omitempty"`
	// By how much the margin grew as a part of the limit; left out where there is none.
	Points *float64 `json:"points,omitempty" jsonschema:"example=-0.052"`
	// What each change alone does to it.
	Alone []ReportedShare `json:"alone,omitempty"`
}

// ReportedShare is what one change alone does to a margin.
type ReportedShare struct {
	// What was changed.
	Change string `json:"change" jsonschema:"example=TX1"`
	// What becomes of the finding.
	Kind string `json:"kind" jsonschema:"enum=broken,enum=thinner,enum=gone,enum=begun,enum=changed,enum=wider,enum=mended,example=thinner"`
	// What the rule says then.
	Outcome string `json:"outcome" jsonschema:"enum=met,enum=not met,enum=not shown,example=met"`
	// By how much the margin grows as a part of the limit; left out where there is none.
	Points *float64 `json:"points,omitempty" jsonschema:"example=-0.012"`
}

// ReportedFit is the judgement of one part.
type ReportedFit struct {
	// Its reference.
	Ref string `json:"ref" jsonschema:"example=TX1"`
	// Whether it is new or takes the place of another.
	State string `json:"state" jsonschema:"enum=new,enum=replaced,example=replaced"`
	// Whether it was judged with nothing else changed.
	Alone bool `json:"alone" jsonschema:"example=true"`
	// Whether every rule that must hold and that it touches holds.
	Fits bool `json:"fits" jsonschema:"example=true"`
	// The ways in which it fits or does not.
	Aspects []ReportedAspect `json:"aspects"`
	// The control lines that still say what they said of the part before.
	Unsaid []string `json:"unsaid"`
}

// ReportedAspect is one way in which a part fits or does not.
type ReportedAspect struct {
	// Which way.
	Way string `json:"way" jsonschema:"example=voltage"`
	// The least outcome of the rules that it touches; left out where it touches none.
	Outcome string `json:"outcome,omitempty" jsonschema:"enum=met,enum=not met,enum=not shown,example=met"`
	// The rules that it touches.
	Rules []string `json:"rules"`
}

// ReportedOrder is something that the crew reads otherwise.
type ReportedOrder struct {
	// The checklist, or the cautions.
	List string `json:"list" jsonschema:"enum=preflight,enum=recovery,enum=cautions,example=preflight"`
	// The item; empty where it is what differs.
	Text string `json:"text" jsonschema:"example=Mean wind over ten minutes"`
	// What was read; empty where nothing was.
	Before string `json:"before" jsonschema:"example=no more than 2.52 m/s"`
	// What is read; empty where nothing is.
	After string `json:"after" jsonschema:"example=no more than 2.45 m/s"`
}

// Report writes the comparison for programs.
func (c *Comparison) Report() Report {
	r := Report{
		Format: Format, Before: c.Before.report(), After: c.After.report(), Changes: []ReportedSubject{}, Margins: []ReportedMargin{},
		Parts: []ReportedFit{}, Crew: []ReportedOrder{},
	}
	for _, s := range c.Subjects {
		one := ReportedSubject{s.Kind, s.Ref, s.Name, string(s.State), []ReportedLine{}}
		for _, l := range s.Lines {
			one.Lines = append(one.Lines, ReportedLine(l))
		}
		r.Changes = append(r.Changes, one)
	}
	for _, m := range c.Margins {
		if m.Kind() == rules.Same {
			r.Same++
			continue
		}
		one := ReportedMargin{m.Now().Rule, m.Now().Subject, m.Kind().String(), reported(m.Before), reported(m.After), finite(m.Points()), nil}
		for _, a := range m.Alone {
			one.Alone = append(one.Alone, ReportedShare{a.Subject, a.Shift.Kind().String(), a.Shift.Now().Outcome.String(), finite(a.Shift.Points())})
		}
		r.Margins = append(r.Margins, one)
	}
	for _, f := range c.Fits {
		one := ReportedFit{f.Subject.Ref, string(f.Subject.State), f.Alone, f.Holds(), nil, append([]string{}, f.Unsaid...)}
		for _, a := range f.Aspects {
			way := ReportedAspect{Way: string(a.Way), Rules: []string{}}
			for _, s := range a.Touched {
				way.Rules = append(way.Rules, named(*s.Now()))
			}
			if len(a.Touched) > 0 {
				way.Outcome = a.Outcome().String()
			}
			one.Aspects = append(one.Aspects, way)
		}
		r.Parts = append(r.Parts, one)
	}
	for _, o := range c.Crew {
		r.Crew = append(r.Crew, ReportedOrder(o))
	}
	return r
}

func (s Side) report() ReportedSide {
	r := ReportedSide{
		File: s.Name, Identity: s.Manifest.Identity(), Verdict: string(s.Verdict),
		Shared: string(s.Manifest.Shared().Digest), Overlays: []string{}, Stale: []string{},
	}
	for _, l := range s.Manifest.Layers() {
		r.Overlays = append(r.Overlays, l.Name)
		for _, p := range l.Stale {
			r.Stale = append(r.Stale, p.String())
		}
	}
	return r
}

func named(f rules.Finding) string {
	if f.Subject == "" {
		return f.Rule
	}
	return f.Rule + " " + f.Subject
}

// reported is a finding as reports write it, or nothing.
func reported(f *rules.Finding) *rules.Reported {
	if f == nil {
		return nil
	}
	r := f.Report()
	return &r
}

// finite is the number to six decimals, or nil when there is none.
func finite(n float64) *float64 {
	if math.IsNaN(n) || math.IsInf(n, 0) {
		return nil
	}
	n = math.Round(n*1e6) / 1e6
	return &n
}
