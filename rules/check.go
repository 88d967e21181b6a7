package rules

import (
	"fmt"
	"slices"
	"strings"

	"hoistbook/kits/diag"
	"hoistbook/kits/fact"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/source"
)

// A checker turns what a pack says into plans, and notes everything in it that cannot be so.
type checker struct {
	catalogue Catalogue
	pack      *Pack
	problems  *diag.Problems

	family  string // what the entry at hand runs over, or empty
	starred bool   // whether the entry has used its star
	words   []string
}

func (c *checker) check() {
	// An entry without a node is none, and has nothing to check: that has been said when the pack was read.
	for _, r := range c.pack.Rules {
		c.rule(r)
	}
	for _, item := range c.pack.Checklist {
		c.item(item)
	}
	for _, caution := range c.pack.Cautions {
		c.caution(caution)
	}
	for _, notice := range c.pack.Notices {
		c.notice(notice)
	}
}

func (c *checker) rule(r *Rule) {
	r.pack = c.pack
	c.begin(r.Node, r.ForEach, wordValue, wordLimit, wordMargin)
	r.plan = rulePlan{
		when: c.test(r.When), check: c.test(r.Check), message: c.template(r.Node, "message"), ok: c.template(r.Node, "ok"),
		hint: c.template(r.Node, "hint"), sources: c.sources(r.Source),
	}
	c.end(r.Node)
}

func (c *checker) item(i *Item) {
	i.pack = c.pack
	var limits []string
	if i.Reading != nil && i.Reading.AtLeast != nil {
		limits = append(limits, wordLeast)
	}
	if i.Reading != nil && i.Reading.AtMost != nil {
		limits = append(limits, wordMost)
	}
	c.begin(i.Node, i.ForEach, limits...)
	i.plan = itemPlan{
		when: c.test(i.When), challenge: c.template(i.Node, "challenge"), response: c.template(i.Node, "response"),
		beyond: c.template(i.Node, "beyond"), notes: c.template(i.Node, "notes"), reading: c.reading(i.Reading), sources: c.sources(i.Source),
	}
	c.gear(i.Gear)
	c.end(i.Node)
}

func (c *checker) caution(a *Caution) {
	a.pack = c.pack
	c.begin(a.Node, a.ForEach)
	a.plan = cautionPlan{
		when: c.test(a.When), hazard: c.template(a.Node, "hazard"), consequence: c.template(a.Node, "consequence"),
		avoidance: c.template(a.Node, "avoidance"), sources: c.sources(a.Source),
	}
	c.gear(a.Gear)
	c.end(a.Node)
}

// begin starts an entry: what it runs over, and which words besides subject its texts may use.
func (c *checker) begin(n *jsontree.Node, family string, words ...string) {
	c.family, c.starred, c.words = family, false, words
	if families := c.catalogue.Families(); family != "" && !slices.Contains(families, family) {
		c.problems.Add(n.Get("for_each").Place(), fmt.Sprintf("there is no family of facts %q", family),
			diag.DidYouMean(family, families, "the families are "+strings.Join(families, ", ")))
	}
}

func (c *checker) end(n *jsontree.Node) {
	if c.family != "" && !c.starred {
		c.problems.Add(n.Get("for_each").Place(), "nothing here is about the members of "+fmt.Sprintf("%q", c.family),
			fmt.Sprintf("name a fact such as %q, or {subject}", c.family+".*.…"))
	}
}

// describe finds a fact that an entry names.
func (c *checker) describe(at *jsontree.Node, id string) (fact.Description, bool) {
	if strings.Contains(id, "*") {
		c.starred = true
		if c.family == "" || !strings.HasPrefix(id, c.family+".*") {
			c.problems.Add(at.Place(), fmt.Sprintf("the star in %q stands for nothing", id),
				"let for_each run over the family in front of the star")
			return fact.Description{}, false
		}
	}
	about, ok := c.catalogue.Describe(id)
	if !ok {
		c.problems.Add(at.Place(), fmt.Sprintf("there is no fact %q", id), c.nearest(id))
	}
	return about, ok
}

// nearest offers a fact that may have been meant: one whose unit was left out, or one that is spelled much the same.
func (c *checker) nearest(id string) string {
	ids := c.catalogue.IDs()
	for _, known := range ids {
		if strings.HasPrefix(known, id+"_") {
			return diag.DidYouMean(known, []string{known}, "")
		}
	}
	return diag.DidYouMean(id, ids, c.sameTopic(id))
}

// sameTopic lists a few facts of the topic that an unknown id names.
func (c *checker) sameTopic(id string) string {
	topic, _, _ := strings.Cut(id, ".")
	var some []string
	for _, known := range c.catalogue.IDs() {
		if strings.HasPrefix(known, topic+".") && len(some) < 3 {
			some = append(some, known)
		}
	}
	if len(some) == 0 {
		return "name a fact of the catalogue"
	}
	return "facts of this topic are " + strings.Join(some, ", ")
}

// template checks one text of an entry.
func (c *checker) template(n *jsontree.Node, key string) template {
	at := n.Get(key)
	if at == nil || at.Kind != jsontree.String {
		return nil
	}
	t, err := parseTemplate(at.Text)
	if err != nil {
		c.problems.Add(at.Place(), err.Error(), "write a fact's id in braces, such as {lift.free_kg}, or a round quantity for each system of units, such as {5 m|16 ft}")
	}
	for _, p := range t {
		switch {
		case p.fact != "":
			if about, ok := c.describe(at, p.fact); ok && p.side != nil && about.Kind != fact.Number {
				c.problems.Add(at.Place(), fmt.Sprintf("%q is %s, which cannot be rounded", p.fact, kindName(about)), "leave out up or down")
			}
		case p.word == wordSubject:
			c.starred = true
			if c.family == "" {
				c.problems.Add(at.Place(), "{subject} stands for nothing", "let for_each run over a family of facts")
			}
		case p.word != "" && !slices.Contains(c.words, p.word):
			fix := "only the texts of a rule compare a value with a limit"
			if p.word == wordLeast || p.word == wordMost {
				fix = "it is the limit of an item's reading, and here is none"
			}
			c.problems.Add(at.Place(), "{"+p.word+"} stands for nothing here", fix)
		}
	}
	return t
}

// sources finds the works that an entry cites.
func (c *checker) sources(refs []Citation) []string {
	texts := make([]string, 0, len(refs))
	for _, ref := range refs {
		if ref.Work == "" { // said when the pack was read
			continue
		}
		if own, ok := c.pack.Sources[ref.Work]; ok {
			work := source.Work{Citation: own.Citation, Standing: source.Standing(own.Standing), Verify: own.Verify}
			texts = append(texts, work.Cite(ref.At, source.Standing(ref.Standing)))
			continue
		}
		work, ok := source.Find(ref.Work)
		if !ok {
			known := source.IDs()
			for id := range c.pack.Sources {
				known = append(known, id)
			}
			slices.Sort(known)
			c.problems.Add(ref.Node.Place(), fmt.Sprintf("there is no work %q", ref.Work),
				diag.DidYouMean(ref.Work, known, `add it to the pack's "sources"`))
			continue
		}
		texts = append(texts, work.Cite(ref.At, source.Standing(ref.Standing)))
	}
	return texts
}
