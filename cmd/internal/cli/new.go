package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/starter"
	"hoistbook/cmd/internal/whole"
	"hoistbook/kits"
)

func newCommand(o *options) *cobra.Command {
	var from string
	c := &cobra.Command{
		Use:   "new DIR",
		Short: "Write a starter folder: manifest, overlay, rule pack, schemas",
		Long: `New makes the folder DIR with a manifest that flies, an overlay for your own site and prices, a rule pack of your
own, and the schemas with which an editor completes them. A folder that has something in it is left alone.`,
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error { return o.start(args[0], from) },
	}
	c.Flags().StringVar(&from, "from", kits.FirstDemo, "start from this demonstration `KIT`: "+strings.Join(kits.Demos(), ", "))
	return c
}

func (o *options) start(dir, from string) error {
	entries, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	if len(entries) > 0 {
		return fmt.Errorf("%s has something in it already; name a new folder", dir)
	}
	files, err := starter.Files(dir, strings.TrimPrefix(from, demoPrefix))
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
