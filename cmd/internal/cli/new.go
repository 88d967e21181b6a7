package cli

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/record"
	"hoistbook/cmd/internal/starter"
	"hoistbook/cmd/internal/whole"
	"hoistbook/kits"
	"hoistbook/kits/manifest"
	"hoistbook/render/doc"
	"hoistbook/render/pdf"
)

// beginning are the flags of new.
type beginning struct {
	starter.Answers
	from string
	ask  bool
}

func newCommand(o *options) *cobra.Command {
	b := beginning{}
	c := &cobra.Command{
		Use:   "new DIR",
		Short: "Begin a kit of your own, or adopt one that you were given",
		Long: `New makes the folder DIR with a manifest, an overlay for your own site, prices and masses, a rule pack of your own, and the
schemas with which an editor completes them. A folder that has something in it is left alone.

Your own kit begins with an example that flies, with notes on what belongs where; --blank leaves its numbers out, so that check lists what is
still to be said. With --from FILE, a manifest or a book that you were given, that kit is taken over as it is, and what is yours goes into the
overlay. At a terminal and without flags new asks.`,
		Args: cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			if b.ask || c.Flags().NFlag() == 0 && isTerminal(o.streams.In) {
				o.askAnswers(&b)
			}
			return o.start(args[0], b)
		},
	}
	f := c.Flags()
	f.StringVar(&b.from, "from", demoPrefix+kits.FirstDemo, "begin with this `KIT`: a manifest, a book, or demo:NAME ("+strings.Join(kits.Demos(), ", ")+")")
	f.BoolVar(&b.Blank, "blank", false, "leave the example's numbers out")
	f.BoolVar(&b.ask, "ask", false, "ask for what is not given")
	f.StringVar(&b.Name, "name", "", "the `NAME` of the kit")
	f.StringVar(&b.ID, "id", "", "its short `NAME` in files and reports; made of the name otherwise")
	f.StringVar(&b.Maintainer, "maintainer", "", "who answers for it: your `CLUB`")
	f.StringVar(&b.Licence, "licence", "", "the `LICENCE` of the manifest by its SPDX identifier")
	f.StringVar(&b.Currency, "currency", "", "the `CURRENCY` of prices by its ISO 4217 code")
	f.StringVar(&b.Region, "region", "", "the regional rule `PACK` in force: us, uk, de, au")
	f.StringVar(&b.Site, "site", "", "what you call the `PLACE` where you fly")
	f.StringVar(&b.PowerLine, "power-line", "", "how `FAR` the nearest power line is from its anchor, such as \"350 m\"")
	f.StringVar(&b.Airfield, "airfield", "", "how `FAR` the nearest airfield is, such as \"11 km\"")
	return c
}

// isTerminal reports whether somebody may answer.
func isTerminal(in io.Reader) bool {
	f, ok := in.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	if err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return false
	}
	null, err := os.Stat(os.DevNull)
	return err != nil || !os.SameFile(info, null)
}

// askAnswers asks for what was not given. An empty answer leaves it out, and so does the end of the input.
func (o *options) askAnswers(b *beginning) {
	in := bufio.NewReader(o.streams.In)
	ask := func(question string, into *string) {
		if *into != "" {
			return
		}
		fmt.Fprint(o.streams.Err, question+": ")
		text, err := in.ReadString('\n')
		*into = strings.TrimSpace(text)
		if err != nil {
			fmt.Fprintln(o.streams.Err)
		}
	}
	if strings.HasPrefix(b.from, demoPrefix) {
		given := ""
		ask("A manifest or a book that you were given (empty: a kit of your own)", &given)
		if given != "" {
			b.from = given
		}
	}
	if strings.HasPrefix(b.from, demoPrefix) {
		ask("Name of the kit", &b.Name)
	}
	ask("Your club", &b.Maintainer)
	ask("Place where you fly", &b.Site)
	ask("How far from the nearest power line, such as 350 m", &b.PowerLine)
	ask("How far from the nearest airfield, such as 11 km", &b.Airfield)
	ask("Regional rules: us, uk, de, au (empty: none of them)", &b.Region)
	if strings.HasPrefix(b.from, demoPrefix) {
		ask("Currency of your prices, such as EUR", &b.Currency)
		if !b.Blank {
			answer := ""
			ask("Begin with the example's numbers, which fly? y or n", &answer)
			b.Blank = strings.HasPrefix(strings.ToLower(answer), "n")
		}
	}
}

func (o *options) start(dir string, b beginning) error {
	if err := b.Check(); err != nil {
		return err
	}
	entries, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if len(entries) > 0 {
		return fmt.Errorf("%s has something in it already; name a new folder", dir)
	}
	files, err := b.files(dir)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	if err := whole.Write(files...); err != nil {
		return err
	}
	for _, f := range files {
		fmt.Fprintln(o.streams.Out, f.Path)
	}
	fmt.Fprintf(o.streams.Out, "\nnow: hoistbook check %s --with %s --rules %s\n",
		filepath.Join(dir, starter.Manifest), filepath.Join(dir, starter.Overlay), filepath.Join(dir, starter.Pack))
	return nil
}

// files makes the files of the folder. A demonstration kit is an example; any other kit belongs to somebody.
func (b beginning) files(dir string) ([]whole.File, error) {
	if _, err := os.Stat(b.from); err != nil && !strings.Contains(b.from, demoPrefix) {
		if _, demo := kits.Demo(b.from); demo {
			b.from = demoPrefix + b.from
		}
	}
	if strings.HasPrefix(b.from, demoPrefix) {
		example, err := source(b.from)
		if err != nil {
			return nil, err
		}
		return starter.Begin(dir, example, b.Answers)
	}
	if b.Blank || b.Name != "" || b.ID != "" || b.Licence != "" || b.Currency != "" {
		return nil, fmt.Errorf("%s belongs to somebody and is taken over as it is; leave --blank, --name, --id, --licence and --currency out, or write them into the overlay", b.from)
	}
	kit, signature, err := given(b.from)
	if err != nil {
		return nil, err
	}
	return starter.Adopt(dir, kit, signature, b.Answers)
}

// given reads a kit that somebody was given, with its signature: of a book, the manifest as its maker wrote it.
func given(name string) (manifest.Source, []byte, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return manifest.Source{}, nil, err
	}
	if !pdf.Is(data) {
		signature, err := signatureOf(name)
		return manifest.Source{Name: name, Data: data}, signature, err
	}
	b, err := record.Open(data, doc.ManifestName)
	if err != nil {
		return manifest.Source{}, nil, fmt.Errorf("%s: %w", name, err)
	}
	if len(b.Wrong) > 0 {
		return manifest.Source{}, nil, fmt.Errorf("%s: %s", name, strings.Join(b.Wrong, "; "))
	}
	text, err := merged(b)
	var signature []byte
	if len(b.Sources) == 1 {
		signature = b.Sources[0].Signature
	}
	return manifest.Source{Name: name, Data: text}, signature, err
}
