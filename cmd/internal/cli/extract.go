package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/record"
	"hoistbook/cmd/internal/whole"
	"hoistbook/kits/manifest"
	"hoistbook/render/doc"
	"hoistbook/render/pdf"
)

func extractCommand(o *options) *cobra.Command {
	var output string
	c := &cobra.Command{
		Use:   "extract BOOK.pdf [-o FILE|DIR]",
		Short: "Take the manifest out of a book",
		Long: `Extract writes out the manifest that rides inside a book or one of its documents: as its maker wrote it, or, where overlays
were laid over it, merged. Into a folder it writes everything that rides inside: manifest, overlays, rule packs, signatures, report.`,
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return o.extract(args[0], output) },
	}
	c.Flags().StringVarP(&output, "output", "o", "", "write into this `FILE`, or everything into this folder")
	return c
}

func (o *options) extract(name, output string) error {
	data, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	if !pdf.Is(data) {
		return fmt.Errorf("%s is no PDF file; name a book", name)
	}
	b, err := record.Open(data, doc.ManifestName)
	if err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	for _, wrong := range b.Wrong {
		fmt.Fprintf(o.streams.Err, "%s: %s\n", name, wrong)
	}
	text, err := merged(b)
	if err != nil {
		return err
	}
	info, err := os.Stat(output)
	if strings.HasSuffix(output, "/") || strings.HasSuffix(output, string(filepath.Separator)) || err == nil && info.IsDir() {
		return o.extractAll(b, text, output)
	}
	if output == "" {
		_, err := o.streams.Out.Write(text)
		return err
	}
	if err := whole.Write(whole.File{Path: output, Data: text}); err != nil {
		return err
	}
	fmt.Fprintln(o.streams.Out, output)
	return nil
}

// merged is the manifest for people: the file as it was written if it is all that there is, else what came of the merging.
func merged(b *record.Book) ([]byte, error) {
	if len(b.Sources) == 1 {
		if m, err := b.Load(b.Sources[0].Name); err == nil && bytes.Equal(m.JSON(), b.Manifest) {
			return b.Sources[0].Data, nil
		}
	}
	var text bytes.Buffer
	if err := json.Indent(&text, b.Manifest, "", "  "); err != nil {
		return nil, fmt.Errorf("the manifest inside is no JSON: %w", err)
	}
	text.WriteByte('\n')
	return text.Bytes(), nil
}

// extractAll writes everything that rides inside into a folder, under the names that the files had.
func (o *options) extractAll(b *record.Book, text []byte, dir string) error {
	files := []whole.File{{Path: doc.ManifestName, Data: text}}
	if b.Report != nil {
		files = append(files, whole.File{Path: record.Report, Data: append(b.Report, '\n')})
	}
	for i, s := range b.Sources {
		name := safe(s.Name, fmt.Sprintf("source-%d.json", i+1))
		files = append(files, whole.File{Path: name, Data: s.Data})
		if s.Signature != nil {
			files = append(files, whole.File{Path: name + signatureSuffix, Data: s.Signature})
		}
	}
	for i, p := range b.Packs {
		files = append(files, whole.File{Path: safe(p.Name, fmt.Sprintf("rules-%d.json", i+1)), Data: p.JSON})
	}
	seen := map[string]bool{}
	for i, f := range files {
		for seen[strings.ToLower(files[i].Path)] {
			files[i].Path = "other-" + files[i].Path
		}
		seen[strings.ToLower(files[i].Path)] = true
		files[i].Path = filepath.Join(dir, files[i].Path)
		if old, err := os.ReadFile(files[i].Path); err == nil && !bytes.Equal(old, f.Data) {
			return fmt.Errorf("%s is there already; name another folder", files[i].Path)
		}
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
	return nil
}

// safe is the name of a file from inside a book, or another one where that name could lead out of the folder: a book may come from anybody.
func safe(name, otherwise string) string {
	name = strings.TrimPrefix(manifest.FileName(name), demoPrefix)
	if !filepath.IsLocal(name) || strings.HasPrefix(name, ".") || name == "" {
		return otherwise
	}
	for _, r := range name {
		if !unicode.IsGraphic(r) || strings.ContainsRune(`<>:"|?*`, r) {
			return otherwise
		}
	}
	if filepath.Ext(name) == "" {
		name += ".json"
	}
	return name
}
