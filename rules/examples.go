package rules

import (
	"fmt"

	"hoistbook/kits/jsontree"
)

// TryExamples runs the examples that a rule carries: it must complain about the one and be content with the other. Assess
// makes the facts of a demonstration kit with a change, which is nil for the kit as it is. It returns a sentence for
// everything that is not so.
func (r *Rule) TryExamples(assess func(kit string, change *jsontree.Node) (Facts, error)) []string {
	var wrong []string
	say := func(format string, args ...any) {
		wrong = append(wrong, fmt.Sprintf("%s: rule %s: ", r.Node.Place(), r.ID)+fmt.Sprintf(format, args...))
	}
	try := func(e *Example, name string) (findings []Finding, ok bool) {
		if e == nil {
			say("has no example %q", name)
			return nil, false
		}
		facts, err := assess(e.Kit, e.Change)
		if err != nil {
			say("example %q: %v", name, err)
			return nil, false
		}
		return r.Evaluate(facts, Options{}), true
	}
	if findings, ok := try(r.Trips, "trips"); ok && !complains(findings) {
		say("does not complain about its example: %s", messages(findings))
	}
	if findings, ok := try(r.Quiet, "quiet"); ok && (complains(findings) || len(findings) == 0) {
		say("does not apply to its quiet example, or is not met by it: %s", messages(findings))
	}
	return wrong
}

func complains(findings []Finding) bool {
	for _, f := range findings {
		if f.Outcome != Met {
			return true
		}
	}
	return false
}

func messages(findings []Finding) string {
	if len(findings) == 0 {
		return "there are no findings"
	}
	text := ""
	for _, f := range findings {
		text += fmt.Sprintf("[%s %s] %s ", f.Subject, f.Outcome, f.Message)
	}
	return text
}
