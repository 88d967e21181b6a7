package doc

var batteryChange = Document{
	Name: "battery-change", title: "swap.title", field: true, write: (*sheet).batteryChange,
	when: func(in *Input) bool { return len(in.Change) > 0 },
}

// batteryChange is the list by which the balloon comes down while the station lasts, gets a fresh battery or gas, and goes up
// again. It is copied for every change that the log plans.
func (s *sheet) batteryChange() {
	s.add(s.occasion("swap.number", "swap.due", "swap.down", "swap.up"))
	s.checklist("change", s.say("swap.how"), s.Change, "", nil)
}
