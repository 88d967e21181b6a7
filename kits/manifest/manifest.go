package manifest

import (
	"crypto/sha256"
	"encoding/hex"

	"hoistbook/kits/diag"
	"hoistbook/kits/jsontree"
)

// Manifest is a checked build manifest, overlays merged. It is never changed.
type Manifest struct {
	Document

	tree      *jsontree.Node
	base      *jsontree.Node // below all overlays
	laid      []laid
	sources   []Source
	movedBy   string // the overlay that moved the kit away from distances of the site before, or empty
	canonical []byte
}

// Place says where the thing at a JSON pointer (RFC 6901) is written: its key, or the nearest object around it when
// nobody has said it. A value of an overlay has its place in the overlay.
func (m *Manifest) Place(pointer string) diag.Place { return m.tree.PlaceOf(pointer) }

// ValuePlace says where the value at a JSON pointer begins, for messages about the value and not its key.
func (m *Manifest) ValuePlace(pointer string) diag.Place {
	if n := m.tree.At(pointer); n != nil {
		return n.Place()
	}
	return m.Place(pointer)
}

// Has reports whether somebody has said the value at a JSON pointer.
func (m *Manifest) Has(pointer string) bool { return m.tree.At(pointer) != nil }

// Text returns the text at a JSON pointer as it is written; ok is false when there is none.
func (m *Manifest) Text(pointer string) (text string, ok bool) {
	if n := m.tree.At(pointer); n != nil && (n.Kind == jsontree.String || n.Kind == jsontree.Number) {
		return n.Text, true
	}
	return "", false
}

// Origin names the file that the value at a JSON pointer comes from, or "" when nobody has said it.
func (m *Manifest) Origin(pointer string) string {
	if n := m.tree.At(pointer); n != nil {
		return n.Place().File
	}
	return ""
}

// Sources are the files that the manifest was read from, the shared one first. The caller may not change them.
func (m *Manifest) Sources() []Source { return m.sources }

// JSON returns the merged manifest in the canonical form of RFC 8785. The caller may not change it.
func (m *Manifest) JSON() []byte {
	if m.canonical != nil {
		return m.canonical
	}
	return canonical(m.tree) // of a variation, which nobody has asked for yet
}

func canonical(tree *jsontree.Node) []byte {
	text, err := tree.Canonical()
	if err != nil {
		panic("manifest: " + err.Error()) // it is a manifest's, or was made from one that has such a form
	}
	return text
}

// Digest identifies the merged manifest: "sha256:" and the hash of its canonical form.
func (m *Manifest) Digest() string { return digest(m.JSON()) }

func digest(canonical []byte) string {
	sum := sha256.Sum256(canonical)
	return "sha256:" + hex.EncodeToString(sum[:])
}

// ShortDigest is the first twelve digits of the digest, for page footers.
func (m *Manifest) ShortDigest() string { return m.Digest()[len("sha256:"):][:12] }
