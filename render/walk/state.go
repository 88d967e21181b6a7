package walk

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"time"

	"hoistbook/kits/unit"
)

// A State is everything that a walk-through knows. It is a value: Next makes a new one and leaves the old one as it was.
type State struct {
	Story
	kit  *Kit
	base *judgement // as the manifest assumes, no readings
	now  *judgement // as measured

	n      int
	begun  time.Time
	closed bool

	answers   map[string]answer
	weighed   map[string]weighing // by part
	weighedAt int                 // the entry since which the weighings say what they say
	overruled map[string]overruling

	weighedLast string         // the part whose weighing changed then
	sent        map[string]int // numbers of entries by the senders' keys

	verdict Verdict
	because []string
	journal []Line
}

type answer struct {
	n, changed int // the entry of the answer, and the entry since which it says what it says
	at         time.Time
	who        string
	done       bool
	text       string // the reading as typed, or why it is not done
	reads      *unit.Quantity
	feeds      []string
	replaces   string
	label      string
	challenge  string // as it was asked
	response   string
}

type weighing struct {
	text string
	mass unit.Quantity
	at   time.Time
}

type overruling struct {
	n      int
	who    string
	reason string
	about  string // what was overruled, in words with its numbers: other numbers are another matter
}

// A Refusal says why an input was not taken, and what would be right. Nothing has changed.
type Refusal struct{ What, Fix string }

func (r *Refusal) Error() string {
	if r.Fix == "" {
		return r.What
	}
	return r.What + "; " + r.Fix
}

func refuse(fix, what string, args ...any) error { return &Refusal{fmt.Sprintf(what, args...), fix} }

// Twice says that an input was taken before, as the entry with this number: whoever sent it may be at ease.
type Twice struct{ N int }

func (t *Twice) Error() string { return fmt.Sprintf("recorded before, as entry %d", t.N) }

// Start begins a walk-through. It returns the state and the entry that opens its record.
func Start(k *Kit, list string, at time.Time) (State, Entry, error) {
	s, err := fresh(k)
	if err != nil {
		return State{}, Entry{}, err
	}
	switch {
	case list != Preflight && list != Change && list != Recovery:
		return State{}, Entry{}, fmt.Errorf("there is no list %q; write %s, %s or %s", list, Preflight, Change, Recovery)
	case list == Change && len(s.now.lists[Change]) == 0:
		return State{}, Entry{}, errNoChange
	}
	opening, err := k.opening()
	if err != nil {
		return State{}, Entry{}, err
	}
	e := Entry{N: 1, At: at, Input: Input{Do: Begin}, Opening: opening, List: list}
	return s.record(e)
}

func fresh(k *Kit) (State, error) {
	s := State{
		Story: newStory(k.Manifest), kit: k, answers: map[string]answer{}, weighed: map[string]weighing{}, overruled: map[string]overruling{},
		sent: map[string]int{},
	}
	var err error
	s.base, err = s.judge()
	s.now = s.base
	return s, err
}

// Again makes the state that a record has led to. It does everything anew and does not believe what the entries say of
// verdicts; where one now comes out otherwise, it says so.
func Again(k *Kit, entries []Entry) (s State, differs []string, err error) {
	if s, err = fresh(k); err != nil {
		return s, nil, err
	}
	if len(entries) == 0 || entries[0].Do != Begin {
		return s, nil, errNoRecord
	}
	s, _, err = s.record(Entry{N: 1, At: entries[0].At, Input: entries[0].Input, List: entries[0].List})
	for _, e := range entries[1:] {
		if err != nil {
			break
		}
		var made Entry
		s, made, err = s.Next(e.Input, e.At)
		if err != nil {
			return s, differs, fmt.Errorf("entry %d of the record (%s) cannot be done again: %w", e.N, e.Do, err)
		}
		if made.Verdict != e.Verdict {
			differs = append(differs, fmt.Sprintf("entry %d says %s, and it comes out as %s", e.N, e.Verdict, made.Verdict))
		}
	}
	return s, differs, err
}

// errNoChange is said where the plan of the station never brings the balloon down.
var errNoChange = errors.New("nothing is changed in the station time of this kit: one battery lasts, and so does the gas")

// Next takes an input. The error is a *Refusal or a *Twice, and then the state stays as it was.
func (s State) Next(in Input, at time.Time) (State, Entry, error) {
	if n, known := s.sent[in.Key]; known && in.Key != "" {
		return s, Entry{}, &Twice{n}
	}
	if s.closed {
		return s, Entry{}, refuse("begin a new one", "this record is closed")
	}
	if err := in.plain(); err != nil {
		return s, Entry{}, err
	}
	do, ok := deeds[in.Do]
	if !ok {
		return s, Entry{}, refuse("", "there is nothing called %q to do", in.Do)
	}
	if err := s.knows(in); err != nil {
		return s, Entry{}, err
	}
	next := s.clone()
	e := Entry{N: s.n + 1, At: at, Input: in}

	if err := do(&next, &e); err != nil {
		var refusal *Refusal
		if !errors.As(err, &refusal) {
			err = &Refusal{What: err.Error()}
		}
		return s, Entry{}, err
	}
	return next.record(e)
}

// record completes an entry with the verdict, and the state with the entry.
func (s State) record(e Entry) (State, Entry, error) {
	if s.n == 0 {
		s.begun = e.At
	}
	s.n = e.N
	s.take(e)
	if e.Key != "" {
		s.sent[e.Key] = e.N
	}
	e.Seen = 0 // it said how to treat the input, and means nothing afterwards
	v := s.decide(e.At)
	e.Verdict = v.Word
	if (s.List == Preflight || s.raised()) && s.aloft() && (e.Do == Up || !slices.Equal(v.Open, s.Open)) {
		e.Open = listed(v.Open)
		s.Open = e.Open
	}
	if because := v.because(); !slices.Equal(because, s.because) {
		e.Because, s.because = because, because
	}
	s.verdict = v.Word
	s.journal = append(slices.Clip(s.journal), lineOf(e))
	return s, e, nil
}

func (s State) clone() State {
	s.answers, s.weighed, s.overruled = maps.Clone(s.answers), maps.Clone(s.weighed), maps.Clone(s.overruled)
	s.Story, s.sent = s.Story.clone(), maps.Clone(s.sent)
	return s
}

// N is the number of the latest entry.
func (s State) N() int { return s.n }

// Closed reports whether the record is finished.
func (s State) Closed() bool { return s.closed }

// Kit is what is walked through.
func (s State) Kit() *Kit { return s.kit }
