package walk

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"hoistbook/kits"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// A Verdict is what everything together says now.
type Verdict string

// The verdicts. Only GO and COMPLETE are a pass.
const (
	GO          Verdict = "GO"
	NoGo        Verdict = "NO-GO"
	NotShown    Verdict = "NOT SHOWN YET"
	ToCheck     Verdict = "STILL TO CHECK" // it went up on a GO, nothing stands against it, and items aloft are open
	Complete    Verdict = "COMPLETE"
	NotComplete Verdict = "NOT COMPLETE"
)

// A Reason is something that stands against a pass.
type Reason struct {
	Rule    string `json:"rule,omitempty"` // the rule or the item that it comes from
	Item    string `json:"item,omitempty"`
	Subject string `json:"subject,omitempty"`
	Number  int    `json:"number,omitempty"` // of the item
	Level   string `json:"level"`
	Outcome string `json:"outcome"` // not met, not shown
	Title   string `json:"title"`
	Text    string `json:"text"`
	Mend    string `json:"mend,omitempty"`
	May     bool   `json:"may,omitempty"` // the person in charge may overrule it

	n int // the entry that it comes from
}

// decision is the verdict with its reasons, the gravest first, and how many items are open.
type decision struct {
	Word    Verdict
	Reasons []Reason
	Open    []string // the challenges of what is open
}

// decide weighs everything at a time.
func (s *State) decide(at time.Time) decision {
	if s.List == Recovery {
		return s.decideRecovery()
	}
	return s.decideBy(s.inScope(), at)
}

// decideBy weighs the rules, the time and some of the items.
func (s *State) decideBy(items []standing, at time.Time) decision {
	var d decision
	s.weighRules(&d)
	s.weighItems(&d, items)
	s.weighTime(&d, at)
	d = d.settle(GO, NoGo, NotShown)
	if s.aloft() && len(d.Reasons) == 0 && len(d.Open) > 0 {
		d.Word = ToCheck
	}
	return d
}

// inScope are the items that must be settled now: on the ground those up to where the balloon is let go, in the air all.
func (s *State) inScope() []standing {
	all := s.standings(s.rising())
	if gate := s.gateAt(); gate >= 0 && !s.aloft() {
		return all[:gate]
	}
	return all
}

func (s *State) decideRecovery() decision {
	var d decision
	if s.aloft() {
		d.add(Reason{Level: "must", Outcome: "not shown", Title: "The balloon is down", Text: "no time is recorded at which it came down", Mend: "record when it was down"})
	}
	s.weighItems(&d, s.standings(Recovery))
	return d.settle(Complete, NotComplete, NotComplete)
}

func (d *decision) add(r Reason) { d.Reasons = append(d.Reasons, r) }

// followsFrom is what mends a reason whose own numbers are not known.
const followsFrom = "mend what is not met first; this follows from it"

// weighRules takes in what the rules find. A SHOULD that is not met stands against a GO until the person in charge has
// overruled it, as it was then; one that the manifest waives has its reason there.
func (s *State) weighRules(d *decision) {
	musts, cause := 0, s.cause()
	for _, f := range s.now.findings {
		if f.Level == rules.Must {
			musts++
		}
		over, is := s.overruled[ruleKey(f.Rule, f.Subject)]
		if f.Outcome == rules.Met || f.Level == rules.Should && (f.Waived != "" || is && over.about == f.Message) {
			continue
		}
		title := f.Title
		if f.Subject != "" {
			title = f.Subject + ": " + title
		}
		d.add(Reason{
			Rule: f.Rule, Subject: f.Subject, Level: string(f.Level), Outcome: f.Outcome.String(), Title: title, Text: told(f), Mend: s.mendRule(f, cause),
			May: f.Level == rules.Should,
		})
	}
	if musts == 0 {
		d.add(Reason{Level: "must", Outcome: "not shown", Title: "Rules have judged", Text: "no rule at hand has shown anything about this kit", Mend: "give rule packs"})
	}
}

// told is what a rule found. Where a number lacks, a crew is told its name, and not its id.
func told(f rules.Finding) string {
	about, ok := kits.Catalogue{}.Describe(f.Missing)
	if !ok {
		return f.Message
	}
	name, _, _ := strings.Cut(about.Title, ":")
	return name + strings.TrimPrefix(f.Message, f.Missing)
}

// cause says how the readings that are amiss are mended, if there are any.
func (s *State) cause() string {
	if len(s.now.amiss) == 0 {
		return ""
	}
	var numbers []string
	mend := ""
	for _, one := range s.standings(s.List) {
		if slices.Contains(s.now.amiss, one.key) {
			numbers, mend = append(numbers, strconv.Itoa(one.number)), s.mendItem(one)
		}
	}
	switch len(numbers) {
	case 0:
		return ""
	case 1:
		return fmt.Sprintf("this follows from item %s: %s", numbers[0], mend)
	}
	return "this follows from what is read at items " + strings.Join(numbers, ", ") + ": mend those first"
}

// mendRule says what to do about a rule. One that only readings have broken which are amiss themselves is mended with them.
func (s *State) mendRule(f rules.Finding, cause string) string {
	if cause != "" && s.now.without[ruleKey(f.Rule, f.Subject)] {
		return cause
	}
	if f.Hint == "" || strings.Contains(f.Hint, rules.NotShown.String()) { // by a number that nobody knows nothing can be mended
		return followsFrom
	}
	return f.Hint
}

func (s *State) weighItems(d *decision, items []standing) {
	for _, one := range items {
		switch one.state {
		case open:
			d.Open = append(d.Open, one.Challenge)
		case failed, unknown:
			level := one.level()
			d.add(Reason{
				Item: one.ID, Subject: one.Subject, Number: one.number, Level: string(level), Outcome: string(one.state), Title: one.Challenge,
				Text: cmp.Or(one.why, "answered: not done"), Mend: s.mendItem(one), May: level == rules.Should, n: one.answer.n,
			})
		}
	}
}

// mendItem says what would mend an item that stands against a pass.
func (s *State) mendItem(one standing) string {
	switch {
	case one.state == open:
		return fmt.Sprintf("answer item %d first", one.number)
	case one.Hold:
		return "the person in charge answers it again when it may go on"
	case one.tally != nil:
		return "look for it and count again; what stays lost is the reason with which the record is closed"
	case one.doubted():
		return one.doubt.Hint
	case one.state == unknown:
		return followsFrom
	case one.Reading != nil && one.answer.reads == nil:
		return "read it: " + one.Response
	case one.Reading != nil && s.aloft() && one.Reading.Dim == unit.DimMass: // nothing is weighed in the air
		return "bring the balloon down"
	case one.Reading != nil && s.aloft():
		return "bring the balloon down; it may be up while this reads " + one.Response
	case one.Reading != nil:
		return "go on when it reads " + one.Response
	}
	return "see to it: " + one.Response
}

// weighTime takes in what runs out while the balloon is up. A clock that was set back behind the launch can tell nothing.
func (s *State) weighTime(d *decision, at time.Time) {
	if !s.aloft() {
		return
	}
	if at.Before(latest(s.Flights)) {
		d.add(Reason{Level: "must", Outcome: "not shown", Title: "Time on station", Text: "the clock shows a time before the launch", Mend: "set the clock right"})
	}
	if end, ok := s.ends(); !ok {
		d.add(Reason{Level: "must", Outcome: "not shown", Title: "Time on station", Text: "the manifest does not say how long the station is", Mend: "wind in, and add the duration"})
	} else if at.After(end) {
		d.add(Reason{
			Level: "must", Outcome: "not met", Title: "Time on station", Text: "the time that the lift was computed for ended at " + clock(end, at),
			Mend: "bring the balloon down",
		})
	}
	for _, set := range s.Sets {
		if !set.Off.IsZero() {
			continue
		}
		if due, ok := s.due(set); ok && at.After(due) {
			d.add(Reason{
				Level: "must", Outcome: "not met", Title: fmt.Sprintf("Battery %s, set %s", set.Battery, set.Label), Text: "its change was due at " + clock(due, at),
				Mend: "bring the balloon down and change the battery",
			})
		}
	}
}

// clock prints a time of day, with the date where it is not that of now.
func clock(t, now time.Time) string {
	t = t.In(now.Location())
	if t.YearDay() != now.YearDay() || t.Year() != now.Year() {
		return t.Format("2 Jan 15:04")
	}
	return t.Format("15:04")
}

// settle says the word and puts the reasons in order: what is not met before what is not shown, musts first; then what the crew
// has just said or read, as that is what it is looking at, before what follows from it.
func (d decision) settle(pass, against, notYet Verdict) decision {
	rank := func(r Reason) int {
		n := 0
		if r.Outcome != "not met" {
			n += 2
		}
		if r.Level != "must" {
			n++
		}
		return n
	}
	slices.SortStableFunc(d.Reasons, func(a, b Reason) int { return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(b.n, a.n)) })
	switch {
	case len(d.against()) > 0:
		d.Word = against
	case len(d.Reasons) > 0 || len(d.Open) > 0:
		d.Word = notYet
	default:
		d.Word = pass
	}
	return d
}

func (d decision) against() []Reason {
	n := slices.IndexFunc(d.Reasons, func(r Reason) bool { return r.Outcome != "not met" })
	if n < 0 {
		return d.Reasons
	}
	return d.Reasons[:n]
}

// because are the reasons for the record.
func (d decision) because() []string {
	lines := make([]string, len(d.Reasons))
	for i, r := range d.Reasons {
		lines[i] = r.Title + ": " + r.Text
	}
	return lines
}

// mend says what to do first.
func (d decision) mend() string {
	switch {
	case len(d.Reasons) > 0:
		return cmp.Or(d.Reasons[0].Mend, "see "+d.Reasons[0].Title)
	case len(d.Open) == 1:
		return "one item is open"
	}
	return fmt.Sprintf("%d items are open", len(d.Open))
}
