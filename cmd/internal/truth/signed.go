package truth

// Signed is what the signatures of a file and of what rides inside say.
type Signed struct {
	// Asked reports whether signers were named against whom signatures can be held.
	Asked bool `json:"asked"`
	// Files are the signed files: the file itself, and the manifest and overlays inside.
	Files []SignedFile `json:"files"`
	// Verified reports whether the file itself, or else everything that it was made from, is signed by someone who is named.
	Verified bool `json:"verified"`
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
	Name string `json:"name"`
	// State is what the signature is worth.
	State State `json:"state"`
	// Signer is who signed, of the names in the signers file.
	Signer string `json:"signer,omitempty"`
	// Key is the fingerprint of the key.
	Key string `json:"key,omitempty"`
	// Why says what is wrong.
	Why string `json:"why,omitempty"`
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
