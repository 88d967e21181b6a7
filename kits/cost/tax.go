package cost

import (
	"math/big"

	"hoistbook/kits/unit"
)

// WithTax puts the tax on what a supplier is paid: the total is rounded half to even to the minor unit, and the tax is the
// difference, so that both add up. It is done once an invoice; the totals of several invoices are added.
func WithTax(net unit.Money, rate unit.Ratio) (tax, total unit.Money, err error) {
	total, err = net.Currency().Round(new(big.Rat).Mul(net.Rat(), AndTax(rate)))
	if err != nil {
		return unit.Money{}, unit.Money{}, err
	}
	tax, err = total.Sub(net)
	return tax, total, err
}

// AndTax is 1 + the rate, exactly as it was written.
func AndTax(rate unit.Ratio) *big.Rat { return new(big.Rat).Add(one, exact(rate)) }
