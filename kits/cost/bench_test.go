package cost

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"hoistbook/kits/unit"
)

// Sample makes a request of realistic shape: cheap parts in quantity, dear ones singly, prices that differ by a tenth or
// so between suppliers, packs, postage of a few units and free postage from some tens.
func Sample(seed uint64, suppliers, parts, offers int) Request {
	r := rand.New(rand.NewPCG(seed, 1))
	q := Request{Currency: eur, Kits: 5, Deployments: 2, Stock: map[string]int{}}
	for i := range suppliers {
		from := cents(int64(4000 + r.IntN(12)*1000))
		s := Supplier{ID: fmt.Sprint("S", i), Postage: cents(int64(290 + r.IntN(60)*10)), FreeFrom: &from}
		if r.IntN(3) == 0 {
			s.FreeFrom = nil
		}
		if r.IntN(3) == 0 {
			s.Minimum = cents(int64(1000 + r.IntN(4)*500))
		}
		q.Suppliers = append(q.Suppliers, s)
	}
	for i := range parts {
		p := Part{Ref: fmt.Sprint("P", i), Quantity: 1 + r.IntN(12), Spares: unit.Ratio(r.IntN(3)) / 20}
		base := 5 + r.IntN(60)
		if r.IntN(6) == 0 {
			base *= 30
		}
		for _, s := range r.Perm(suppliers)[:min(offers, suppliers)] {
			each := float64(base) * (0.9 + 0.3*r.Float64())
			pack := []int{1, 1, 5, 10}[r.IntN(4)]
			o := Offer{Supplier: fmt.Sprint("S", s), OrderCode: fmt.Sprint("C", i, s), Pack: pack, LeadTime: unit.Duration(1+r.IntN(20)) * day}
			single := int64(each * float64(pack))
			o.Price = cents(single + 2)
			if r.IntN(4) == 0 {
				o.Breaks = []Break{{10, cents(single*9/10 + 1)}}
			}
			p.Offers = append(p.Offers, o)
		}
		q.Parts = append(q.Parts, p)
	}
	return q
}

func BenchmarkOptimise(b *testing.B) {
	for _, size := range []struct{ suppliers, parts, offers int }{{5, 60, 3}, {10, 60, 3}, {15, 30, 3}, {15, 60, 3}, {15, 120, 3}, {15, 250, 3}, {15, 500, 3}, {15, 60, 6}} {
		b.Run(fmt.Sprintf("%dx%dx%d", size.suppliers, size.parts, size.offers), func(b *testing.B) {
			saved, unproven := 0.0, 0
			for i := 0; b.Loop(); i++ {
				o, err := Optimise(Sample(uint64(i%20), size.suppliers, size.parts, size.offers))
				if err != nil {
					b.Fatal(err)
				}
				if !o.Proven {
					unproven++
				}
				saved += 1 - float64(o.Net.MinorUnits())/float64(o.Greedy.Net.MinorUnits())
			}
			b.ReportMetric(100*saved/float64(b.N), "%saved")
			b.ReportMetric(float64(unproven), "unproven")
		})
	}
}
