package rules

import (
	"math"
	"math/big"

	"hoistbook/kits/fact"
	"hoistbook/kits/unit"
)

// moneyRoom compares amounts exactly. A limit with a factor is shown to the decimals that amount had. The share is that of share,
// for amounts.
func moneyRoom(r *result, factor *big.Rat) (room, size float64) {
	m, l := rat(r.measure), rat(r.limit)
	if m == nil || l == nil {
		return math.NaN(), 0
	}
	if factor != nil {
		l.Mul(l, factor)
		r.limit.Text = l.FloatString(decimals(r.limit))
	}
	difference := new(big.Rat).Sub(m, l)
	r.margin, _ = difference.Float64()
	r.share = 0
	if difference.Sign() != 0 {
		whole := l
		if l.Sign() == 0 {
			whole = m
		}
		r.share, _ = new(big.Rat).Quo(difference, whole.Abs(whole)).Float64()
	}
	return r.margin, 0 // money has no slack
}

// rat reads an amount, or returns nil for a text that is none.
func rat(v fact.Value) *big.Rat {
	d, err := unit.ParseDecimal(v.Text)
	if err != nil {
		return nil
	}
	return d.Rat()
}

// decimals are those of an amount that rat has read.
func decimals(v fact.Value) int {
	d, _ := unit.ParseDecimal(v.Text)
	return d.Decimals()
}

// moneyMargin prints the distance between two amounts to the decimals they have, without its sign.
func moneyMargin(measure, limit fact.Value) string {
	m, l := rat(measure), rat(limit)
	if m == nil || l == nil {
		return "not shown"
	}
	difference := m.Sub(m, l)
	return difference.Abs(difference).FloatString(max(decimals(measure), decimals(limit)))
}
