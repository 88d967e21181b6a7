package jsontree

import (
	"encoding"
	"errors"
	"fmt"
	"math"
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
// with the nearest known one, missing keys, wrong kinds, values out of bounds. Keys without omitempty must be there; those
// that start with "x-" are free. Bounds are read from the jsonschema tags, and from the Words or the Pattern and Form
// methods of a type of text, so that the published schema and Bind agree.
//
// A field of type *Node with the tag "-" receives the object itself, one with a name the raw value.
func Bind(n *Node, into any, problems *diag.Problems) {
	b := binder{problems}
	b.value(n, reflect.ValueOf(into).Elem(), unbounded)
}

type binder struct{ problems *diag.Problems }

// A vocabulary is a type of text that lists the words it may be.
type vocabulary interface{ Words() []string }

// A form is a type of text that matches a pattern as a whole, and says in words what that means.
type form interface {
	Pattern() string
	Form() string
}

var (
	nodeType   = reflect.TypeFor[*Node]()
	binderType = reflect.TypeFor[Binder]()
	wordsType  = reflect.TypeFor[vocabulary]()
	formType   = reflect.TypeFor[form]()
	textType   = reflect.TypeFor[encoding.TextUnmarshaler]()
)

func (b binder) value(n *Node, v reflect.Value, bounds *bounds) {
	t := v.Type()
	switch {
	case t == nodeType:
		v.Set(reflect.ValueOf(n))
		return
	case t.PkgPath() == "": // it has no methods to ask for
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
		b.value(n, v.Elem(), bounds)
	case reflect.Struct:
		if b.is(n, Object) {
			b.object(n, v)
		}
	case reflect.Map:
		if b.is(n, Object) {
			b.entries(n, len(n.Members), bounds.minKeys, bounds.maxKeys)
			b.table(n, v, bounds)
		}
	case reflect.Slice:
		if b.is(n, Array) {
			b.entries(n, len(n.Items), bounds.minItems, bounds.maxItems)
			b.unique(n, bounds)
			v.Set(reflect.MakeSlice(t, len(n.Items), len(n.Items)))
			for i, item := range n.Items {
				b.value(item, v.Index(i), bounds)
			}
		}
	case reflect.String:
		if b.is(n, String) && b.among(n.Text, n, bounds.words(t), t) && b.formed(n.Text, n, t) && b.wording(n, bounds) {
			v.SetString(n.Text)
		}
	case reflect.Bool:
		if b.is(n, Bool) {
			v.SetBool(n.Yes)
		}
	case reflect.Int, reflect.Int64:
		if b.is(n, Number) {
			whole, ok := wholeNumber(n.Text)
			if !ok || v.OverflowInt(whole) {
				b.problems.Add(n.Place(), n.Text+" is not a whole number", "write one without a point, such as 3")
				return
			}
			if b.size(n, float64(whole), bounds) {
				v.SetInt(whole)
			}
		}
	case reflect.Float64:
		if b.is(n, Number) {
			f, err := strconv.ParseFloat(n.Text, 64)
			if err != nil {
				b.problems.Add(n.Place(), n.Text+" is out of range", "write a smaller number")
				return
			}
			if b.size(n, f, bounds) {
				v.SetFloat(f)
			}
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
	fix := fmt.Sprintf("%s belongs here", want)
	if want == Array && (n.Kind == String || n.Kind == Object) {
		fix += ", in brackets even when it has one entry: [" + brief(n) + "]"
	}
	b.problems.Add(n.Place(), fmt.Sprintf("%s stands here", n.Kind), fix)
	return false
}

// brief is a value as JSON where that is short, and three points where it is not.
func brief(n *Node) string {
	const most = 40
	if text := n.JSON(); len(text) <= most {
		return string(text)
	}
	return "…"
}

// table fills a map; keys that start with "x-" are notes and stay in the tree.
func (b binder) table(n *Node, v reflect.Value, bounds *bounds) {
	t := v.Type()
	v.Set(reflect.MakeMapWithSize(t, len(n.Members)))
	words := wordsOf(t.Key())
	for _, m := range n.Members {
		if strings.HasPrefix(m.Name, "x-") {
			continue
		}
		item := reflect.New(t.Elem()).Elem()
		b.value(m.Value, item, bounds)
		if b.among(m.Name, m, words, t.Key()) && b.formed(m.Name, m, t.Key()) {
			v.SetMapIndex(reflect.ValueOf(m.Name).Convert(t.Key()), item)
		}
	}
}

// wholeNumber reads what JSON Schema calls an integer: 3, and also 3.0 and 3e0.
func wholeNumber(text string) (int64, bool) {
	if whole, err := strconv.ParseInt(text, 10, 64); err == nil {
		return whole, true
	}
	const exact = 1 << 53 // floats beyond it skip whole numbers
	f, err := strconv.ParseFloat(text, 64)
	return int64(f), err == nil && f == math.Trunc(f) && math.Abs(f) <= exact
}

func (b binder) text(n *Node, v reflect.Value) {
	if n.Kind == Number {
		b.bare(n, v)
		return
	}
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

// bare notes a JSON number where a text with a number in it belongs. What it lacks, its unit for example, the text's own
// reader says best.
func (b binder) bare(n *Node, v reflect.Value) {
	var said *unit.Error
	if errors.As(v.Addr().Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(n.Text)), &said) {
		b.problems.Add(n.Place(), said.What, said.Fix)
		return
	}
	b.problems.Add(n.Place(), n.Text+" stands here without quotation marks", fmt.Sprintf("write it as a text: %q", n.Text))
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
					diag.DidYouMean(m.Name, fields.names, keysOf(fields)))
			}
			continue
		}
		b.value(m.Value, v.Field(f.index), f.bounds)
	}
	for _, name := range fields.names {
		if _, there := n.Member(name); !there && fields.byName[name].required {
			b.problems.Add(n.Place(), fmt.Sprintf("the key %q is missing", name), "add it")
		}
	}
}

// keysOf lists the keys that may stand in an object, unless they are too many to read.
func keysOf(fields *fields) string {
	if len(fields.names) > 12 {
		return "a key of your own starts with \"x-\""
	}
	return "the keys are " + strings.Join(fields.names, ", ")
}
