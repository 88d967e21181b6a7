package size

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
	"hoistbook/rules"
)

// Sensitivity says which value of the manifest matters most for the thinnest margin of a MUST rule.
//
// Margins are parts of their limits. Left out are margins of whole numbers, which jump, and those that no two values of the
// manifest move: a limit that a value meets exactly because somebody wrote it so is no thin margin.
type Sensitivity struct {
	Thinnest Margin   `json:"thinnest"`
	Others   []Margin `json:"others"` // the thinnest margins of the next rules
	Why      string   `json:"why,omitempty"`
}

// A Margin is that of one rule, and the values of the manifest that move it most.
type Margin struct {
	Rule     string   `json:"rule"`
	Subject  string   `json:"subject"`
	Title    string   `json:"title"`
	Fact     string   `json:"fact"`
	Relative Share    `json:"relative_margin"`
	Matters  []Change `json:"matters,omitempty"`
}

const (
	mattersMost = 10
	othersMost  = 6
	eachMatters = 2
	moved       = 1e-9 // less is rounding
)

func (k *kit) sensitivity() Sensitivity {
	changes := k.changes()
	base := shares(k.base)
	each(len(changes), func(i int) {
		if s, ok := k.changed(changes[i].number, changes[i].held); ok {
			changes[i].shares = shares(s)
		}
	})
	movers := map[key]int{}
	for _, c := range changes {
		for which, share := range base {
			if math.Abs(c.shares[which]-share) > moved {
				movers[which]++
			}
		}
	}
	thin := thinnest(base, movers)
	if len(thin) == 0 {
		return Sensitivity{Others: []Margin{}, Why: "no MUST rule has a margin that two values of the manifest move"}
	}
	out := Sensitivity{Thinnest: k.margin(thin[0], base[thin[0]]), Others: []Margin{}}
	out.Thinnest.Matters = k.matters(changes, thin, base, mattersMost)
	told := map[string]bool{thin[0].rule: true}
	for _, which := range thin {
		if told[which.rule] || len(out.Others) == othersMost {
			continue
		}
		told[which.rule] = true
		m := k.margin(which, base[which])
		m.Matters = k.matters(changes, []key{which}, base, eachMatters)
		out.Others = append(out.Others, m)
	}
	return out
}

// matters are the changes that move the thinnest of some margins most, and what a natural step of each does.
func (k *kit) matters(changes []Change, thin []key, base map[key]float64, keep int) []Change {
	kept := slices.Clone(changes)
	for i := range kept {
		kept[i].Effect = Share(thinnestOf(kept[i].shares, thin) - base[thin[0]])
	}
	kept = slices.DeleteFunc(kept, func(c Change) bool { return !(math.Abs(float64(c.Effect)) > moved) })
	slices.SortStableFunc(kept, func(a, b Change) int {
		return cmp.Compare(math.Abs(float64(b.Effect)), math.Abs(float64(a.Effect)))
	})
	kept = kept[:min(keep, len(kept))]
	each(len(kept), func(i int) { k.step(&kept[i], thin, base) })
	return kept
}

// shares are the relative margins of a state; money's is worked out here, and what is not shown has less than any.
func shares(s state) map[key]float64 {
	out := map[key]float64{}
	for _, f := range s.findings {
		share := f.Share
		if f.Measure.Kind == fact.Money && f.HasMargin() {
			if limit, err := strconv.ParseFloat(f.Limit.Text, 64); err == nil && limit > 0 {
				share = f.Margin / limit
			}
		}
		switch {
		case f.Outcome == rules.NotShown:
			out[keyOf(f)] = math.Inf(-1)
		case !math.IsNaN(share) && (f.Measure.Quantity.Dim != unit.DimCount || f.Outcome != rules.Met):
			out[keyOf(f)] = share
		}
	}
	return out
}

// thinnest orders the margins that at least two values move.
func thinnest(base map[key]float64, movers map[key]int) []key {
	var thin []key
	for which := range base {
		if movers[which] >= 2 && !math.IsInf(base[which], 0) {
			thin = append(thin, which)
		}
	}
	slices.SortFunc(thin, func(a, b key) int {
		return cmp.Or(cmp.Compare(base[a], base[b]), cmp.Compare(a.rule, b.rule), cmp.Compare(a.subject, b.subject))
	})
	return thin
}

// thinnestOf is the least of some margins.
func thinnestOf(shares map[key]float64, of []key) float64 {
	least := math.Inf(1)
	for _, which := range of {
		if share, ok := shares[which]; ok {
			least = min(least, share)
		}
	}
	if math.IsInf(least, 1) {
		return math.NaN()
	}
	return least
}

// step works out what a natural step of the value does.
func (k *kit) step(c *Change, thin []key, base map[key]float64) {
	step, text := naturalStep(c.number.Value, c.Unit)
	if strings.HasPrefix(c.Change, "−") {
		step, text = -step, strings.Replace(text, "+", "−", 1)
	}
	c.Step, c.ByStep = text, Share(math.NaN())
	if s, ok := k.changed(c.number, c.number.Value.SI+step); ok {
		after := shares(s)
		c.ByStep = Share(thinnestOf(after, thin) - base[thin[0]])
		if now := thinnest(after, movable(thin)); len(now) > 0 && now[0] != thin[0] {
			other := k.margin(now[0], after[now[0]])
			c.Then = &other
		}
	}
}

// movable says of margins that are known to move that they do.
func movable(thin []key) map[key]int {
	out := map[key]int{}
	for _, which := range thin {
		out[which] = 2
	}
	return out
}

func (k *kit) margin(which key, share float64) Margin {
	m := Margin{Rule: which.rule, Subject: which.subject, Relative: Share(share)}
	if i, ok := k.base.index[which]; ok {
		m.Title, m.Fact = k.base.findings[i].Title, k.base.findings[i].Fact
	}
	return m
}
