package cost

import (
	"math/bits"
	"slices"
)

// Two suppliers may share a part although that is dearer than to buy it all where it is cheapest: the goods that one of
// them gets lift it to free postage or to its least order. There are as many ways to share as there are pieces, and they
// are so alike that a proof over all of them may take long. So the order is first found, and proved, without, and then the
// search is done again with all ways to share, starting from that order and with less work.

// mostDividedWork bounds the second search to some tenths of a second.
const mostDividedWork = 12_000_000

// mostShares bounds the ways in which two suppliers share a part; of more, every second, third … is tried.
const mostShares = 200

// A division is the options of every part with those in which suppliers share it.
type division struct {
	options [][]option
	more    bool // some part has such options
	all     bool // every way to share is among them
}

// add appends a part: its options, and the ways to share it that its suppliers' charges may pay for.
func (d *division) add(plain []option, goods []good, need int64, charges []charge, amount func(int64) int64) {
	found := slices.Clone(plain)
	alone := map[int]int64{}
	for _, o := range plain {
		if bits.OnesCount64(o.mask) == 1 {
			alone[bits.TrailingZeros64(o.mask)] = o.cost
		}
	}
	suppliers := sellers(goods)
	for i, a := range suppliers {
		for _, b := range suppliers[:i] {
			// All from a instead of a share loses b's goods, and with them at most what they save; and the other way round.
			limit := min(alone[a]+charges[b].saves(), alone[b]+charges[a].saves())
			if min(alone[a], alone[b]) == limit {
				continue
			}
			shares, all := shared(only(goods, a, a), only(goods, b, b), need, amount)
			d.all = d.all && all
			for _, o := range shares {
				if o.cost <= limit {
					found = append(found, o)
				}
			}
		}
	}
	d.more = d.more || len(found) > len(plain)
	slices.SortStableFunc(found, cheaper)
	d.options = append(d.options, found)
}

// saves is the most that goods can save of the charge of a supplier that is used.
func (c charge) saves() int64 {
	if c.mayBeFree() {
		return c.minimum + c.postage
	}
	return c.minimum
}

// shared divides a need between two suppliers: each is asked for the cheapest packs for its share. Where one of them then
// sends enough for all, nothing is shared.
func shared(a, b []good, need int64, amount func(int64) int64) (found []option, all bool) {
	skip := 1 + need/mostShares
	goods := slices.Concat(a, b)
	for share := int64(1); share < need; share += skip {
		x, y := cheapestMix(a, share), cheapestMix(b, need-share)
		if pieces(a, x) >= need || pieces(b, y) >= need {
			continue
		}
		o := makeOption(goods, mix{packs: slices.Concat(x.packs, y.packs)}, amount)
		if n := len(found); n == 0 || found[n-1].at != o.at {
			found = append(found, o)
		}
	}
	return found, skip == 1
}

func pieces(goods []good, m mix) int64 {
	n := int64(0)
	for i, packs := range m.packs {
		n += packs * goods[i].pack
	}
	return n
}

// divide searches again with the parts shared. It returns the search whose order is to be taken, and whether no way to
// share would be cheaper.
func (s *search) divide(d division) (*search, bool) {
	if !d.more || len(s.options) == 0 || s.first.choice == nil {
		return s, s.proven && d.all
	}
	t := newSearch(d.options, s.suppliers)
	t.limit = mostDividedWork
	for _, f := range []found{s.first, s.second} {
		if f.choice == nil {
			continue
		}
		choice := make([]int, len(f.choice))
		for p, n := range f.choice {
			same := &s.options[p][n]
			choice[p] = slices.IndexFunc(d.options[p], func(o option) bool { return o.cost == same.cost && o.at == same.at && o.lead == same.lead })
		}
		t.record(choice)
	}
	t.run()
	if t.proven || t.first.cost < s.first.cost {
		return t, t.proven && d.all
	}
	if t.second.cost < s.second.cost {
		s.second = t.second
	}
	return s, false
}
