package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/pflag"

	"hoistbook/kits"
	"hoistbook/render/doc"
	"hoistbook/render/page"
	"hoistbook/rules"
)

// printedBy stands in the description of every file. It is a constant: what a build knows of itself would make the same kit
// come out in other bytes from another machine.
const printedBy = "Hoistbook 1.0"

// printing are the flags of commands that print documents.
type printing struct {
	language string
	words    string
	fonts    []string
	date     string
}

// printingFlags gives a command the flags of documents.
func (o *options) printingFlags(f *pflag.FlagSet) {
	f.StringVar(&o.print.language, "lang", doc.DefaultLanguage, "print fixed words in this `LANGUAGE`: en or de")
	f.StringVar(&o.print.words, "words", "", "take the fixed words from this language `FILE` instead")
	f.StringArrayVar(&o.print.fonts, "font", nil, "use this TrueType `FILE` for characters that the built-in font lacks; repeatable")
}

// dateFlag gives a command the flag of the date that documents bear.
func (o *options) dateFlag(f *pflag.FlagSet) {
	f.StringVar(&o.print.date, "date", "", "print this `DATE` on the documents; none is printed otherwise")
}

// readWords reads the language of the command line.
func (o *options) readWords() (*doc.Words, error) {
	if o.print.words == "" {
		return doc.Language(o.print.language)
	}
	data, err := os.ReadFile(o.print.words)
	if err != nil {
		return nil, err
	}
	return doc.ReadWords(o.print.words, data)
}

// readFonts opens the fonts of the command line.
func (o *options) readFonts() (*page.Fonts, error) {
	fonts := make([]*page.Font, len(o.print.fonts))
	for i, name := range o.print.fonts {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		if fonts[i], err = page.OpenFont(filepath.Base(name), data); err != nil {
			return nil, err
		}
	}
	return page.NewFonts(fonts...), nil
}

// input is what the documents of a kit are made of.
func (o *options) input(facts *kits.Facts, packs rules.Packs) (*doc.Input, error) {
	words, err := o.readWords()
	if err != nil {
		return nil, err
	}
	in := doc.Gather(facts, packs, o.system.value, words)
	return in, o.dress(in)
}

// dress gives an input what the command line says of its looks.
func (o *options) dress(in *doc.Input) (err error) {
	in.Paper, in.Program = o.paper.value, printedBy
	if in.Fonts, err = o.readFonts(); err != nil {
		return err
	}
	var at time.Time
	if at, err = date("date", o.print.date); err != nil {
		return err
	}
	in.Date = at
	return nil
}

// errLetters explains what to do about letters that cannot be printed.
func errLetters(err error) error {
	if errors.Is(err, page.ErrLacking) {
		return fmt.Errorf("%w; hand in a TrueType font that has them with --font FILE", err)
	}
	return err
}
