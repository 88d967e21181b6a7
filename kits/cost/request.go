package cost

import (
	"errors"
	"fmt"
	"math"
	"math/big"

	"hoistbook/kits/unit"
)

// A Supplier sells by post.
type Supplier struct {
	ID       string
	Postage  unit.Decimal  // of one parcel
	FreeFrom *unit.Decimal // value of goods from which there is no postage; nil for never
	Minimum  unit.Decimal  // least value of an order; zero for none
}

// A Request asks for an order.
type Request struct {
	Parts       []Part
	Suppliers   []Supplier
	Currency    unit.Currency
	Tax         unit.Ratio
	Kits        int
	Deployments int            // of each kit, for consumables
	Stock       map[string]int // pieces on hand, by part
	Within      unit.Duration  // longest lead time; zero for any
}

// A Need is how many pieces of a part are to be bought.
type Need struct {
	Ref    string
	Wanted int // for all kits, with spares
	Stock  int
	Buy    int // Wanted − Stock, or zero
}

// Bounds of what is searched: beyond them a number in a manifest is wrong, and sums might lose their last digit.
const (
	mostPieces   = 1_000_000
	mostMinor    = 100_000_000_000 // of all goods together
	mostSupplier = 63
)

// needs works out the pieces: ⌈quantity · kits · (1 + spares)⌉, consumables times deployments, less the stock.
func (q Request) needs() ([]Need, error) {
	needs := make([]Need, len(q.Parts))
	for i, p := range q.Parts {
		if err := p.check(); err != nil {
			return nil, err
		}
		if math.IsNaN(float64(p.Spares)) {
			return nil, fmt.Errorf("the spares of part %q are not known; write a share such as 10 %%, or 0 %%", p.Ref)
		}
		times := new(big.Rat).SetInt64(int64(q.Kits))
		if p.Consumable {
			times.Mul(times, new(big.Rat).SetInt64(int64(q.Deployments)))
		}
		exactly := times.Mul(times, p.withSpares(p.Quantity))
		wanted, rest := new(big.Int).QuoRem(exactly.Num(), exactly.Denom(), new(big.Int))
		if rest.Sign() > 0 {
			wanted.Add(wanted, big.NewInt(1))
		}
		if !wanted.IsInt64() || wanted.Int64() > mostPieces {
			return nil, fmt.Errorf("part %q is wanted %s times; at most %d can be ordered", p.Ref, wanted, mostPieces)
		}
		stock := q.Stock[p.Ref]
		if stock < 0 {
			return nil, fmt.Errorf("the stock of part %q is %d; it cannot be below zero", p.Ref, stock)
		}
		needs[i] = Need{p.Ref, int(wanted.Int64()), stock, max(int(wanted.Int64())-stock, 0)}
	}
	return needs, nil
}

func (q Request) check() error {
	switch {
	case q.Kits < 1:
		return fmt.Errorf("%d kits cannot be ordered; order at least one", q.Kits)
	case q.Deployments < 1:
		return fmt.Errorf("%d deployments need no consumables; plan at least one", q.Deployments)
	case math.IsNaN(float64(q.Tax)) || math.IsInf(float64(q.Tax), 0) || q.Tax < 0:
		return errors.New("the tax is not known; write a share such as 20 %, or 0 % for none")
	case math.IsNaN(float64(q.Within)) || q.Within < 0:
		return errors.New("the longest lead time is not known; write a duration such as 14 d")
	case len(q.Suppliers) > mostSupplier:
		return fmt.Errorf("%d suppliers are too many to compare; keep at most %d", len(q.Suppliers), mostSupplier)
	}
	return nil
}

// usable reports whether an offer arrives in time. A lead time that is not known is not in time.
func (q Request) usable(o Offer) bool { return q.Within == 0 || o.LeadTime <= q.Within }

// scale is the number of fine units in one unit of the currency: as many decimals as any price has, the currency's at least.
func (q Request) scale() int {
	decimals := q.Currency.Decimals()
	for _, p := range q.Parts {
		for _, o := range p.Offers {
			decimals = max(decimals, o.Price.Decimals())
			for _, b := range o.Breaks {
				decimals = max(decimals, b.Price.Decimals())
			}
		}
	}
	return decimals
}

func tenTo(n int) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }

// fine is a price in fine units, exactly.
func fine(d unit.Decimal, scale int) int64 {
	r := d.Rat()
	r.Mul(r, new(big.Rat).SetInt(tenTo(scale)))
	return r.Num().Int64()
}

// goods turns a part's usable offers into goods of the search; supplier gives a supplier's index.
func (q Request) goods(p Part, need int, scale int, supplier map[string]int) ([]good, error) {
	var goods []good
	for i, o := range p.Offers {
		s, ok := supplier[o.Supplier]
		if !ok {
			return nil, fmt.Errorf("part %q is offered by %q, which is no supplier of the list", p.Ref, o.Supplier)
		}
		if !q.usable(o) {
			continue
		}
		if o.Pack > mostPieces {
			return nil, fmt.Errorf("a pack of part %q holds %d pieces; at most %d are possible", p.Ref, o.Pack, mostPieces)
		}
		g := good{supplier: s, offer: i, pack: int64(o.Pack), tiers: []tier{{max(int64(o.Least), 1), fine(o.Price, scale)}}, lead: float64(o.LeadTime)}
		if math.IsNaN(g.lead) {
			g.lead = math.Inf(1)
		}
		most := max(int64(need), g.tiers[0].from)
		for _, b := range o.Breaks {
			most = max(most, int64(b.From))
			reached := tier{int64(b.From), fine(b.Price, scale)}
			if reached.from > g.tiers[0].from {
				g.tiers = append(g.tiers, reached)
			} else {
				g.tiers[0].price = reached.price // fewer are not sold
			}
		}
		if float64(g.tiers[0].price)*float64(max(most, g.pack)) > 1e17 || g.tiers[0].price > 1e12 {
			return nil, fmt.Errorf("the price of part %q from %q is out of range; check price and quantity", p.Ref, o.Supplier)
		}
		goods = append(goods, g)
	}
	return goods, nil
}
