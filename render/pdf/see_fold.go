package pdf

import (
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
	"maps"
	"slices"
	"strconv"
)

// fold writes an object into a hash with everything that it leads to, so that equal looks have equal hashes whatever the numbers of
// objects are. How a stream is packed makes no difference.
func (e *eye) fold(h hash.Hash, o any, depth int) error {
	if depth > deepest {
		return errors.New("nests its objects too deep")
	}
	switch o := o.(type) {
	case reference:
		return e.foldReference(h, o, depth)
	case dictionary:
		io.WriteString(h, "<<")
		for _, key := range slices.Sorted(maps.Keys(o)) {
			if key == "Parent" || key == "P" { // upwards
				continue
			}
			io.WriteString(h, "/"+strconv.Quote(string(key)))
			if err := e.fold(h, o[key], depth+1); err != nil {
				return err
			}
		}
		io.WriteString(h, ">>")
	case array:
		io.WriteString(h, "[")
		for _, item := range o {
			if err := e.fold(h, item, depth+1); err != nil {
				return err
			}
		}
		io.WriteString(h, "]")
	case string:
		io.WriteString(h, strconv.Quote(o)+" ")
	case nameObject:
		io.WriteString(h, "/"+strconv.Quote(string(o))+" ")
	default:
		if n, ok := numberOf(o); ok {
			io.WriteString(h, strconv.FormatFloat(n, 'g', 9, 64)+" ")
		} else {
			fmt.Fprint(h, o, " ")
		}
	}
	return nil
}

func (e *eye) foldReference(h hash.Hash, n reference, depth int) error {
	target, err := e.resolve(n)
	if err != nil {
		return err
	}
	dict, ok := target.(dictionary)
	if !ok || dict["Length"] == nil {
		return e.fold(h, target, depth+1)
	}
	dict, data, err := e.stream(n)
	if err != nil {
		return err
	}
	delete(dict, "Length")
	delete(dict, "Filter")
	if err := e.fold(h, dict, depth+1); err != nil {
		return err
	}
	fmt.Fprintf(h, "stream %d ", len(data))
	h.Write(data)
	return nil
}

func hexOf(h hash.Hash) string { return hex.EncodeToString(h.Sum(nil)) }
