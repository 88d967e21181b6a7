package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/record"
	"hoistbook/cmd/internal/sshsig"
	"hoistbook/cmd/internal/truth"
	"hoistbook/cmd/internal/whole"
	"hoistbook/kits/jsontree"
	"hoistbook/kits/manifest"
	"hoistbook/render/doc"
	"hoistbook/render/pdf"
)

func signCommand(o *options) *cobra.Command {
	var key string
	c := &cobra.Command{
		Use:   "sign FILE… --key KEY",
		Short: "Sign manifests, overlays and books with an SSH key",
		Long: `Sign writes a signature beside each file: kit.json.sig. KEY is a private SSH key, or a public one whose private half your
agent holds; a key under a passphrase goes to the agent with ssh-add. The book of a signed manifest carries its signature along.

Others verify with one of

    hoistbook verify FILE --signers SIGNERS
    ssh-keygen -Y verify -f SIGNERS -I NAME -n ` + sshsig.Namespace + ` \
        -s FILE.sig < FILE`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return o.sign(args, key) },
	}
	c.Flags().StringVar(&key, "key", "", "sign with this `KEY`")
	if err := c.MarkFlagRequired("key"); err != nil {
		panic(err) // the flag stands one line above
	}
	return c
}

func (o *options) sign(names []string, keyName string) error {
	data, err := os.ReadFile(keyName)
	if err != nil {
		return err
	}
	signer, err := sshsig.OpenKey(keyName, data)
	if err != nil {
		return err
	}
	files := make([]whole.File, len(names))
	what := make([]string, len(names))
	for i, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		if what[i], err = signable(name, data); err != nil {
			return err
		}
		signature, err := sshsig.Sign(signer, data)
		if err != nil {
			return fmt.Errorf("%s: %w", name, err)
		}
		files[i] = whole.File{Path: name + signatureSuffix, Data: signature}
	}
	if err := whole.Write(files...); err != nil {
		return err
	}
	for i, f := range files {
		fmt.Fprintf(o.streams.Out, "%s  %s\n", f.Path, what[i])
	}
	return nil
}

// signable says what a file is. Nobody signs what cannot be read.
func signable(name string, data []byte) (string, error) {
	s := manifest.Source{Name: name, Data: data}
	switch {
	case pdf.Is(data):
		b, err := record.Open(data, doc.ManifestName)
		if err != nil {
			return "", fmt.Errorf("%s: %w", name, err)
		}
		m, err := b.Load(name)
		if err != nil {
			return "", err
		}
		return kitLine("book of", m), nil
	case manifest.IsOverlay(s):
		return "overlay", nil
	}
	if tree, err := jsontree.Parse(name, data); err == nil && tree.Get("format") != nil && tree.Get("format").Text == packFormat {
		return "rule pack", nil
	}
	m, err := manifest.Load(s)
	if err != nil {
		return "", err
	}
	return kitLine("manifest of", m), nil
}

// packFormat is the format of rule packs.
const packFormat = "hoistbook-pack/1"

func kitLine(what string, m *manifest.Manifest) string {
	return fmt.Sprintf("%s %s, revision %s, digest %s", what, m.Kit.ID, m.Kit.Revision, m.ShortDigest())
}

// signers are whom a file of signers names, and who must be one of them.
type signers struct {
	known     sshsig.Signers
	principal string
	now       time.Time
	asked     bool
}

// readSigners reads the file of signers; without one, signatures cannot be checked.
func readSigners(name, principal string) (signers, error) {
	if name == "" {
		if principal != "" {
			return signers{}, errors.New("--signer needs the file in which that name stands; give it with --signers")
		}
		return signers{}, nil
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return signers{}, err
	}
	known, err := sshsig.ReadSigners(name, data, time.Local)
	return signers{known, principal, time.Now(), true}, err
}

// hold says what the signature of a file is worth.
func (s signers) hold(name string, data, signature []byte) truth.SignedFile {
	f := truth.SignedFile{Name: name, State: truth.NotSigned}
	if signature == nil {
		return f
	}
	parsed, err := sshsig.Parse(signature)
	if err != nil {
		f.State, f.Why = truth.Altered, err.Error()
		return f
	}
	f.Key = parsed.Fingerprint()
	if err := parsed.Verify(data); err != nil {
		f.State, f.Why = truth.Altered, err.Error()
		return f
	}
	if !s.asked {
		f.State, f.Why = truth.NotChecked, "name the people whose signatures count with --signers"
		return f
	}
	if f.Signer, err = s.known.Whose(parsed, s.principal, s.now); err != nil {
		f.State, f.Why = truth.Unknown, err.Error()
		return f
	}
	f.State = truth.Verified
	return f
}

// beside is the signature that lies beside a file, held against it.
func (s signers) beside(name string, data []byte) (truth.SignedFile, error) {
	signature, err := os.ReadFile(name + signatureSuffix)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return truth.SignedFile{}, err
	}
	return s.hold(name, data, signature), nil
}
