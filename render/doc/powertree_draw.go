package doc

import (
	"math"

	"hoistbook/render/page"
)

const (
	indent   = page.MM(6)
	nodePad  = page.MM(1.6)
	gaugeGap = page.MM(5)
)

var (
	nodeRef  = label{face: page.Bold, size: 10}
	nodeName = label{size: 8.5}
)

// split is where the gauges begin.
func (s *sheet) split() page.MM { return s.flow.Frame().W * 0.5 }

func (s *sheet) nodeHeight(n node) page.MM {
	d := s.drawing(s.flow.Frame().W, 0)
	room := s.split() - page.MM(n.depth)*indent - 2*nodePad
	left := d.height(s.nodeTitle(n), nodeRef, room)
	if n.name != "" {
		left += d.height(n.name, nodeName, room)
	}
	right := page.MM(9.5)
	if n.kind != loadNode {
		right = d.height(s.rating(n), nodeName, d.w-s.split()-gaugeGap)
	}
	return max(left, right) + 2*nodePad + 1.6
}

func (s *sheet) nodeTitle(n node) string {
	if n.kind == railNode {
		return s.say("power.rail", "rail", n.ref)
	}
	return n.ref
}

// branches draws a run of rows.
func (s *sheet) branches(nodes []node, from, to int, h page.MM) page.Figure {
	d := s.drawing(s.flow.Frame().W, h)
	middle := make([]page.MM, len(nodes))
	y := page.MM(0)
	for i := from; i < to; i++ {
		middle[i] = y + s.nodeHeight(nodes[i])/2
		y += s.nodeHeight(nodes[i])
	}
	at := func(i int) page.MM {
		switch {
		case i < from:
			return 0
		case i >= to:
			return h
		}
		return middle[i]
	}
	for i, n := range nodes {
		if len(n.below) == 0 {
			continue
		}
		x := page.MM(n.depth)*indent + indent/2
		top, bottom := at(i), at(n.below[len(n.below)-1])
		if top < bottom {
			d.line(x, top, x, bottom, page.Stroke{Width: plain})
		}
		for _, k := range n.below {
			if k >= from && k < to {
				d.line(x, middle[k], x+indent/2, middle[k], page.Stroke{Width: plain})
			}
		}
	}
	y = 0
	for i := from; i < to; i++ {
		height := s.nodeHeight(nodes[i])
		s.node(d, nodes[i], y+0.8, height-1.6)
		y += height
	}
	return d.figure("")
}

// node draws one row: a box for what it is, and beside it what the numbers say.
func (s *sheet) node(d *drawing, n node, y, h page.MM) {
	x := page.MM(n.depth) * indent
	edge := plain
	if n.kind == railNode {
		edge = thick
	}
	box := page.Rect{Box: page.Box{X: x + edge/2, Y: y + edge/2, W: s.split() - x - edge, H: h - edge}, Fill: page.White, Stroke: page.Stroke{Width: edge}}
	if n.kind == loadNode || n.kind == fuseNode {
		box.Round = 1.5
	}
	d.add(box)
	room := s.split() - x - 2*nodePad
	text := d.height(s.nodeTitle(n), nodeRef, room)
	if n.name != "" {
		text += d.height(n.name, nodeName, room)
	}
	below := d.put(s.nodeTitle(n), nodeRef, x+nodePad+0.6, y+(h-text)/2, room)
	if n.name != "" {
		d.put(n.name, nodeName, x+nodePad+0.6, below, room)
	}
	left := s.split() + gaugeGap
	if n.kind == loadNode {
		s.gauge(d, n.ref, left, y, d.w-left, h)
		return
	}
	d.put(s.rating(n), nodeName, left, y+(h-d.height(s.rating(n), nodeName, d.w-left))/2, d.w-left)
}

// rating says what a row carries and what it may.
func (s *sheet) rating(n node) string {
	of := func(fact string) string { return s.fact(fact) }
	switch n.kind {
	case railNode:
		id := "power.rails." + n.ref
		return s.say("power.of-rail", "low", of(id+".lowest_v"), "high", of(id+".highest_v"), "current", of(id+".greatest_a"))
	case batteryNode:
		id := "power.batteries." + n.ref
		return s.say("power.of-battery", "low", of(id+".cutoff_v"), "high", of(id+".full_v"), "current", of(id+".greatest_a"), "allowed", of(id+".allowed_a"))
	case fuseNode:
		id := "power.fuses." + n.ref
		return s.say("power.of-fuse", "rating", of(id+".rating_a"), "needed", of(id+".needed_a"))
	}
	id := "power.converters." + n.ref
	return s.say("power.of-converter", "low", of(id+".source_lowest_v"), "high", of(id+".source_highest_v"), "from", of(id+".input_lowest_v"),
		"to", of(id+".input_highest_v"), "current", of(id+".greatest_a"), "allowed", of(id+".allowed_a"), "heat", of(id+".dissipation_w"))
}

// gauge draws the voltages at a module against its rating: a frame for what it works with, a bar for what reaches it, a cross
// stroke for where damage begins.
func (s *sheet) gauge(d *drawing, ref string, x, y, w, h page.MM) {
	const edge = page.MM(1) // for strokes at the right end
	w -= edge
	id := "power.loads." + ref
	low, high := s.lookup(id+".lowest_v"), s.lookup(id+".highest_v")
	from, to, damage := s.lookup(id+".rated_lowest_v"), s.lookup(id+".rated_highest_v"), s.lookup(id+".damaged_above_v")
	text := s.say("power.of-load", "low", s.value(low), "high", s.value(high), "from", s.value(from), "to", s.value(to))
	th := d.height(text, nodeName, w)
	d.put(text, nodeName, x, y+max(0, h-th-5)/2, w)
	if !low.Known() || !high.Known() || !from.Known() || !to.Known() {
		return
	}
	least, most := math.Min(low.Quantity.SI, from.Quantity.SI), math.Max(high.Quantity.SI, to.Quantity.SI)
	if damage.Known() {
		most = math.Max(most, damage.Quantity.SI)
	}
	least, most = least-(most-least)*0.08, most+(most-least)*0.08
	if !(most > least) {
		return
	}
	at := func(volts float64) page.MM { return x + w*page.MM((volts-least)/(most-least)) }
	base := y + max(0, h-th-5)/2 + th + 2.8
	d.line(x, base, x+w, base, page.Stroke{Width: thin})
	d.add(page.Rect{Box: page.Box{X: at(from.Quantity.SI), Y: base - 1.9, W: at(to.Quantity.SI) - at(from.Quantity.SI), H: 3.8}, Stroke: page.Stroke{Width: plain}})
	d.add(page.Rect{Box: page.Box{X: at(low.Quantity.SI), Y: base - 0.8, W: max(0.6, at(high.Quantity.SI)-at(low.Quantity.SI)), H: 1.6}, Fill: page.Black})
	if damage.Known() {
		v := at(damage.Quantity.SI)
		d.line(v, base-1.9, v, base+1.9, page.Stroke{Width: thick})
		d.line(v-1.2, base-1.2, v+1.2, base+1.2, page.Stroke{Width: plain})
		d.line(v-1.2, base+1.2, v+1.2, base-1.2, page.Stroke{Width: plain})
	}
}
