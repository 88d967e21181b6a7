// Command dev is the one developer command: it makes what is generated and checks that it is fresh.
package main

import (
	"fmt"
	"os"
)

// A task makes generated files; each is a file of this folder. One that needs programs which not every machine has is asked
// for by name.
type task struct {
	name   string
	does   string
	run    func() error
	byName bool
}

var tasks = []task{
	{"units", "kits/unit/types_gen.go: the Go type of every row of the table of dimensions", generateUnits, false},
	{"schemas", "schemas/*.schema.json: the JSON Schema of every kind of file", generateSchemas, false},
	{"licences", "cmd/internal/licences/notices.txt, testdata/checks/licences.md: the licences of every module that is used", gatherLicences, false},
	{"reference", "testdata/facts/reference.json: every fact of the demonstration kits, calculated another way (needs python3 with scipy)", calculateReference, true},
	{"formulas", "testdata/formulas/*.csv: published formulas, worked at random points (needs python3 with scipy and fluids)", workFormulas, true},
	{"random", "testdata/random/reference.csv: a thousand random kits, calculated another way (needs python3 with scipy; some minutes)", calculateRandomKits, true},
	{"orders", "testdata/orders/reference.jsonl: a hundred random orders, solved by a general solver (needs python3 with scipy)", solveOrders, true},
	{"pictures", "testdata/pictures/*.png: pages as people have looked at them, one of them in README.md (needs pdftoppm)", drawPictures, true},
}

// tools look at the code and make nothing. Each takes what stands behind its name.
var tools = map[string]func(args []string) error{
	"bench":  bench,  // measures everything beside its floor and writes the table of DEVELOPERS.md
	"fuzz":   fuzz,   // feeds everything that reads what strangers write
	"man":    man,    // writes manual pages of the commands
	"mutate": mutate, // changes the code of packages in one place at a time and tells which changes no test notices
}

func main() {
	want := os.Args[1:]
	if len(want) > 0 && tools[want[0]] != nil {
		fail(tools[want[0]](want[1:]))
		return
	}
	if len(want) == 0 {
		for _, t := range tasks {
			if !t.byName {
				want = append(want, t.name)
			}
		}
	}
	for _, name := range want {
		fail(runTask(name))
	}
}

func fail(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "dev:", err)
		os.Exit(1)
	}
}

func runTask(name string) error {
	for _, t := range tasks {
		if t.name == name {
			fmt.Printf("%-8s %s\n", t.name, t.does)
			return t.run()
		}
	}
	return fmt.Errorf("there is no task %q", name)
}
