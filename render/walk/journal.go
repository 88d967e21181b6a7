package walk

import (
	"fmt"
	"strings"
	"time"
)

// A Line is an entry as people read it.
type Line struct {
	N       int       `json:"n"`
	At      time.Time `json:"at"`
	Who     string    `json:"who,omitempty"`
	Text    string    `json:"text"`
	Verdict Verdict   `json:"verdict"`
}

func lineOf(e Entry) Line { return Line{e.N, e.At, e.Who, e.Line(), e.Verdict} }

// Line says in one line what an entry is.
func (e Entry) Line() string {
	with := func(text string) string {
		if e.Text != "" {
			return text + ": " + e.Text
		}
		return text
	}
	asked := strings.TrimSuffix(e.Challenge, ".")
	switch e.Do {
	case Begin:
		return "record begun: " + e.List
	case Resume:
		return with("gone on after a break")
	case Join:
		text := e.Name + " joins"
		if e.Role != "" {
			text += " as " + e.Role
		}
		if e.Lead {
			text += ", in charge"
		}
		return text
	case Done:
		return asked + ": done"
	case Not:
		return with(asked + ": not done")
	case Read:
		text := asked + ": " + e.Value
		if e.Label != "" {
			text += ", set " + e.Label
		}
		if e.Outcome != "met" {
			text += " (" + e.Outcome + ")"
		}
		if e.Doubt != "" {
			text += ": " + e.Doubt
		}
		return text
	case Clear:
		return asked + ": taken back"
	case Weigh:
		if e.Value == "" {
			return asked + ": weighing taken back"
		}
		return asked + ": " + e.Value
	case Overrule:
		return with("overruled, " + asked)
	case Withdraw:
		return "overruling withdrawn"
	case Up:
		return e.moved("up")
	case Down:
		return e.moved("down")
	case Recover:
		return "the way home begins"
	case Count:
		return fmt.Sprintf("%s: %d back, %s", e.Part, *e.Pieces, e.Response)
	case Damage:
		if *e.Pieces == 0 {
			return e.Part + ": damage taken back"
		}
		return with(fmt.Sprintf("%s: %d to %s", e.Part, *e.Pieces, e.Fate))
	case Note:
		return with("note")
	case Close:
		return with("closed")
	}
	return string(e.Do)
}

func (e Entry) moved(where string) string {
	if e.Time != nil {
		return "balloon " + where + " at " + clock(*e.Time, e.At)
	}
	return "balloon " + where
}

// About says what an entry is about without its deed: for tables that have a column for that.
func (e Entry) About() string {
	var parts []string
	add := func(texts ...string) {
		for _, t := range texts {
			if t != "" {
				parts = append(parts, t)
			}
		}
	}
	add(strings.TrimSuffix(e.Challenge, "."))
	switch e.Do {
	case Begin:
		add(e.List)
	case Join:
		add(e.Name, e.Role)
	case Read, Weigh:
		add(e.Value, e.Label)
	case Count:
		add(fmt.Sprintf("%d", *e.Pieces))
	case Damage:
		add(e.Part, fmt.Sprintf("%d", *e.Pieces), e.Fate, e.Text)
	case Up, Down:
		add(e.when().Format("15:04"), e.Text)
	case Withdraw:
		add(e.Rule+e.Item, e.Subject)
	case Done:
		add(e.Response)
	case Not:
		add("not: "+e.Response, e.Text)
	default:
		add(e.Text)
	}
	return strings.Join(parts, " · ")
}

// Kinds lists everything that an entry may do.
func Kinds() []Kind {
	return []Kind{Begin, Resume, Join, Done, Not, Read, Clear, Weigh, Overrule, Withdraw, Up, Down, Recover, Count, Damage, Note, Close}
}

// Verdicts lists every verdict.
func Verdicts() []Verdict { return []Verdict{GO, NoGo, NotShown, ToCheck, Complete, NotComplete} }
