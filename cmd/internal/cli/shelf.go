package cli

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"hoistbook/cmd/internal/assess"
	"hoistbook/cmd/internal/shelf"
	"hoistbook/cmd/internal/terminal"
	"hoistbook/kits/diag"
	"hoistbook/kits/manifest"
	"hoistbook/rules"
)

// anyFolder reports whether one of the names is a folder: then check goes through a shelf.
func anyFolder(names []string) bool {
	for _, name := range names {
		if info, err := os.Stat(name); err == nil && info.IsDir() {
			return true
		}
	}
	return false
}

// ProblemsFormat is the format of the line that stands for a file which cannot be used.
const ProblemsFormat = "hoistbook-problems/1"

// unusable is that line.
type unusable struct {
	Format   string   `json:"format"`
	File     string   `json:"file"`
	Problems []string `json:"problems"`
}

// shelved is the line of a file that was assessed.
type shelved struct {
	File string `json:"file"`
	assess.Report
}

// A book of the shelf, as little of it as is printed.
type onShelf struct {
	row  terminal.Row
	line []byte // for programs
	err  error
	none bool // it is no manifest
}

// checkShelf prints one table, or one line for programs, of all manifests in folders. Unlike check it prints while it goes: nobody holds
// ten thousand reports to learn that the last file has a comma too many.
func (o *options) checkShelf(names []string) error {
	packs, err := o.rulePacks()
	if err != nil {
		return err
	}
	overlays, err := o.readOverlays()
	if err != nil {
		return err
	}
	style := terminal.Style{Colour: o.streams.Colour, System: o.system.value}
	count := terminal.Tally{}
	if !o.json {
		terminal.ShelfHead(o.streams.Out, style)
	}
	err = shelf.Each(names, func(path string) onShelf { return o.assessShelved(path, packs, overlays) }, func(b onShelf) error {
		row := b.row
		row.File = within(names, row.File)
		count.Add(row, b.none)
		if b.none {
			return nil
		}
		if b.err != nil {
			say(o.streams.Err, b.err)
		}
		if o.json {
			_, err := o.streams.Out.Write(append(b.line, '\n'))
			return err
		}
		return terminal.ShelfRow(o.streams.Out, row, style)
	})
	if err != nil {
		return err
	}
	if count.All() == 0 {
		return fmt.Errorf("there is no manifest in %q; name a folder with some", names)
	}
	if !o.json {
		terminal.ShelfFoot(o.streams.Out, count, style)
	}
	switch {
	case count.Unusable > 0:
		return fmt.Errorf("%d of %d manifests cannot be used", count.Unusable, count.All())
	case count.NoGo > 0:
		return errNoGo
	}
	return nil
}

// within is a path as people call it who stand before the one folder that was named.
func within(names []string, path string) string {
	if len(names) != 1 {
		return path
	}
	if inside, err := filepath.Rel(names[0], path); err == nil {
		return inside
	}
	return path
}

func (o *options) assessShelved(path string, packs rules.Packs, overlays []manifest.Source) onShelf {
	source, is, err := shelf.Read(path)
	if !is {
		return onShelf{none: true}
	}
	var a *assess.Assessment
	if err == nil {
		var m *manifest.Manifest
		if m, err = manifest.Load(source, overlays...); err == nil {
			a, err = assess.Of(m, packs, o.system.value)
		}
	}
	b := onShelf{row: terminal.RowOf(path, a, err), err: err}
	if o.json {
		b.line, b.err = o.shelfLine(path, a, err)
	}
	return b
}

// shelfLine writes the line of one file for programs.
func (o *options) shelfLine(path string, a *assess.Assessment, failed error) ([]byte, error) {
	if failed == nil {
		line, err := json.Marshal(shelved{path, a.Report()})
		return line, err
	}
	line, err := json.Marshal(unusable{ProblemsFormat, path, problemsOf(failed)})
	return line, errors.Join(failed, err)
}

// problemsOf lists what an error says of a file.
func problemsOf(err error) []string {
	var problems diag.Problems
	if !errors.As(err, &problems) {
		return []string{err.Error()}
	}
	lines := make([]string, len(problems))
	for i, p := range problems {
		lines[i] = p.String()
	}
	return lines
}
