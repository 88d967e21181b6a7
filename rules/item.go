package rules

import "hoistbook/kits/jsontree"

// An Item is one line of a checklist: one action, a challenge that is read aloud and the response that must come back.
type Item struct {
	// ID names the item in records; no two items of any packs may share one.
	ID string `json:"id" jsonschema:"pattern=^[a-z][a-z0-9-]*(\\.[a-z0-9-]+)*$,example=preflight.neck-scale"`
	// List is the checklist that the item belongs to.
	List string `json:"list" jsonschema:"enum=preflight,enum=change,enum=recovery,example=preflight"`
	// Phase is the heading under which the item stands; items of one phase stand together.
	Phase string `json:"phase" jsonschema:"minLength=1,example=Fill the balloon"`
	// Order places the item: phases by their first item, items within their phase.
	Order int `json:"order" jsonschema:"minimum=0,example=310"`
	// Role says who answers.
	Role string `json:"role" jsonschema:"minLength=1,example=gas handler"`
	// Challenge is what is read aloud; facts may stand in braces, as in the response.
	Challenge string `json:"challenge" jsonschema:"minLength=1,example=Scale at the neck"`
	// Response is the right answer; facts may stand in braces, and behind one that is a limit up or down ("{station.gust_m_s down}"):
	// to which side it is rounded. The limits of the reading are rounded as they must be by themselves.
	Response string `json:"response" jsonschema:"minLength=1,example=reads at least {lift.neck_needed_kg}"`
	// Reading asks for a number from an instrument.
	Reading *Reading `json:"reading,omitempty" jsonschema:"example={\"name\": \"mean wind\"\\, \"dimension\": \"speed\"\\, \"plausible\": [\"0 m/s\"\\, \"40 m/s\"]}"`
	// Hold stops the list until the person in charge has answered.
	Hold bool `json:"hold,omitempty" jsonschema:"example=true"`
	// Critical marks an item without which nobody flies; the list cannot be finished while it is open.
	Critical bool `json:"critical,omitempty" jsonschema:"example=true"`
	// When leaves the item out where the condition is not met; where it is not shown, the item stays in.
	When *Condition `json:"when,omitempty" jsonschema:"example={\"fact\": \"station.night\"\\, \"is\": true}"`
	// ForEach repeats the item for every member of a family of facts.
	ForEach string `json:"for_each,omitempty" jsonschema:"example=power.batteries"`
	// Beyond says when more is good than the response asks for: up to which limit of the reading, and on what condition. It is left
	// out where the response names that limit itself.
	Beyond string `json:"beyond,omitempty" jsonschema:"example=up to {wind.greatest_m_s} only where the scale reads {lift.neck_kg up} or more"`
	// Gear is what people take along for it.
	Gear []*Gear `json:"gear,omitempty" jsonschema:"maxItems=50,example=[{\"what\": \"wind meter\"\\, \"box\": \"instrument bag\"}]"`
	// Calls are those whom the crew may have to call, so that their numbers are at hand.
	Calls []string `json:"calls,omitempty" jsonschema:"maxItems=20,example=[\"landowner\"]"`
	// Notes say how or why, in small print.
	Notes string `json:"notes,omitempty" jsonschema:"example=hang nothing else on the neck while weighing"`
	// Source says on whose authority.
	Source []Citation `json:"source" jsonschema:"minItems=1,example=[{\"work\": \"ci-1401\"}]"`

	Node *jsontree.Node `json:"-"`
	pack *Pack
	plan itemPlan
}

// A Reading is a number that the crew reads from an instrument. Its limits say what makes it good; where it feeds the
// manifest, everything is computed again from it.
type Reading struct {
	// Name labels the reading in the record.
	Name string `json:"name" jsonschema:"minLength=1,example=lift at the neck"`
	// Dimension is the kind of quantity that is read.
	Dimension DimensionName `json:"dimension" jsonschema:"example=mass"`
	// Plausible holds the least and the greatest value that an honest instrument could show; anything else is asked again.
	Plausible []string `json:"plausible" jsonschema:"minItems=2,maxItems=2,example=[\"0 kg\"\\, \"300 kg\"]"`
	// AtLeast is the least reading that is good.
	AtLeast *Limit `json:"at_least,omitempty" jsonschema:"example=20 %"`
	// AtMost is the greatest reading that is good.
	AtMost *Limit `json:"at_most,omitempty" jsonschema:"example=60 m"`
	// Expected is what a reading should be as well: one that is not is doubted, and the person in charge may overrule the doubt.
	Expected []*Expectation `json:"expected,omitempty" jsonschema:"maxItems=4,example=[{\"at_most\": {\"fact\": \"air.pressure_standard_pa\"\\, \"times\": 1.03}\\, \"text\": \"this looks like a pressure reduced to sea level\"\\, \"hint\": \"read it without the correction\"}]"`
	// NotBelow is the item of the same list whose reading this one cannot be below: a gust is no less than the mean wind.
	NotBelow string `json:"not_below,omitempty" jsonschema:"example=preflight.wind"`
	// Replaces is the fact whose computed value the reading is the measured value of.
	Replaces string `json:"replaces,omitempty" jsonschema:"example=lift.neck_kg"`
	// Feeds are the values of the manifest that the reading takes the place of, as JSON pointers.
	Feeds []string `json:"feeds,omitempty" jsonschema:"example=[\"/station/wind/speed\"]"`

	Node *jsontree.Node `json:"-"`
}

// An Expectation is what an honest reading of a sound kit should keep to.
type Expectation struct {
	// AtLeast is the least that is expected.
	AtLeast *Limit `json:"at_least,omitempty" jsonschema:"example=900 hPa"`
	// AtMost is the most that is expected; one of the two stands here.
	AtMost *Limit `json:"at_most,omitempty" jsonschema:"example=1050 hPa"`
	// Text says what another reading is likely to mean; facts may stand in braces.
	Text string `json:"text" jsonschema:"minLength=1,example=this looks like a pressure reduced to sea level"`
	// Hint says what to do about it.
	Hint string `json:"hint" jsonschema:"minLength=1,example=read the barometer without its correction for height"`

	Node *jsontree.Node `json:"-"`
}

// A Caution warns of one hazard: what it is, what it does to people, and how to avoid it.
type Caution struct {
	// ID names the caution; no two cautions of any packs may share one.
	ID string `json:"id" jsonschema:"pattern=^[a-z][a-z0-9-]*(\\.[a-z0-9-]+)*$,example=caution.power-lines"`
	// Signal is the signal word, with its meaning in ANSI Z535.6: danger will kill or seriously injure if not avoided, warning
	// could, caution could injure slightly, notice is about property.
	Signal Signal `json:"signal" jsonschema:"enum=danger,enum=warning,enum=caution,enum=notice,example=warning"`
	// Hazard names what is dangerous; facts may stand in braces, limits among them with up or down behind.
	Hazard string `json:"hazard" jsonschema:"minLength=1,example=A falling line reaches {tether.greatest_height_m} from the anchor"`
	// Consequence says what happens to people or things.
	Consequence string `json:"consequence" jsonschema:"minLength=1,example=a line over a power line kills whoever holds it"`
	// Avoidance says what to do; facts may stand in braces, limits among them with up or down behind.
	Avoidance string `json:"avoidance" jsonschema:"minLength=1,example=Choose a site without power lines"`
	// When leaves the caution out where the condition is not met; where it is not shown, the caution stays in.
	When *Condition `json:"when,omitempty" jsonschema:"example={\"fact\": \"station.night\"\\, \"is\": true}"`
	// ForEach repeats the caution for every member of a family of facts.
	ForEach string `json:"for_each,omitempty" jsonschema:"example=radio.exposure"`
	// Gear is what people take along for it.
	Gear []*Gear `json:"gear,omitempty" jsonschema:"maxItems=50,example=[{\"what\": \"wind meter\"\\, \"box\": \"instrument bag\"}]"`
	// Calls are those whom the crew may have to call, so that their numbers are at hand.
	Calls []string `json:"calls,omitempty" jsonschema:"maxItems=20,example=[\"landowner\"]"`
	// Before lists where it is printed: assembly, preflight, station or recovery, or one phase of a checklist ("preflight/Fill the balloon").
	Before []string `json:"before" jsonschema:"minItems=1,example=[\"preflight\"\\, \"station\"]"`
	// Source says on whose authority.
	Source []Citation `json:"source" jsonschema:"minItems=1,example=[{\"work\": \"ci-1401\"}]"`

	Node *jsontree.Node `json:"-"`
	pack *Pack
	plan cautionPlan
}

// Signal is a signal word of ANSI Z535.6.
type Signal string

// The signal words, gravest first.
const (
	SignalDanger  Signal = "danger"
	SignalWarning Signal = "warning"
	SignalCaution Signal = "caution"
	SignalNotice  Signal = "notice"
)
