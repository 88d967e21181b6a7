package doc

import (
	"sync"

	"hoistbook/kits"
	"hoistbook/kits/tether"
	"hoistbook/kits/unit"
)

// trials remembers what was tried for the charts: a trial is half a millisecond of search, the limits card asks for some
// sixty, and the same card stands in the book. It holds results of pure functions and nothing else.
type trials struct {
	sweep func() *kits.Sweep
	mutex sync.Mutex
	winds map[kits.Trial]tried[tether.WindLimit]
	lifts map[unit.Speed]tried[tether.Fill]
}

type tried[T any] struct {
	found  T
	reason string // why there is nothing, or empty
}

func newTrials(facts *kits.Facts) *trials {
	return &trials{sweep: sync.OnceValue(facts.Sweep), winds: map[kits.Trial]tried[tether.WindLimit]{}, lifts: map[unit.Speed]tried[tether.Fill]{}}
}

// wind is the greatest wind in a trial.
func (t *trials) wind(trial kits.Trial) (tether.WindLimit, string) {
	return once(t, t.winds, trial, t.sweep().GreatestWind)
}

// lift is the neck lift needed in a wind.
func (t *trials) lift(wind unit.Speed) (tether.Fill, string) {
	return once(t, t.lifts, wind, t.sweep().NeckLiftNeeded)
}

func once[K comparable, T any](t *trials, known map[K]tried[T], key K, try func(K) (T, string)) (T, string) {
	t.mutex.Lock()
	defer t.mutex.Unlock()
	got, ok := known[key]
	if !ok {
		got.found, got.reason = try(key)
		known[key] = got
	}
	return got.found, got.reason
}
