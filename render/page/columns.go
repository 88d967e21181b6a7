package page

import (
	"errors"
	"fmt"
)

// Beside sets lists of blocks next to each other, on shares of the width, together on one page. If that is higher than a page
// they are set below each other.
type Beside struct {
	Shares []float64 // one for each list; none means equal shares
	Blocks [][]Block
}

func (b Beside) strips(s *setting, width MM) []strip {
	n := len(b.Blocks)
	if n == 0 {
		return nil
	}
	if len(b.Shares) != 0 && len(b.Shares) != n {
		s.fail(fmt.Errorf("%d shares of the width for %d columns; give one for each, or none", len(b.Shares), n))
		return nil
	}
	room := width - MM(n-1)*columnGap
	var total float64
	for i := range n {
		total += b.share(i)
	}
	st := strip{before: medium, after: medium}
	x := MM(0)
	for i, blocks := range b.Blocks {
		w := room * MM(b.share(i)/total)
		if !(w >= 3*leastColumn) {
			s.fail(fmt.Errorf("column %d of %d would be %.0f mm wide; at least %.0f mm are needed", i+1, n, w, 3*leastColumn))
			return nil
		}
		strips := allStrips(s, blocks, w)
		if inElastic(strips) {
			s.fail(errors.New("columns cannot stand inside columns"))
			return nil
		}
		st.items = append(st.items, merged(strips, x, 0)...)
		st.height = max(st.height, stacked(strips))
		x += w + columnGap
	}
	if st.height > s.height {
		var below []strip
		for _, blocks := range b.Blocks {
			below = append(below, allStrips(s, blocks, width)...)
		}
		return below
	}
	return []strip{st}
}

func (b Beside) share(i int) float64 {
	if len(b.Shares) == 0 {
		return 1
	}
	return max(b.Shares[i], 0)
}

// Columns sets blocks in columns of equal width, balanced on the last page.
type Columns struct {
	Count  int
	Blocks []Block
}

func (c Columns) strips(s *setting, width MM) []strip {
	if c.Count < 1 || (width-MM(c.Count-1)*columnGap)/MM(c.Count) < 3*leastColumn {
		s.fail(fmt.Errorf("%d columns do not fit on %.0f mm", c.Count, width))
		return nil
	}
	w := (width - MM(c.Count-1)*columnGap) / MM(c.Count)
	strips := allStrips(s, c.Blocks, w)
	if inElastic(strips) {
		s.fail(errors.New("columns cannot stand inside columns"))
		return nil
	}
	if len(strips) == 0 {
		return nil
	}
	return []strip{c.elastic(strips, w, s.height)}
}

// elastic begins where there is room for a few bonded groups in a column, or for one strip of a group higher than a page.
func (c Columns) elastic(strips []strip, w, whole MM) strip {
	const few = 3 // fewer at the foot of a page look like a remainder
	least := strips[0].height
	for n, groups := 0, 0; n < len(strips) && groups < few; groups++ {
		n += nextGroup(strips[n:])
		if h := stacked(strips[:n]); h <= whole && (groups == 0 || h < whole/3) {
			least = h
		}
	}
	return strip{before: medium, after: medium, height: least, elastic: func(room MM) (strip, *strip) {
		ends := pour(strips, c.Count, room)
		if ends[len(ends)-1] == len(strips) {
			// Everything fits: the lowest height that still holds it balances the columns.
			low, high := MM(0), room
			for range 40 {
				mid := (low + high) / 2
				if try := pour(strips, c.Count, mid); try[len(try)-1] == len(strips) {
					ends, high = try, mid
				} else {
					low = mid
				}
			}
		}
		set := strip{after: medium}
		from := 0
		for i, to := range ends {
			if from < to {
				col := append(strips[from].head[:len(strips[from].head):len(strips[from].head)], strips[from:to]...)
				set.items = append(set.items, merged(col, MM(i)*(w+columnGap), 0)...)
				set.height = max(set.height, stacked(col))
			}
			from = to
		}
		if from == len(strips) {
			return set, nil
		}
		next := c.elastic(strips[from:], w, whole)
		return set, &next
	}}
}

// pour fills columns of a height one after the other, and returns where each ends. Bonded strips stay together if they fit.
func pour(strips []strip, count int, height MM) (ends []int) {
	ends = make([]int, count)
	at := 0
	for i := range ends {
		// What the column holds so far, from its head down, and the white that it asks for below.
		begun, filled, after := at, MM(0), MM(0)
		for at < len(strips) {
			n := nextGroup(strips[at:])
			group := strips[at : at+n]
			add := max(after, group[0].before) + stacked(group)
			if at == begun {
				add = headedHeight(group)
			}
			if filled+add > height+roundingRoom {
				if at > begun {
					break
				}
				// A group higher than a whole column: as much of it as there is room for.
				if add = headedHeight(group[:1]); add > height+roundingRoom {
					break
				}
				n = 1
			}
			filled, after = filled+add, strips[at+n-1].after
			at += n
		}
		ends[i] = at
	}
	return ends
}

// nextGroup is how many strips at the front are bonded together.
func nextGroup(strips []strip) int {
	n := 1
	for n < len(strips) && strips[n-1].bond != free {
		n++
	}
	return n
}

func allStrips(s *setting, blocks []Block, width MM) []strip {
	var all []strip
	for _, b := range blocks {
		for _, st := range b.strips(s, width) {
			if !st.breaks {
				all = append(all, st)
			}
		}
	}
	return all
}

func inElastic(strips []strip) bool {
	for _, st := range strips {
		if st.elastic != nil {
			return true
		}
	}
	return false
}
