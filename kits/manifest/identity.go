package manifest

// Identity is which manifest something that is written for programs is about.
type Identity struct {
	// The short name.
	ID string `json:"id" jsonschema:"example=fen-relay"`
	// The name in running text.
	Name string `json:"name" jsonschema:"example=Fen relay"`
	// The revision.
	Revision string `json:"revision" jsonschema:"example=1.2.0"`
	// The digest of the merged manifest: the SHA-256 of its canonical form (RFC 8785).
	Digest string `json:"digest" jsonschema:"pattern=^sha256:[0-9a-f]{64}$"`
}

// Identity says which manifest this is.
func (m *Manifest) Identity() Identity {
	return Identity{string(m.Kit.ID), m.Kit.Name, string(m.Kit.Revision), m.Digest()}
}
