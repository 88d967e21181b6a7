package assess

import (
	"flag"
	"fmt"
	"maps"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"hoistbook/kits"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/crew"
	"hoistbook/rules"
)

var update = flag.Bool("update", false, "write the tables of the campaign anew; then read the difference")

const campaign = "../../../testdata/campaign"

// A subject of the campaign is a demonstration kit as it is.
type subject struct {
	id    string
	tree  *jsontree.Node
	kit   *manifest.Manifest
	packs rules.Packs
	base  map[key]rules.Finding // its MUST findings
}

type key struct{ rule, subject string }

func subjectsOf(t *testing.T) []*subject {
	t.Helper()
	ps := builtIn(t)
	var all []*subject
	for _, id := range kits.Demos() {
		source := demo(t, id)
		tree, err := jsontree.Parse(source.Name, source.Data)
		if err != nil {
			t.Fatal(err)
		}
		s := &subject{id: id, tree: tree, packs: ps}
		o := s.try(tree)
		if o.refused != "" || o.verdict != rules.Go {
			t.Fatalf("%s is %s %s", id, o.verdict, o.refused)
		}
		s.kit, s.base = o.kit, o.musts
		all = append(all, s)
	}
	return all
}

// An outcome is what became of a mutation.
type outcome struct {
	refused string // the manifest is none: why
	kit     *manifest.Manifest
	verdict rules.Decision
	musts   map[key]rules.Finding
	broken  []key
}

// try reads and judges a mutated tree as a user's file is read and judged.
func (s *subject) try(tree *jsontree.Node) outcome {
	m, err := manifest.Load(manifest.Source{Name: s.id, Data: tree.JSON()})
	if err != nil {
		return outcome{refused: err.Error()}
	}
	findings := rules.Evaluate(s.packs, kits.Look(m), crew.Options(m, unit.SI))
	o := outcome{kit: m, verdict: rules.Verdict(findings), musts: map[key]rules.Finding{}}
	for _, f := range findings {
		if f.Level != rules.Must {
			continue
		}
		o.musts[key{f.Rule, f.Subject}] = f
		if f.Outcome != rules.Met {
			o.broken = append(o.broken, key{f.Rule, f.Subject})
		}
	}
	return o
}

// String is how tables show an outcome: the first rule that is broken, and how many more.
func (o outcome) String() string {
	switch {
	case o.refused != "":
		return "refused"
	case o.verdict == rules.Go:
		return "GO"
	}
	text := strings.TrimSpace(o.broken[0].rule + " " + o.broken[0].subject)
	if more := len(o.broken) - 1; more > 0 {
		text += fmt.Sprintf(" +%d", more)
	}
	return text
}

// gains lists the MUST rules that have more margin than in the kit as it is, that are met now and were not, or that are gone.
func (s *subject) gains(o outcome) []string {
	var gained []string
	for _, k := range slices.SortedFunc(maps.Keys(s.base), compareKeys) {
		before := s.base[k]
		after, there := o.musts[k]
		better := after.Share - before.Share
		if !there || before.Outcome != rules.Met && after.Outcome == rules.Met || better > noise(k.rule)*math.Max(1, math.Abs(before.Share)) {
			gained = append(gained, strings.TrimSpace(k.rule+" "+k.subject))
		}
	}
	return gained
}

// noise is by how much a margin may move without anything having happened: what is searched for is found to a tolerance.
func noise(rule string) float64 {
	if rule == "wind.design" || rule == "lift.neck" {
		return 2e-4
	}
	return 1e-9
}

func compareKeys(a, b key) int {
	return strings.Compare(a.rule+"\x00"+a.subject, b.rule+"\x00"+b.subject)
}

// inParallel calls do for each of n jobs, on every core.
func inParallel(n int, do func(i int)) {
	var wait sync.WaitGroup
	var lock sync.Mutex
	next := 0
	for range runtime.NumCPU() {
		wait.Go(func() {
			for {
				lock.Lock()
				i := next
				next++
				lock.Unlock()
				if i >= n {
					return
				}
				do(i)
			}
		})
	}
	wait.Wait()
}

// table holds a table of the campaign against what is checked in.
func table(t *testing.T, name string, lines []string) {
	t.Helper()
	file := filepath.Join(campaign, name)
	text := strings.Join(lines, "\n") + "\n"
	if *update {
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if string(want) == text {
		return
	}
	old := map[string]bool{}
	for line := range strings.SplitSeq(string(want), "\n") {
		old[line] = true
	}
	told := 0
	for _, line := range lines {
		if !old[line] && told < 10 {
			told++
			t.Errorf("%s: now %q", name, line)
		}
	}
	t.Errorf("%s is stale: run this test with -update and read the difference", file)
}

// rows reads a table: its lines without comments and head, split at tabs.
func rows(t *testing.T, name string) [][]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(campaign, name))
	if err != nil {
		t.Fatal(err)
	}
	var all [][]string
	for line := range strings.SplitSeq(strings.TrimSuffix(string(text), "\n"), "\n") {
		if !strings.HasPrefix(line, "#") {
			all = append(all, strings.Split(line, "\t"))
		}
	}
	return all[1:]
}
