package walk

import (
	"slices"
	"time"

	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// A Flight is the time from leaving the ground to being on it again; Down is zero while the balloon is up.
type Flight struct{ Up, Down time.Time }

// A Set is one set of a battery in use: aloft from when it was put in to when the next was.
type Set struct {
	Battery string
	Label   string
	Volts   string
	On, Off time.Time // Off is zero while it is in
}

func (s *State) aloft() bool {
	return len(s.flights) > 0 && s.flights[len(s.flights)-1].Down.IsZero()
}

// when is the time that an input is about: that it names, or now.
func (s *State) when(e *Entry) (time.Time, error) {
	if e.Time == nil {
		return e.At, nil
	}
	switch t := *e.Time; {
	case t.After(e.At):
		return t, refuse("write a time that has passed", "%s has not come yet", t.Format("15:04"))
	case len(s.flights) > 0 && t.Before(latest(s.flights)):
		return t, refuse("write a later time", "%s is before %s, when the balloon last went up or down", t.Format("15:04"), latest(s.flights).Format("15:04"))
	case s.list == Preflight && t.Before(s.begun):
		return t, refuse("write a later time", "%s is before this record began", t.Format("15:04"))
	}
	return *e.Time, nil
}

func latest(flights []Flight) time.Time {
	f := flights[len(flights)-1]
	if f.Down.IsZero() {
		return f.Up
	}
	return f.Down
}

// up takes the launch. Only a GO lets the balloon go up in the record of a preflight; a record of a recovery alone is told
// afterwards.
func up(s *State, e *Entry) error {
	if s.aloft() {
		return refuse("", "the balloon is up since %s", latest(s.flights).Format("15:04"))
	}
	if s.list == Preflight {
		if v := s.decide(e.At); v.Word != GO {
			return refuse(v.mend(), "the verdict is %s", v.Word)
		}
		if at := s.gateAt(); at >= 0 {
			if gate := s.standings(Preflight)[at]; !gate.state.behind() {
				return refuse("the person in charge answers "+quote(gate.Challenge)+" first", "the balloon has not been let go")
			}
		}
	}
	at, err := s.when(e)
	if err != nil {
		return err
	}
	s.flights = append(s.flights, Flight{Up: at})
	for _, ref := range s.batteries() {
		if s.fitted(ref) == nil {
			s.sets = append(s.sets, Set{Battery: ref, Label: "1", On: at})
		}
	}
	return nil
}

func down(s *State, e *Entry) error {
	if !s.aloft() {
		return refuse("", "the balloon is on the ground")
	}
	at, err := s.when(e)
	if err != nil {
		return err
	}
	s.flights[len(s.flights)-1].Down = at
	return nil
}

// batteries are the parts aloft that are batteries.
func (s *State) batteries() []string {
	var refs []string
	for ref, p := range manifest.Sorted(s.kit.Manifest.Parts) {
		if p.Battery != nil && p.Place == manifest.Aloft {
			refs = append(refs, string(ref))
		}
	}
	return refs
}

func (s *State) fitted(ref string) *Set {
	for i := range s.sets {
		if s.sets[i].Battery == ref && s.sets[i].Off.IsZero() {
			return &s.sets[i]
		}
	}
	return nil
}

// fit takes a reading of a battery's voltage: of the set that is in, or, under another label, of the one that takes its place.
func (s *State) fit(ref, label, volts string, at time.Time) {
	in := s.fitted(ref)
	if in != nil && (label == "" || in.Label == label) {
		in.Volts = volts
		if !s.aloft() && len(s.flown(*in)) == 0 {
			in.On = at // read again before it has flown
		}
		return
	}
	if in != nil {
		in.Off = at
	}
	if label == "" {
		label = "1"
	}
	s.sets = append(s.sets, Set{Battery: ref, Label: label, Volts: volts, On: at})
}

// flown is the time a set was aloft, flight by flight. A clock that was set back between two times makes no time.
func (s *State) flown(set Set) []time.Duration {
	var times []time.Duration
	for _, f := range s.flights {
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
func (s State) Hours() []Flown {
	var all []Flown
	for ref, p := range manifest.Sorted(s.kit.Manifest.Parts) {
		if p.Envelope != nil && len(s.flights) > 0 {
			all = append(all, flown(string(ref), "", s.flown(Set{})))
		}
	}
	for _, set := range s.sets {
		times := s.flown(set)
		i := slices.IndexFunc(all, func(f Flown) bool { return f.Part == set.Battery && f.Label == set.Label })
		if i < 0 {
			all = append(all, flown(set.Battery, set.Label, times))
			continue
		}
		more := flown(set.Battery, set.Label, times)
		all[i].Time += more.Time
		all[i].Times += more.Times
	}
	return all
}

func flown(part, label string, times []time.Duration) Flown {
	f := Flown{Part: part, Label: label, Times: len(times)}
	for _, t := range times {
		f.Time += t
	}
	return f
}

// due says when the set that is in must have been changed, as the endurance now computed has it. It has been at work since
// its voltage was read, which is before it rose.
func (s *State) due(set Set) (time.Time, bool) {
	v, ok := s.now.facts.Lookup("power.endurance_h")
	if !ok || !v.Known() {
		return time.Time{}, false
	}
	return set.On.Add(time.Duration(v.Quantity.SI * float64(time.Second))), true
}

// ends is when the station time is over that the lift was computed for.
func (s *State) ends() (time.Time, bool) {
	st := s.kit.Manifest.Station
	if st == nil || st.Duration == nil || len(s.flights) == 0 {
		return time.Time{}, false
	}
	return s.flights[0].Up.Add(time.Duration(float64(*st.Duration) * float64(time.Second))), true
}

// isBattery reports whether a step reads the voltage of a battery of this kit.
func (s *State) isBattery(st step) bool {
	return st.Reading != nil && st.Reading.Dim == unit.DimVoltage && st.List == Preflight && slices.Contains(s.batteries(), st.Subject)
}
