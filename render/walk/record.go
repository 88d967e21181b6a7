package walk

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
)

// A Chain is the hash over everything up to a line. The zero Chain stands before the first line.
type Chain [sha256.Size]byte

// A line is {"chain":"HASH","entry":ENTRY}, and its hash is SHA-256 over the hash of the line before and the bytes of the
// entry. So every line vouches for all lines above it: one that was changed, cut out, put in or moved breaks the chain at its
// place. What no chain can show is that lines were cut off at the end; therefore a finished record has a closing entry, and
// the end of the chain is shown on the screens and printed. Nor does it stop somebody who makes a whole new chain: only
// the printed end of the old one tells.
const (
	lineHead  = `{"chain":"`
	lineMid   = `","entry":`
	lineTail  = "}\n"
	hashWidth = 2 * sha256.Size
	entryAt   = len(lineHead) + hashWidth + len(lineMid)
)

// MaxRecord and MaxLine bound what is read.
const (
	MaxRecord = 64 << 20
	MaxLine   = 4 << 20
)

// String is the hash in hexadecimal digits.
func (c Chain) String() string { return hex.EncodeToString(c[:]) }

// Short is what a crew can read to each other or write on paper.
func (c Chain) Short() string { return c.String()[:8] }

// next is the hash over one more entry.
func (c Chain) next(entry []byte) Chain {
	h := sha256.New()
	h.Write(c[:])
	h.Write(entry)
	return Chain(h.Sum(nil))
}

// Seal writes an entry as the line that follows on a chain, and returns the chain after it.
func (c Chain) Seal(e Entry) (line []byte, after Chain, err error) {
	entry, err := json.Marshal(e)
	if err != nil {
		return nil, c, err
	}
	if len(entry) > MaxLine-entryAt-len(lineTail) {
		return nil, c, fmt.Errorf("entry %d has %d bytes, and a line of a record may have %d", e.N, len(entry), MaxLine)
	}
	after = c.next(entry)
	return slices.Concat([]byte(lineHead+after.String()+lineMid), entry, []byte(lineTail)), after, nil
}

// A Record is a record that has been read and holds together.
type Record struct {
	Entries []Entry
	Chain   Chain // after the last entry
	Size    int64 // bytes of whole lines
	Torn    int64 // bytes after them: a line that was being written when the program or the machine stopped
}

// Closed reports whether the record says itself that it is finished. Of one that does not, nobody can say whether lines are
// missing at its end.
func (r *Record) Closed() bool {
	return len(r.Entries) > 0 && r.Entries[len(r.Entries)-1].Do == Close
}

// ReadRecord reads a record and checks its chain. The error names the first line that does not hold.
func ReadRecord(name string, data []byte) (*Record, error) {
	if len(data) > MaxRecord {
		return nil, fmt.Errorf("%s: a record may have %d bytes, and this has %d", name, MaxRecord, len(data))
	}
	r := &Record{}
	for at := 1; ; at++ {
		line, rest, whole := bytes.Cut(data, []byte("\n"))
		if !whole {
			r.Torn = int64(len(line))
			break
		}
		e, err := r.read(line)
		if err != nil {
			return nil, fmt.Errorf("%s:%d: %w", name, at, err)
		}
		r.Entries = append(r.Entries, e)
		r.Size += int64(len(line)) + 1
		data = rest
	}
	if len(r.Entries) == 0 {
		return nil, fmt.Errorf("%s: %w", name, errNoRecord)
	}
	return r, nil
}

// Unborn reports whether these bytes are no more than the torn first line of a record: nothing was recorded yet.
func Unborn(data []byte) bool {
	n := min(len(data), len(lineHead))
	return string(data[:n]) == lineHead[:n] && !bytes.Contains(data, []byte("\n"))
}

var (
	errNoRecord = errors.New("this is no record of a walk-through; a record begins with an entry of the format " + Format)
	errAltered  = errors.New("this line was changed after it was written, or the line before it; the record cannot be trusted from here on")
)

func (r *Record) read(line []byte) (e Entry, err error) {
	tail := lineTail[:len(lineTail)-1]
	if len(line) < entryAt+len(tail) || string(line[:len(lineHead)]) != lineHead || !bytes.HasSuffix(line, []byte(tail)) {
		if len(r.Entries) == 0 {
			return e, errNoRecord
		}
		return e, errAltered
	}
	entry := line[entryAt : len(line)-len(tail)]
	d := json.NewDecoder(bytes.NewReader(entry))
	d.DisallowUnknownFields()
	if err := d.Decode(&e); err != nil {
		return e, errors.Join(errAltered, err)
	}
	want := len(r.Entries) + 1
	switch after := r.Chain.next(entry); {
	case e.N > want:
		return e, fmt.Errorf("entry %d stands where entry %d belongs: lines were cut out or moved; the record cannot be trusted from here on", e.N, want)
	case e.N < want:
		return e, fmt.Errorf("entry %d stands where entry %d belongs: lines were put in, doubled or moved; the record cannot be trusted from here on", e.N, want)
	case string(line[len(lineHead):entryAt]) != after.String()+lineMid:
		return e, errAltered
	default:
		r.Chain = after
	}
	if first := want == 1; first != (e.Do == Begin) || first && (e.Opening == nil || e.Opening.Format != Format) {
		return e, errNoRecord
	}
	return e, nil
}
