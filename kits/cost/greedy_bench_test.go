package cost

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"hoistbook/kits/unit"
)

// smallParts is a request in which the choice of suppliers matters: hundreds of parts that cost little, each from three of
// fifteen suppliers at prices within a fifth, and parcels that cost more than what a part saves. Half of the suppliers send
// free from a sum of free to 4.8 × free; some want a least order.
func smallParts(seed uint64, free, suppliers, parts, offers int) Request {
	r := rand.New(rand.NewPCG(seed, 2))
	q := Request{Currency: eur, Kits: 1, Deployments: 1, Stock: map[string]int{}}
	for i := range suppliers {
		s := Supplier{ID: fmt.Sprint("S", i), Postage: cents(int64(690 + r.IntN(40)*100))}
		if r.IntN(2) == 0 {
			from := cents(int64(free + r.IntN(20)*free/5))
			s.FreeFrom = &from
		}
		if r.IntN(3) == 0 {
			s.Minimum = cents(int64(2000 + r.IntN(4)*1000))
		}
		q.Suppliers = append(q.Suppliers, s)
	}
	for i := range parts {
		p := Part{Ref: fmt.Sprint("P", i), Quantity: 1 + r.IntN(6), Spares: unit.Ratio(r.IntN(3)) / 20}
		base := 10 + r.IntN(80)
		for _, s := range r.Perm(suppliers)[:min(offers, suppliers)] {
			pack := []int{1, 1, 5, 10}[r.IntN(4)]
			each := float64(base) * (0.9 + 0.2*r.Float64())
			o := Offer{Supplier: fmt.Sprint("S", s), Pack: pack, Price: cents(int64(each*float64(pack)) + 2), LeadTime: unit.Duration(1+r.IntN(20)) * day}
			if r.IntN(4) == 0 {
				o.Breaks = []Break{{10, cents(int64(each*float64(pack)*0.9) + 1)}}
			}
			p.Offers = append(p.Offers, o)
		}
		q.Parts = append(q.Parts, p)
	}
	return q
}

// The exact choice beside the greedy one, which takes every part where it is cheapest, on the same requests: 500 parts, 15
// suppliers, 3 offers a part. What is saved is a share of what the greedy choice costs.
func BenchmarkExactAgainstGreedy(b *testing.B) {
	few := func(free int) func(uint64) Request {
		return func(seed uint64) Request { return smallParts(seed, free, 15, 500, 3) }
	}
	for _, kind := range []struct {
		name string
		make func(seed uint64) Request
	}{
		{"free-postage-out-of-reach", few(30000)}, {"free-postage-in-reach", few(10000)},
		{"parts-of-all-prices", func(seed uint64) Request { return Sample(seed, 15, 500, 3) }},
	} {
		b.Run(kind.name, func(b *testing.B) {
			var exact, greedy int64
			unproven := 0
			for i := 0; b.Loop(); i++ {
				o, err := Optimise(kind.make(uint64(i % 20)))
				if err != nil {
					b.Fatal(err)
				}
				if !o.Proven {
					unproven++
				}
				exact, greedy = exact+o.Net.MinorUnits(), greedy+o.Greedy.Net.MinorUnits()
			}
			b.ReportMetric(float64(exact)/float64(b.N)/100, "exact-EUR")
			b.ReportMetric(float64(greedy)/float64(b.N)/100, "greedy-EUR")
			b.ReportMetric(100*(1-float64(exact)/float64(greedy)), "%saved")
			b.ReportMetric(float64(unproven), "unproven")
		})
	}
}
