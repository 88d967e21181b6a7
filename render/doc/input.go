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
	inForce := packs.InForce(o.Regions)
	return &Input{
		Facts: facts, Findings: rules.Evaluate(packs, facts, o),
		Preflight: crew.Checklist(m, packs, facts, o, "preflight", own),
		Recovery:  crew.Checklist(m, packs, facts, o, "recovery", own),
		Cautions:  crew.Gravest(append(rules.Cautions(packs, facts, o), crew.Cautions(m)...)),
		Notices:   rules.Notices(packs, facts, o),
		Packs:     inForce, rulesDigest: inForce.Digest()[:6],
		System: system, Paper: page.A4, Words: words, trials: newTrials(facts),
	}
}
