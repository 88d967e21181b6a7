package unit

import (
	"fmt"
	"strings"
)

// Scalar is met by every quantity type of this package.
type Scalar[T any] interface {
	// SI returns the value held.
	SI() float64
	// Dimension returns the type's row of the table.
	Dimension() Dimension
	// Quantity forgets the Go type but not the dimension.
	Quantity() Quantity
	fromSI(float64) T
}

// Parse reads a text as the quantity type T. The error is an *Error.
func Parse[T Scalar[T]](text string) (T, error) {
	var zero T
	q, err := ParseQuantity(zero.Dimension(), text)
	if err != nil {
		return zero, err
	}
	return zero.fromSI(q.SI), nil
}

// From makes a T of a value held in SI.
func From[T Scalar[T]](si float64) T {
	var zero T
	return zero.fromSI(si)
}

// Must is Parse for constants written in code and in tests. It panics on a text that Parse refuses.
func Must[T Scalar[T]](text string) T {
	value, err := Parse[T](text)
	if err != nil {
		panic("unit: " + err.Error())
	}
	return value
}

// A Range runs from Low to High, both included: "4.75 V to 5.25 V".
type Range[T Scalar[T]] struct{ Low, High T }

// ParseRange reads "A to B" with A not above B. The error is an *Error.
func ParseRange[T Scalar[T]](text string) (Range[T], error) {
	var zero T
	info := zero.Dimension().Info()
	wanted := fmt.Sprintf("write two of them with \"to\" between, such as \"%[1]s to %[1]s\"", info.Example)
	low, high, ok := strings.Cut(text, " to ")
	if !ok {
		return Range[T]{}, fail(fmt.Sprintf("%q is not a range", text), wanted)
	}
	var r Range[T]
	var err error
	if r.Low, err = Parse[T](strings.TrimSpace(low)); err != nil {
		return Range[T]{}, err
	}
	if r.High, err = Parse[T](strings.TrimSpace(high)); err != nil {
		return Range[T]{}, err
	}
	if r.High.SI() < r.Low.SI() {
		return Range[T]{}, fail(fmt.Sprintf("%q runs backwards", text), "write the lower value first")
	}
	return r, nil
}

// UnmarshalText reads "A to B"; the error is an *Error.
func (r *Range[T]) UnmarshalText(text []byte) (err error) {
	*r, err = ParseRange[T](string(text))
	return err
}

// MarshalText writes the range in SI units; ParseRange reads it back.
func (r Range[T]) MarshalText() ([]byte, error) {
	return []byte(r.Low.Quantity().Exact() + " to " + r.High.Quantity().Exact()), nil
}

// Holds reports whether v lies in the range.
func (r Range[T]) Holds(v T) bool { return r.Low.SI() <= v.SI() && v.SI() <= r.High.SI() }

// Text prints the range for readers of the given system.
func (r Range[T]) Text(system System) string {
	return r.Low.Quantity().Text(system) + " to " + r.High.Quantity().Text(system)
}
