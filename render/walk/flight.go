package walk

import (
	"slices"
	"time"

	"hoistbook/kits/unit"
)

// timely refuses a time that an input names and that cannot be.
func (s *State) timely(e *Entry) error {
	if e.Time == nil {
		return nil
	}
	switch t := *e.Time; {
	case t.After(e.At):
		return refuse("write a time that has passed", "%s has not come yet", t.Format("15:04"))
	case len(s.Flights) > 0 && t.Before(latest(s.Flights)):
		return refuse("write a later time", "%s is before %s, when the balloon last went up or down", t.Format("15:04"), latest(s.Flights).Format("15:04"))
	case s.List == Preflight && t.Before(s.begun):
		return refuse("write a later time", "%s is before this record began", t.Format("15:04"))
	}
	return nil
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
		return refuse("", "the balloon is up since %s", latest(s.Flights).Format("15:04"))
	}
	if s.List != Recovery {
		v := s.decide(e.At)
		if v.Word != GO {
			return refuse(v.mend(), "the verdict is %s", v.Word)
		}
		e.Decided = &Decision{Verdict: v.Word, At: e.At, Who: e.Who, N: e.N}
		if at := s.gateAt(); at >= 0 {
			gate := s.standings(s.rising())[at]
			if !gate.state.behind() {
				return refuse("the person in charge answers "+quote(gate.Challenge)+" first", "the balloon has not been let go")
			}
			e.Decided.At, e.Decided.Who, e.Decided.N = gate.answer.at, gate.answer.who, gate.answer.n
		}
	}
	return s.timely(e)
}

func down(s *State, e *Entry) error {
	if !s.aloft() {
		return refuse("", "the balloon is on the ground")
	}
	return s.timely(e)
}

// due says when the set that is in must have been changed, as the endurance now computed has it. It has been at work since
// its voltage was read, which is before it rose.
func (s *State) due(set Set) (time.Time, bool) {
	v, ok := s.now.values[enduranceFact]
	if !ok || !v.Known() {
		return time.Time{}, false
	}
	return set.On.Add(time.Duration(v.Quantity.SI * float64(time.Second))), true
}

// ends is when the station time is over that the lift was computed for.
func (s *State) ends() (time.Time, bool) {
	st := s.Manifest.Station
	if st == nil || st.Duration == nil || len(s.Flights) == 0 {
		return time.Time{}, false
	}
	return s.Flights[0].Up.Add(time.Duration(float64(*st.Duration) * float64(time.Second))), true
}

// isBattery reports whether a step reads the voltage of a battery of this kit.
func (s *State) isBattery(st step) bool {
	return st.Reading != nil && st.Reading.Dim == unit.DimVoltage && st.Reading.Limited && st.List != Recovery && slices.Contains(s.batteries(), st.Subject)
}
