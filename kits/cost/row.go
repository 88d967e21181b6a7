package cost

import (
	"math"
	"slices"
)

// A row is a supplier whose sum is to be reached, with the parts that bring it more or less when they are bought in another way
// than the relaxed problem buys them.
type row struct {
	supplier int32
	lambda   int64
	surplus  int64 // of what the relaxed problem buys, above the sum
	soft     bool  // what lacks to the sum may be paid
	items    []item
	stages   [][]label // for each item, it and those after it; and for none
}

// An item is a part in a row.
type item struct {
	pool  int
	moves []move
}

// A move is a way to buy a part, against that of the relaxed problem: the goods it brings the row, and what of its price the row bears.
type move struct {
	way   int
	goods int64
	price int64
}

// A label is a choice of moves. Those of a stage are ordered by falling goods, and one with more goods costs more: the others are
// never needed, whatever comes before them.
type label struct {
	goods int64
	cost  int64 // price + λ·goods
	next  int32 // in the stage after it
	move  int32 // −1 for none
}

// solve works out the stages from the last item to the first. Prices are never below zero, so that nothing above the room is
// followed up.
func (r *row) solve(room int64, s *search) {
	n := len(r.items)
	more, less := make([]int64, n+1), make([]int64, n+1) // goods that the items before may bring
	for i := range n {
		up, down := r.items[i].reach()
		more[i+1], less[i+1] = more[i]+up, less[i]+down
	}
	r.stages = make([][]label, n+1)
	r.stages[n] = []label{{move: -1}}
	for i := n - 1; i >= 0; i-- {
		r.stages[i] = r.before(i, s, func(l label) bool {
			price := l.cost - r.lambda*l.goods
			if least := r.surplus + l.goods + less[i]; least > 0 {
				price += r.lambda * least
			} else if most := r.surplus + l.goods + more[i]; most < 0 {
				if !r.soft {
					return false
				}
				price += (unity - r.lambda) * -most
			}
			return price <= room
		})
	}
}

// reach are the most and the least goods that an item may bring.
func (i item) reach() (most, least int64) {
	for _, m := range i.moves {
		most, least = max(most, m.goods), min(least, m.goods)
	}
	return most, least
}

// before puts an item in front of the stage after it, and keeps the labels that fit.
func (r *row) before(i int, s *search, fits func(label) bool) []label {
	stage := r.stages[i+1]
	next, spare := s.labels[0][:0], s.labels[1]
	for n, l := range stage {
		l := label{l.goods, l.cost, int32(n), -1}
		if fits(l) {
			next = append(next, l)
		}
	}
	for n, m := range r.items[i].moves {
		merged := spare[:0]
		add, at, lowest := m.price+r.lambda*m.goods, 0, int64(math.MaxInt64)
		keep := func(l label) {
			if l.cost < lowest {
				lowest = l.cost
				merged = append(merged, l)
			}
		}
		for j := range stage {
			l := label{stage[j].goods + m.goods, stage[j].cost + add, int32(j), int32(n)}
			if !fits(l) {
				continue
			}
			for ; at < len(next) && (next[at].goods > l.goods || next[at].goods == l.goods && next[at].cost <= l.cost); at++ {
				keep(next[at])
			}
			keep(l)
		}
		for ; at < len(next); at++ {
			keep(next[at])
		}
		s.work += int64(len(stage) + len(next))
		next, spare = merged, next
	}
	s.labels = [2][]label{next, spare}
	return slices.Clone(next)
}

// least is the least price at which a stage completes a row whose surplus is what it is before; never when nothing does within the room.
func (r *row) least(stage int, surplus int64) (price int64, at int) {
	labels := r.stages[stage]
	n, over := 0, len(labels) // the first that is short of the sum
	for n < over {
		if middle := (n + over) / 2; labels[middle].goods < -surplus {
			over = middle
		} else {
			n = middle + 1
		}
	}
	price, at = never, -1
	if n > 0 {
		price, at = labels[n-1].cost+r.lambda*surplus, n-1
	}
	if r.soft {
		for i := n; i < len(labels); i++ {
			short := -(surplus + labels[i].goods)
			if unity*short+labels[len(labels)-1].cost+r.lambda*surplus >= price {
				break
			}
			if p := labels[i].cost + r.lambda*surplus + unity*short; p < price {
				price, at = p, i
			}
		}
	}
	return price, at
}

// trace visits the moves of a label: of its item, and of the items after it.
func (r *row) trace(stage, at int, visit func(i item, m move)) {
	for ; stage < len(r.items); stage++ {
		l := r.stages[stage][at]
		if l.move >= 0 {
			visit(r.items[stage], r.items[stage].moves[l.move])
		}
		at = int(l.next)
	}
}
