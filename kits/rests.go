package kits

import "slices"

// RestsOn returns a question: whether a fact was computed from anything that passes, at first or at second hand. What it is asked
// of are the ids of facts and the JSON pointers of what the manifest says. A fact rests on itself.
func (f *Facts) RestsOn(pass func(name string) bool) func(id string) bool {
	known := map[string]bool{}
	var rests func(name string) bool
	rests = func(name string) bool {
		answer, told := known[name]
		if told || pass(name) {
			return answer || pass(name)
		}
		known[name] = false // facts do not run in circles; should they ever, this ends the question
		if one, ok := f.Find(name); ok {
			known[name] = slices.ContainsFunc(one.Inputs, func(in Input) bool { return rests(in.Name) })
		}
		return known[name]
	}
	return rests
}
