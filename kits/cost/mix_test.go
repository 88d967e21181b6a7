package cost

import (
	"math/rand/v2"
	"testing"
)

// randomGood is sold by packs of up to seven, from up to three packs on, with up to two price breaks.
func randomGood(random *rand.Rand) good {
	g := good{pack: 1 + random.Int64N(7), tiers: []tier{{1 + max(0, random.Int64N(5)-2), 1 + random.Int64N(20)}}}
	for last := g.tiers[0]; random.IntN(2) == 0 && last.price > 0 && len(g.tiers) < 3; {
		last = tier{last.from + 1 + random.Int64N(3), random.Int64N(last.price)}
		g.tiers = append(g.tiers, last)
	}
	return g
}

// listed is the price of a pack when so many are bought, by looking through the list; not sold where that takes more.
func (g good) listed(packs int64) (each int64, sold bool) {
	for _, t := range g.tiers {
		if packs >= t.from {
			each, sold = t.price, true
		}
	}
	return each, sold || packs == 0
}

// cheapestOfAll tries every number of packs of every good.
func cheapestOfAll(goods []good, need int64) (cost, count int64) {
	cost, count = -1, 0
	var walk func(i int, left, spent, packs int64)
	walk = func(i int, left, spent, packs int64) {
		if i == len(goods) {
			if left <= 0 && (cost < 0 || spent < cost || spent == cost && packs < count) {
				cost, count = spent, packs
			}
			return
		}
		for n := int64(0); n <= max(left, 0)/goods[i].pack+1+9; n++ {
			if each, sold := goods[i].listed(n); sold {
				walk(i+1, left-n*goods[i].pack, spent+n*each, packs+n)
			}
		}
	}
	walk(0, need, 0, 0)
	return cost, count
}

// The cheapest packs, and of equals the fewest, are those of trying everything.
func TestMixesAreThoseOfTryingEverything(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	for range 1500 {
		goods := make([]good, 1+random.IntN(3))
		for i := range goods {
			goods[i] = randomGood(random)
		}
		need := 1 + random.Int64N(40/int64(len(goods)))
		m := cheapestMix(goods, need)
		var cost, count, pieces int64
		for i, n := range m.packs {
			each, sold := goods[i].listed(n)
			if !sold {
				t.Fatalf("%d packs of %v are not sold", n, goods[i])
			}
			cost, count, pieces = cost+n*each, count+n, pieces+n*goods[i].pack
		}
		wantCost, wantCount := cheapestOfAll(goods, need)
		if m.cost != wantCost || cost != m.cost || m.count != wantCount || count != m.count || pieces < need {
			t.Fatalf("%d pieces of %v: got %v for %d, %d packs with %d pieces; want %d packs for %d", need, goods, m.packs, m.cost, m.count, pieces, wantCount, wantCost)
		}
	}
}

// 1003 pieces of tens at 90 and sevens at 64: at 9 a piece they would cost 9027. Each seven is 1 above that and each piece too many
// 9. Sevens by tens that then fit: 0 leave 7 pieces too many, 1: 4, 2: 1, 3: 8, 4: 5, 5: 2, 6: 9, 7: 6, 8: 3, and 9 none. So 9 of them, with
// 94 tens, cost 9036; 2 are the next, at 9027 + 2 + 9.
//
// Of twos at 8 and threes at 12, which are both 4 a piece, 17 pieces are five threes and a two.
func TestMixesByHand(t *testing.T) {
	for _, c := range []struct {
		need, a, b, cost int64
		goods            []good
	}{
		{1003, 94, 9, 9036, []good{{pack: 10, tiers: []tier{{1, 90}}}, {pack: 7, tiers: []tier{{1, 64}}}}},
		{17, 1, 5, 68, []good{{pack: 2, tiers: []tier{{1, 8}}}, {pack: 3, tiers: []tier{{1, 12}}}}},
		{17, 5, 1, 68, []good{{pack: 3, tiers: []tier{{1, 12}}}, {pack: 2, tiers: []tier{{1, 8}}}}},
	} {
		if m := cheapestMix(c.goods, c.need); m.packs[0] != c.a || m.packs[1] != c.b || m.cost != c.cost || m.count != c.a+c.b {
			t.Errorf("%d pieces: got %v for %d, want %d and %d for %d", c.need, m.packs, m.cost, c.a, c.b, c.cost)
		}
	}
}
