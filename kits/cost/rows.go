package cost

import (
	"cmp"
	"math/bits"
	"slices"
)

// The relaxed problem prices the sums that suppliers are to reach, and buys every part by itself: its bound is the cost of an order but for what
// its sums are missed or exceeded by. Once the prices are as good as they get, the bound is raised by what it takes to mend that. To buy a
// part in another way has a price, which is never below zero, and changes the sums of one row or of several. Where it changes several, each bears
// a part of the price; then each row is a small problem of its own that is solved exactly (row.go), and
//
//	cost of an order ≥ L(λ) + Σ_rows least price of reaching the sum, with what is above it at λ
//
// An order has exactly this cost when its rows agree on the parts that they have in common.

// A turn is a part of which it matters to the rows how it is bought.
type turn struct {
	pool  int
	rows  []int // that it may change
	items []int // of it in each of them
	steps []step
	wide  int64 // the most goods that a step brings or takes
}

// A step is another way to buy a part than the relaxed problem does.
type step struct {
	way   int
	price int64
	goods []int64 // of each of the turn's rows
}

// rows takes the relaxed problem apart: its rows, and the parts that change them, those first that change several.
func (s *search) rows(k *knot, b *basket) (rows []row, turns []turn) {
	index, is := map[int32]int{}, s.atStake(k, b)
	for m := is; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		_, reach := s.sums(k, i)
		index[int32(i)] = len(rows)
		rows = append(rows, row{supplier: int32(i), lambda: k.lambda[i], surplus: b.goods[i] - reach, soft: k.modes[i] != free})
	}
	for p := range k.open {
		if t := turnOf(k, p, is, index); len(t.rows) > 0 {
			turns = append(turns, t)
		}
	}
	slices.SortStableFunc(turns, func(a, b turn) int {
		return cmp.Or(cmp.Compare(min(len(b.rows), 2), min(len(a.rows), 2)), cmp.Compare(b.wide, a.wide))
	})
	for n := range turns {
		turns[n].share(rows)
	}
	return rows, turns
}

// atStake are the suppliers whose sum has a price, or may be missed by what is left.
func (s *search) atStake(k *knot, b *basket) (is uint64) {
	least := b.goods
	for p := range k.open {
		o := &k.open[p]
		best := &o.ways[o.best]
		for m := best.uses(); m != 0; m &= m - 1 {
			i := int32(bits.TrailingZeros64(m))
			lowest := best.from(i)
			for n := range o.ways {
				lowest = min(lowest, o.ways[n].from(i))
			}
			least[i] -= best.from(i) - lowest
		}
	}
	for m := k.set; m != 0; m &= m - 1 {
		i := bits.TrailingZeros64(m)
		if _, reach := s.sums(k, i); k.lambda[i] > 0 || least[i] < reach {
			is |= 1 << i
		}
	}
	return is
}

func turnOf(k *knot, p int, is uint64, index map[int32]int) turn {
	o, t := &k.open[p], turn{pool: p}
	best := &o.ways[o.best]
	var touched uint64
	for n := range o.ways {
		touched |= touches(best, &o.ways[n], is)
	}
	for m := touched; m != 0; m &= m - 1 {
		t.rows = append(t.rows, index[int32(bits.TrailingZeros64(m))])
	}
	for n := range o.ways {
		w := &o.ways[n]
		if touches(best, w, is) == 0 {
			continue
		}
		st := step{way: n, price: w.price(&k.lambda) - o.price}
		for m := touched; m != 0; m &= m - 1 {
			i := int32(bits.TrailingZeros64(m))
			goods := w.from(i) - best.from(i)
			st.goods = append(st.goods, goods)
			t.wide = max(t.wide, goods, -goods)
		}
		t.steps = append(t.steps, st)
	}
	return t
}

// touches are the suppliers of a set to which two ways bring different goods.
func touches(a, b *way, set uint64) (touched uint64) {
	for m := (a.uses() | b.uses()) & set; m != 0; m &= m - 1 {
		if i := bits.TrailingZeros64(m); a.from(int32(i)) != b.from(int32(i)) {
			touched |= 1 << i
		}
	}
	return touched
}

// share puts a part into its rows. The price of a step is shared evenly among the rows that it changes.
func (t *turn) share(rows []row) {
	for _, r := range t.rows {
		t.items = append(t.items, len(rows[r].items))
		rows[r].items = append(rows[r].items, item{pool: t.pool})
	}
	for _, st := range t.steps {
		left := int64(0)
		for _, g := range st.goods {
			if g != 0 {
				left++
			}
		}
		price := st.price
		for i, g := range st.goods {
			if g == 0 {
				continue
			}
			it := &rows[t.rows[i]].items[t.items[i]]
			it.moves = append(it.moves, move{st.way, g, price / left})
			price, left = price-price/left, left-1
		}
	}
}

// solve works out the rows. It returns the least price of each and their sum, and by pool the ways that rows choose for it; the sum is
// never when it is out of the room.
func (s *search) solve(rows []row, pools int, room int64) (least []int64, sum int64, chosen [][]int) {
	least, chosen = make([]int64, len(rows)), make([][]int, pools)
	for n := range rows {
		r := &rows[n]
		r.solve(room-sum, s)
		price, at := r.least(0, r.surplus)
		if price > room-sum {
			return nil, never, nil
		}
		least[n], sum = price, sum+price
		r.trace(0, at, func(i item, m move) { chosen[i.pool] = append(chosen[i.pool], m.way) })
	}
	return least, sum, chosen
}
