package rules

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
)

// A Text is a pack before it is read.
type Text struct {
	Name string // of the file, for messages
	JSON []byte
}

// Packs are packs that have been read and checked, in the order given.
type Packs []*Pack

// Load reads packs and checks every fact, unit and number in them against the catalogue. The error is diag.Problems with
// everything that is wrong in all of them.
func Load(catalogue Catalogue, texts ...Text) (Packs, error) {
	packs := make(Packs, len(texts))
	found := make([]diag.Problems, len(texts))
	var reading sync.WaitGroup
	for i, text := range texts {
		reading.Go(func() { packs[i], found[i] = read(catalogue, text) })
	}
	reading.Wait()
	problems := diag.Problems(slices.Concat(found...))
	packs.readable().checkTogether(&problems)
	if err := problems.Err(); err != nil {
		return nil, err
	}
	return packs, nil
}

func read(catalogue Catalogue, text Text) (*Pack, diag.Problems) {
	var problems diag.Problems
	root, err := jsontree.Parse(text.Name, text.JSON)
	if err != nil {
		errors.As(err, &problems)
		return nil, problems
	}
	root.Hidden(&problems)
	pack := new(Pack)
	jsontree.Bind(root, pack, &problems)
	if format := root.Get("format"); format == nil || format.Text != Format {
		return nil, problems // it may be no pack at all: what it lacks besides would be noise
	}
	c := checker{catalogue: catalogue, pack: pack, problems: &problems}
	c.check()
	pack.text = text.JSON
	return pack, problems
}

// Digest is a hash of the texts of packs in their order, in hexadecimal: what was judged by other rules is another judgement.
func (ps Packs) Digest() string {
	all := sha256.New()
	for _, p := range ps {
		one := sha256.Sum256(p.text)
		all.Write(one[:]) // never fails
	}
	return hex.EncodeToString(all.Sum(nil))
}

// checkTogether notes what only shows when all packs are seen: ids that two entries share, places that do not exist.
func (ps Packs) checkTogether(problems *diag.Problems) {
	ids := map[[2]string]*jsontree.Node{}
	once := func(kind, id string, n *jsontree.Node) {
		if id == "" { // said when the pack was read
			return
		}
		if first, again := ids[[2]string{kind, id}]; again {
			problems.Add(n.Get("id").Place(), fmt.Sprintf("a %s %q stands here again", kind, id), "the first is at "+first.Get("id").Place().String())
			return
		}
		ids[[2]string{kind, id}] = n
	}
	for _, p := range ps {
		once("pack", p.ID, p.Node)
		for _, r := range p.Rules {
			once("rule", r.ID, r.Node)
		}
		for _, i := range p.Checklist {
			once("checklist item", i.ID, i.Node)
		}
		for _, c := range p.Cautions {
			once("caution", c.ID, c.Node)
		}
		for _, n := range p.Notices {
			once("notice", n.ID, n.Node)
		}
	}
	ps.checkPhases(problems)
	ps.checkRoles(problems)
	ps.checkNotBelow(problems)
	ps.checkBefore(problems)
}

// checkPhases notes a phase that differs from an earlier one of its list by a slip of the pen: its items would stand under a
// heading of their own. A new phase has a name that is not near another.
func (ps Packs) checkPhases(problems *diag.Problems) {
	known := map[string][]string{}
	for _, p := range ps {
		for _, i := range p.Checklist {
			if slices.Contains(known[i.List], i.Phase) {
				continue
			}
			if near := diag.Near(i.Phase, known[i.List]); len(near) > 0 {
				problems.Add(i.Node.Get("phase").Place(), fmt.Sprintf("the phase %q is nearly one that there is", i.Phase), fmt.Sprintf("did you mean %q?", near[0]))
				continue
			}
			known[i.List] = append(known[i.List], i.Phase)
		}
	}
}

// checkRoles notes a role that could be taken by people of a role that no pack describes.
func (ps Packs) checkRoles(problems *diag.Problems) {
	var names []string
	for _, r := range ps.Roles() {
		names = append(names, r.Name)
	}
	for _, p := range ps {
		for _, r := range p.Roles {
			if r.With != "" && r.Node != nil && (r.With == r.Name || !slices.Contains(names, r.With)) {
				problems.Add(r.Node.Get("with").Place(), fmt.Sprintf("no other role is called %q", r.With), diag.DidYouMean(r.With, names, "name a role of these packs"))
			}
		}
	}
}

// checkNotBelow notes readings that cannot be below one that is not there, or is of another kind.
func (ps Packs) checkNotBelow(problems *diag.Problems) {
	readings := map[string]*Item{}
	var ids []string
	for _, p := range ps {
		for _, i := range p.Checklist {
			if i.Reading != nil {
				readings[i.ID], ids = i, append(ids, i.ID)
			}
		}
	}
	for _, p := range ps {
		for _, i := range p.Checklist {
			if i.Reading == nil || i.Reading.NotBelow == "" || i.Reading.Node == nil {
				continue
			}
			other, place := readings[i.Reading.NotBelow], i.Reading.Node.Get("not_below").Place()
			switch {
			case other == nil || other == i:
				problems.Add(place, fmt.Sprintf("no other item %q reads anything", i.Reading.NotBelow), diag.DidYouMean(i.Reading.NotBelow, ids, "write the id of an item with a reading"))
			case other.List != i.List || other.ForEach != "" || other.Reading.Dimension != i.Reading.Dimension:
				problems.Add(place, fmt.Sprintf("%q reads %s in the %s list", other.ID, other.Reading.Dimension, other.List), "name an item of the same list and dimension that stands there once")
			}
		}
	}
}

// readable leaves out packs that could not be read.
func (ps Packs) readable() Packs {
	return slices.DeleteFunc(slices.Clone(ps), func(p *Pack) bool { return p == nil })
}

// checkBefore notes cautions that are to be printed before something that no checklist has.
func (ps Packs) checkBefore(problems *diag.Problems) {
	places := []string{"assembly", "preflight", "station", "recovery"}
	for _, p := range ps {
		for _, i := range p.Checklist {
			if place := i.List + "/" + i.Phase; !slices.Contains(places, place) {
				places = append(places, place)
			}
		}
	}
	for _, p := range ps {
		for _, c := range p.Cautions {
			for i, place := range c.Before {
				if !slices.Contains(places, place) {
					problems.Add(c.Node.Get("before").Items[i].Place(), fmt.Sprintf("nothing is called %q", place),
						diag.DidYouMean(place, places, "write one of "+strings.Join(places[:4], ", ")+", or a list and its phase"))
				}
			}
		}
	}
}

// Regions lists the regions that the packs have rules for, each once, in the order of the packs.
func (ps Packs) Regions() []string {
	var regions []string
	for _, p := range ps {
		if p.Region != "" && !slices.Contains(regions, p.Region) {
			regions = append(regions, p.Region)
		}
	}
	return regions
}

// InForce leaves out the packs of regions that are not named.
func (ps Packs) InForce(regions []string) Packs {
	var inForce Packs
	for _, p := range ps {
		if p.Region == "" || slices.Contains(regions, p.Region) {
			inForce = append(inForce, p)
		}
	}
	return inForce
}

// Rule finds a rule by its id.
func (ps Packs) Rule(id string) (*Rule, bool) {
	for _, p := range ps {
		for _, r := range p.Rules {
			if r.ID == id {
				return r, true
			}
		}
	}
	return nil, false
}

// Citations are the works that the rule cites, as documents print them.
func (r *Rule) Citations() []string { return r.plan.sources }
