package kits

import (
	"fmt"
	"math"
	"time"

	"hoistbook/kits/cost"
	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
)

// OrderPlan says for what to order.
type OrderPlan struct {
	Kits        int
	Deployments int            // of each kit, for what is used up; 0: as many as the manifest plans, or one
	Stock       map[string]int // pieces on hand, by part
	Today       time.Time      // the day on which the orders go out; only NeededBy needs it
	NeededBy    time.Time      // the day on which everything must be there; zero for any
	FirstSerial int            // of the kits to be built; 0 is 1
}

// day is what lead times are counted in: a supplier who says a day and a half is waited for two.
const day = 24 * time.Hour

// LeadDays are the whole days of a lead time; ok is false when it is not known.
func LeadDays(lead unit.Duration) (n int, ok bool) {
	exactly := float64(lead) / day.Seconds()
	if math.IsNaN(exactly) || math.IsInf(exactly, 0) {
		return 0, false
	}
	return int(math.Ceil(exactly - 1e-9)), true
}

// OrderBy is the last day to order what takes this long; ok is false when no day is given or the lead time is not known.
func (p OrderPlan) OrderBy(lead unit.Duration) (last time.Time, ok bool) {
	n, ok := LeadDays(lead)
	if p.NeededBy.IsZero() || !ok {
		return time.Time{}, false
	}
	return p.NeededBy.AddDate(0, 0, -n), true
}

// OrderByDay is OrderBy in the form of ISO 8601, or empty.
func (p OrderPlan) OrderByDay(lead unit.Duration) string {
	last, ok := p.OrderBy(lead)
	if !ok {
		return ""
	}
	return last.Format(time.DateOnly)
}

// left is how many days there are; 0 for any number.
func (p OrderPlan) left() (int, error) {
	if p.NeededBy.IsZero() {
		return 0, nil
	}
	if p.Today.IsZero() {
		return 0, fmt.Errorf("what is needed by %s can be late only when the day of the order is known", p.NeededBy.Format(time.DateOnly))
	}
	n := int(math.Round(p.NeededBy.Sub(p.Today).Hours() / 24))
	if n < 1 {
		return 0, fmt.Errorf("nothing that is ordered on %s arrives by %s; name a later day", p.Today.Format(time.DateOnly), p.NeededBy.Format(time.DateOnly))
	}
	return n, nil
}

// request asks for the cheapest order. The error is diag.Problems: what an order needs to know and the manifest does not
// say. No postage that is not written is taken for none.
func (p OrderPlan) request(m *manifest.Manifest) (cost.Request, error) {
	var problems diag.Problems
	b := m.Budget
	if b == nil {
		b = &manifest.Budget{}
	}
	lacks := func(fix string, at ...string) {
		problems.Add(m.Place(jsontree.Pointer(at...)), fmt.Sprintf("an order needs %s, and nobody says it", jsontree.Pointer(at...)), fix)
	}
	q := cost.Request{Kits: p.Kits, Deployments: p.Deployments, Stock: p.Stock, Parts: costParts(m, carried)}
	if b.Currency != nil {
		q.Currency = *b.Currency
	} else {
		lacks(`write the currency of the prices, such as "EUR"`, "budget", "currency")
	}
	if b.Tax != nil {
		q.Tax = *b.Tax
	} else {
		lacks(`write the tax on the prices, such as "20 %", or "0 %" for none`, "budget", "tax")
	}
	for id, s := range manifest.Sorted(m.Suppliers) {
		if !sells(m, id) {
			continue
		}
		supplier := cost.Supplier{ID: string(id), FreeFrom: s.FreePostageFrom}
		if s.Postage != nil {
			supplier.Postage = *s.Postage
		} else {
			at := jsontree.Pointer("suppliers", string(id))
			problems.Add(m.Place(at+"/postage"), fmt.Sprintf("supplier %q (%s) does not say what the postage of a parcel is", s.Name, id),
				fmt.Sprintf(`write it in %s, such as "postage": "6.50", or "postage": "0.00" for none`, at))
		}
		if s.LeastOrder != nil {
			supplier.Minimum = *s.LeastOrder
		}
		q.Suppliers = append(q.Suppliers, supplier)
	}
	left, err := p.left()
	if err != nil {
		problems.Join(err)
	}
	q.Within = unit.Duration(float64(left) * day.Seconds())
	return q, problems.Err()
}

func sells(m *manifest.Manifest, supplier manifest.Ref) bool {
	for _, p := range m.Parts {
		for _, o := range p.Offers {
			if o.Supplier == supplier {
				return true
			}
		}
	}
	return false
}
