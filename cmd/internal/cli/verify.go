package cli

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/assess"
	"hoistbook/cmd/internal/record"
	"hoistbook/cmd/internal/terminal"
	"hoistbook/cmd/internal/truth"
	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/kits/unit"
	"hoistbook/render/doc"
	"hoistbook/render/pdf"
	"hoistbook/rules"
	"hoistbook/rules/packs"
)

func verifyCommand(o *options) *cobra.Command {
	var from, who string
	c := &cobra.Command{
		Use:   "verify FILE [--signers FILE]",
		Short: "Say whether a book still tells the truth, and who signed it",
		Long: `Verify takes the manifest out of a book, or of one of its documents, holds it against the files that it was printed from,
computes every fact anew, applies today's rules, prints the document anew and compares page by page. It says what differs in words.

With --signers it also says who signed: SIGNERS is a file of allowed signers as ssh-keygen(1) describes it. What is not signed, or was altered
after it was signed, is never called verified. A manifest or an overlay can be verified in the same way.

Exit status: 0 the pages tell the truth, the verdict is GO, and the signatures that were asked for hold; 1 otherwise; 2 unusable.`,
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			known, err := readSigners(from, who)
			if err != nil {
				return err
			}
			return o.verify(args[0], known)
		},
	}
	c.Flags().StringVar(&from, "signers", "", "hold signatures against this `FILE` of allowed signers")
	c.Flags().StringVar(&who, "signer", "", "only this `NAME` of them counts")
	c.Flags().StringArrayVar(&o.print.fonts, "font", nil, "the TrueType `FILE` that the book was printed with, if there was one; repeatable")
	return c
}

func (o *options) verify(name string, known signers) error {
	data, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	v, err := o.verification(name, data)
	if err != nil {
		return err
	}
	own, err := known.beside(name, data)
	if err != nil {
		return err
	}
	var inside []truth.SignedFile
	if b, err := record.Open(data, doc.ManifestName); err == nil {
		for _, s := range b.Sources {
			inside = append(inside, known.hold(s.Name, s.Data, s.Signature))
		}
	}
	v.Signed = truth.Sign(known.asked, own, inside)
	return o.showVerification(v)
}

// verification is everything but the signatures.
func (o *options) verification(name string, data []byte) (*truth.Verification, error) {
	if !pdf.Is(data) {
		return o.plainFile(manifest.Source{Name: name, Data: data})
	}
	b, err := record.Open(data, doc.ManifestName)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return truth.Verify{Program: printedBy, Packs: o.packsWith, Assess: assessRecorded, Print: o.printAgain}.Of(name, b)
}

// plainFile verifies a manifest or an overlay: it has no pages that could be false.
func (o *options) plainFile(s manifest.Source) (*truth.Verification, error) {
	v := truth.New(s.Name, printedBy)
	v.Why, v.True = "it is no book", true
	if manifest.IsOverlay(s) {
		v.Document = "overlay"
		return v, nil
	}
	overlays, err := o.readOverlays()
	if err != nil {
		return nil, err
	}
	m, err := manifest.Load(s, overlays...)
	if err != nil {
		return nil, err
	}
	ready, err := o.rulePacks()
	if err != nil {
		return nil, err
	}
	a, err := assess.Of(m, ready, o.system.value)
	if err != nil {
		return nil, err
	}
	v.Document, v.Today = "manifest", a.Verdict
	kit := m.Identity()
	v.Kit = &kit
	return v, nil
}

// packsWith loads the built-in packs, those that ride inside a book, and those of the command line. One of the command line takes the
// place of one inside with the same file name: it is today's.
func (o *options) packsWith(inside []rules.Text) (rules.Packs, error) {
	texts := packs.Texts()
	replaced := map[string]bool{}
	for _, name := range o.packs {
		replaced[manifest.FileName(name)] = true
	}
	for _, t := range inside {
		if !replaced[t.Name] {
			texts = append(texts, t)
		}
	}
	for _, name := range o.packs {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		texts = append(texts, rules.Text{Name: name, JSON: data})
	}
	return rules.Load(kits.Catalogue{}, texts...)
}

func assessRecorded(m *manifest.Manifest, ready rules.Packs, r record.Record) (*assess.Assessment, error) {
	system := unit.SI
	if r.Units != "" {
		var err error
		if system, err = unit.ParseSystem(r.Units); err != nil {
			return nil, err
		}
	}
	return assess.Of(m, ready, system)
}

// printAgain prints a document as its record says that it was printed.
func (o *options) printAgain(a *assess.Assessment, b *record.Book) ([]byte, error) {
	r := b.Record
	compose := composer(r.Document)
	if compose == nil {
		return nil, fmt.Errorf("this program prints no document %q", r.Document)
	}
	paper, err := parsePaper(r.Paper)
	if err != nil {
		return nil, err
	}
	if err := o.fontsOf(r); err != nil {
		return nil, err
	}
	words, err := doc.Language(r.Language)
	if b.Words != nil {
		words, err = doc.ReadWords(r.Words.Name, b.Words)
	}
	if err != nil {
		return nil, err
	}
	system, err := unit.ParseSystem(r.Units)
	if err != nil {
		return nil, err
	}
	in := doc.Gather(a.Facts, a.Packs, system, words)
	again := *o
	again.print.date = r.Date
	if err := again.dress(in); err != nil {
		return nil, err
	}
	in.Paper = paper
	file, err := printOne(r.Document, in, compose)
	return file.Data, err
}

// fontsOf makes sure that the fonts of the command line are those that the document was printed with.
func (o *options) fontsOf(r *record.Record) error {
	if len(o.print.fonts) != len(r.Fonts) {
		names := make([]string, len(r.Fonts))
		for i, f := range r.Fonts {
			names[i] = f.Name
		}
		if len(names) == 0 {
			return errors.New("it was printed without fonts of its own; leave --font out")
		}
		return fmt.Errorf("it was printed with fonts of its own; give %q with --font to compare the pages", names)
	}
	for i, name := range o.print.fonts {
		data, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		if sum := sha256.Sum256(data); hex.EncodeToString(sum[:]) != r.Fonts[i].SHA256 {
			return fmt.Errorf("%s is not the font %s that it was printed with", name, r.Fonts[i].Name)
		}
	}
	return nil
}

func (o *options) showVerification(v *truth.Verification) error {
	var out bytes.Buffer
	if o.json {
		text, err := json.Marshal(v)
		if err != nil {
			return err
		}
		out.Write(append(text, '\n'))
	} else {
		terminal.Verification(&out, v, terminal.Style{Colour: o.streams.Colour, System: o.system.value})
	}
	if _, err := o.streams.Out.Write(out.Bytes()); err != nil {
		return err
	}
	if !v.True || !v.Signed.Holds() || v.Today == rules.NoGo {
		return errNoGo
	}
	return nil
}
