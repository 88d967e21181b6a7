package doc

import (
	"strings"

	"hoistbook/render/page"
	"hoistbook/rules/packs"
)

// Two sheets of one kit are different papers when they were made for another place, under other rules or with other overlays.
// So every page says in its head for what it was made, and the cover and the lists of the crew say it in full.

// made is what stands in the head of every page behind the revision.
func (s *sheet) made() []string {
	var all []string
	if site := s.site(); site != "" {
		all = append(all, site)
	}
	for _, p := range s.Packs {
		if p.Region != "" || !packs.BuiltIn(p.ID) {
			all = append(all, p.ID)
		}
	}
	for _, l := range s.Facts.Manifest.Layers() {
		all = append(all, l.Name)
	}
	return all
}

// site is what the crew calls the place for which the kit was computed.
func (s *sheet) site() string {
	if st := s.Facts.Manifest.Station; st != nil && st.Site != nil {
		return st.Site.Name
	}
	return ""
}

// madeBy names the regional packs in force and the club's own, whose rules this paper follows beside the general ones, and the
// files that were laid over the shared kit.
func (s *sheet) madeBy() page.KeyValues {
	var titles, names []string
	for _, p := range s.Packs {
		if p.Region != "" || !packs.BuiltIn(p.ID) {
			titles = append(titles, p.Title)
		}
	}
	for _, l := range s.Facts.Manifest.Layers() {
		names = append(names, l.Name)
	}
	var kv page.KeyValues
	for _, all := range []struct {
		id    string
		texts []string
	}{{"made.law", titles}, {"kit.overlays", names}} {
		if len(all.texts) > 0 {
			kv = append(kv, page.KeyValue{Key: s.say(all.id), Value: page.Plain(strings.Join(all.texts, "; "))})
		}
	}
	return kv
}

// madeFor is all of it, for the cover.
func (s *sheet) madeFor() page.KeyValues {
	var kv page.KeyValues
	if site := s.site(); site != "" {
		kv = append(kv, page.KeyValue{Key: s.say("kit.site"), Value: page.Plain(site)})
	}
	if s.lookup("station.wind_m_s").Known() || s.lookup("station.coldest_k").Known() {
		kv = append(kv, page.KeyValue{Key: s.say("made.for"), Value: page.Plain(s.say("made.weather", "coldest", s.fact("station.coldest_k"), "hottest", s.fact("station.hottest_k"),
			"wind", s.fact("station.wind_m_s"), "height", s.fact("station.wind_measured_at_m")))})
	}
	return append(kv, s.madeBy()...)
}
