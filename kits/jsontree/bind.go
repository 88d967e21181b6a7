package jsontree

import (
	"encoding"
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"hoistbook/kits/diag"
	"hoistbook/kits/unit"
)

// A Binder reads its own JSON: for a type that may be written in more than one way.
type Binder interface {
	BindJSON(n *Node, problems *diag.Problems)
}

// Bind reads a tree into a Go value by its json tags, and notes everything that does not fit at its place: unknown keys
// with the nearest known one, missing keys, wrong kinds, words outside an enum. Keys without omitempty must be there; those
// that start with "x-" are free. An enum is read from the jsonschema tag, so that the published schema and Bind agree.
//
// A field of type *Node with the tag "-" receives the object itself, one with a name the raw value.
func Bind(n *Node, into any, problems *diag.Problems) {
	b := binder{problems}
	b.value(n, reflect.ValueOf(into).Elem(), nil)
}

type binder struct{ problems *diag.Problems }

var (
	nodeType   = reflect.TypeFor[*Node]()
	binderType = reflect.TypeFor[Binder]()
	textType   = reflect.TypeFor[encoding.TextUnmarshaler]()
)

func (b binder) value(n *Node, v reflect.Value, enum []string) {
	t := v.Type()
	switch {
	case t == nodeType:
		v.Set(reflect.ValueOf(n))
		return
	case reflect.PointerTo(t).Implements(binderType):
		v.Addr().Interface().(Binder).BindJSON(n, b.problems)
		return
	case reflect.PointerTo(t).Implements(textType):
		b.text(n, v)
		return
	}
	switch t.Kind() {
	case reflect.Pointer:
		v.Set(reflect.New(t.Elem()))
		b.value(n, v.Elem(), enum)
	case reflect.Struct:
		if b.is(n, Object) {
			b.object(n, v)
		}
	case reflect.Map:
		if b.is(n, Object) {
			v.Set(reflect.MakeMapWithSize(t, len(n.Members)))
			for _, m := range n.Members {
				item := reflect.New(t.Elem()).Elem()
				b.value(m.Value, item, enum)
				v.SetMapIndex(reflect.ValueOf(m.Name).Convert(t.Key()), item)
			}
		}
	case reflect.Slice:
		if b.is(n, Array) {
			v.Set(reflect.MakeSlice(t, len(n.Items), len(n.Items)))
			for i, item := range n.Items {
				b.value(item, v.Index(i), enum)
			}
		}
	case reflect.String:
		if b.is(n, String) && b.among(n, enum) {
			v.SetString(n.Text)
		}
	case reflect.Bool:
		if b.is(n, Bool) {
			v.SetBool(n.Yes)
		}
	case reflect.Int, reflect.Int64:
		if b.is(n, Number) {
			whole, err := strconv.ParseInt(n.Text, 10, 64)
			if err != nil || v.OverflowInt(whole) {
				b.problems.Add(n.Place(), n.Text+" is not a whole number", "write one without a point, such as 3")
				return
			}
			v.SetInt(whole)
		}
	case reflect.Float64:
		if b.is(n, Number) {
			f, err := strconv.ParseFloat(n.Text, 64)
			if err != nil {
				b.problems.Add(n.Place(), n.Text+" is out of range", "write a smaller number")
				return
			}
			v.SetFloat(f)
		}
	default:
		panic(fmt.Sprintf("jsontree: Bind cannot fill a %s", t))
	}
}

// is notes a value of the wrong kind.
func (b binder) is(n *Node, want Kind) bool {
	if n.Kind == want {
		return true
	}
	b.problems.Add(n.Place(), fmt.Sprintf("%s stands here", n.Kind), fmt.Sprintf("%s belongs here", want))
	return false
}

func (b binder) among(n *Node, enum []string) bool {
	for _, word := range enum {
		if word == n.Text {
			return true
		}
	}
	if enum == nil {
		return true
	}
	b.problems.Add(n.Place(), fmt.Sprintf("%q is not one of the words that may stand here", n.Text),
		diag.DidYouMean(n.Text, enum, "write "+orList(enum)))
	return false
}

func (b binder) text(n *Node, v reflect.Value) {
	if !b.is(n, String) {
		return
	}
	err := v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(n.Text))
	var said *unit.Error
	if errors.As(err, &said) {
		b.problems.Add(n.Place(), said.What, said.Fix)
	} else if err != nil {
		b.problems.Add(n.Place(), err.Error(), "")
	}
}

func (b binder) object(n *Node, v reflect.Value) {
	fields := fieldsOf(v.Type())
	if fields.self >= 0 {
		v.Field(fields.self).Set(reflect.ValueOf(n))
	}
	for _, m := range n.Members {
		f, known := fields.byName[m.Name]
		if !known {
			if !strings.HasPrefix(m.Name, "x-") {
				b.problems.Add(m.Place(), fmt.Sprintf("there is no key %q here", m.Name),
					diag.DidYouMean(m.Name, fields.names, "the keys are "+strings.Join(fields.names, ", ")))
			}
			continue
		}
		b.value(m.Value, v.Field(f.index), f.enum)
	}
	for _, name := range fields.names {
		if _, there := n.Member(name); !there && fields.byName[name].required {
			b.problems.Add(n.Place(), fmt.Sprintf("the key %q is missing", name), "add it")
		}
	}
}

func orList(words []string) string {
	if len(words) == 1 {
		return strconv.Quote(words[0])
	}
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = strconv.Quote(w)
	}
	return strings.Join(quoted[:len(quoted)-1], ", ") + " or " + quoted[len(quoted)-1]
}
