package power

import "hoistbook/kits/unit"

// A Chemistry is a kind of cell.
type Chemistry string

// The chemistries with known cells.
const (
	LiIon    Chemistry = "li-ion"
	LiPo     Chemistry = "lipo"
	LiFePO4  Chemistry = "lifepo4"
	NiMH     Chemistry = "nimh"
	LeadAcid Chemistry = "lead-acid"
	Alkaline Chemistry = "alkaline"
)

// A Cell is one cell's voltage when it must be taken off, on average over its discharge, and freshly charged or new.
type Cell struct{ Cutoff, Nominal, Full unit.Voltage }

// A chemist's row: the cell, and how it is kept and charged.
type row struct {
	chemistry Chemistry
	cell      Cell
	care      Care
}

// Cell voltages: cell makers' data [cell-data]. Makers differ by some hundredths of a volt (lithium iron phosphate is
// also taken down to 2.0 V, lithium-ion to 2.5 V); these are the cautious ends: an early cutoff, a high full charge.
var rows = []row{
	{LiIon, Cell{3.0, 3.7, 4.2}, lithium(3.8)},
	{LiPo, Cell{3.0, 3.7, 4.2}, lithium(3.8)},
	{LiFePO4, Cell{2.5, 3.2, 3.65}, lithium(3.3)},
	{NiMH, Cell{1.0, 1.2, 1.45}, Care{Store: unit.Range[unit.Ratio]{Low: 0.4, High: 1}, StoreVoltage: unknown[unit.Voltage](),
		Charge: unit.Range[unit.Temperature]{Low: unit.Celsius(0), High: unit.Celsius(45)}, ChargeFactor: 1.6}},
	{LeadAcid, Cell{1.75, 2.0, 2.4}, Care{Store: unit.Range[unit.Ratio]{Low: 1, High: 1}, StoreVoltage: 2.12,
		Charge: unit.Range[unit.Temperature]{Low: unit.Celsius(-20), High: unit.Celsius(50)}, ChargeFactor: 1.4}},
	{Alkaline, Cell{0.9, 1.5, 1.6}, Care{Store: unit.Range[unit.Ratio]{Low: 1, High: 1}, StoreVoltage: unknown[unit.Voltage](),
		Charge:       unit.Range[unit.Temperature]{Low: unit.Kelvin(nan), High: unit.Kelvin(nan)},
		ChargeFactor: unknown[unit.Ratio]()}},
}

// MostEnergy is the energy of the best cells of a chemistry by their mass, in Wh/kg, with a little to spare: a pack that claims
// more is no pack of it. NaN for a chemistry that is not known. Source: specific-energy.
func MostEnergy(c Chemistry) float64 {
	switch c {
	case LiIon, LiPo:
		return 300
	case LiFePO4, Alkaline:
		return 200
	case NiMH:
		return 120
	case LeadAcid:
		return 50
	}
	return nan
}

// Chemistries lists the known chemistries.
func Chemistries() []Chemistry {
	all := make([]Chemistry, len(rows))
	for i, r := range rows {
		all[i] = r.chemistry
	}
	return all
}

// CellOf returns the voltages of a chemistry's cell; all are NaN for a chemistry that is not known.
func CellOf(c Chemistry) Cell {
	for _, r := range rows {
		if r.chemistry == c {
			return r.cell
		}
	}
	return Cell{unknown[unit.Voltage](), unknown[unit.Voltage](), unknown[unit.Voltage]()}
}
