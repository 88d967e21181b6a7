package manifest

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"reflect"
	"strconv"
	"strings"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/unit"
)

// With is the manifest with another value of one of its numbers, given as it is held (SI). Nothing is read or validated
// anew, and what does not lie on the way to the number is shared, so that a search can afford many of them. The error says
// that the value is out of the bounds of its key.
func (m *Manifest) With(n Number, held float64) (*Manifest, error) {
	if err := n.admits(held); err != nil {
		return nil, err
	}
	document := reflect.New(reflect.TypeFor[Document]()).Elem()
	document.Set(reflect.ValueOf(m.Document))
	text, err := put(document, n.way, held)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", n.Pointer, err)
	}
	return &Manifest{Document: document.Interface().(Document), tree: m.tree.With(n.Pointer, text), base: m.base, laid: m.laid, sources: m.sources, movedBy: m.movedBy}, nil
}

// put copies what lies on the way and sets the value at its end. It returns the text that says so.
func put(v reflect.Value, way []hop, held float64) (text string, err error) {
	if v.Kind() == reflect.Pointer {
		fresh := reflect.New(v.Type().Elem())
		fresh.Elem().Set(v.Elem())
		v.Set(fresh)
		v = fresh.Elem()
	}
	if len(way) == 0 {
		return set(v, held)
	}
	switch v.Kind() {
	case reflect.Map:
		fresh := reflect.MakeMapWithSize(v.Type(), v.Len())
		for entry := v.MapRange(); entry.Next(); {
			fresh.SetMapIndex(entry.Key(), entry.Value())
		}
		item := reflect.New(v.Type().Elem()).Elem()
		item.Set(v.MapIndex(way[0].key))
		text, err = put(item, way[1:], held)
		fresh.SetMapIndex(way[0].key, item)
		v.Set(fresh)
	case reflect.Slice:
		fresh := reflect.MakeSlice(v.Type(), v.Len(), v.Len())
		reflect.Copy(fresh, v)
		v.Set(fresh)
		text, err = put(v.Index(way[0].item), way[1:], held)
	default:
		text, err = put(v.Field(way[0].field), way[1:], held)
		if isRange(v.Type()) && err == nil {
			whole, failed := v.Addr().Interface().(interface{ MarshalText() ([]byte, error) }).MarshalText()
			return string(whole), failed
		}
	}
	return text, err
}

func set(v reflect.Value, held float64) (string, error) {
	switch to := v.Addr().Interface().(type) {
	case *unit.Temperature:
		*to = unit.Kelvin(held)
	case *unit.Level:
		*to = unit.DBm(held)
	case *unit.Decimal:
		text := strconv.FormatFloat(held, 'f', 6, 64)
		price, err := unit.ParseDecimal(text)
		*to = price
		return text, err
	default:
		if v.Kind() == reflect.Int {
			v.SetInt(int64(held))
			return strconv.FormatInt(v.Int(), 10), nil
		}
		v.SetFloat(held)
	}
	if q, ok := v.Interface().(quantity); ok {
		return q.Quantity().Exact(), nil
	}
	return strconv.FormatFloat(held, 'g', -1, 64), nil
}

// admits holds a value against the bounds of the number's key.
func (n Number) admits(held float64) error {
	q := unit.Quantity{SI: held, Dim: n.Value.Dim}
	least, most, above := math.Inf(-1), math.Inf(1), math.Inf(-1)
	if !q.Dim.Info().Signed {
		least = 0
	}
	for _, rule := range strings.Split(n.tag.Get("jsonschema"), ",") {
		key, text, _ := strings.Cut(rule, "=")
		if bound, err := strconv.ParseFloat(text, 64); err == nil {
			switch key {
			case "minimum":
				least = bound
			case "maximum":
				most = bound
			}
		}
	}
	for key, bound := range map[string]*float64{"least": &least, "most": &most, "above": &above} {
		if text, ok := n.tag.Lookup(key); ok {
			limit, err := unit.ParseQuantity(q.Dim, text)
			if err != nil {
				return err
			}
			*bound = limit.SI
		}
	}
	if math.IsInf(held, 0) || n.Whole && held != math.Trunc(held) || !(held >= least && held <= most && held > above) {
		return fmt.Errorf("%s cannot be %s", n.Pointer, q.Exact())
	}
	return nil
}

// Adding is the manifest with one more part, which must have a reference of its own. The part is taken as it is.
func (m *Manifest) Adding(ref Ref, p Part) (*Manifest, error) {
	if _, taken := m.Parts[ref]; taken {
		return nil, fmt.Errorf("there is a part %s already", ref)
	}
	text, err := json.Marshal(map[string]any{"parts": map[Ref]Part{ref: p}})
	if err != nil {
		return nil, err
	}
	patch, err := jsontree.Parse("added", text)
	if err != nil {
		return nil, err
	}
	more := &Manifest{Document: m.Document, tree: jsontree.Merge(m.tree, patch), base: m.base, laid: m.laid, sources: m.sources, movedBy: m.movedBy}
	more.Parts = maps.Clone(m.Parts)
	more.Parts[ref] = p
	return more, nil
}
