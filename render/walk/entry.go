package walk

import (
	"encoding/json"
	"time"
)

// Format is the format of the records that this version writes and reads.
const Format = "hoistbook-record/1"

// A Kind is what an input asks for, and what an entry of the record says was done.
type Kind string

// The kinds.
const (
	Begin    Kind = "begin"     // a record: the kit, the rules, the list
	Resume   Kind = "resume"    // after a break
	Join     Kind = "join"      // Name with Role, and Lead for the person in charge
	Done     Kind = "done"      // an item: it is as its response says
	Not      Kind = "not done"  // an item: it is not, and Text says why
	Read     Kind = "read"      // an item's instrument: Text is the number with its unit, Label the set of batteries
	Clear    Kind = "take back" // an answer
	Weigh    Kind = "weigh"     // one piece of Part: Text is its mass; an empty one takes the weighing back
	Overrule Kind = "overrule"  // a SHOULD, by Rule and Subject or by Item and Subject; Text is the reason
	Withdraw Kind = "withdraw"  // an overruling
	Up       Kind = "up"        // the balloon has left the ground, at Time when it was not now
	Down     Kind = "down"      // it is on the ground again
	Swap     Kind = "change"    // go over to the list of a change on station, from its beginning
	Recover  Kind = "recover"   // go on to the recovery list
	Count    Kind = "count"     // Pieces of Part are back
	Damage   Kind = "damage"    // Pieces of Part are damaged as Text says, and are to be mended or replaced (Fate)
	Note     Kind = "note"      // Text
	Close    Kind = "close"     // nothing is added afterwards; Text says why when the list is not finished
)

// The fates of what is damaged.
const (
	Mend    = "mend"
	Replace = "replace"
)

// An Input is what somebody does. Which fields it needs depends on what it does.
type Input struct {
	Do      Kind       `json:"do"`
	Who     string     `json:"who,omitempty"`
	Key     string     `json:"key,omitempty"`  // the sender's own name for this input: sent twice, it is done once
	Seen    int        `json:"seen,omitempty"` // number of the latest entry that the sender had seen, or 0
	Item    string     `json:"item,omitempty"`
	Rule    string     `json:"rule,omitempty"`
	Subject string     `json:"subject,omitempty"`
	Part    string     `json:"part,omitempty"`
	Pieces  *int       `json:"pieces,omitempty"`
	Fate    string     `json:"fate,omitempty"`
	Label   string     `json:"label,omitempty"`
	Name    string     `json:"name,omitempty"`
	Role    string     `json:"role,omitempty"`
	Lead    bool       `json:"lead,omitempty"`
	Time    *time.Time `json:"time,omitempty"`
	Text    string     `json:"text,omitempty"`
}

// An Entry is one line of a record: an input that was taken, and what it meant when it was. What a reader needs is all here:
// what was asked, what was read, and what the verdict became.
type Entry struct {
	N  int       `json:"n"`
	At time.Time `json:"at"`
	Input
	Opening   *Opening `json:"opening,omitempty"` // of Begin
	List      string   `json:"list,omitempty"`
	Challenge string   `json:"challenge,omitempty"`
	Response  string   `json:"response,omitempty"`
	Value     string   `json:"value,omitempty"`   // of a reading or weighing, as it was understood
	Outcome   string   `json:"outcome,omitempty"` // of a reading against its limits
	Doubt     string   `json:"doubt,omitempty"`   // of a reading that its limits allow: what it is likely to mean
	Verdict   Verdict  `json:"verdict,omitempty"`
	Because   []string `json:"because,omitzero"` // what stands against it, where that has changed
	Open      []string `json:"open,omitzero"`    // what is to be checked while the balloon is up, where that has changed

	Decided *Decision `json:"decided,omitempty"` // of Up: on what it went up
}

// A Decision is what the person in charge decided before a launch.
type Decision struct {
	Verdict Verdict   `json:"verdict"`
	At      time.Time `json:"at"`
	Who     string    `json:"who"`
	N       int       `json:"n"` // the entry with which the balloon was let go
}

// An Opening is what the rest of a record is about. The manifest is all of it, overlays merged, so that a record can be gone
// on with and checked without any other file.
type Opening struct {
	Format   string          `json:"format"`
	Program  string          `json:"program"`
	Units    string          `json:"units"`
	Rules    string          `json:"rules"` // digest of the packs that judge
	Kit      string          `json:"kit"`
	Name     string          `json:"name"`
	Revision string          `json:"revision"`
	Digest   string          `json:"digest"`
	Manifest json.RawMessage `json:"manifest"`
}
