package rules

import "hoistbook/kits/jsontree"

// Format is the format of the packs that this version reads.
const Format = "hoistbook-pack/1"

// A Pack is one file of rules, checklist items, cautions and notices. The built-in packs have a tenth of what one may hold.
type Pack struct {
	// Schema points an editor to the JSON Schema of packs.
	Schema string `json:"$schema,omitempty" jsonschema:"example=https://hoistbook.example/schemas/pack.schema.json"`
	// Format says what this file is.
	Format string `json:"format" jsonschema:"enum=hoistbook-pack/1,example=hoistbook-pack/1"`
	// ID names the pack in messages; no two packs may share one.
	ID string `json:"id" jsonschema:"pattern=^[a-z][a-z0-9-]{0\\,39}$,example=mass-and-lift"`
	// Title says what the pack is about.
	Title string `json:"title" jsonschema:"minLength=1,example=Mass and lift"`
	// Region makes the pack regional: it is in force only where the manifest's station.rules names the region.
	Region string `json:"region,omitempty" jsonschema:"pattern=^[a-z][a-z0-9-]{0\\,39}$,example=us"`
	// Sources are works that the entries of this pack cite and that the built-in bibliography does not have.
	Sources Works `json:"sources,omitempty" jsonschema:"example={\"house-rules\": {\"citation\": \"our house rules\"\\, \"standing\": \"kit policy\"}}"`
	// Rules judge the facts.
	Rules []*Rule `json:"rules,omitempty" jsonschema:"maxItems=500,example=[{\"id\": \"hall.height\"\\, \"title\": \"The balloon fits under the roof\"\\, \"level\": \"must\"\\, \"check\": {\"fact\": \"tether.greatest_height_m\"\\, \"at_most\": \"45 m\"}\\, \"message\": \"the top of the balloon reaches {value}\\, and the hall lets in {limit}\"\\, \"source\": [{\"work\": \"policy\"}]}]"`
	// Checklist items are read aloud before the launch and on the way home.
	Checklist []*Item `json:"checklist,omitempty" jsonschema:"maxItems=500,example=[{\"id\": \"hall.door\"\\, \"list\": \"preflight\"\\, \"phase\": \"Go or no go\"\\, \"order\": 150\\, \"role\": \"porter\"\\, \"challenge\": \"Hall door\"\\, \"response\": \"open\"\\, \"source\": [{\"work\": \"policy\"}]}]"`
	// Roles are those who answer items, and how many people they take.
	Roles []*Role `json:"roles,omitempty" jsonschema:"maxItems=50,example=[{\"name\": \"winch hand\"\\, \"least\": 2}]"`
	// Cautions warn people before the step where they could be hurt.
	Cautions []*Caution `json:"cautions,omitempty" jsonschema:"maxItems=200,example=[{\"id\": \"hall.roof\"\\, \"signal\": \"notice\"\\, \"hazard\": \"The roof has lamps\"\\, \"consequence\": \"a hot lamp bursts the balloon\"\\, \"avoidance\": \"switch them off\"\\, \"before\": [\"preflight\"]\\, \"source\": [{\"work\": \"policy\"}]}]"`
	// Notices are messages that must reach somebody before the launch.
	Notices []*Notice `json:"notices,omitempty" jsonschema:"maxItems=50,example=[{\"id\": \"hall.notice\"\\, \"title\": \"Notice to the porter\"\\, \"to\": \"the porter\"\\, \"ahead\": \"24 h\"\\, \"lines\": [{\"label\": \"Height\"\\, \"text\": \"{tether.greatest_height_m}\"}]\\, \"source\": [{\"work\": \"policy\"}]}]"`

	Node *jsontree.Node `json:"-"`
	text []byte
}

// Works are works by the ids under which entries cite them.
type Works map[string]Work

// A Work is something that entries cite.
type Work struct {
	// Citation names the work so that a reader finds it.
	Citation string `json:"citation" jsonschema:"minLength=1,example=14 CFR part 101 subpart B"`
	// Standing says how sure the citation is.
	Standing string `json:"standing" jsonschema:"enum=published,enum=from memory,enum=common practice,enum=kit policy,example=published"`
	// Verify marks a law or regulation: documents print that it must be verified against the current text.
	Verify bool `json:"verify,omitempty" jsonschema:"example=true"`

	Node *jsontree.Node `json:"-"`
}

// A Citation points into a work.
type Citation struct {
	// Work is the id of a work of this pack's sources or of the built-in bibliography.
	Work string `json:"work" jsonschema:"minLength=1,example=ci-1401"`
	// At is the clause, table or page.
	At string `json:"at,omitempty" jsonschema:"example=section 101.15"`
	// Standing replaces the work's own standing for this passage.
	Standing string `json:"standing,omitempty" jsonschema:"enum=published,enum=from memory,enum=common practice,enum=kit policy,example=from memory"`

	Node *jsontree.Node `json:"-"`
}

// A Rule judges facts. A MUST that is not met, or not shown, makes the verdict NO-GO and cannot be switched off; a SHOULD
// can be waived by a manifest that gives a reason (the levels are those of RFC 2119).
type Rule struct {
	// ID names the rule in findings and waivers; no two rules of any packs may share one.
	ID string `json:"id" jsonschema:"pattern=^[a-z][a-z0-9-]*(\\.[a-z0-9-]+)*$,example=lift.free"`
	// Title says what holds when the rule is met.
	Title string `json:"title" jsonschema:"minLength=1,example=The balloon lifts the kit at the end of the station time"`
	// Level is must or should.
	Level Level `json:"level" jsonschema:"enum=must,enum=should,example=must"`
	// When guards the rule: where it is not met, the rule does not apply; where it is not shown, neither is the rule.
	When *Condition `json:"when,omitempty" jsonschema:"example={\"fact\": \"station.night\"\\, \"is\": true}"`
	// ForEach repeats the rule for every member of a family of facts; ids then carry a star for the member.
	ForEach string `json:"for_each,omitempty" jsonschema:"example=power.loads"`
	// Check is the condition that must hold.
	Check *Condition `json:"check" jsonschema:"example={\"fact\": \"lift.free_end_kg\"\\, \"at_least\": {\"fact\": \"lift.free_needed_kg\"}}"`
	// Message says what is wrong when the check is not met; facts, {value}, {limit}, {margin} and {subject} stand in braces.
	Message string `json:"message" jsonschema:"minLength=1,example=free lift is {value} of the mass aloft and {limit} is needed"`
	// OK says what is right when the check is met; without it, the comparison itself is printed.
	OK string `json:"ok,omitempty" jsonschema:"example=free lift is {value} of the mass aloft"`
	// Hint says what to do about it.
	Hint string `json:"hint,omitempty" jsonschema:"example=fill more gas or take weight off"`
	// Source says on whose authority.
	Source []Citation `json:"source" jsonschema:"minItems=1,example=[{\"work\": \"ci-1401\"}]"`
	// Trips is a change to a demonstration kit that this rule must complain about.
	Trips *Example `json:"trips,omitempty" jsonschema:"example={\"kit\": \"fen-relay\"\\, \"change\": {\"station\": {\"duration\": \"90 h\"}}}"`
	// Quiet is a change to a demonstration kit on which this rule must apply and be met.
	Quiet *Example `json:"quiet,omitempty" jsonschema:"example={\"kit\": \"fen-relay\"}"`

	Node *jsontree.Node `json:"-"`
	pack *Pack
	plan rulePlan
}

// An Example is a demonstration kit with a small change.
type Example struct {
	// Kit is the id of a demonstration kit.
	Kit string `json:"kit" jsonschema:"minLength=1,example=fen-relay"`
	// Change is a merge patch to the kit's manifest (RFC 7396); without it, the kit is taken as it is.
	Change *jsontree.Node `json:"change,omitempty" jsonschema:"example={\"station\": {\"duration\": \"90 h\"}}"`

	Node *jsontree.Node `json:"-"`
}

// Level says how binding a rule is (RFC 2119).
type Level string

// The levels.
const (
	Must   Level = "must"
	Should Level = "should"
)
