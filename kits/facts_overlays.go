package kits

import (
	"strings"

	"hoistbook/kits/unit"
)

var overlayFacts = []*Entry{overlayCount.Entry, staleOverlayCount.Entry, staleOverlays, siteInherited}

var overlayCount = quantity("kit.overlay_count", "", "Overlays on the shared manifest", "how many were laid over it", policy,
	func(c *frame) unit.Count { return unit.Count(len(c.run.manifest.Layers())) })

var staleOverlayCount = quantity("kit.stale_overlay_count", "", "Overlays that were made for another revision",
	"how many name another revision than that of the shared manifest, or its revision with another digest", policy,
	func(c *frame) unit.Count { return unit.Count(len(stale(c))) })

var staleOverlays = word(nil, "kit.stale_overlays", "Which overlays were made for another revision", "their files, or none", nil, policy,
	func(c *frame, _ string) string {
		if names := stale(c); len(names) > 0 {
			return strings.Join(names, ", ")
		}
		return "none"
	})

// stale names the overlays that were made for another revision.
func stale(c *frame) []string {
	var names []string
	for _, l := range c.run.manifest.Layers() {
		if len(l.Stale) > 0 {
			names = append(names, l.Name)
		}
	}
	return names
}
