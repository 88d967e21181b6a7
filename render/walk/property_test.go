package walk_test

import (
	"errors"
	"math/rand/v2"
	"testing"
	"time"

	"hoistbook/render/walk"
)

// wander gives inputs that a confused crew might: most are refused, some are not.
func wander(p *party, random *rand.Rand) {
	v := p.view()
	phase := v.Phases[random.IntN(len(v.Phases))]
	it := phase.Items[random.IntN(len(phase.Items))]
	if random.IntN(3) > 0 {
		for _, ph := range v.Phases {
			for _, one := range ph.Items {
				if one.Key == v.Next {
					it = one
				}
			}
		}
	}
	who := []string{"Ada", "Ada", "Bo"}[random.IntN(3)]
	in := walk.Input{Who: who, Item: it.ID, Subject: it.Subject}
	roll := random.IntN(20)
	if random.IntN(8) > 0 { // mostly they do what is next, as it should be done
		roll, in.Who = 0, "Ada"
		if v.May {
			roll = 15
		}
	}
	switch {
	case roll < 9 && it.Asks != nil:
		in.Do, in.Text = walk.Read, good[it.Key]
	case roll < 9:
		in.Do = walk.Done
	case roll == 9:
		in.Do, in.Text = walk.Read, []string{"3 m/s", "2 kg", "12.1 V", "9 m/s", "1 m"}[random.IntN(5)]
	case roll == 10:
		in.Do, in.Text = walk.Not, "no"
	case roll == 11:
		in.Do = walk.Clear
	case roll == 12:
		in.Do, in.Text = walk.Overrule, "we think so"
	case roll == 13:
		in = walk.Input{Who: who, Do: walk.Weigh, Part: "BOX1", Text: []string{"118 g", "170 g", ""}[random.IntN(3)]}
	case roll == 14 && len(v.Reasons) > 0:
		r := v.Reasons[random.IntN(len(v.Reasons))]
		in = walk.Input{Who: who, Do: walk.Overrule, Rule: r.Rule, Item: r.Item, Subject: r.Subject, Text: "we think so"}
	case roll == 15:
		in = walk.Input{Who: in.Who, Do: walk.Up}
	case roll == 16:
		in = walk.Input{Who: who, Do: walk.Down}
	case roll == 17 && it.Asks != nil && it.Asks.Labels:
		in.Do, in.Text, in.Label = walk.Read, "12.5 V", []string{"1", "2"}[random.IntN(2)]
	default:
		in.Do = walk.Done
	}
	p.now = p.now.Add(time.Duration(random.IntN(120)) * time.Second)
	before := p.State
	s, e, err := p.Next(in, p.now)
	var refusal *walk.Refusal
	switch {
	case err == nil:
		if in.Do == walk.Up && before.View(p.now).Verdict != walk.GO {
			p.Errorf("up with the verdict %s", before.View(p.now).Verdict)
		}
		p.keep(s, e)
	case !errors.As(err, &refusal):
		p.Errorf("%+v: %v", in, err)
	}
}

func TestWhateverACrewDoes(t *testing.T) {
	k := kitOf(t, "fen-relay", `{}`)
	launched := 0
	for seed := range uint64(4) {
		p := start(t, k, walk.Preflight).do(join("Ada", "", true), join("Bo", "", false))
		if seed%2 == 0 {
			p.through("preflight.diameter")
		}
		random := rand.New(rand.NewPCG(seed, 7))
		for range 120 {
			wander(p, random)
			v := p.view()
			passed := v.Open == 0 && len(v.Reasons) == 0
			if (v.Verdict == walk.GO) != passed {
				t.Fatalf("seed %d, entry %d: %s with %d open and %v", seed, v.N, v.Verdict, v.Open, v.Reasons)
			}
			if v.Verdict == walk.GO {
				checkGo(t, v)
			}
			if v.Aloft {
				launched++
			}
		}
		p.mend()
		s, differs, err := walk.Again(k, p.entries)
		if err != nil || len(differs) > 0 {
			t.Fatalf("seed %d: %v %v", seed, differs, err)
		}
		if got, want := encode(t, s.View(p.now)), encode(t, p.view()); got != want {
			t.Errorf("seed %d: done again\n%s\nat first\n%s", seed, got, want)
		}
	}
	if launched == 0 {
		t.Error("no crew ever got its balloon up: the test has shown little")
	}
}

// mend answers whatever it is the turn of as it should be, until the balloon may go up: whatever was stopped, refused, broken
// or taken back before, a crew that puts all right gets there.
func (p *party) mend() {
	p.Helper()
	if p.view().Aloft {
		p.do(walk.Input{Do: walk.Down})
	}
	_ = p.try(walk.Input{Do: walk.Weigh, Part: "BOX1"}) // taken back, where it was weighed
	for range 300 {
		v := p.view()
		if v.May {
			return
		}
		var err error
		for _, key := range v.Turn { // a wind that was misread stands in the way of the right gust, and comes after it
			if err = p.try(p.answer(p.item(key))[0]); err == nil {
				break
			}
		}
		if len(v.Turn) == 0 || err != nil {
			p.Fatalf("entry %d: %s, %v, and it is the turn of %v: %v", v.N, v.Verdict, v.Reasons, v.Turn, err)
		}
	}
	p.Fatalf("all is put right, and the balloon may not go up: %v", p.view().Reasons)
}

// checkGo looks for itself whether everything is settled that a GO promises.
func checkGo(t *testing.T, v walk.View) {
	t.Helper()
	last := ""
	for _, phase := range v.Phases {
		for _, it := range phase.Items {
			if it.Hold {
				last = it.Key
			}
		}
	}
	for _, phase := range v.Phases {
		for _, it := range phase.Items {
			if it.Key == last && !v.Aloft {
				return
			}
			if it.State != "settled" && (it.Critical || it.State != "overruled") {
				t.Fatalf("entry %d: GO, and %s is %s", v.N, it.Key, it.State)
			}
		}
	}
}
