package cost

import (
	"errors"
	"math"
	"math/big"

	"hoistbook/kits/unit"
)

// A Kit is the cost of one kit. When Missing is not empty the totals leave those parts out and must not be shown.
type Kit struct {
	Lines   []KitLine
	Places  []PlaceCost // in the order in which places first occur
	Net     unit.Money
	Tax     unit.Money
	Total   unit.Money // Net + Tax
	Missing []string   // parts that nobody offers, or whose spares are not known
}

// Known reports whether every part has a price.
func (k Kit) Known() bool { return len(k.Missing) == 0 }

// A KitLine is the cost of one part in the kit, without tax.
type KitLine struct {
	Ref    string
	Place  string
	Pieces *big.Rat // with spares
	Each   *big.Rat // cheapest price a piece
	Offer  Offer    // whose price that is
	Cost   unit.Money
	Known  bool
}

// PlaceCost is the cost of what is aloft, or on the ground, without tax.
type PlaceCost struct {
	Place string
	Cost  unit.Money
}

// OfKit adds up one kit.
//
//	Σ quantity · (1 + spares) · cheapest price/pack, consumables for one deployment included; then · (1 + tax)
//
// Price breaks are left aside: one kit does not reach them. Each printed amount is the exact one rounded by itself, so
// lines and places may differ from the total by a minor unit or two; Net and Tax add up to Total.
func OfKit(parts []Part, currency unit.Currency, tax unit.Ratio) (Kit, error) {
	if math.IsNaN(float64(tax)) || math.IsInf(float64(tax), 0) || tax < 0 {
		return Kit{}, errors.New("the tax is not known; write a share such as 20 %, or 0 % for none")
	}
	var k Kit
	sum := new(big.Rat)
	places := map[string]*big.Rat{}
	for _, p := range parts {
		if err := p.check(); err != nil {
			return Kit{}, err
		}
		line, amount, err := p.kitLine(currency)
		if err != nil {
			return Kit{}, err
		}
		k.Lines = append(k.Lines, line)
		if !line.Known {
			k.Missing = append(k.Missing, p.Ref)
		}
		if places[p.Place] == nil {
			places[p.Place] = new(big.Rat)
			k.Places = append(k.Places, PlaceCost{Place: p.Place})
		}
		places[p.Place].Add(places[p.Place], amount)
		sum.Add(sum, amount)
	}
	var failed [3]error
	for i := range k.Places {
		var err error
		k.Places[i].Cost, err = currency.Round(places[k.Places[i].Place])
		failed[0] = errors.Join(failed[0], err)
	}
	k.Net, failed[1] = currency.Round(sum)
	k.Total, failed[2] = currency.Round(sum.Mul(sum, new(big.Rat).Add(one, exact(tax))))
	if err := errors.Join(failed[:]...); err != nil {
		return Kit{}, err
	}
	k.Tax, _ = k.Total.Sub(k.Net) // of one currency
	return k, nil
}

// kitLine prices one part and returns the exact amount beside the line.
func (p Part) kitLine(currency unit.Currency) (KitLine, *big.Rat, error) {
	line := KitLine{Ref: p.Ref, Place: p.Place, Cost: currency.Minor(0)}
	best := cheapest(p.Offers)
	if best < 0 || math.IsNaN(float64(p.Spares)) {
		return line, new(big.Rat), nil
	}
	line.Offer, line.Known = p.Offers[best], true
	line.Pieces, line.Each = p.withSpares(p.Quantity), line.Offer.each()
	amount := new(big.Rat).Mul(line.Pieces, line.Each)
	var err error
	line.Cost, err = currency.Round(amount)
	return line, amount, err
}

// each is the price of a piece when one pack is bought.
func (o Offer) each() *big.Rat {
	return new(big.Rat).Quo(o.Price.Rat(), big.NewRat(int64(o.Pack), 1))
}

// cheapest finds the offer with the lowest price a piece, the first of equals; it is −1 when there is none.
func cheapest(offers []Offer) int {
	best := -1
	for i, o := range offers {
		if best < 0 || o.each().Cmp(offers[best].each()) < 0 {
			best = i
		}
	}
	return best
}
