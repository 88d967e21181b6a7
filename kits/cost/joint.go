package cost

import "slices"

// A joint decides the parts that change several rows, one after another, as long as the rows can be completed within the room. What is left
// in the end falls apart into the rows, whose stages say what completes each at the least price: they are an order.
type joint struct {
	s       *search
	k       *knot
	rows    []row
	turns   []turn
	joins   int // of the turns, how many change several rows
	surplus []int64
	stage   []int
	least   []int64 // price of completing each row
	sum     int64   // of them
	room    int64
	budget  int    // steps that may still be looked at
	take    []int  // by pool, its way
	unused  uint64 // suppliers that an order which was found leaves out
	kids    []kid  // of the turns on the way
}

// A kid is a step at a turn, or none (−1), and a bound on the price of what follows.
type kid struct {
	step  int
	bound int64
}

// join sets out from the relaxed problem; least and sum are the rows'.
func (s *search) join(k *knot, rows []row, turns []turn, least []int64, sum, room int64) *joint {
	j := &joint{s: s, k: k, rows: rows, turns: turns, surplus: make([]int64, len(rows)), stage: make([]int, len(rows)),
		least: slices.Clone(least), sum: sum, room: room, budget: s.steps, take: make([]int, len(k.open))}
	for n := range turns {
		if len(turns[n].rows) > 1 {
			j.joins++
		}
	}
	for n := range rows {
		j.surplus[n] = rows[n].surplus
	}
	for p := range k.open {
		j.take[p] = k.open[p].best
	}
	return j
}

// walk decides the turns from n on; spent is the price of the steps before. It returns false when the budget is used up.
func (j *joint) walk(n int, spent int64) bool {
	if n == j.joins {
		j.finish()
		return true
	}
	if j.budget -= 1 + len(j.turns[n].steps); j.budget < 0 {
		return false
	}
	t := &j.turns[n]
	first := len(j.kids)
	j.kids = append(j.kids, kid{-1, spent + j.after(t, nil)})
	for i := range t.steps {
		st := &t.steps[i]
		j.kids = append(j.kids, kid{i, spent + st.price + j.after(t, st)})
		for at := len(j.kids) - 1; at > first && j.kids[at-1].bound > j.kids[at].bound; at-- {
			j.kids[at-1], j.kids[at] = j.kids[at], j.kids[at-1]
		}
	}
	last := len(j.kids)
	done := true
	for at := first; at < last && done && j.kids[at].bound <= j.room; at++ {
		price, goods := int64(0), []int64(nil)
		if i := j.kids[at].step; i >= 0 {
			price, goods = t.steps[i].price, t.steps[i].goods
			j.take[t.pool] = t.steps[i].way
		}
		j.move(t, goods, 1)
		done = j.walk(n+1, spent+price)
		j.move(t, goods, -1)
		j.take[t.pool] = j.k.open[t.pool].best
	}
	j.kids = j.kids[:first]
	return done
}

// after is the least price of what completes the rows after a step at a turn.
func (j *joint) after(t *turn, st *step) int64 {
	sum := j.sum
	for i, r := range t.rows {
		surplus := j.surplus[r]
		if st != nil {
			surplus += st.goods[i]
		}
		least, _ := j.rows[r].least(j.stage[r]+1, surplus)
		if least == never {
			return never
		}
		sum += least - j.least[r]
	}
	return sum
}

// move takes a step at a turn, or takes it back.
func (j *joint) move(t *turn, goods []int64, by int64) {
	for i, r := range t.rows {
		j.stage[r] += int(by)
		if goods != nil {
			j.surplus[r] += by * goods[i]
		}
		least, _ := j.rows[r].least(j.stage[r], j.surplus[r])
		j.sum += least - j.least[r]
		j.least[r] = least
	}
}

// finish completes the rows, and records the order.
func (j *joint) finish() {
	take := slices.Clone(j.take)
	for r := range j.rows {
		_, at := j.rows[r].least(j.stage[r], j.surplus[r])
		j.rows[r].trace(j.stage[r], at, func(i item, m move) { take[i.pool] = m.way })
	}
	b := basket{j.k.cost, j.k.goods, j.k.used}
	for p := range j.k.open {
		o := &j.k.open[p]
		b.add(&o.ways[take[p]])
		o.best, take[p] = take[p], o.best
	}
	j.s.offer(j.k, b)
	for p := range j.k.open {
		j.k.open[p].best = take[p]
	}
	j.unused |= j.k.set &^ b.used
	j.room = min(j.room, j.s.matters(j.k.set)*unity-j.k.bound)
}
