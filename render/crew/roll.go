package crew

import (
	"slices"
	"strings"

	"hoistbook/rules"
)

// Roll are the roles that answer the items of some lists, in the order in which they first do. A role that no pack describes takes
// one person of its own; one whose people have another role as well says so only where that role is on the roll too.
func Roll(roles []rules.Role, steps []rules.Step) []rules.Role {
	var names []string
	for _, s := range steps {
		for name := range strings.SplitSeq(s.Role, ", ") {
			if name != "" && !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	roll := make([]rules.Role, len(names))
	for i, name := range names {
		roll[i] = rules.Role{Name: name, Least: 1}
		if k := slices.IndexFunc(roles, func(r rules.Role) bool { return r.Name == name }); k >= 0 {
			roll[i] = roles[k]
		}
		if !slices.Contains(names, roll[i].With) {
			roll[i].With = ""
		}
	}
	return roll
}

// People is how many people a roll takes at the least: those of roles that nobody else can take as well.
func People(roll []rules.Role) int {
	n := 0
	for _, r := range roll {
		if r.With == "" {
			n += r.Least
		}
	}
	return n
}
