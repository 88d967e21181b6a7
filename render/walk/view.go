package walk

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// A View is everything that a screen shows, in words and in the reader's units. It is what the page gets.
type View struct {
	Kit      string    `json:"kit"`
	Revision string    `json:"revision"`
	Digest   string    `json:"digest"`
	List     string    `json:"list"`
	N        int       `json:"n"`
	Closed   bool      `json:"closed,omitempty"`
	Verdict  Verdict   `json:"verdict"`
	Summary  string    `json:"summary"`
	Reasons  []Reason  `json:"reasons"`
	Open     int       `json:"open"`
	Next     string    `json:"next,omitempty"` // key of the item to answer next
	Turn     []string  `json:"turn"`           // keys of all that can be answered now, in order
	Leader   string    `json:"leader,omitempty"`
	Crew     []Member  `json:"crew"`
	Roles    []string  `json:"roles"` // those who answer items, on either list
	Limits   []Pair    `json:"limits"`
	Measured []Pair    `json:"measured"`        // what is computed with in place of what was planned
	Clock    string    `json:"clock,omitempty"` // what is wrong with the clock
	Phases   []Phase   `json:"phases"`
	Weighing []Scale   `json:"weighing,omitempty"`
	Aloft    bool      `json:"aloft,omitempty"`
	May      bool      `json:"mayLaunch,omitempty"` // the launch can be recorded now
	Changes  bool      `json:"changes,omitempty"`   // there is a list for coming down and going up again
	Flight   []Pair    `json:"flight,omitempty"`
	Sets     []InUse   `json:"sets,omitempty"`
	Damage   []Damaged `json:"damage,omitempty"`
	Parts    []Pair    `json:"parts,omitempty"` // every reference with its name, for what may be damaged
	Home     []Pair    `json:"home,omitempty"`  // what to mend and to replace
	Over     []Over    `json:"overruled,omitempty"`
	Journal  []Line    `json:"journal"`
}

// A Pair is a name and what stands for it.
type Pair struct {
	Name string `json:"name"`
	Text string `json:"text"`
}

// A Phase is a heading of the list with its items and the cautions that are read before it.
type Phase struct {
	Title    string    `json:"title"`
	Cautions []Warning `json:"cautions,omitempty"`
	Items    []Item    `json:"items"`
}

// A Warning is a caution.
type Warning struct {
	Signal      string `json:"signal"`
	Hazard      string `json:"hazard"`
	Consequence string `json:"consequence"`
	Avoid       string `json:"avoid"`
}

// An Item is a step as it stands.
type Item struct {
	Key       string  `json:"key"`
	ID        string  `json:"id"`
	Subject   string  `json:"subject,omitempty"`
	Number    int     `json:"number"`
	Role      string  `json:"role"`
	Challenge string  `json:"challenge"`
	Response  string  `json:"response"`
	Notes     string  `json:"notes,omitempty"`
	Hold      bool    `json:"hold,omitempty"`
	Critical  bool    `json:"critical,omitempty"`
	Doubt     bool    `json:"doubt,omitempty"` // it is no more than doubted: the person in charge may overrule it, critical or not
	State     string  `json:"state"`
	Why       string  `json:"why,omitempty"`
	Barred    string  `json:"barred,omitempty"`
	Asks      *Asked  `json:"asks,omitempty"`
	Tally     []Tally `json:"tally,omitempty"`
	Answer    string  `json:"answer,omitempty"`
	By        string  `json:"by,omitempty"` // who answered, and when
}

// Asked is what an instrument is to show.
type Asked struct {
	Name   string   `json:"name"`
	Units  []string `json:"units"`            // the one to write first
	Labels bool     `json:"labels,omitempty"` // sets of this battery are told apart by labels
	Label  string   `json:"label,omitempty"`
	Again  bool     `json:"again,omitempty"` // can be read again while the balloon is up: nothing is weighed then
}

// A Tally is a part that is counted.
type Tally struct {
	Part string `json:"part"`
	Name string `json:"name"`
	Out  int    `json:"out"`
	Back *int   `json:"back,omitempty"`
}

// A Scale is a part that may be weighed.
type Scale struct {
	Part   string   `json:"part"`
	Name   string   `json:"name"`
	Stated string   `json:"stated"`
	Weighs string   `json:"weighs,omitempty"`
	Units  []string `json:"units"`
}

// InUse is a set of a battery.
type InUse struct {
	Battery string `json:"battery"`
	Label   string `json:"label"`
	Volts   string `json:"volts,omitempty"`
	Since   string `json:"since"`
	Until   string `json:"until,omitempty"`
	Due     string `json:"due,omitempty"`
	Late    bool   `json:"late,omitempty"`
}

// Over is what was overruled.
type Over struct {
	Rule    string `json:"rule,omitempty"`
	Item    string `json:"item,omitempty"`
	Subject string `json:"subject,omitempty"`
	Title   string `json:"title"`
	Who     string `json:"who"`
	Reason  string `json:"reason"`
}

// View shows the state as it is at a time.
func (s State) View(at time.Time) View {
	m := s.kit.Manifest
	d := s.decide(at)
	v := View{
		Kit: m.Kit.Name, Revision: string(m.Kit.Revision), Digest: m.ShortDigest(), List: s.List, N: s.n, Closed: s.closed,
		Verdict: d.Word, Summary: s.summary(d), Reasons: listed(d.Reasons), Open: len(d.Open), Turn: listed(s.turn()),
		Leader: s.Leader(), Crew: listed(s.Crew), Roles: listed(s.roles()), Limits: listed(s.limits()), Measured: listed(s.measured()), Clock: s.clockSays(at), Aloft: s.aloft(), Damage: s.Damage, Journal: tail(s.journal, 40),
	}
	v.Phases = listed(s.phases())
	if s.closed { // nothing is asked any more
		v.Turn = []string{}
	}
	if len(v.Turn) > 0 {
		v.Next = v.Turn[0]
	}
	switch s.List {
	case Preflight, Change:
		v.Weighing = s.scales()
		v.May = s.mayLaunch(d)
		v.Changes = len(s.now.lists[Change]) > 0
	case Recovery:
		for ref, p := range manifest.Sorted(m.Parts) {
			v.Parts = append(v.Parts, Pair{string(ref), p.Name})
		}
		v.Home = s.home()
	}
	v.Flight, v.Sets, v.Over = s.flightOf(at), s.inUse(at), s.over()
	return v
}

// listed writes no list as an empty one, which is what a page can go through.
func listed[T any](all []T) []T {
	if all == nil {
		return []T{}
	}
	return all
}

func tail[T any](all []T, n int) []T { return all[max(0, len(all)-n):] }

func (s *State) mayLaunch(d decision) bool {
	if d.Word != GO || s.aloft() || s.closed {
		return false
	}
	gate := s.gateAt()
	return gate < 0 || s.standings(s.rising())[gate].state.behind()
}

// summary says the verdict in a sentence.
func (s *State) summary(d decision) string {
	if s.closed {
		return "The record is closed."
	}
	against, unclear := len(d.against()), len(d.Reasons)-len(d.against())
	text, open, many := "", "1 item is open", "%d items are open"
	if s.aloft() && (s.List == Preflight || s.raised()) {
		open, many = open+" aloft", many+" aloft"
	}
	for _, one := range []struct {
		n         int
		one, many string
	}{{against, "1 thing is not met", "%d things are not met"}, {unclear, "1 thing is not shown", "%d things are not shown"}, {len(d.Open), open, many}} {
		said := fmt.Sprintf(one.many, one.n)
		switch {
		case one.n == 0:
			continue
		case one.n == 1:
			said = one.one
		}
		if text != "" {
			text += ", "
		}
		text += said
	}
	switch {
	case d.Word == ToCheck:
		return text + ". " + s.decided() + "."
	case text != "" && s.aloft() && d.Word == NoGo:
		return text + ". Mend it at once, or bring the balloon down."
	case text != "":
		return text + "."
	case d.Word == Complete:
		return "Everything is done and counted."
	case s.aloft():
		return "Every rule is met as measured, and every item is answered."
	case s.gateAt() >= 0 && !s.standings(s.rising())[s.gateAt()].state.behind():
		return "Every rule is met as measured. The person in charge may let the balloon go."
	}
	return "Every rule is met as measured. The balloon may go up."
}

// decided says on what the balloon went up.
func (s *State) decided() string {
	f := s.Flights[len(s.Flights)-1]
	if f.Decided == nil {
		return "Nothing was decided before the launch"
	}
	return fmt.Sprintf("It went up on %s, decided at %s by %s", f.Decided.Verdict, clock(f.Decided.At, f.Up), f.Decided.Who)
}

// limits are the numbers that the crew watches, as they follow from the readings.
func (s *State) limits() []Pair {
	var all []Pair
	for _, w := range watched {
		if v, ok := s.now.values[w.fact]; ok {
			all = append(all, Pair{w.name, w.print(v, s.kit.System)})
		}
	}
	return all
}

// roles are those who answer items, in the order in which they are asked.
func (s *State) roles() []string {
	var all []string
	for _, st := range slices.Concat(s.now.lists[Preflight], s.now.lists[Change], s.now.lists[Recovery]) {
		for role := range strings.SplitSeq(st.Role, ", ") {
			if role != own.Anybody && !slices.Contains(all, role) {
				all = append(all, role)
			}
		}
	}
	return all
}

// measured are the readings and weighings that everything is computed with, in the order of the list.
func (s *State) measured() []Pair {
	var all []Pair
	for _, st := range slices.Concat(s.now.lists[Preflight], s.now.lists[Change]) {
		if a := s.answers[st.key]; a.reads != nil && st.Reading != nil && (len(a.feeds) > 0 || a.replaces != "") {
			all = append(all, Pair{st.Reading.Name, st.Reading.Shows(*a.reads, s.kit.System)})
		}
	}
	for ref := range manifest.Sorted(s.kit.Manifest.Parts) {
		if w, ok := s.weighed[string(ref)]; ok {
			all = append(all, Pair{string(ref), w.mass.Text(s.kit.System)})
		}
	}
	return all
}

// clockSays tells a clock that was set back: nothing is refused for it, and times that depend on it are not shown.
func (s *State) clockSays(at time.Time) string {
	if !at.Before(s.latest) {
		return ""
	}
	return fmt.Sprintf("the clock shows %s, and a line of the record was written at %s: it was set back; set it right, or note the true time", clock(at, s.latest), clock(s.latest, s.latest))
}

func (s *State) phases() []Phase {
	var all []Phase
	for _, one := range s.standings(s.List) {
		if len(all) == 0 || all[len(all)-1].Title != one.Phase {
			places := []string{s.List + "/" + one.Phase}
			if one.number == 1 {
				places = append(places, s.List)
			}
			all = append(all, Phase{Title: one.Phase, Cautions: s.warnings(places...)})
		}
		p := &all[len(all)-1]
		p.Items = append(p.Items, s.item(one))
	}
	return all
}

// warnings are the cautions that are read before any of some places, the gravest first.
func (s *State) warnings(places ...string) []Warning {
	var all []Warning
	for _, a := range s.now.cautions {
		if slices.ContainsFunc(places, a.Precedes) {
			all = append(all, Warning{string(a.Signal), sentence(a.Hazard), sentence(a.Consequence), sentence(a.Avoidance)})
		}
	}
	return all
}

// sentence writes what a pack or a manifest says with a capital letter and a full stop.
func sentence(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	text = string(unicode.ToUpper(first)) + text[size:]
	if !strings.HasSuffix(text, ".") {
		text += "."
	}
	return text
}

func (s *State) item(one standing) Item {
	it := Item{
		Key: one.key, ID: one.ID, Subject: one.Subject, Number: one.number, Role: one.Role, Challenge: one.Challenge, Response: one.Response, Notes: one.Notes,
		Hold: one.Hold, Critical: one.Critical, Doubt: one.doubted() && !one.state.behind(), State: string(one.state), Why: one.why,
	}
	if one.answer.n == 0 {
		it.Barred = one.barred
	}
	switch {
	case one.tally != nil:
		for _, ref := range one.tally {
			p := s.kit.Manifest.Parts[ref]
			t := Tally{Part: string(ref), Name: p.Name, Out: pieces(p)}
			if n, ok := s.counted[string(ref)]; ok {
				t.Back = &n
			}
			it.Tally = append(it.Tally, t)
		}
	case one.Reading != nil:
		it.Asks = &Asked{Name: one.Reading.Name, Units: s.units(*one.Reading), Again: one.Reading.Dim != unit.DimMass}
		if s.isBattery(one.step) {
			it.Asks.Labels = true
			if set := s.fitted(one.Subject); set != nil {
				it.Asks.Label = set.Label
			}
		}
	}
	if a := one.answer; a.n > 0 {
		switch {
		case a.reads != nil:
			it.Answer = a.reads.Text(s.kit.System)
			if one.Reading != nil {
				it.Answer = one.Reading.Shows(*a.reads, s.kit.System)
			}
			if a.label != "" {
				it.Answer += ", set " + a.label
			}
		case a.done:
			it.Answer = "done"
		default:
			it.Answer = "not done"
		}
		it.By = a.who + " " + a.at.Format("15:04")
	}
	return it
}

// units are those that a reading may have, the one of its limit first, so that the two can be compared at a glance.
func (s *State) units(g rules.Gauge) []string {
	return unitsFor(g.Dim, g.In(s.kit.System))
}

func unitsFor(dim unit.Dimension, first string) []string {
	all := []string{first}
	for _, symbol := range dim.Symbols() {
		if symbol != first {
			all = append(all, symbol)
		}
	}
	return all
}

func (s *State) scales() []Scale {
	var all []Scale
	for ref, p := range manifest.Sorted(s.kit.Manifest.Parts) {
		if p.Place != manifest.Aloft {
			continue
		}
		one := Scale{Part: string(ref), Name: p.Name, Stated: "not stated", Units: s.massUnits(p)}
		if p.Mass != nil {
			one.Stated = p.Mass.Quantity().Text(s.kit.System)
		}
		if w, ok := s.weighed[string(ref)]; ok {
			one.Weighs = w.mass.Text(s.kit.System)
		}
		all = append(all, one)
	}
	return all
}

// massUnits are the units for the mass of one piece, that of the stated mass first.
func (s *State) massUnits(p manifest.Part) []string {
	first := unit.Mass(0.1).Quantity()
	if p.Mass != nil {
		first = p.Mass.Quantity()
	}
	return unitsFor(unit.DimMass, first.Symbol(s.kit.System))
}

func (s *State) flightOf(at time.Time) []Pair {
	var all []Pair
	if len(s.Flights) == 0 {
		return nil
	}
	for _, f := range s.Flights {
		text := "up " + clock(f.Up, at)
		if !f.Down.IsZero() {
			text += ", down " + clock(f.Down, at)
		}
		if d := f.Decided; d != nil {
			all = append(all, Pair{"Launch decision", fmt.Sprintf("%s %s, %s", d.Verdict, clock(d.At, at), d.Who)})
		}
		all = append(all, Pair{"Flight", text})
	}
	if end, ok := s.ends(); ok && s.aloft() {
		all = append(all, Pair{"Station ends", clock(end, at)})
	}
	for _, h := range s.Hours() {
		name := h.Part
		if h.Label != "" {
			name += ", set " + h.Label
		}
		all = append(all, Pair{name, "flown " + Span(h.Time)})
	}
	return all
}

func (s *State) inUse(at time.Time) []InUse {
	var all []InUse
	for _, set := range s.Sets {
		one := InUse{Battery: set.Battery, Label: set.Label, Volts: set.Volts, Since: clock(set.On, at)}
		if !set.Off.IsZero() {
			one.Until = clock(set.Off, at)
		} else if due, ok := s.due(set); ok && s.List != Recovery {
			one.Due, one.Late = clock(due, at), s.aloft() && at.After(due)
		}
		all = append(all, one)
	}
	return all
}

// home is what to mend and what to replace before the next deployment.
func (s *State) home() []Pair {
	var all []Pair
	for _, one := range s.Stock() {
		if one.Lost > 0 {
			all = append(all, Pair{one.Part, fmt.Sprintf("%d lost: order", one.Lost)})
		}
	}
	for _, d := range s.Damage {
		text := fmt.Sprintf("%d to mend: %s", d.Pieces, d.What)
		if d.Fate == Replace {
			text = fmt.Sprintf("%d to replace: order (%s)", d.Pieces, d.What)
		}
		all = append(all, Pair{d.Part, text})
	}
	return all
}

// over lists what stands overruled, in the order of the findings and of the list.
func (s *State) over() []Over {
	var all []Over
	for _, f := range s.now.findings {
		if o, ok := s.overruled[ruleKey(f.Rule, f.Subject)]; ok && o.about == f.Message {
			all = append(all, Over{Rule: f.Rule, Subject: f.Subject, Title: f.Title, Who: o.who, Reason: o.reason})
		}
	}
	for _, one := range s.standings(s.List) {
		if one.state == overruled {
			o := s.overruled[itemKey(one.key)]
			all = append(all, Over{Item: one.ID, Subject: one.Subject, Title: one.Challenge, Who: o.who, Reason: o.reason})
		}
	}
	return all
}
