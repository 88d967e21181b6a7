package cost

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"slices"

	"hoistbook/kits/unit"
)

// An Order is what to buy where. Amounts are without tax, but for Tax and Total.
type Order struct {
	Needs        []Need   // by part
	Parcels      []Parcel // in the order of the suppliers, only those that are used
	Unavailable  []Need   // parts that nobody offers in time; they are not in the sums
	Net          unit.Money
	Tax          unit.Money
	Total        unit.Money
	LeadTime     unit.Duration // until the last parcel; NaN when one is not known
	Proven       bool          // no order is cheaper; false when the search was cut short
	SecondProven bool          // no other suppliers than those of the order and of SecondBest are cheaper; given up before Proven is

	SecondBest *Alternative // the cheapest order from another set of suppliers, parts shared only where that may pay; nil when there is none
	Single     *Alternative // the cheapest order from one supplier; nil when none has everything
	Greedy     *Alternative // every part where it is cheapest, postage not looked at; nil when there is nothing to buy
}

// Complete reports whether everything that is needed is in the order.
func (o Order) Complete() bool { return len(o.Unavailable) == 0 }

// A Parcel is the order to one supplier.
type Parcel struct {
	Supplier string
	Lines    []Line
	Goods    unit.Money
	MakeUp   unit.Money // to be spent on anything useful, so that the supplier's minimum is reached
	Postage  unit.Money
	Cost     unit.Money // all three
	LeadTime unit.Duration
	ToFree   unit.Money // by how much the goods miss free postage; zero when it is reached or not on offer
}

// A Line is a position of a parcel.
type Line struct {
	Ref       string
	OrderCode string
	Packs     int
	Pack      int          // pieces in a pack
	Price     unit.Decimal // of a pack, the break reached
	Amount    unit.Money
	LeadTime  unit.Duration
}

// An Alternative is another order, by its suppliers and its cost without tax.
type Alternative struct {
	Suppliers []string
	Net       unit.Money
}

// Optimise finds the cheapest order: of all ways to buy every part (see below), the one with the least sum of goods,
// make-up to minimums and postage. Of equally cheap orders it takes the one with the fewest parcels, then the one that is
// complete soonest.
//
// The ways to buy a part are the cheapest mix of packs from any one supplier, and the cheapest mix from any two where
// mixing beats both; a mix may hold more pieces than needed where that is cheaper (packs, price breaks). Parts move
// between suppliers to reach free postage or a minimum, and where that pays two suppliers share a part; nothing needless is
// bought for it. Three never share one, though that can be cheaper: three suppliers each lack a piece to free postage, and
// three pieces are wanted that all of them sell. Proven does not speak of such orders. What a supplier's minimum lacks is paid
// as make-up, and does not count towards free postage unless the minimum itself reaches it.
func Optimise(q Request) (Order, error) {
	if err := q.check(); err != nil {
		return Order{}, err
	}
	needs, err := q.needs()
	if err != nil {
		return Order{}, err
	}
	order := Order{Needs: needs}
	s, parts, err := q.search(needs, math.NaN())
	if err != nil {
		return Order{}, err
	}
	for i, n := range needs {
		if n.Buy > 0 && !slices.Contains(parts, i) {
			order.Unavailable = append(order.Unavailable, n)
		}
	}
	s.run()
	best, second := s.first, s.second
	sooner, err := q.soonest(needs, &best, &second)
	if err != nil {
		return Order{}, err
	}
	order.Proven, order.SecondProven = s.proven && sooner, s.secondProven
	if err := q.fill(&order, s, parts, best); err != nil {
		return Order{}, err
	}
	if second.choice != nil {
		order.SecondBest = q.alternative(s, second)
	}
	if greedy, ok := s.greedy(); ok {
		order.Greedy = q.alternative(s, greedy)
	}
	if single, ok := s.single(); ok {
		order.Single = q.alternative(s, single)
	}
	return order, nil
}

// search sets up the search over the parts that must and can be bought, by goods that come sooner than a lead time, or any when it is NaN; parts are
// their indices.
func (q Request) search(needs []Need, sooner float64) (s *search, parts []int, err error) {
	index := map[string]int{}
	for i, s := range q.Suppliers {
		if _, twice := index[s.ID]; twice {
			return nil, nil, fmt.Errorf("supplier %q is listed twice", s.ID)
		}
		index[s.ID] = i
	}
	scale := q.scale()
	minor := tenTo(scale - q.Currency.Decimals()).Int64() // fine units in a minor unit
	amount := func(fine int64) int64 { return halfEven(fine, minor) }
	var sum float64
	charges := make([]charge, len(q.Suppliers))
	for i, s := range q.Suppliers {
		if charges[i], err = q.charge(s); err != nil {
			return nil, nil, err
		}
		sum += float64(charges[i].postage) + float64(charges[i].minimum)
	}
	var all []*wares
	var choices [][]option
	for i, p := range q.Parts {
		goods, err := q.goods(p, needs[i].Buy, scale, index)
		if err != nil {
			return nil, nil, err
		}
		goods = slices.DeleteFunc(goods, func(g good) bool { return g.lead >= sooner })
		if needs[i].Buy == 0 || len(goods) == 0 {
			continue
		}
		w, found := newWares(goods, int64(needs[i].Buy), charges, minor == 1, amount)
		all, choices, parts = append(all, w), append(choices, found), append(parts, i)
		sum += float64(found[len(found)-1].cost)
	}
	if sum > mostMinor {
		return nil, nil, errors.New("the order costs more than can be summed exactly; check prices and quantities")
	}
	return newSearch(all, choices, charges), parts, nil
}

func (q Request) charge(s Supplier) (charge, error) {
	var failed error
	minor := func(d unit.Decimal) int64 {
		m, err := q.Currency.Round(d.Rat())
		failed = errors.Join(failed, err)
		return m.MinorUnits()
	}
	c := charge{postage: minor(s.Postage), minimum: minor(s.Minimum), free: never}
	if s.FreeFrom != nil {
		c.free = minor(*s.FreeFrom)
	}
	return c, failed
}

// halfEven divides and rounds half to even.
func halfEven(n, by int64) int64 {
	whole, rest := n/by, n%by
	if 2*rest > by || 2*rest == by && whole%2 == 1 {
		whole++
	}
	return whole
}

// fill writes the parcels and the sums of the order that was found.
func (q Request) fill(o *Order, s *search, parts []int, best found) error {
	net := int64(0)
	for i, supplier := range q.Suppliers {
		parcel := Parcel{Supplier: supplier.ID}
		var goods int64
		for n, o := range best.choice {
			for _, c := range o.lines {
				if c.good.supplier != i {
					continue
				}
				goods += c.amount
				parcel.Lines = append(parcel.Lines, q.line(q.Parts[parts[n]], c))
			}
		}
		if len(parcel.Lines) == 0 {
			continue
		}
		for _, l := range parcel.Lines {
			parcel.LeadTime = max(parcel.LeadTime, l.LeadTime)
		}
		c := s.suppliers[i]
		makeUp := max(c.minimum-goods, 0)
		parcel.Goods, parcel.MakeUp, parcel.Cost = q.Currency.Minor(goods), q.Currency.Minor(makeUp), q.Currency.Minor(goods+c.of(goods))
		parcel.Postage, parcel.ToFree = q.Currency.Minor(c.of(goods)-makeUp), q.Currency.Minor(0)
		if c.free < never {
			parcel.ToFree = q.Currency.Minor(max(c.free-goods-makeUp, 0))
		}
		o.Parcels = append(o.Parcels, parcel)
		o.LeadTime = max(o.LeadTime, parcel.LeadTime)
		net += goods + c.of(goods)
	}
	o.Net = q.Currency.Minor(net)
	var err error
	if o.Total, err = q.Currency.Round(new(big.Rat).Mul(o.Net.Rat(), new(big.Rat).Add(one, exact(q.Tax)))); err != nil {
		return err
	}
	o.Tax, err = o.Total.Sub(o.Net)
	return err
}

func (q Request) line(p Part, c choice) Line {
	offer := p.Offers[c.good.offer]
	l := Line{p.Ref, offer.OrderCode, int(c.packs), offer.Pack, offer.Price, q.Currency.Minor(c.amount), offer.LeadTime}
	for _, b := range offer.Breaks {
		if l.Packs >= b.From {
			l.Price = b.Price
		}
	}
	if math.IsInf(float64(l.LeadTime), 0) {
		l.LeadTime = unit.Duration(math.NaN())
	}
	return l
}

func (q Request) alternative(s *search, f found) *Alternative {
	a := &Alternative{Net: q.Currency.Minor(f.cost / s.weight)}
	for i, supplier := range q.Suppliers {
		if f.mask>>i&1 == 1 {
			a.Suppliers = append(a.Suppliers, supplier.ID)
		}
	}
	return a
}

// soonest replaces the best order by equally good ones (cost and parcels) that are complete earlier, as long as there are
// any. An order that it replaces becomes the second when its suppliers are others.
func (q Request) soonest(needs []Need, best, second *found) (proven bool, err error) {
	for best.choice != nil {
		lead := 0.0
		for _, o := range best.choice {
			lead = max(lead, o.lead)
		}
		t, parts, err := q.search(needs, lead)
		if err != nil {
			return false, err
		}
		if len(parts) < len(best.choice) {
			return true, nil
		}
		t.onlyFirst = true
		t.first.cost = best.cost + 1
		if t.run(); t.first.choice == nil {
			return t.proven, nil
		}
		if t.first.mask != best.mask {
			*second = *best
		}
		*best = t.first
	}
	return true, nil
}

// greedy takes every part's cheapest option.
func (s *search) greedy() (found, bool) {
	if len(s.options) == 0 {
		return found{}, false
	}
	choice, _ := s.cheapestWithin(^uint64(0))
	cost, mask := s.total(choice)
	return found{cost, mask, choice}, true
}

// single finds the cheapest order from one supplier.
func (s *search) single() (found, bool) {
	best := found{cost: never}
	for i := range s.suppliers {
		if choice, ok := s.cheapestWithin(1 << i); ok && len(choice) > 0 {
			if cost, mask := s.total(choice); cost < best.cost {
				best = found{cost, mask, choice}
			}
		}
	}
	return best, best.choice != nil
}
