package doc

import (
	"hoistbook/kits/manifest"
	"hoistbook/render/page"
)

var powerTree = Document{Name: "power-tree", title: "power.title", write: (*sheet).power}

// power draws how every module is fed, with the voltages that reach it held against what it bears.
func (s *sheet) power() {
	s.paragraph(s.say("power.about"))
	nodes := s.tree()
	if len(nodes) == 0 {
		s.paragraph(s.say("power.none"))
		return
	}
	// As many rows as a page takes stand in one figure; the lines of the tree go on in the next.
	room := s.flow.Frame().H * 0.72
	for from := 0; from < len(nodes); {
		to, h := from, page.MM(0)
		for to < len(nodes) && (to == from || h+s.nodeHeight(nodes[to]) <= room) {
			h += s.nodeHeight(nodes[to])
			to++
		}
		s.add(s.branches(nodes, from, to, h))
		from, room = to, s.flow.Frame().H*0.94
	}
	s.add(page.Paragraph{Text: page.Plain(s.say("power.key")), Fine: true})
	s.heading(1, s.say("power.energy"))
	s.add(s.facts("power.average_w", "power.usable_wh", "power.endurance_h", "station.duration_h", "power.battery_changes", "power.sets_in_rotation"))
}

// A node is one row of the tree.
type node struct {
	depth  int
	kind   nodeKind
	ref    string // of the part, or the rail's id
	name   string
	below  []int // rows of its children
	parent int   // row, or -1
}

type nodeKind uint8

const (
	railNode nodeKind = iota
	batteryNode
	converterNode
	loadNode
	fuseNode
)

// tree lists the rails from the batteries down, each with what feeds it, what protects it and what it feeds. What hangs on no
// battery comes last: it must not be missing from the drawing.
func (s *sheet) tree() []node {
	var nodes []node
	drawn := map[string]bool{}
	add := func(n node) int {
		nodes = append(nodes, n)
		if n.parent >= 0 {
			nodes[n.parent].below = append(nodes[n.parent].below, len(nodes)-1)
			nodes[len(nodes)-1].depth = nodes[n.parent].depth + 1
		}
		return len(nodes) - 1
	}
	parts := s.Facts.Manifest.Parts
	var rail func(id manifest.Ref, parent int)
	rail = func(id manifest.Ref, parent int) {
		if drawn[string(id)] {
			return
		}
		drawn[string(id)] = true
		here := add(node{kind: railNode, ref: string(id), parent: parent})
		for ref, p := range manifest.Sorted(parts) {
			if p.Battery != nil && p.Battery.Rail == id {
				add(node{kind: batteryNode, ref: string(ref), name: p.Name, parent: here})
			}
		}
		for ref, p := range manifest.Sorted(parts) {
			if p.Fuse != nil && p.Fuse.Rail == id {
				add(node{kind: fuseNode, ref: string(ref), name: p.Name, parent: here})
			}
		}
		for ref, p := range manifest.Sorted(parts) {
			if p.Load != nil && p.Load.Rail == id {
				add(node{kind: loadNode, ref: string(ref), name: p.Name, parent: here})
			}
		}
		for ref, p := range manifest.Sorted(parts) {
			if p.Converter != nil && p.Converter.From == id {
				rail(p.Converter.To, add(node{kind: converterNode, ref: string(ref), name: p.Name, parent: here}))
			}
		}
	}
	for _, p := range manifest.Sorted(parts) {
		if p.Battery != nil {
			rail(p.Battery.Rail, -1)
		}
	}
	for _, id := range s.Facts.Subjects("power.rails") {
		rail(manifest.Ref(id), -1)
	}
	return nodes
}
