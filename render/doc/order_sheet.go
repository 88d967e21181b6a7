package doc

import (
	"errors"

	"hoistbook/kits"
	"hoistbook/kits/diag"
	"hoistbook/render/page"
)

var orderSheet = Document{Name: "order-sheet", title: "order.title", write: (*sheet).orderOne, when: func(in *Input) bool {
	for _, p := range in.Facts.Manifest.Parts {
		if len(p.Offers) > 0 {
			return true
		}
	}
	return false
}}

// orderOne is the cheapest order for one kit when nothing lies on the shelf, by supplier.
func (s *sheet) orderOne() {
	o, err := kits.OrderFor(s.Facts.Manifest, kits.OrderPlan{Kits: 1})
	if err != nil {
		s.unorderable(err)
		return
	}
	s.paragraph(s.Words.Count("order.about", o.Plan.Deployments))
	s.add(s.completeness(o))
	s.lacking(o)
	s.heading(1, s.say("order.by-supplier"))
	s.add(s.bySupplier(o))
	s.heading(1, s.say("order.alternatives"))
	s.add(s.alternatives(o))
	if !o.Proven {
		s.paragraph(s.say("order.not-proven"))
	}
	if !o.SecondProven {
		s.paragraph(s.say("order.second-not-proven"))
	}
	for _, p := range o.Parcels {
		s.heading(1, s.say("order.to", "supplier", p.Name))
		if p.Contact != "" {
			s.leading(p.Contact)
		}
		s.add(s.lines(o, p, false))
	}
}

// unorderable says what an order would need to know.
func (s *sheet) unorderable(err error) {
	var problems diag.Problems
	if !errors.As(err, &problems) {
		s.paragraph(s.say("order.unknown", "why", err.Error()))
		return
	}
	s.paragraph(s.say("order.unknown-list"))
	var items []page.Words
	for _, p := range problems {
		items = append(items, page.Plain(p.What+"; "+p.Fix))
	}
	s.add(page.List{Items: items})
}
