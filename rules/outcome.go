package rules

import "fmt"

// Outcome is what became of a rule or of a comparison. The order is that of Kleene's strong three-valued logic: all of some
// conditions is their least, any is their greatest.
type Outcome uint8

// The outcomes.
const (
	NotMet Outcome = iota
	NotShown
	Met
)

// String is how reports write the outcome.
func (o Outcome) String() string { return [...]string{"not met", "not shown", "met"}[o] }

// MarshalText writes the outcome as reports do.
func (o Outcome) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// UnmarshalText reads what MarshalText writes.
func (o *Outcome) UnmarshalText(text []byte) error {
	for _, known := range []Outcome{NotMet, NotShown, Met} {
		if string(text) == known.String() {
			*o = known
			return nil
		}
	}
	return fmt.Errorf("there is no outcome %q", text)
}

// Not swaps met and not met; what is not shown stays so.
func (o Outcome) Not() Outcome { return Met - o }

func outcomeOf(good bool) Outcome {
	if good {
		return Met
	}
	return NotMet
}
