package manifest

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/unit"
)

// A Number is one quantity, or one plain number, that a manifest says.
type Number struct {
	Pointer string        // of the text that says it
	End     string        // "low" or "high" where the text is a range
	Value   unit.Quantity // a plain number and a price are counts
	Whole   bool          // it counts pieces
	Price   bool          // it is an exact decimal

	way []hop
	tag reflect.StructTag
}

// A hop leads from a value of a document to one inside it.
type hop struct {
	field int           // of a struct
	key   reflect.Value // of a map
	item  int           // of a list
}

// Numbers lists every number of the manifest, in the order of the document's types and of references.
func (m *Manifest) Numbers() []Number {
	var all []Number
	collect(reflect.ValueOf(m.Document), Number{}, nil, &all)
	return all
}

// Number finds a number by its pointer; of a range, its low end.
func (m *Manifest) Number(pointer string) (Number, bool) {
	all := m.Numbers()
	if i := slices.IndexFunc(all, func(n Number) bool { return n.Pointer == pointer }); i >= 0 {
		return all[i], true
	}
	return Number{}, false
}

type quantity interface{ Quantity() unit.Quantity }

// collect visits what lies inside a value; at carries the way and the tag to it, names the pointer.
func collect(v reflect.Value, at Number, names []string, all *[]Number) {
	found := func(q unit.Quantity) {
		at.Pointer, at.Value, at.way = jsontree.Pointer(names...), q, slices.Clone(at.way)
		*all = append(*all, at)
	}
	into := func(inner reflect.Value, h hop, name string) {
		next := at
		next.way = append(slices.Clip(at.way), h)
		collect(inner, next, append(slices.Clip(names), name), all)
	}
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return
		}
		v = v.Elem()
	}
	switch held := v.Interface().(type) {
	case quantity:
		found(held.Quantity())
		return
	case unit.Decimal:
		price, _ := held.Rat().Float64()
		at.Price = true
		found(unit.Count(price).Quantity())
		return
	}
	switch v.Kind() {
	case reflect.Int:
		at.Whole = true
		found(unit.Count(v.Int()).Quantity())
	case reflect.Float64:
		found(unit.Count(v.Float()).Quantity())
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name != "" {
				at.tag = f.Tag
				into(v.Field(i), hop{field: i}, name)
			} else if isRange(v.Type()) {
				at.End = strings.ToLower(f.Name)
				end := at
				end.way = append(slices.Clip(at.way), hop{field: i})
				collect(v.Field(i), end, names, all)
			}
		}
	case reflect.Map:
		keys := v.MapKeys()
		slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(a.String(), b.String()) })
		for _, key := range keys {
			into(v.MapIndex(key), hop{key: key}, key.String())
		}
	case reflect.Slice:
		for i := range v.Len() {
			into(v.Index(i), hop{item: i}, strconv.Itoa(i))
		}
	}
}

// isRange reports whether the type is a unit.Range of something.
func isRange(t reflect.Type) bool {
	_, low := t.FieldByName("Low")
	_, high := t.FieldByName("High")
	return low && high && t.NumField() == 2
}
