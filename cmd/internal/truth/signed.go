package truth

// Signed is what the signatures of a file and of what rides inside say.
type Signed struct {
	// Whether signers were named against whom signatures can be held.
	Asked bool `json:"asked" jsonschema:"example=true"`
	// The file itself, and the manifest and overlays inside.
	Files []SignedFile `json:"files"`
	// Whether the file itself, or else everything that it was made from, is signed by someone who is named.
	Verified bool `json:"verified" jsonschema:"example=true"`
}

// State is what a signature is worth.
type State string

// The states.
const (
	Verified   State = "verified"
	Altered    State = "altered"        // the signature is not of these bytes
	Unknown    State = "unknown signer" // nobody who is named signed it
	NotSigned  State = "not signed"
	NotChecked State = "not checked" // nobody is named
)

// SignedFile is one file and its signature.
type SignedFile struct {
	// The file.
	Name string `json:"name" jsonschema:"example=kit.json"`
	// What the signature is worth.
	State State `json:"state" jsonschema:"enum=verified,enum=altered,enum=unknown signer,enum=not signed,enum=not checked,example=verified"`
	// Who signed, of the names in the file of signers.
	Signer string `json:"signer,omitempty" jsonschema:"example=relay@our-club.example"`
	// The fingerprint of the key.
	Key string `json:"key,omitempty" jsonschema:"example=SHA256:mYnEoJ0CfQNfbXGqM7y0Yd9c5cJ4b3r5oFQx3rGm1nE"`
	// What is wrong.
	Why string `json:"why,omitempty" jsonschema:"example=the file is not the one that was signed"`
}

// Holds reports whether nothing was asked of signatures, or they hold. A signature that was altered never does.
func (s Signed) Holds() bool {
	for _, f := range s.Files {
		if f.State == Altered {
			return false
		}
	}
	return !s.Asked || s.Verified
}

// Sign gathers the signatures of a file and of what it was made from. The file's own counts for everything in it; otherwise
// everything that it was made from must be signed.
func Sign(asked bool, file SignedFile, inside []SignedFile) Signed {
	s := Signed{Asked: asked, Files: append([]SignedFile{file}, inside...)}
	all := len(inside) > 0
	for _, f := range inside {
		all = all && f.State == Verified
	}
	s.Verified = file.State == Verified || all && file.State == NotSigned
	return s
}
