package walk

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"time"

	"hoistbook/kits/manifest"
)

// A Story is what a record tells without judging anything: who was there, when the balloon was up, which batteries were in,
// what came back. It needs no rules, so that an old record can be read by a newer program.
type Story struct {
	Manifest *manifest.Manifest
	List     string // the list that was walked last
	Crew     []Member
	Flights  []Flight
	Sets     []Set
	Damage   []Damaged
	Open     []string // what was still to be checked when the balloon was last up

	before  int // flights when the list was begun
	counted map[string]int
	last    time.Time // of the latest entry
	latest  time.Time // the latest of all entries: later than last where the clock was set back
}

// A Member is somebody of the crew.
type Member struct {
	Name string `json:"name"`
	Role string `json:"role,omitempty"`
	Lead bool   `json:"lead,omitempty"` // the person in charge
}

// A Flight is the time from leaving the ground to being on it again; Down is zero while the balloon is up.
type Flight struct {
	Up, Down time.Time
	Decided  *Decision // nil where it is told afterwards
}

// A Set is one set of a battery in use: in from when its voltage was read to when that of the next was.
type Set struct {
	Battery string
	Label   string
	Volts   string
	On, Off time.Time // Off is zero while it is in

	flew bool // by the order of the record, whatever the clock says
}

// Damaged is what happened to pieces of a part.
type Damaged struct {
	Part   string `json:"part"`
	Pieces int    `json:"pieces"`
	Fate   string `json:"fate"`
	What   string `json:"what"`
}

// Tell reads the story of a record.
func Tell(r *Record) (*Story, error) {
	m, err := manifest.Load(manifest.Source{Name: "the record's manifest", Data: r.Entries[0].Opening.Manifest})
	if err != nil {
		return nil, err
	}
	s := newStory(m)
	for _, e := range r.Entries {
		s.take(e)
	}
	return &s, nil
}

func newStory(m *manifest.Manifest) Story { return Story{Manifest: m, counted: map[string]int{}} }

func (s Story) clone() Story {
	s.Crew, s.Flights, s.Sets, s.Damage, s.counted = slices.Clone(s.Crew), slices.Clone(s.Flights), slices.Clone(s.Sets), slices.Clone(s.Damage), maps.Clone(s.counted)
	return s
}

// take goes on with an entry that has been found right.
func (s *Story) take(e Entry) {
	s.last, s.latest = e.At, later(s.latest, e.At)
	if e.Open != nil {
		s.Open = e.Open
	}
	switch e.Do {
	case Begin, Swap, Recover:
		s.before = len(s.Flights)
		s.List = cmp.Or(e.List, Recovery)
	case Join:
		s.join(e)
	case Read:
		if e.Part != "" {
			s.fit(e.Part, e.Label, e.Value, e.At)
		}
	case Up:
		s.Flights = append(s.Flights, Flight{Up: e.when(), Decided: e.Decided})
		for _, ref := range s.batteries() {
			if s.fitted(ref) == nil {
				s.Sets = append(s.Sets, Set{Battery: ref, Label: firstSet, On: e.when()})
			}
			s.fitted(ref).flew = true
		}
	case Down:
		if s.aloft() {
			s.Flights[len(s.Flights)-1].Down = e.when()
		}
	case Count:
		s.counted[e.Part] = *e.Pieces
	case Damage:
		s.Damage = slices.DeleteFunc(s.Damage, func(d Damaged) bool { return d.Part == e.Part && d.Fate == e.Fate })
		if *e.Pieces > 0 {
			s.Damage = append(s.Damage, Damaged{e.Part, *e.Pieces, e.Fate, e.Text})
		}
	}
}

// when is the time that an entry is about: that it names, or its own.
func (e Entry) when() time.Time {
	if e.Time != nil {
		return *e.Time
	}
	return e.At
}

func (s *Story) join(e Entry) {
	if e.Lead {
		for i := range s.Crew {
			s.Crew[i].Lead = false
		}
	}
	i := slices.IndexFunc(s.Crew, func(m Member) bool { return m.Name == e.Name })
	if i < 0 {
		s.Crew = append(s.Crew, Member{Name: e.Name})
		i = len(s.Crew) - 1
	}
	s.Crew[i].Role = cmp.Or(e.Role, s.Crew[i].Role)
	s.Crew[i].Lead = e.Lead || s.Crew[i].Lead
}

// Leader names the person in charge, or nobody.
func (s *Story) Leader() string {
	for _, m := range s.Crew {
		if m.Lead {
			return m.Name
		}
	}
	return ""
}

func (s *Story) aloft() bool {
	return len(s.Flights) > 0 && s.Flights[len(s.Flights)-1].Down.IsZero()
}

// batteries are the parts aloft that are batteries.
func (s *Story) batteries() []string {
	var refs []string
	for ref, p := range manifest.Sorted(s.Manifest.Parts) {
		if p.Battery != nil && p.Place == manifest.Aloft {
			refs = append(refs, string(ref))
		}
	}
	return refs
}

// firstSet is the label of a set that nobody has named.
const firstSet = "1"

func (s *Story) fitted(ref string) *Set {
	for i := range s.Sets {
		if s.Sets[i].Battery == ref && s.Sets[i].Off.IsZero() {
			return &s.Sets[i]
		}
	}
	return nil
}

// fit takes a reading of a battery's voltage: of the set that is in, or, under another label, of the one that takes its place.
func (s *Story) fit(ref, label, volts string, at time.Time) {
	in := s.fitted(ref)
	if in != nil && (label == "" || in.Label == label) {
		in.Volts = volts
		if !in.flew {
			in.On = at // read again before it has flown
		}
		return
	}
	switch {
	case in != nil && !in.flew: // it was put aside before it ever flew
		aside := *in
		s.Sets = slices.DeleteFunc(s.Sets, func(set Set) bool { return set == aside })
	case in != nil:
		in.Off = at
	}
	s.Sets = append(s.Sets, Set{Battery: ref, Label: cmp.Or(label, firstSet), Volts: volts, On: at, flew: s.aloft()})
}

// flown is the time a set was aloft, flight by flight. A clock that was set back between two times makes no time.
func (s *Story) flown(set Set) []time.Duration {
	var times []time.Duration
	for _, f := range s.Flights {
		from, to := later(f.Up, set.On), f.Down
		if to.IsZero() {
			to = s.last
		}
		if !set.Off.IsZero() && set.Off.Before(to) {
			to = set.Off
		}
		if to.After(from) {
			times = append(times, to.Sub(from))
		}
	}
	return times
}

func later(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// Flown is the time something was aloft, in all.
type Flown struct {
	Part, Label string
	Time        time.Duration
	Times       int
}

// Hours are the times aloft: the balloon's, and that of each set of each battery.
func (s *Story) Hours() []Flown {
	var all []Flown
	add := func(part, label string, times []time.Duration) {
		i := slices.IndexFunc(all, func(f Flown) bool { return f.Part == part && f.Label == label })
		if i < 0 {
			all = append(all, Flown{Part: part, Label: label})
			i = len(all) - 1
		}
		all[i].Times += len(times)
		for _, t := range times {
			all[i].Time += t
		}
	}
	for ref, p := range manifest.Sorted(s.Manifest.Parts) {
		if p.Envelope != nil && len(s.Flights) > 0 {
			add(string(ref), "", s.flown(Set{}))
		}
	}
	for _, set := range s.Sets {
		add(set.Battery, set.Label, s.flown(set))
	}
	return all
}

// Span prints a time in hours and minutes.
func Span(d time.Duration) string {
	d = d.Round(time.Minute)
	return fmt.Sprintf("%d h %02d min", int(d.Hours()), int(d.Minutes())%60)
}

// A Stock is how many sound pieces of a part are at hand after the deployment: what an order for the next one starts from.
type Stock struct {
	Part                           string
	Out, Back, Lost, Mend, Replace int
	Sound                          int // back and not to be replaced; what is to be mended is kept, and what is used up is not
}

// Stock lists every part that was counted, in the order of references. What nobody counted is not there: it is not shown.
func (s *Story) Stock() []Stock {
	var all []Stock
	for ref, p := range manifest.Sorted(s.Manifest.Parts) {
		back, counted := s.counted[string(ref)]
		if !counted {
			continue
		}
		one := Stock{Part: string(ref), Out: pieces(p), Back: back}
		if p.ComesHome() {
			one.Lost = one.Out - back
		}
		for _, d := range s.Damage {
			switch {
			case d.Part != string(ref):
			case d.Fate == Mend:
				one.Mend += d.Pieces
			default:
				one.Replace += d.Pieces
			}
		}
		if !p.Consumable { // an emptied cylinder comes home, and the next deployment needs a full one
			one.Sound = max(back-one.Replace, 0)
		}
		all = append(all, one)
	}
	return all
}
