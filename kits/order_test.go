package kits_test

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"
	"time"

	"hoistbook/kits"
	"hoistbook/kits/cost"
	"hoistbook/kits/manifest"
)

// A kit small enough to be ordered by hand.
const smallKit = `{
  "format": "hoistbook-manifest/1",
  "kit": { "id": "reed-kit", "name": "Reed kit", "revision": "1.0.0" },
  "station": { "duration": "8 h", "tether_out": "40 m", "lowest_height": "30 m", "deployments": 3 },
  "parts": {
    "BAT1": { "name": "cell", "place": "ground", "packed_in": "box 2", "offers": [ { "supplier": "S1", "pack": 1, "price": "9.00", "breaks": { "10": "8.00" }, "lead_time": "5 d" } ],
              "battery": { "chemistry": "li-ion", "cells_in_series": 1, "capacity": "2 Ah", "in_rotation": 2, "rail": "BAT" } },
    "GAS1": { "name": "gas", "place": "ground", "consumable": true, "packed_in": "box 1",
              "offers": [ { "supplier": "S2", "pack": 1, "price": "30.00", "lead_time": "12 d" }, { "supplier": "S1", "pack": 1, "price": "31.00", "lead_time": "36 h" } ] },
    "SCR1": { "name": "screw", "place": "ground", "quantity": 10, "spares": "10 %", "offers": [ { "supplier": "S1", "pack": 25, "price": "1.115", "lead_time": "2 d" } ] }
  },
  "budget": { "currency": "EUR", "per_kit": "150.00", "tax": "19 %" },
  "suppliers": { "S1": { "name": "Reed store", "postage": "4.00", "contact": "the counter" }, "S2": { "name": "Gas yard", "postage": "9.00" } }
}`

func smallWith(t *testing.T, change string) *manifest.Manifest {
	t.Helper()
	m, err := manifest.Load(manifest.Source{Name: "kit.json", Data: []byte(smallKit)}, manifest.Source{Name: "change.json", Data: []byte(change)})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func order(t *testing.T, m *manifest.Manifest, plan kits.OrderPlan) *kits.Order {
	t.Helper()
	o, err := kits.OrderFor(m, plan)
	if err != nil {
		t.Fatal(err)
	}
	return o
}

func date(text string) time.Time {
	at, err := time.Parse(time.DateOnly, text)
	if err != nil {
		panic(err)
	}
	return at
}

// Five kits, three deployments each: 10 cells (two sets a kit), of which 3 lie in stock; 15 bags of gas; 50 screws and a
// tenth, so 55. Nine cells at 9.00 for 7 wanted cost 63.00, ten at 8.00 cost 80.00. Gas from S2 costs 15 × 30.00 = 450.00
// and 9.00 postage, from S1 15 × 31.00 = 465.00 and no postage more: 459.00 against 465.00. Three packs of screws cost
// 3.345, rounded half to even 3.34.
func TestOrderByHand(t *testing.T) {
	o := order(t, smallWith(t, `{}`), kits.OrderPlan{Kits: 5, Stock: map[string]int{"BAT1": 3}})
	var got []string
	for _, p := range o.Parcels {
		for _, l := range p.Lines {
			got = append(got, fmt.Sprintf("%s %s %d x %d = %s", p.Supplier, l.Ref, l.Packs, l.Pack, l.Amount))
		}
		got = append(got, fmt.Sprintf("%s goods %s postage %s cost %s tax %s total %s", p.Name, p.Goods, p.Postage, p.Cost, p.Tax, p.Total))
	}
	want := []string{
		"S1 BAT1 7 x 1 = 63.00 EUR", "S1 SCR1 3 x 25 = 3.34 EUR",
		"Reed store goods 66.34 EUR postage 4.00 EUR cost 70.34 EUR tax 13.36 EUR total 83.70 EUR", // 70.34 × 1.19 = 83.7046
		"S2 GAS1 15 x 1 = 450.00 EUR",
		"Gas yard goods 450.00 EUR postage 9.00 EUR cost 459.00 EUR tax 87.21 EUR total 546.21 EUR",
	}
	if !slices.Equal(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	each, known := o.EachKit() // 629.91 ÷ 5 = 125.982
	if o.Net.String() != "529.34 EUR" || o.Tax.String() != "100.57 EUR" || o.Total.String() != "629.91 EUR" || !known || each.String() != "125.98 EUR" {
		t.Errorf("net %s, tax %s, total %s, a kit %s", o.Net, o.Tax, o.Total, each)
	}
	// From stock 3 × 9.00 × 1.19 = 32.13, of which a kit's share is 6.426. Two of three deployments' gas: 450.00 × 2/3 × 1.19 = 357.00, ÷ 5.
	// The bill: 2 × 9.00 + 30.00 + 11 × 1.115 ÷ 25 = 48.4906, × 1.19 = 57.7038.
	var sums []string
	for _, sum := range o.KitSums() {
		sums = append(sums, fmt.Sprint(strings.TrimPrefix(sum.ID, "order."), " ", sum.Amount, " ", sum.Known))
	}
	if want := "each-kit 125.98 EUR true, each-stock 6.43 EUR true, each-worth 132.41 EUR true, later 71.40 EUR true, once 61.01 EUR true, " +
		"bill 57.70 EUR true, beyond-bill 3.31 EUR true, budget 150.00 EUR true, left 88.99 EUR true"; strings.Join(sums, ", ") != want || o.UsedUp().String() != "450.00 EUR" {
		t.Errorf("got %s, want %s; %s is used up", strings.Join(sums, ", "), want, o.UsedUp())
	}
	if limit, known := o.Budget(); !known || limit.String() != "150.00 EUR" {
		t.Errorf("budget %s, %v", limit, known)
	}
	// All from S1: 63.00 + 3.34 + 465.00 + 4.00.
	if o.SecondBest.Net.String() != "535.34 EUR" || o.Single.Net.String() != "535.34 EUR" || !o.Proven {
		t.Errorf("second %v, single %v", o.SecondBest, o.Single)
	}
	for i, want := range []string{"BAT1 2 a kit, 10 packed of 10 wanted, 0 remain", "GAS1 3 a kit, 15 packed of 15 wanted, 0 remain", "SCR1 10 a kit, 50 packed of 55 wanted, 25 remain"} {
		p := o.Parts[i]
		if got := fmt.Sprintf("%s %d a kit, %d packed of %d wanted, %d remain", p.Ref, p.EachKit, p.Packed, p.Wanted, p.Remains); got != want {
			t.Errorf("got %s, want %s", got, want)
		}
	}
	if got := o.Boxes(); !slices.Equal(got, []string{"box 2", "box 1", ""}) {
		t.Errorf("boxes %q", got)
	}
}

// Twelve days of lead time and ten days left: the gas comes from S1. What takes 36 hours is ordered two days before.
func TestOrderInTime(t *testing.T) {
	plan := kits.OrderPlan{Kits: 1, Today: date("2027-02-20"), NeededBy: date("2027-03-02")}
	o := order(t, smallWith(t, `{}`), plan)
	if len(o.Parcels) != 1 || o.Parcels[0].Supplier != "S1" {
		t.Fatalf("got %v", o.Parcels)
	}
	for ref, want := range map[string]string{"BAT1": "2027-02-25", "GAS1": "2027-02-28", "SCR1": "2027-02-28"} {
		at := slices.IndexFunc(o.Parcels[0].Lines, func(l cost.Line) bool { return l.Ref == ref })
		last, ok := o.Plan.OrderBy(o.Parcels[0].Lines[at].LeadTime)
		if got := last.Format(time.DateOnly); !ok || got != want {
			t.Errorf("order %s by %s, want %s", ref, got, want)
		}
	}
	plan.NeededBy = date("2027-02-21")
	if o = order(t, smallWith(t, `{}`), plan); o.Complete() || len(o.Short()) != 3 {
		t.Fatalf("in a day: %v are short, want all three", o.Short())
	}
	short := o.Short()[1]
	if want := "the soonest offer, from S1, takes 2 d, and 1 d are left"; short.WhyShort != want || short.Lacking != 3 {
		t.Errorf("got %q and %d, want %q and 3", short.WhyShort, short.Lacking, want)
	}
	if each, known := o.EachKit(); known {
		t.Errorf("an order that is not complete costs %s a kit", each)
	}
	plan.NeededBy = plan.Today
	if _, err := kits.OrderFor(smallWith(t, `{}`), plan); err == nil || !strings.Contains(err.Error(), "name a later day") {
		t.Errorf("needed today: got %v", err)
	}
}

// A lead time that nobody says is never in time.
func TestOrderLeadTimeNotSaid(t *testing.T) {
	m := smallWith(t, `{ "parts": { "SCR1": { "offers": [ { "supplier": "S1", "price": "1.00" } ] } } }`)
	o := order(t, m, kits.OrderPlan{Kits: 1, Today: date("2027-01-01"), NeededBy: date("2028-01-01")})
	if short := o.Short(); len(short) != 1 || short[0].Ref != "SCR1" || short[0].WhyShort != "no offer says its lead time" {
		t.Errorf("got %+v", short)
	}
	o = order(t, m, kits.OrderPlan{Kits: 1})
	if last, ok := o.Plan.OrderBy(o.LeadTime); !o.Complete() || ok {
		t.Errorf("without a day: complete %v, order by %s", o.Complete(), last)
	}
}

// What nobody sells makes the order incomplete, unless it lies in stock.
func TestOrderOfWhatNobodyOffers(t *testing.T) {
	m := smallWith(t, `{ "parts": { "SCR1": { "offers": null } } }`)
	o := order(t, m, kits.OrderPlan{Kits: 2})
	if short := o.Short(); len(short) != 1 || short[0].WhyShort != "nobody offers it" || short[0].Lacking != 22 {
		t.Errorf("got %+v", short)
	}
	if o = order(t, m, kits.OrderPlan{Kits: 2, Stock: map[string]int{"SCR1": 22}}); !o.Complete() {
		t.Errorf("in stock: %+v", o.Short())
	}
}

// The gas lies in stock and nobody sells it: what a kit is worth is not known, and neither is what is left of its budget.
func TestStockThatNobodySells(t *testing.T) {
	o := order(t, smallWith(t, `{ "parts": { "GAS1": { "offers": null } } }`), kits.OrderPlan{Kits: 1, Stock: map[string]int{"GAS1": 9}})
	var sums []string
	for _, sum := range o.KitSums() {
		sums = append(sums, fmt.Sprint(strings.TrimPrefix(sum.ID, "order."), " ", sum.Known))
	}
	want := "each-kit true, each-stock false, each-worth false, later false, once false, budget true"
	if got := strings.Join(sums, ", "); got != want || !slices.Equal(o.Unpriced(), []string{"GAS1"}) || !o.Complete() {
		t.Errorf("got %s, want %s; unpriced are %v", got, want, o.Unpriced())
	}
}

// A supplier who sells three packs or none is asked for three, or not at all.
func TestOrderOfSeveralPacks(t *testing.T) {
	o := order(t, smallWith(t, `{ "parts": { "SCR1": { "offers": [ { "supplier": "S1", "pack": 25, "price": "1.00", "least_packs": 3 } ] } } }`), kits.OrderPlan{Kits: 1})
	if l := o.Parcels[0].Lines[2]; l.Ref != "SCR1" || l.Packs != 3 {
		t.Errorf("got %+v, want three packs", l)
	}
}

func TestOrderNeedsToKnow(t *testing.T) {
	m := smallWith(t, `{ "budget": { "tax": null, "currency": null }, "suppliers": { "S2": { "postage": null }, "S3": { "name": "never asked" } } }`)
	_, err := kits.OrderFor(m, kits.OrderPlan{Kits: 1})
	want := []string{
		"an order needs /budget/currency, and nobody says it; write the ", "an order needs /budget/tax, and nobody says it; write the ",
		`supplier "Gas yard" (S2) does not say what the postage of a parcel is; write it in /suppliers/S2, such as "postage": "6.50"`,
	}
	if err == nil || strings.Count(err.Error(), "\n") != len(want)-1 {
		t.Fatalf("got %v, want a line for each of %q", err, want)
	}
	for _, line := range want {
		if !strings.Contains(err.Error(), line) {
			t.Errorf("no line says %q in\n%v", line, err)
		}
	}
}

// What has been received need not be ordered again.
func TestOrderAfterReceiving(t *testing.T) {
	for _, id := range kits.Demos() {
		m := demoWith(t, id, `{}`)
		o := order(t, m, kits.OrderPlan{Kits: 12})
		if !o.Complete() || !o.Proven || len(o.Parcels) < 2 {
			t.Errorf("%s: complete %v, proven %v, %d parcels", id, o.Complete(), o.Proven, len(o.Parcels))
		}
		sum := new(big.Rat)
		for _, p := range o.Parcels {
			sum.Add(sum, p.Total.Rat())
		}
		if sum.Cmp(o.Total.Rat()) != 0 {
			t.Errorf("%s: the invoices make %s, and the order says %s", id, sum.FloatString(4), o.Total)
		}
		if again := order(t, m, kits.OrderPlan{Kits: 12, Stock: o.Received()}); len(again.Parcels) > 0 || again.Total.MinorUnits() != 0 {
			t.Errorf("%s: with everything received, %s is ordered again", id, again.Total)
		}
	}
}

func TestSerials(t *testing.T) {
	o := order(t, smallWith(t, `{}`), kits.OrderPlan{Kits: 3, FirstSerial: 98})
	if got := o.Serials(); !slices.Equal(got, []string{"reed-kit-098", "reed-kit-099", "reed-kit-100"}) {
		t.Errorf("got %q", got)
	}
}
