package walk

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// step finds the step that an input is about, in the list that is being walked, and refuses it where the list stops before
// it. What was answered can be answered again wherever it stands: it may be what must be mended for the list to go on.
func (s *State) step(e *Entry) (standing, []standing, int, error) {
	key := keyOf(e.Item, e.Subject)
	all := s.standings(s.List)
	for i, one := range all {
		if one.key != key {
			continue
		}
		switch {
		case one.barred != "" && one.answer.n == 0:
			return one, all, i, refuse("", "%s", one.barred)
		case e.Seen > 0 && one.answer.n > e.Seen && one.answer.who != e.Who:
			return one, all, i, refuse("look at it, and answer again if that is wrong", "%s has answered this in the meantime", one.answer.who)
		}
		e.Challenge, e.Response = one.Challenge, one.Response
		return one, all, i, nil
	}
	return standing{}, nil, 0, refuse("", "the %s list has no item %q", s.List, key)
}

// tick answers a step with done or not done.
func tick(s *State, e *Entry) error {
	one, all, i, err := s.step(e)
	switch {
	case err != nil:
		return err
	case one.tally != nil:
		return refuse("count each part", "%s is counted part by part", one.Challenge)
	case e.Do == Done && one.Reading != nil:
		return refuse("write the number on the instrument with its unit, "+strings.Join(s.units(*one.Reading), ", "), "%s is a reading", one.Reading.Name)
	case one.Hold:
		if err := s.release(e, one, all, i); err != nil {
			return err
		}
	}
	a := answer{
		n: e.N, changed: e.N, at: e.At, who: e.Who, done: e.Do == Done, text: e.Text, challenge: one.Challenge, response: one.Response,
	}
	if old := one.answer; old.n > 0 && old.done == a.done && old.reads == nil {
		a.changed = old.changed
	}
	fed := one.answer.reads != nil
	s.answers[one.key] = a
	if fed {
		s.now, err = s.judge()
	}
	return err
}

// release is the answer to a hold point: from the person in charge alone, with everything before it settled and no rule
// broken. What comes behind it, and its own last answer, do not stand in its way: who has stopped can go on. The last one lets
// the balloon go, and asks for a GO.
func (s *State) release(e *Entry, one standing, all []standing, i int) error {
	switch leader := s.Leader(); {
	case leader == "":
		return refuse("say who is in charge", "nobody is in charge")
	case !s.leads(e.Who):
		return refuse("", "%q is a hold point: %s answers it", one.Challenge, leader)
	case e.Do == Not:
		return nil
	}
	for _, before := range all[:i] {
		if !before.state.behind() {
			return refuse(s.mendItem(before), "%q is a hold point, and item %d before it, %q, is %s", one.Challenge, before.number, before.Challenge, before.state)
		}
	}
	if s.List == Recovery {
		return nil
	}
	v := s.decideBy(all[:i], e.At)
	if against := v.against(); len(against) > 0 {
		return refuse(against[0].Mend, "%q is a hold point, and the verdict is %s: %s", one.Challenge, v.Word, against[0].Text)
	}
	if i == s.gateAt() && v.Word != GO {
		return refuse(v.mend(), "%q lets the balloon go, and the verdict is %s", one.Challenge, v.Word)
	}
	return nil
}

// read takes what an instrument shows.
func read(s *State, e *Entry) error {
	one, all, _, err := s.step(e)
	switch {
	case err != nil:
		return err
	case one.tally != nil:
		return refuse("count each part", "%s is counted part by part", one.Challenge)
	case one.Reading == nil:
		return refuse("answer done or not done", "%q is no reading", one.Challenge)
	}
	g := one.Reading
	q, err := s.quantity(g.Dim, e.Text, g.Low, g.High, s.units(*g))
	if err != nil {
		return err
	}
	if least, ok := s.floor(one.step); ok && q.SI < least.SI {
		other := all[slices.IndexFunc(all, func(o standing) bool { return o.key == one.Reading.NotBelow })]
		return refuse(fmt.Sprintf("look at both again, and answer item %d anew if that is the one that is wrong", other.number),
			"%s is less than the %s, %s, and cannot be", q.Text(s.kit.System), other.Reading.Name, least.Text(s.kit.System))
	}
	a := answer{
		n: e.N, changed: e.N, at: e.At, who: e.Who, done: true, text: e.Text, reads: &q, feeds: g.Feeds, replaces: g.Replaces, label: e.Label,
		challenge: one.Challenge, response: one.Response,
	}
	if old := one.answer; old.reads != nil && *old.reads == q && old.label == a.label {
		a.changed = old.changed
	}
	if s.isBattery(one.step) {
		e.Part = one.Subject
	}
	s.answers[one.key] = a
	if s.now, err = s.judge(); err != nil {
		return err
	}
	e.Value = q.Text(s.kit.System)
	outcome := rules.NotShown
	if now, ok := s.now.find(s.List, one.key); ok {
		outcome, e.Response, e.Value = now.Reading.Judge(q), now.Response, now.Reading.Shows(q, s.kit.System)
		if doubt, is := now.Reading.Doubt(q); is && outcome == rules.Met {
			outcome, e.Doubt = rules.NotMet, doubt.Text
			if !doubt.Limit.Known() {
				outcome = rules.NotShown
			}
		}
	}
	e.Outcome = outcome.String()
	if set := s.fitted(one.Subject); s.isBattery(one.step) && s.aloft() && outcome == rules.NotMet && set != nil && (e.Label == "" || e.Label == set.Label) {
		return refuse("after a change name the set that was put in, such as B; what the one in the air still has is a note",
			"set %s of %s has been at work since %s, and a fresh one is asked for here", set.Label, one.Subject, set.On.Format("15:04"))
	}
	return nil
}

// floor finds the reading that a step's own cannot be below, where it has been taken.
func (s *State) floor(st step) (least unit.Quantity, ok bool) {
	if st.Reading == nil || st.Reading.NotBelow == "" {
		return least, false
	}
	a := s.answers[st.Reading.NotBelow]
	other, found := s.now.find(st.List, st.Reading.NotBelow)
	if a.reads == nil || !found || other.Reading == nil {
		return least, false
	}
	return *a.reads, true
}

var bare = regexp.MustCompile(`^-?[0-9]+([.,][0-9]+)?$`)

// quantity reads a number with its unit and refuses what no honest instrument shows.
func (s *State) quantity(dim unit.Dimension, text string, low, high unit.Quantity, units []string) (unit.Quantity, error) {
	if bare.MatchString(text) && units[0] != "" {
		return unit.Quantity{}, refuse(fmt.Sprintf("write %s %s if that is what the instrument shows, or another of %s", text, units[0], strings.Join(units[1:], ", ")),
			"%q has no unit", text)
	}
	q, err := ParseReading(dim, text)
	var said *unit.Error
	if errors.As(err, &said) {
		return q, &Refusal{said.What, said.Fix}
	}
	if err != nil {
		return q, err
	}
	plausible := rules.Gauge{Dim: dim, Low: low, High: high}
	if !plausible.Plausible(q) {
		least, most := unit.Limits(low, high, s.kit.System)
		return q, refuse("look at the instrument and the unit again", "%s is not plausible: it should lie between %s and %s",
			q.TextAs(s.kit.System, func(printed unit.Quantity) bool { return !plausible.Plausible(printed) }), least, most)
	}
	return q, nil
}

// takeBack removes an answer and what was overruled of it.
func takeBack(s *State, e *Entry) error {
	one, _, _, err := s.step(e)
	if err != nil {
		return err
	}
	_, over := s.overruled[itemKey(one.key)]
	if one.answer.n == 0 && !over {
		return refuse("", "%q has no answer", one.Challenge)
	}
	delete(s.answers, one.key)
	delete(s.overruled, itemKey(one.key))
	if one.answer.reads != nil {
		s.now, err = s.judge()
	}
	return err
}

// weigh takes the mass of one piece of a part aloft. A part is not ten times what its maker says: then it is the mass of
// all pieces, or the wrong unit.
func weigh(s *State, e *Entry) error {
	p, err := s.part(e.Part)
	switch {
	case err != nil:
		return err
	case p.Place != manifest.Aloft:
		return refuse("weigh what flies", "%s stays on the ground", e.Part)
	case s.List == Recovery:
		return refuse("", "the flight is over")
	}
	e.Challenge = "One piece of " + e.Part + ", " + p.Name
	old, was := s.weighed[e.Part]
	if e.Text == "" {
		if !was {
			return refuse("", "%s has not been weighed", e.Part)
		}
		delete(s.weighed, e.Part)
	} else {
		low, high := unit.Quantity{Dim: unit.DimMass}, unit.Mass(1000).Quantity()
		if p.Mass != nil {
			low, high = (*p.Mass / 10).Quantity(), (*p.Mass * 10).Quantity()
		}
		q, err := s.quantity(unit.DimMass, e.Text, low, high, s.massUnits(p))
		if err != nil {
			return err
		}
		s.weighed[e.Part] = weighing{e.Text, q, e.At}
		e.Value = q.Text(s.kit.System)
		was = was && old.mass == q
	}
	if !was || e.Text == "" {
		s.weighedAt, s.weighedLast = e.N, e.Part
	}
	s.now, err = s.judge()
	return err
}

// overrule sets a SHOULD aside: the person in charge does, with a reason. It is about what is wrong now, and no more.
func overrule(s *State, e *Entry) error {
	switch {
	case !s.leads(e.Who):
		return refuse("", "only the person in charge can overrule")
	case e.Text == "":
		return refuse("write why", "an overruling needs a reason")
	case e.Item != "":
		one, _, _, err := s.step(e)
		switch {
		case err != nil:
			return err
		case !one.may():
			return refuse("see that it is done", "%q is critical, and cannot be overruled", one.Challenge)
		case one.state == settled:
			return refuse("", "%q is settled", one.Challenge)
		}
		s.overruled[itemKey(one.key)] = overruling{e.N, e.Who, e.Text, one.about()}
		return nil
	}
	for _, f := range s.now.findings {
		if f.Rule != e.Rule || f.Subject != e.Subject {
			continue
		}
		switch {
		case f.Level != rules.Should:
			return refuse(f.Hint, "%q is a must, and cannot be overruled", f.Title)
		case f.Outcome == rules.Met:
			return refuse("", "%q is met", f.Title)
		}
		e.Challenge, e.Response = f.Title, f.Message
		s.overruled[ruleKey(f.Rule, f.Subject)] = overruling{e.N, e.Who, e.Text, f.Message}
		return nil
	}
	return refuse("name it as the verdict does", "no rule %q has anything to say here", keyOf(e.Rule, e.Subject))
}

func withdraw(s *State, e *Entry) error {
	key := ruleKey(e.Rule, e.Subject)
	if e.Item != "" {
		key = itemKey(keyOf(e.Item, e.Subject))
	}
	if _, ok := s.overruled[key]; !ok {
		return refuse("", "nothing has been overruled there")
	}
	if !s.leads(e.Who) {
		return refuse("", "only the person in charge can withdraw an overruling")
	}
	delete(s.overruled, key)
	return nil
}
