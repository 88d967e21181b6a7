package walk_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/walk"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

// morning is when the crew of the tests begins.
var morning = time.Date(2026, 5, 9, 6, 30, 0, 0, time.FixedZone("", 3600))

var kitsMade sync.Map

// kitOf is a demonstration kit with a change, judged by the built-in packs and more.
func kitOf(t testing.TB, id, change string, more ...string) *walk.Kit {
	t.Helper()
	name := fmt.Sprint(id, change, more)
	k, made := kitsMade.Load(name)
	if !made {
		k = makeKit(t, id, change, more)
		kitsMade.Store(name, k)
	}
	copied := *k.(*walk.Kit)
	return &copied
}

func makeKit(t testing.TB, id, change string, more []string) *walk.Kit {
	t.Helper()
	s, ok := kits.Demo(id)
	if !ok {
		t.Fatalf("there is no kit %q", id)
	}
	m, err := manifest.Load(s, manifest.Source{Name: "change", Data: []byte(change)})
	if err != nil {
		t.Fatal(err)
	}
	texts := packs.Texts()
	for i, text := range more {
		texts = append(texts, rules.Text{Name: fmt.Sprint("more", i), JSON: []byte(text)})
	}
	p, err := rules.Load(kits.Catalogue{}, texts...)
	if err != nil {
		t.Fatal(err)
	}
	return &walk.Kit{Manifest: m, Packs: p, System: unit.SI, Program: "test"}
}

// A party walks: it keeps the state, the clock and the record.
type party struct {
	testing.TB
	walk.State
	now     time.Time
	chain   walk.Chain
	record  []byte
	entries []walk.Entry
}

func start(t testing.TB, k *walk.Kit, list string) *party {
	t.Helper()
	s, e, err := walk.Start(k, list, morning)
	if err != nil {
		t.Fatal(err)
	}
	p := &party{TB: t, now: morning}
	p.keep(s, e)
	return p
}

func (p *party) keep(s walk.State, e walk.Entry) {
	p.Helper()
	line, chain, err := p.chain.Seal(e)
	if err != nil {
		p.Fatal(err)
	}
	p.State, p.chain, p.record, p.entries = s, chain, append(p.record, line...), append(p.entries, e)
}

// try gives an input a minute later.
func (p *party) try(in walk.Input) error {
	p.Helper()
	p.now = p.now.Add(time.Minute)
	if in.Who == "" {
		in.Who = "Ada"
	}
	s, e, err := p.Next(in, p.now)
	if err == nil {
		p.keep(s, e)
	}
	return err
}

func (p *party) do(inputs ...walk.Input) *party {
	p.Helper()
	for _, in := range inputs {
		if err := p.try(in); err != nil {
			p.Fatalf("%+v: %v", in, err)
		}
	}
	return p
}

// refused gives an input that must not be taken, and for this reason.
func (p *party) refused(in walk.Input, want string) *party {
	p.Helper()
	before := p.N()
	err := p.try(in)
	var refusal *walk.Refusal
	if !errors.As(err, &refusal) || !strings.Contains(err.Error(), want) {
		p.Errorf("%+v: got %v, want a refusal with %q", in, err, want)
	}
	if p.N() != before {
		p.Errorf("%+v was recorded all the same", in)
	}
	return p
}

func (p *party) view() walk.View { return p.View(p.now) }

// is holds the verdict against what it should be.
func (p *party) is(want walk.Verdict, reasons ...string) *party {
	p.Helper()
	v := p.view()
	if v.Verdict != want {
		p.Errorf("entry %d: the verdict is %s (%s) %v, want %s", v.N, v.Verdict, v.Summary, v.Reasons, want)
	}
	for _, text := range reasons {
		found := false
		for _, r := range v.Reasons {
			found = found || strings.Contains(r.Title+": "+r.Text, text)
		}
		if !found {
			p.Errorf("entry %d: no reason says %q, only %v", v.N, text, v.Reasons)
		}
	}
	return p
}

func join(name, role string, lead bool) walk.Input {
	return walk.Input{Do: walk.Join, Who: name, Name: name, Role: role, Lead: lead}
}

// item finds an item of the list as it stands.
func (p *party) item(key string) walk.Item {
	p.Helper()
	for _, phase := range p.view().Phases {
		for _, it := range phase.Items {
			if it.Key == key {
				return it
			}
		}
	}
	p.Fatalf("there is no item %q in the %s list", key, p.List)
	return walk.Item{}
}

// good are readings with which the fen relay may go up.
var good = map[string]string{
	"preflight.wind-height": "2 m", "preflight.wind": "1.8 m/s", "preflight.gust": "2.6 m/s", "preflight.temperature": "11 degC", "preflight.pressure": "1009 hPa",
	"preflight.anchor-mass": "41 kg", "preflight.battery/BAT1": "12.5 V", "preflight.neck-scale": "3.95 kg", "preflight.line-out": "45 m",
	"preflight.lean": "12 deg", "change.wind": "1.8 m/s", "change.gust": "2.6 m/s", "change.spent/BAT1": "10.1 V", "change.fresh/BAT1": "12.5 V", "change.neck-scale": "3.8 kg",
	"change.line-out": "45 m", "change.lean": "12 deg", "recovery.wind": "2 m/s", "recovery.pressure": "40 bar", "recovery.battery-volts/BAT1": "11.2 V",
}

// through answers every open item up to the one with this key, or all; hold points by the person in charge.
func (p *party) through(until string) *party {
	p.Helper()
	for range 500 {
		v := p.view()
		var next *walk.Item
		for _, phase := range v.Phases {
			for i, it := range phase.Items {
				if it.State == "open" && next == nil {
					next = &phase.Items[i]
				}
			}
		}
		if next == nil || next.Key == until || next.Barred != "" {
			return p
		}
		p.do(p.answer(*next)...)
	}
	p.Fatal("the list does not end")
	return p
}

func (p *party) answer(it walk.Item) []walk.Input {
	p.Helper()
	switch {
	case it.Tally != nil:
		var all []walk.Input
		for _, t := range it.Tally {
			if t.Back != nil {
				continue
			}
			all = append(all, walk.Input{Do: walk.Count, Part: t.Part, Pieces: &t.Out})
		}
		return all
	case it.Asks != nil:
		text, ok := good[it.Key]
		if !ok {
			p.Fatalf("the tests have no reading for %s", it.Key)
		}
		return []walk.Input{{Do: walk.Read, Item: it.ID, Subject: it.Subject, Text: text}}
	}
	return []walk.Input{{Do: walk.Done, Item: it.ID, Subject: it.Subject}}
}

func read(item, text string) walk.Input { return walk.Input{Do: walk.Read, Item: item, Text: text} }

var (
	plain sync.Mutex
	flown *party
)

// aloft is a fen relay that has gone up as it should. It goes up once for all tests: a state is a value.
func aloft(t testing.TB) *party {
	t.Helper()
	plain.Lock()
	defer plain.Unlock()
	if flown == nil {
		p := start(t, kitOf(t, "fen-relay", `{}`), walk.Preflight)
		flown = p.do(join("Ada", "launch", true), join("Bo", "winch", false)).through("").do(walk.Input{Do: walk.Up}).through("")
	}
	copied := *flown
	copied.TB, copied.record, copied.entries = t, slices.Clone(flown.record), slices.Clone(flown.entries)
	return &copied
}
