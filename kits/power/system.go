package power

import "hoistbook/kits/unit"

// A State is what the relay is doing.
type State int

// The duty states.
const (
	Transmit State = iota
	Receive
	Standby
	States // how many there are
)

// Duty is the share of time in each state; the shares add up to one.
type Duty [States]unit.Ratio

// Currents is a current in each state.
type Currents [States]unit.Current

// A System is everything between the cells and the modules. What is not known is NaN.
type System struct {
	Duty       Duty
	Batteries  []Battery
	Converters []Converter
	Loads      []Load
	Fuses      []Fuse
}

// A Battery feeds a rail. Several of one reference, or of several references on one rail, work in parallel.
type Battery struct {
	Ref             string
	Rail            string
	Chemistry       Chemistry
	CellsInSeries   int
	Capacity        unit.Charge
	Usable          unit.Ratio // share of the capacity that may be taken out
	ColdCapacity    unit.Ratio // share of the capacity left at the coldest temperature
	GreatestCurrent unit.Current
	Quantity        int // how many are aloft at a time
}

// A Kind is how a converter works.
type Kind string

// The kinds of converters: a series regulator, a switching one that lowers the voltage, a switching one that raises it.
const (
	Linear Kind = "linear"
	Buck   Kind = "buck"
	Boost  Kind = "boost"
)

// A Converter feeds the rail To from the rail From.
type Converter struct {
	Ref             string
	Kind            Kind
	From, To        string
	Output          unit.Voltage
	Tolerance       unit.Ratio
	Efficiency      unit.Ratio // of buck and boost
	Input           unit.Range[unit.Voltage]
	Headroom        unit.Voltage // least voltage from input to output of linear and buck
	GreatestCurrent unit.Current // at the output
	Quiescent       unit.Current
}

// A Load takes current from a rail. Quantity counts equal ones, each on its own wire.
type Load struct {
	Ref      string
	Rail     string
	Quantity int
	Current  Currents // of one
	Wire     Wire
}

// A Fuse stands at the source end of a rail.
type Fuse struct {
	Ref    string
	Rail   string
	Rating unit.Current
}
