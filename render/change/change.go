// Package change says what changed between two kits in the words of the trade, what each change does to every margin, and
// whether a part that was put in the place of another still fits. It computes nothing of its own: facts come from kits and
// judgements from rules, once for each kit and once for each change alone.
//
// What a change does is found by making it alone to the first kit. Changes that work on each other (a heavier part and more
// gas to lift it) do not add up to what both do together; the margins of the second kit are those of all together.
package change

import (
	"runtime"
	"sync"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
)

// A Side is one of the two kits.
type Side struct {
	Name     string // as the reader knows it: a file, a demonstration kit, a book
	Manifest *manifest.Manifest
	Facts    *kits.Facts
	Findings []rules.Finding
	Verdict  rules.Decision
}

// A Comparison is all that can be said of two kits side by side.
type Comparison struct {
	Before, After Side
	Subjects      []Subject // what changed, by the thing that it was changed of
	Margins       []Margin  // the worst first
	Fits          []Fit     // of the parts that were replaced or added
	Crew          []Order   // what the crew reads otherwise
}

// A Margin is what became of one finding, and what each change by itself makes of it.
type Margin struct {
	rules.Shift
	Alone []Share
}

// A Share is what one change does to a margin when nothing else is changed. It may make a rule fail that all changes together
// leave standing.
type Share struct {
	Subject string // as Subject.Title
	Shift   rules.Shift
}

// Judge makes a side.
func Judge(name string, m *manifest.Manifest, packs rules.Packs, system unit.System) Side {
	facts := kits.Assess(m)
	findings := rules.Evaluate(packs, facts, crew.Options(m, system))
	return Side{name, m, facts, findings, rules.Verdict(findings)}
}

// MostAlone is how many changes are tried one by one; of kits that differ in more, only what they do together is told.
const MostAlone = 100

// Between compares two sides. What a reader sees is printed in the system of units.
func Between(before, after Side, packs rules.Packs, system unit.System) *Comparison {
	c := &Comparison{Before: before, After: after, Subjects: Subjects(before.Manifest, after.Manifest, system)}
	trials := c.trials(packs, system)
	for _, s := range rules.Shifts(before.Findings, after.Findings) {
		c.Margins = append(c.Margins, Margin{Shift: s, Alone: alone(s, trials)})
	}
	c.Fits = c.fits(trials, packs)
	c.Crew = orders(before, after, packs, system)
	return c
}

// A trial is the first kit with one change.
type trial struct {
	subject *Subject
	side    Side
	shifts  []rules.Shift
	why     string // it cannot be made alone
}

// OneKit reports whether both sides are of one kit. Of two kits the parts that have the same reference are not put in the place of each
// other, and what one of a hundred differences does alone means nothing.
func (c *Comparison) OneKit() bool {
	a, b := c.Before.Manifest, c.After.Manifest
	return a.Kit.ID == b.Kit.ID || a.Shared().ID == b.Shared().ID
}

// trials makes each change alone, with every core at work.
func (c *Comparison) trials(packs rules.Packs, system unit.System) []trial {
	if len(c.Subjects) < 1 || len(c.Subjects) > MostAlone || !c.OneKit() {
		return nil
	}
	all := make([]trial, len(c.Subjects))
	var trying sync.WaitGroup
	turn := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i := range c.Subjects {
		all[i].subject = &c.Subjects[i]
		if len(c.Subjects) == 1 { // it is all there is
			all[i].side, all[i].shifts = c.After, rules.Shifts(c.Before.Findings, c.After.Findings)
			break
		}
		trying.Go(func() {
			turn <- struct{}{}
			defer func() { <-turn }()
			all[i].try(c.Before, c.After, packs, system)
		})
	}
	trying.Wait()
	return all
}

// try lays one change over the first kit. A change that refers to another one cannot stand alone.
func (t *trial) try(before, after Side, packs rules.Packs, system unit.System) {
	m, err := before.Manifest.Changed(t.subject.patch(before.Manifest, after.Manifest))
	if err != nil {
		t.why = "only together with other changes"
		return
	}
	t.side = Judge(before.Name, m, packs, system)
	t.shifts = rules.Shifts(before.Findings, t.side.Findings)
}

// alone gathers what each change by itself makes of a finding.
func alone(s rules.Shift, trials []trial) []Share {
	if len(trials) < 2 {
		return nil
	}
	var shares []Share
	for _, t := range trials {
		for _, one := range t.shifts {
			if one.Now().Rule == s.Now().Rule && one.Now().Subject == s.Now().Subject && one.Kind() != rules.Same {
				shares = append(shares, Share{t.subject.Title(), one})
			}
		}
	}
	return shares
}

// Worse reports whether anything that held, or was not asked for, does not hold now.
func (c *Comparison) Worse() bool {
	return len(c.Margins) > 0 && c.Margins[0].Kind() == rules.Broken
}
