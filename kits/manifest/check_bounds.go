package manifest

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/unit"
)

// bounds holds every quantity against the tags of its field: least and most are the ends of what makes sense, above is a
// value that it must exceed. They are what a quantity can mean at all; what is good is for rules to say.
func (c checker) bounds() { c.walk(reflect.ValueOf(c.Document), nil, "") }

func (c checker) walk(v reflect.Value, at []string, tag reflect.StructTag) {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return
		}
		v = v.Elem()
	}
	if q, ok := v.Interface().(interface{ Quantity() unit.Quantity }); ok {
		c.bound(q.Quantity(), at, tag)
		return
	}
	switch v.Kind() {
	case reflect.Float64:
		c.bound(unit.Count(v.Float()).Quantity(), at, tag)
	case reflect.Struct:
		if isRange(v.Type()) {
			for i := range v.NumField() {
				c.walk(v.Field(i), at, tag)
			}
			return
		}
		for i := range v.NumField() {
			f := v.Type().Field(i)
			if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name != "" {
				c.walk(v.Field(i), append(at, name), f.Tag)
			}
		}
	case reflect.Map:
		for entry := v.MapRange(); entry.Next(); { // problems are sorted later
			c.walk(entry.Value(), append(at, entry.Key().String()), tag)
		}
	case reflect.Slice:
		for i := range v.Len() {
			c.walk(v.Index(i), append(at, strconv.Itoa(i)), tag)
		}
	}
}

// bound holds one quantity against the tags of its field.
func (c checker) bound(q unit.Quantity, at []string, tag reflect.StructTag) {
	text, _ := c.Text(jsontree.Pointer(at...))
	for _, b := range []struct {
		key, what, fix string
		broken         func(limit float64) bool
	}{
		{"above", "is too small", "write more than ", func(limit float64) bool { return q.SI <= limit }},
		{"least", "is too small", "write at least ", func(limit float64) bool { return q.SI < limit }},
		{"most", "is too large", "write at most ", func(limit float64) bool { return q.SI > limit }},
	} {
		limit, ok := tag.Lookup(b.key)
		if !ok {
			continue
		}
		held, err := unit.ParseQuantity(q.Dim, limit)
		if err != nil {
			panic("manifest: tag: " + err.Error()) // tests visit every tag
		}
		if b.broken(held.SI) {
			c.say(at, fmt.Sprintf("%q %s", text, b.what), b.fix+limit)
		}
	}
}
