// Package cost adds up what one kit costs and finds the cheapest order for many.
//
// Prices are exact decimals without tax, all in one currency. The cost of one kit is what its parts are worth at the
// cheapest price a piece, as if packs could be shared; it is the figure to hold against a budget. An order buys whole
// packs and pays postage; it is what will be spent. Sums stay exact and are rounded half to even at totals, to the
// currency's minor unit (ISO 4217).
package cost

import (
	"fmt"
	"math"
	"math/big"
	"strconv"

	"hoistbook/kits/unit"
)

// A Part is a line of the parts list, as far as money is concerned.
type Part struct {
	Ref        string
	Place      string
	Quantity   int        // in one kit
	Consumable bool       // used up in each deployment
	Spares     unit.Ratio // share to have on top
	Offers     []Offer
}

// An Offer sells a part by the pack.
type Offer struct {
	Supplier  string
	OrderCode string
	Pack      int          // pieces in a pack
	Price     unit.Decimal // of one pack
	Breaks    []Break      // lower prices for more packs, by rising number of packs
	LeadTime  unit.Duration
	Least     int // the fewest packs that are sold; 0 for any number
}

// A Break is the price of a pack from so many packs on; it then holds for all of them.
type Break struct {
	From  int // packs
	Price unit.Decimal
}

// check says what makes an offer unusable.
func (o Offer) check() error {
	if o.Pack < 1 {
		return fmt.Errorf("the pack of %q holds %d pieces; a pack holds at least one", o.OrderCode, o.Pack)
	}
	if o.Least < 0 {
		return fmt.Errorf("at least %d packs of %q are sold; the number cannot be below zero", o.Least, o.OrderCode)
	}
	last := Break{1, o.Price}
	for _, b := range o.Breaks {
		if b.From <= last.From || b.Price.Cmp(last.Price) >= 0 {
			return fmt.Errorf("the price breaks of %q do not fall from %d packs at %s to %d packs at %s; each needs more packs and a lower price",
				o.OrderCode, last.From, last.Price, b.From, b.Price)
		}
		last = b
	}
	return nil
}

func (p Part) check() error {
	if p.Quantity < 0 {
		return fmt.Errorf("part %q has the quantity %d; it cannot be below zero", p.Ref, p.Quantity)
	}
	if math.IsInf(float64(p.Spares), 0) || p.Spares < 0 {
		return fmt.Errorf("part %q has spares of %v; the share is a number from zero up", p.Ref, float64(p.Spares))
	}
	for _, o := range p.Offers {
		if err := o.check(); err != nil {
			return fmt.Errorf("part %q: %w", p.Ref, err)
		}
	}
	return nil
}

// exact turns a share into the decimal fraction that was written: "10 %" is held as the float nearest to 0.1, and ten
// and a tenth of ten must be eleven, not a hair more. Fourteen decimals are what a percentage in a manifest can have.
func exact(share unit.Ratio) *big.Rat {
	r, _ := new(big.Rat).SetString(strconv.FormatFloat(float64(share), 'f', 14, 64))
	return r
}

var one = big.NewRat(1, 1)

// withSpares is a number of pieces × (1 + spares).
func (p Part) withSpares(pieces int) *big.Rat {
	return new(big.Rat).Mul(big.NewRat(int64(pieces), 1), new(big.Rat).Add(one, exact(p.Spares)))
}
