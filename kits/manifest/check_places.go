package manifest

import "fmt"

// together checks that what works together is in one place: current does not come up the line, and an antenna on the ground
// serves no radio aloft. A pack that is put down as staying on the ground would fly without its mass.
func (c checker) together() {
	on := map[Ref][]Ref{} // the parts on each rail
	for ref, p := range Sorted(c.Parts) {
		for _, rail := range railsOf(p) {
			on[rail] = append(on[rail], ref)
		}
	}
	for rail, refs := range Sorted(on) {
		for _, ref := range refs {
			if aloft := c.firstAloft(refs); aloft != "" && c.Parts[ref].Place == OnGround {
				c.say([]string{"parts", string(ref), "place"}, fmt.Sprintf("the part %q stays on the ground and is on the rail %q with %q, which is aloft", ref, rail, aloft),
					`write "aloft", or give it a rail of its own`)
			}
		}
	}
	for ref, p := range Sorted(c.Parts) {
		for _, to := range serves(p) {
			other, there := c.Parts[to]
			if there && p.Place != "" && other.Place != "" && p.Place != other.Place {
				c.say([]string{"parts", string(to), "place"}, fmt.Sprintf("the part %q works with %q, and only one of them is aloft", to, ref), "put both in one place")
			}
		}
	}
}

// railsOf lists the rails that a part is connected to.
func railsOf(p Part) []Ref {
	var rails []Ref
	add := func(rail Ref) {
		if rail != "" {
			rails = append(rails, rail)
		}
	}
	if p.Battery != nil {
		add(p.Battery.Rail)
	}
	if p.Converter != nil {
		add(p.Converter.From)
		add(p.Converter.To)
	}
	if p.Load != nil {
		add(p.Load.Rail)
	}
	if p.Fuse != nil {
		add(p.Fuse.Rail)
	}
	return rails
}

// serves lists the parts that a part works with by radio.
func serves(p Part) []Ref {
	var refs []Ref
	if p.Transmitter != nil {
		refs = append(refs, p.Transmitter.Antenna)
	}
	if p.Receiver != nil {
		refs = append(refs, p.Receiver.Antenna)
	}
	if p.Filter != nil {
		refs = append(refs, p.Filter.Protects)
	}
	return refs
}

func (c checker) firstAloft(refs []Ref) Ref {
	for _, ref := range refs {
		if c.Parts[ref].Place == Aloft {
			return ref
		}
	}
	return ""
}
