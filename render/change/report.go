package change

import (
	"math"

	"hoistbook/kits/manifest"
	"hoistbook/rules"
)

// Format is the format of comparisons as programs read them.
const Format = "hoistbook-comparison/1"

// Report is a comparison as programs read it.
type Report struct {
	// Format is the format of this report.
	Format string `json:"format"`
	// Before is the first kit.
	Before ReportedSide `json:"before"`
	// After is the second kit.
	After ReportedSide `json:"after"`
	// Changes are what is said otherwise, by the thing that it is said of.
	Changes []ReportedSubject `json:"changes"`
	// Margins are what became of each finding, the worst first; those that are the same are left out.
	Margins []ReportedMargin `json:"margins"`
	// Same is how many findings are the same.
	Same int `json:"same"`
	// Parts are the judgements of parts that were replaced or added.
	Parts []ReportedFit `json:"parts"`
	// Crew is what the crew reads otherwise.
	Crew []ReportedOrder `json:"crew"`
}

// ReportedSide is one kit of a report.
type ReportedSide struct {
	File     string           `json:"file"`
	ID       string           `json:"id"`
	Name     string           `json:"name"`
	Revision string           `json:"revision"`
	Digest   string           `json:"digest"`
	Verdict  rules.Decision   `json:"verdict"`
	Overlays []string         `json:"overlays"`
	Stale    []string         `json:"stale"`
	MadeFor  manifest.MadeFor `json:"shared"`
}

// ReportedSubject is a thing that something was changed of.
type ReportedSubject struct {
	Kind  string         `json:"kind"`
	Ref   string         `json:"ref,omitempty"`
	Name  string         `json:"name,omitempty"`
	State State          `json:"state"`
	Lines []ReportedLine `json:"lines"`
}

// ReportedLine is one change; null means that nobody says it there.
type ReportedLine struct {
	Pointer    string  `json:"pointer"`
	What       string  `json:"what"`
	Before     *string `json:"before"`
	After      *string `json:"after"`
	Difference string  `json:"difference,omitempty"`
}

// ReportedMargin is what became of a finding.
type ReportedMargin struct {
	Rule    string          `json:"rule"`
	Subject string          `json:"subject,omitempty"`
	Kind    rules.Kind      `json:"kind"`
	Before  *rules.Finding  `json:"before"`
	After   *rules.Finding  `json:"after"`
	Points  *float64        `json:"points"`
	Alone   []ReportedShare `json:"alone,omitempty"`
}

// ReportedShare is what one change alone does to a margin.
type ReportedShare struct {
	Change  string        `json:"change"`
	Kind    rules.Kind    `json:"kind"`
	Outcome rules.Outcome `json:"outcome"`
	Points  *float64      `json:"points"`
}

// ReportedFit is the judgement of one part.
type ReportedFit struct {
	Ref     string           `json:"ref"`
	State   State            `json:"state"`
	Alone   bool             `json:"alone"`
	Fits    bool             `json:"fits"`
	Aspects []ReportedAspect `json:"aspects"`
}

// ReportedAspect is one way in which a part fits or does not; the outcome of none that is touched is null.
type ReportedAspect struct {
	Way     Way            `json:"way"`
	Outcome *rules.Outcome `json:"outcome"`
	Rules   []string       `json:"rules"`
}

// ReportedOrder is something that the crew reads otherwise.
type ReportedOrder struct {
	List   string `json:"list"`
	Text   string `json:"text"`
	Before string `json:"before"`
	After  string `json:"after"`
}

// Report writes the comparison for programs.
func (c *Comparison) Report() Report {
	r := Report{
		Format: Format, Before: c.Before.report(), After: c.After.report(), Changes: []ReportedSubject{}, Margins: []ReportedMargin{},
		Parts: []ReportedFit{}, Crew: []ReportedOrder{},
	}
	for _, s := range c.Subjects {
		one := ReportedSubject{s.Kind, s.Ref, s.Name, s.State, nil}
		for _, l := range s.Lines {
			one.Lines = append(one.Lines, ReportedLine{l.Pointer, l.What, orNull(l.Before), orNull(l.After), l.Difference})
		}
		r.Changes = append(r.Changes, one)
	}
	for _, m := range c.Margins {
		if m.Kind() == rules.Same {
			r.Same++
			continue
		}
		one := ReportedMargin{m.Now().Rule, m.Now().Subject, m.Kind(), m.Before, m.After, finite(m.Points()), nil}
		for _, a := range m.Alone {
			one.Alone = append(one.Alone, ReportedShare{a.Subject, a.Shift.Kind(), a.Shift.Now().Outcome, finite(a.Shift.Points())})
		}
		r.Margins = append(r.Margins, one)
	}
	for _, f := range c.Fits {
		one := ReportedFit{f.Subject.Ref, f.Subject.State, f.Alone, f.Holds(), nil}
		for _, a := range f.Aspects {
			way := ReportedAspect{Way: a.Way, Rules: []string{}}
			for _, s := range a.Touched {
				way.Rules = append(way.Rules, named(*s.Now()))
			}
			if len(a.Touched) > 0 {
				outcome := a.Outcome()
				way.Outcome = &outcome
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
	k := s.Manifest.Kit
	r := ReportedSide{s.Name, string(k.ID), k.Name, string(k.Revision), s.Manifest.Digest(), s.Verdict, []string{}, []string{}, s.Manifest.Shared()}
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

func orNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// finite is the number to six decimals, or nil when there is none.
func finite(n float64) *float64 {
	if math.IsNaN(n) || math.IsInf(n, 0) {
		return nil
	}
	n = math.Round(n*1e6) / 1e6
	return &n
}
