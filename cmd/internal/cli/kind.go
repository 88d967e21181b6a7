package cli

import (
	"fmt"

	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/rules"
)

// roleOf is what a file says it is, or what it looks like when it says nothing: its name in running text, and the flag with
// which it is given; both are empty for a manifest and for anything else.
func roleOf(s manifest.Source) (what, flag string) {
	tree, err := jsontree.Parse(s.Name, s.Data)
	if err != nil || tree.Kind != jsontree.Object {
		return "", ""
	}
	format, says := "", tree.Get("format")
	if says != nil {
		format = says.Text
	}
	switch {
	case format == rules.Format:
		return "a rule pack", "--rules"
	case format == string(manifest.OverlayFormat1):
		return "an overlay", "--with"
	case says == nil && tree.Get("kit") == nil && len(tree.Members) > 0 && tree.Get("rules") == nil:
		return "an overlay, or a manifest without \"format\" and \"kit\"", "--with"
	}
	return "", ""
}

// isManifest reports whether a file says that it is a manifest of its own.
func isManifest(s manifest.Source) bool {
	tree, err := jsontree.Parse(s.Name, s.Data)
	if err != nil {
		return false
	}
	says := tree.Get("format")
	return says != nil && says.Text == string(manifest.Format1)
}

// asManifest refuses a file that is something else than the manifest which a command works on.
func asManifest(s manifest.Source) error {
	if what, flag := roleOf(s); what != "" {
		return fmt.Errorf("%s is %s; give the kit that it belongs to, and %s %s", s.Name, what, flag, s.Name)
	}
	return nil
}

// asOverlay refuses a file that is no overlay: a whole manifest laid over another one would mix two kits without a word.
func asOverlay(s manifest.Source) error {
	if isManifest(s) {
		return fmt.Errorf("%s is a manifest of its own, and --with takes an overlay; compare says what differs between two kits", s.Name)
	}
	if what, flag := roleOf(s); flag == "--rules" {
		return fmt.Errorf("%s is %s, and --with takes an overlay; give it with %s %s", s.Name, what, flag, s.Name)
	}
	return nil
}

// asPack refuses a file that is no rule pack.
func asPack(s manifest.Source) error {
	if isManifest(s) {
		return fmt.Errorf("%s is a manifest, and --rules takes a rule pack; give the manifest without a flag", s.Name)
	}
	if what, flag := roleOf(s); flag == "--with" {
		return fmt.Errorf("%s is %s, and --rules takes a rule pack; give it with %s %s", s.Name, what, flag, s.Name)
	}
	return nil
}
