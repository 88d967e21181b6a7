package walk

import (
	"fmt"
	"slices"

	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// A standing is how a step stands: whether it has been answered, and whether the answer still holds.
type standing struct {
	step
	number int
	state  phase
	why    string // what is wrong with it, or why it is open again
	answer answer
	barred string // why it cannot be answered yet, or empty

	doubt rules.Expected // what a reading that its limits allow does not keep to
}

// phase is the state of a step.
type phase string

const (
	open      phase = "open"
	settled   phase = "settled"
	failed    phase = "not met"
	unknown   phase = "not shown"
	overruled phase = "overruled"
)

// behind reports whether the list may go on past a step.
func (p phase) behind() bool { return p == settled || p == overruled }

// standings goes through a list once. What depends on earlier steps is carried along: whether all of them are behind, when
// one of them last changed, and the hold point at which the list stops.
func (s *State) standings(list string) []standing {
	steps := s.now.lists[list]
	gate, upAgain := s.gateAt(), s.raised()
	all := make([]standing, len(steps))
	before, stop := ground{changed: s.weighedAt, what: "the weighing of " + s.weighedLast}, ""
	for i, st := range steps {
		one := s.stand(st)
		one.number, one.barred = i+1, stop
		switch {
		case stop != "":
		case list == Preflight && i > gate && gate >= 0 && len(s.Flights) == 0, list == Change && i > gate && gate >= 0 && !upAgain:
			one.barred = "the launch has not been recorded yet"
		case list == Change && s.aloft() && !upAgain && st.Phase != steps[0].Phase:
			one.barred = "the balloon is up; record when it is down first"
		case list == Recovery && s.aloft() && st.Phase != steps[0].Phase:
			one.barred = "the balloon is up; record when it is down first"
		}
		if st.Hold {
			s.holdPoint(&one, before)
			if !one.state.behind() && stop == "" {
				stop = fmt.Sprintf("item %d, %q, comes first", i+1, st.Challenge)
			}
		}
		before.add(one, s.overruled[itemKey(st.key)].n)
		all[i] = one
	}
	return all
}

// A ground is what a hold point stands on: the items before it.
type ground struct {
	broken  string // the first that is not behind, in words
	changed int    // the latest entry that changed one
	what    string // and which
}

func (g *ground) add(one standing, overruled int) {
	if g.broken == "" && !one.state.behind() {
		g.broken = fmt.Sprintf("item %d, %q, is %s", one.number, one.Challenge, one.state)
	}
	if n := max(one.answer.changed, overruled); n > g.changed {
		g.changed, g.what = n, fmt.Sprintf("item %d, %q,", one.number, one.Challenge)
	}
}

// holdPoint reopens a hold point whose ground has moved since it was answered. While the balloon is up there is no going back
// to the ground: then the rules decide alone.
func (s *State) holdPoint(one *standing, before ground) {
	switch {
	case s.aloft() || one.state == failed:
	case before.broken != "":
		one.state, one.why = open, before.broken
	case one.state == settled && before.changed > one.answer.n:
		one.state, one.why = open, before.what+" has changed since it was answered"
	}
}

// turn lists the items to be answered now, in order: what is open as far as the list may go, then what is against it, then
// the hold point that all this leads to. What is against it while the balloon is up is mended on the ground.
func (s *State) turn() []string {
	var todo, against, hold []string
	for _, one := range s.standings(s.List) {
		if one.Hold && !one.state.behind() {
			if one.barred == "" {
				hold = append(hold, one.key)
			}
			break
		}
		switch {
		case one.state == open && one.barred == "":
			todo = append(todo, one.key)
		case (one.state == failed || one.state == unknown) && !s.aloft():
			against = append(against, one.key)
		}
	}
	return slices.Concat(todo, against, hold)
}

// stand judges one step by its own answer.
func (s *State) stand(st step) standing {
	one := s.judged(st)
	if o, ok := s.overruled[itemKey(st.key)]; ok && one.state != settled {
		switch {
		case o.about == one.about() && one.may():
			one.state, one.why = overruled, o.who+": "+o.reason
		case one.why == "":
			one.why = "what was overruled has changed since"
		}
	}
	return one
}

// may reports whether the person in charge may overrule a step: not what is critical, unless it is no more than a doubt.
func (one standing) may() bool {
	return one.doubted() || !one.Critical && !one.Hold
}

func (one standing) doubted() bool { return one.doubt.Text != "" }

// level is how much a step weighs that stands against a pass.
func (one standing) level() rules.Level {
	if one.may() {
		return rules.Should
	}
	return rules.Must
}

// judged is a step as it stands by its own answer, whatever was overruled.
func (s *State) judged(st step) standing {
	one := standing{step: st, state: open}
	a, answered := s.answers[st.key]
	one.answer = a
	switch {
	case st.tally != nil:
		one.state, one.why = s.standTally(st)
	case !answered:
	case !a.done:
		one.state, one.why = failed, a.text
	case st.Reading != nil && a.reads != nil && s.outrun(st, a):
		one.why = "another reading says that this has changed since; read it again"
	case st.Reading != nil && a.reads != nil:
		switch st.Reading.Judge(*a.reads) {
		case rules.Met:
			s.doubt(&one)
		case rules.NotMet:
			one.state, one.why = failed, "reads "+st.Reading.Shows(*a.reads, s.kit.System)+"; "+st.Response
		default:
			one.state, one.why = unknown, "the limit for this reading is not shown"
		}
	case (st.Reading != nil) != (a.reads != nil):
		one.why = "it is asked otherwise now"
	case !(sameAsked(a.challenge, st.Challenge) && sameAsked(a.response, st.Response)) && !s.aloft():
		one.why = "it was answered when it said: " + a.response
	default:
		one.state = settled
	}
	return one
}

// doubt holds a reading that its limits allow against what is expected besides.
func (s *State) doubt(one *standing) {
	e, doubted := one.Reading.Doubt(*one.answer.reads)
	switch {
	case !doubted:
		one.state = settled
	case !e.Limit.Known():
		one.state, one.why, one.doubt = unknown, "what is expected of this reading is not shown", e
	default:
		one.state, one.doubt = failed, e
		one.why = fmt.Sprintf("reads %s, and %s was expected: %s", one.Reading.Shows(*one.answer.reads, s.kit.System), e.Asks(s.kit.System), e.Text)
	}
}

// outrun reports whether a reading is below one that it cannot be below, which was taken after it.
func (s *State) outrun(st step, a answer) bool {
	least, ok := s.floor(st)
	return ok && a.reads.SI < least.SI
}

func (s *State) standTally(st step) (phase, string) {
	back, all, short := s.tallied(st)
	switch {
	case !all && short:
		return open, s.missing(st)
	case !all:
		return open, ""
	case short:
		return failed, s.missing(st)
	}
	switch st.Reading.Judge(unit.Count(back).Quantity()) {
	case rules.Met:
		return settled, ""
	case rules.NotMet:
		return failed, fmt.Sprintf("%d counted; %s", back, st.Response)
	}
	return unknown, "how many must be back is not shown"
}

// missing names what has not come back.
func (s *State) missing(st step) string {
	text := "not back:"
	for _, ref := range st.tally {
		if n, counted := s.counted[string(ref)]; counted {
			if lost := pieces(s.kit.Manifest.Parts[ref]) - n; lost > 0 {
				text += fmt.Sprintf(" %d %s,", lost, ref)
			}
		}
	}
	return text[:len(text)-1]
}

// rising is the list by which the balloon goes up: that of a change where one is being walked.
func (s *State) rising() string {
	if s.List == Change {
		return Change
	}
	return Preflight
}

// raised reports whether the balloon has gone up since the list of a change was begun.
func (s *State) raised() bool {
	return s.List == Change && s.aloft() && len(s.Flights) > s.before
}

// gateAt is the place of the last hold point of the list by which the balloon goes up: there it is let go. Without hold points it
// is behind the last step.
func (s *State) gateAt() int {
	steps := s.now.lists[s.rising()]
	for i := len(steps) - 1; i >= 0; i-- {
		if steps[i].Hold {
			return i
		}
	}
	return -1
}

func itemKey(key string) string { return "item " + key }

func ruleKey(rule, subject string) string { return "rule " + keyOf(rule, subject) }

// about says what an overruling of a step was about: its words, and its answer.
func (one standing) about() string {
	return fmt.Sprint(one.Challenge, "\n", one.Response, "\n", one.answer.done, "\n", one.answer.text, "\n", one.doubt.Text)
}
