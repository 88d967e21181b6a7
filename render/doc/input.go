package doc

import (
	"time"

	"hoistbook/kits"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/render/page"
	"hoistbook/rules"
)

// Input is all that documents are made of.
type Input struct {
	Facts     *kits.Facts
	Findings  []rules.Finding
	Preflight []rules.Step
	Change    []rules.Step // none where nothing is changed on station
	Recovery  []rules.Step
	Cautions  []rules.Alert
	Notices   []rules.Worksheet
	Packs     rules.Packs // in force

	System unit.System
	Paper  page.Paper
	Fonts  *page.Fonts
	Words  *Words

	Date        time.Time // printed where it is not zero
	Program     string    // the program and its version
	Attachments []page.Attachment

	trials      *trials // shared by the documents of one input
	rulesDigest string  // short, of the packs in force
}

// tried are the trials of this input's kit. An input that was put together by hand remembers none.
func (in *Input) tried() *trials {
	if in.trials == nil {
		return newTrials(in.Facts)
	}
	return in.trials
}

// Gather judges a kit by packs and makes the input of its documents, the kit's own steps and cautions among those of the
// packs. Paper and fonts are left to the caller; A4 and the built-in faces are what it gets otherwise.
func Gather(facts *kits.Facts, packs rules.Packs, system unit.System, words *Words) *Input {
	m := facts.Manifest
	o := crew.Options(m, system)
	own := crew.Own{Phase: words.Say("checklist.own-phase"), Done: words.Say("checklist.done"), Anybody: words.Say("checklist.anybody")}
	inForce, spoken, said := packs.InForce(o.Regions), words.Packs(packs), o
	said.Say = words.word
	return &Input{
		Facts: facts, Findings: rules.Evaluate(packs, facts, o),
		Preflight: words.steps(crew.Checklist(m, spoken, facts, said, "preflight", own)),
		Change:    words.steps(crew.Checklist(m, spoken, facts, said, crew.Change, own)),
		Recovery:  words.steps(crew.Checklist(m, spoken, facts, said, "recovery", own)),
		Cautions:  words.alerts(crew.Gravest(append(rules.Cautions(spoken, facts, said), crew.Cautions(m)...))),
		Notices:   rules.Notices(packs, facts, o),
		Packs:     inForce, rulesDigest: inForce.Digest()[:6],
		System: system, Paper: page.A4, Words: words, trials: newTrials(facts),
	}
}

// steps have the language's decimal sign in their numbers, and their roles in its words. Phases keep their names, by which cautions stand
// before them, until they are printed.
func (w *Words) steps(steps []rules.Step) []rules.Step {
	for i := range steps {
		s := &steps[i]
		for _, text := range []*string{&s.Challenge, &s.Response, &s.Beyond, &s.Notes} {
			*text = w.Number(*text)
		}
		s.Role = w.Name("role", s.Role)
		for k := range s.Gear {
			s.Gear[k].What = w.Number(s.Gear[k].What)
		}
	}
	return steps
}

func (w *Words) alerts(alerts []rules.Alert) []rules.Alert {
	for i := range alerts {
		a := &alerts[i]
		for _, text := range []*string{&a.Hazard, &a.Consequence, &a.Avoidance} {
			*text = w.Number(*text)
		}
		for k := range a.Gear {
			a.Gear[k].What = w.Number(a.Gear[k].What)
		}
	}
	return alerts
}
