package cost

import (
	"fmt"
	"math"
	"math/big"
	"testing"

	"hoistbook/kits/internal/floor"
)

// buyGreedily is the floor of ordering: every part where a piece is cheapest, whole packs, and the charges that come of it.
func buyGreedily(q Request) (cents int64) {
	goods := map[string]*big.Rat{}
	for _, p := range q.Parts {
		best := p.Offers[cheapest(p.Offers)]
		need := math.Ceil(float64(p.Quantity*q.Kits) * (1 + float64(p.Spares)))
		packs := int64(math.Ceil(need / float64(best.Pack)))
		price := best.Price
		for _, b := range best.Breaks {
			if packs >= int64(b.From) {
				price = b.Price
			}
		}
		if goods[best.Supplier] == nil {
			goods[best.Supplier] = new(big.Rat)
		}
		goods[best.Supplier].Add(goods[best.Supplier], new(big.Rat).Mul(price.Rat(), new(big.Rat).SetInt64(packs)))
	}
	for _, s := range q.Suppliers {
		if worth := goods[s.ID]; worth != nil {
			if worth.Cmp(s.Minimum.Rat()) < 0 {
				worth = s.Minimum.Rat()
			}
			if s.FreeFrom == nil || worth.Cmp(s.FreeFrom.Rat()) < 0 {
				worth = new(big.Rat).Add(worth, s.Postage.Rat())
			}
			m, err := eur.Round(worth)
			if err != nil {
				panic(err)
			}
			cents += m.MinorUnits()
		}
	}
	return cents
}

// beside measures Optimise and the greedy choice on the same requests.
func beside(b *testing.B, times uint64, request func(seed uint64) Request) {
	b.Helper()
	var asked []Request
	for seed := range times {
		asked = append(asked, request(seed))
	}
	var exact, greedy int64
	unproven := 0
	floor.Beside(b, func() {
		exact, unproven = 0, 0
		for _, q := range asked {
			o, err := Optimise(q)
			if err != nil {
				b.Fatal(err)
			}
			exact += o.Net.MinorUnits()
			if !o.Proven {
				unproven++
			}
		}
	}, func() {
		greedy = 0
		for _, q := range asked {
			greedy += buyGreedily(q)
		}
	})
	b.ReportMetric(100*(1-float64(exact)/float64(greedy)), "%saved")
	b.ReportMetric(float64(unproven), "unproven")
}

// The exact order beside the greedy one, and how both grow with parts and with kits: go run ./cmd/dev bench
func BenchmarkBesideGreedy(b *testing.B) {
	for _, parts := range []int{10, 100, 1000, 10000} {
		b.Run(fmt.Sprintf("parts=%d", parts), func(b *testing.B) {
			beside(b, 1, func(seed uint64) Request { return Sample(seed, 10, parts, 3) })
		})
	}
	for _, kits := range []int{1, 10, 100, 1000, 10000} {
		b.Run(fmt.Sprintf("kits=%d", kits), func(b *testing.B) {
			beside(b, 5, func(seed uint64) Request {
				q := Sample(seed, 10, 60, 3)
				q.Kits = kits
				return q
			})
		})
	}
}

// Twelve orders beside the general solver that made testdata/orders: go run ./cmd/dev bench
func BenchmarkBesideScipy(b *testing.B) {
	scipy := floor.Scipy(b, "order")
	var twelve []Request
	for _, s := range readSolved(b)[80:92] {
		twelve = append(twelve, s.request())
	}
	floor.Beside(b, func() {
		for _, q := range twelve {
			if _, err := Optimise(q); err != nil {
				b.Fatal(err)
			}
		}
	}, nil)
	b.ReportMetric(12*1e3*scipy.Seconds(), "ms-floor")
}
