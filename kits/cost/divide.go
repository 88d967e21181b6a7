package cost

import (
	"cmp"
	"math"
	"slices"
)

// Two suppliers may share a part although that is dearer than to buy it all where it is cheapest: the goods that one of
// them gets lift it to free postage or to its least order. There are as many ways to share as there are pieces. All of them
// are in the search, but bounds need only few:
//
// A bound weighs the goods of each supplier by a factor from 0 to 1 and adds what its use costs. Let two suppliers ask A and B
// for all pieces, and a and b for a share and the rest. When the point (a, b) lies on or above the line from (A, 0) to (0, B),
// or between any other two ways to buy the part from them, then one of those two costs no more, whatever the factors:
// the bound holds without it. What is left is the lower convex hull, the bargains. Where pieces are sold one by one there are
// none; they come from packs that do not fit the need.
//
// Once suppliers and postage are settled and the bound is near, the ways to share that still matter are few (core.go).

// A sharing is two suppliers of a part that may share it.
type sharing struct {
	a, b  int   // ladders
	limit int64 // what the goods of both may cost at most, or no charges could pay for it
}

// share finds which suppliers may share a part. Buying all from a instead loses b's goods, and with them at most what they
// save of b's charges; and the other way round.
func (w *wares) share(charges []charge) {
	if w.need == 1 {
		return
	}
	for i := range w.ladders {
		for j := range i {
			a, b := &w.ladders[i], &w.ladders[j]
			limit := min(a.all+charges[b.supplier].saves(), b.all+charges[a.supplier].saves())
			if limit > min(a.all, b.all) {
				w.sharings = append(w.sharings, sharing{i, j, limit})
			}
		}
	}
}

// saves is the most that goods can save of the charge of a supplier that is used.
func (c charge) saves() int64 {
	if c.mayBeFree() {
		return c.minimum + c.postage
	}
	return c.minimum
}

// divided visits every way in which two suppliers share a part: each is asked for the cheapest packs for its share. Where one
// of them then sends enough for all, nothing is shared.
func (w *wares) divided(sh sharing, visit func(share, a, b int64)) {
	x, y := w.rungs(sh.a), w.rungs(sh.b)
	lastA, lastB := int64(-1), int64(-1)
	for share := int64(1); share < w.need; share++ {
		a, b := x[share], y[w.need-share]
		if a.pieces >= w.need || b.pieces >= w.need || a.cost+b.cost > sh.limit || a.cost == lastA && b.cost == lastB {
			continue
		}
		lastA, lastB = a.cost, b.cost
		visit(share, a.cost, b.cost)
	}
}

// divide makes the option of a share.
func (w *wares) divide(sh sharing, share int64) option {
	x, y := w.ladders[sh.a].goods, w.ladders[sh.b].goods
	m, n := cheapestMix(x, share), cheapestMix(y, w.need-share)
	return makeOption(slices.Concat(x, y), mix{packs: slices.Concat(m.packs, n.packs)}, w.amount)
}

// bargains are the shares on the lower convex hull.
func (w *wares) bargains(sh sharing) []option {
	x, y := &w.ladders[sh.a], &w.ladders[sh.b]
	if x.fair && y.fair {
		return nil
	}
	type point struct{ share, a, b int64 }
	points := []point{{a: 0, b: y.all}}
	w.divided(sh, func(share, a, b int64) { points = append(points, point{share, a, b}) })
	points = append(points, point{a: x.all, b: 0})
	slices.SortStableFunc(points[1:len(points)-1], func(p, q point) int { return cmp.Or(cmp.Compare(p.a, q.a), cmp.Compare(p.b, q.b)) })
	hull := points[:0:0]
	for _, p := range points {
		for n := len(hull); n > 1 && !below(hull[n-1].a-hull[n-2].a, hull[n-1].b-hull[n-2].b, p.a-hull[n-2].a, p.b-hull[n-2].b); n-- {
			hull = hull[:n-1]
		}
		hull = append(hull, p)
	}
	var found []option
	for _, p := range hull {
		if p.share > 0 {
			found = append(found, w.divide(sh, p.share))
		}
	}
	return found
}

// below reports whether the way (x, y) turns left into (u, v). Products that a float cannot hold exactly count as a turn: a
// point too many does no harm.
func below(x, y, u, v int64) bool {
	left, right := float64(x)*float64(v), float64(y)*float64(u)
	return left-right > -1e-12*math.Abs(left) && (left != right || math.Abs(left) > 1<<53)
}
