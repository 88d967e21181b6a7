package page

import "testing"

// The built-in faces at the sizes of the checklists reach the published figures that typography.go cites.
func TestChecklistTypeIsLegible(t *testing.T) {
	const tenthInch = 2.54 // mm: NASA CR-177605, items 6 and 7 (from memory)
	for name, scale := range map[string]*Scale{"desk": &Desk, "reference": &Reference, "afield": &Afield} {
		if got := scale.Check.Face.XHeight(scale.Check.Size); got < tenthInch {
			t.Errorf("%s: the x-height of a checklist is %.2f mm, want at least %.2f", name, got, tenthInch)
		}
		if scale.Check.Face != Sans {
			t.Errorf("%s: checklists are set in %s, want a sans serif", name, scale.Check.Face)
		}
	}
	// CAP 676: 12 point, at least 10 (from memory).
	for _, st := range []Style{Afield.Body, Afield.Small, Afield.Table, Afield.Column, Afield.Note, Afield.Signal, Desk.Note} {
		if st.Size < 10 {
			t.Errorf("%+v is smaller than 10 point", st)
		}
	}
	if Afield.Body.Size < 12 {
		t.Errorf("the body is set in %v point, want 12", Afield.Body.Size)
	}
}

// Every style leaves a quarter of its size between lines or more (items 8 to 10, from memory), and no letter touches another line's.
func TestLeading(t *testing.T) {
	for name, scale := range map[string]*Scale{"desk": &Desk, "reference": &Reference, "afield": &Afield} {
		styles := append(scale.Headings[:], scale.Body, scale.Small, scale.Table, scale.Column, scale.Signal, scale.Check, scale.Note, scale.Running)
		for _, st := range styles {
			if gap := st.Leading/st.Size.MM() - 1; gap < 0.25 || gap > 0.45 {
				t.Errorf("%s: %+v has %.0f %% of its size between the lines", name, st, 100*gap)
			}
			if st.Face.Ascent(st.Size)+st.Face.Descent(st.Size) > st.Leading {
				t.Errorf("%s: lines of %+v touch", name, st)
			}
		}
	}
}
