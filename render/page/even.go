package page

// even sets the last pages again where the very last would hold next to nothing: with less white between the blocks, where that saves the
// page, and otherwise with pages that end higher, so that the last gets its share. Nothing is set smaller, and no bond is broken for it.
func (f *Flow) even() {
	pages, set := len(f.pages)-f.run, f.set
	defer func() { f.run, f.set, f.feet = len(f.pages), nil, 0 }()
	if f.err != nil || pages < 2 || f.y >= worthSaving*f.frame.H {
		return
	}
	for _, white := range whites {
		narrow := squeezed(set, white)
		if whiteOf(set)-whiteOf(narrow)+f.feet < f.y {
			continue
		}
		if t := f.again(narrow, white, f.frame.H, 0); t.err == nil && len(t.pages) < pages {
			f.take(t)
			if pages--; pages < 2 || f.y >= leastLast*f.frame.H {
				return
			}
			f.fill(narrow, white, pages)
			return
		}
	}
	f.fill(set, 1, pages)
}

// fill gives the last page what it lacks: every page before it gives its part, or where bonds do not let them, the one before it does.
func (f *Flow) fill(set []strip, white MM, pages int) {
	lacks := leastLast*f.frame.H - f.y
	if lacks <= 0 {
		return
	}
	for _, givers := range [...]int{pages - 1, 1} {
		for limit := f.frame.H - lacks/MM(givers); limit >= highestFoot*f.frame.H; limit -= evenStep {
			t := f.again(set, white, limit, pages-1-givers)
			if t.err != nil || len(t.pages) > pages {
				break
			}
			if t.y >= leastLast*f.frame.H {
				f.take(t)
				return
			}
		}
	}
}

// whiteOf is the white between strips.
func whiteOf(strips []strip) MM {
	var white MM
	for i := 1; i < len(strips); i++ {
		white += max(strips[i-1].after, strips[i].before)
	}
	return white
}

// again sets strips on pages of their own, like those of the run. The limit holds from a page on.
func (f *Flow) again(set []strip, white, limit MM, from int) *Flow {
	t := &Flow{setup: f.setup, section: f.section, frame: f.frame, white: white, limit: limit, from: from, pending: set}
	t.setup.Scale = f.places[f.run].Scale
	t.settle(true)
	return t
}

// take puts the pages of another flow in the place of the run.
func (f *Flow) take(t *Flow) {
	f.pages, f.places = append(f.pages[:f.run], t.pages...), append(f.places[:f.run], t.places...)
	f.y, f.after, f.fresh, f.turned = t.y, t.after, t.fresh, t.turned
}

// squeezed is strips with a share of the white between them.
func squeezed(strips []strip, white MM) []strip {
	out := make([]strip, len(strips))
	var head, narrow []strip // most strips of a run repeat the same head
	for i, st := range strips {
		st.before, st.after = st.before*white, st.after*white
		if len(st.head) > 0 {
			if len(head) == 0 || &head[0] != &st.head[0] {
				head, narrow = st.head, squeezed(st.head, white)
			}
			st.head = narrow
		}
		out[i] = st
	}
	return out
}
