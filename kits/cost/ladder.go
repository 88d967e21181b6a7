package cost

// Wares are a part that is to be bought, with what its suppliers ask.
type wares struct {
	need     int64
	ladders  []ladder // one a supplier
	sharings []sharing
	amount   func(fine int64) int64 // in minor units
}

// A ladder is what one supplier asks for a part, by the number of pieces: always for the cheapest packs that cover them.
type ladder struct {
	supplier int
	goods    []good
	all      int64  // for the whole need
	fair     bool   // fewer pieces are never cheaper a piece, as pieces are sold one by one and price breaks only fall
	kept     []rung // by pieces
}

type rung struct {
	cost   int64 // each line rounded
	pieces int64 // that are sent
}

// mostKept is up to which need the rungs are kept; beyond, they are worked out whenever they are asked for.
const mostKept = 4096

// rungs are those for one piece up to all but one.
func (w *wares) rungs(ladder int) []rung {
	l := &w.ladders[ladder]
	if l.kept != nil {
		return l.kept
	}
	rungs := make([]rung, w.need)
	for n := int64(1); n < w.need; n++ {
		r := &rungs[n]
		if len(l.goods) == 1 {
			packs := l.goods[0].packs(n)
			*r = rung{w.amount(l.goods[0].price(packs)), packs * l.goods[0].pack}
			continue
		}
		for i, packs := range cheapestMix(l.goods, n).packs {
			r.cost += w.amount(l.goods[i].price(packs))
			r.pieces += packs * l.goods[i].pack
		}
	}
	if w.need <= mostKept {
		l.kept = rungs
	}
	return rungs
}
