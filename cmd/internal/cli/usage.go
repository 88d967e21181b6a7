package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hoistbook/kits/diag"
)

// wordArguments lets every command say what belongs on its line, in place of how many words it counted.
func wordArguments(c *cobra.Command) {
	ask := c.Args
	if ask == nil {
		return
	}
	c.Args = func(c *cobra.Command, args []string) error {
		if ask(c, args) == nil {
			return nil
		}
		return fmt.Errorf("%s; write: %s", counted(len(args)), c.UseLine())
	}
}

func counted(n int) string {
	switch n {
	case 0:
		return "something is missing"
	case 1:
		return "one word behind the command is not enough, or one too many"
	}
	return fmt.Sprintf("%d words behind the command are too many", n)
}

// ofParser is how Go's parsers of numbers word what they refuse.
var ofParser = regexp.MustCompile(`strconv\.\w+: parsing "[^"]*": (invalid syntax|value out of range)`)

// flagError words what is wrong with a flag.
func flagError(c *cobra.Command, err error) error {
	text := ofParser.ReplaceAllString(err.Error(), "a whole number belongs here, such as 12")
	if name, ok := strings.CutPrefix(text, "unknown flag: --"); ok {
		var known []string
		c.Flags().VisitAll(func(f *pflag.Flag) { known = append(known, f.Name) })
		return fmt.Errorf("there is no flag --%s; %s", name, diag.DidYouMean(name, known, "see "+c.CommandPath()+" --help"))
	}
	return errors.New(text)
}

// missingFlags is how cobra names flags that were not given.
var missingFlags = regexp.MustCompile(`^required flag\(s\) (.*) not set$`)

// worded says of an error what a person can do about it, where the system or a library only says what it could not do.
func worded(err error) string {
	text := err.Error()
	if found := missingFlags.FindStringSubmatch(text); found != nil {
		return "--" + strings.ReplaceAll(strings.ReplaceAll(found[1], `"`, ""), ", ", " and --") + " is missing; --help shows an example"
	}
	if command, ok := strings.CutPrefix(text, "unknown command "); ok {
		name, _, _ := strings.Cut(command, " for ")
		var known []string
		for _, c := range Tree().Commands() {
			known = append(known, c.Name())
		}
		return "there is no command " + name + "; " + diag.DidYouMean(strings.Trim(name, `"`), known, "hoistbook --help lists them")
	}
	var path *fs.PathError
	if !errors.As(err, &path) || text != path.Error() {
		return text
	}
	switch {
	case errors.Is(err, fs.ErrNotExist) && path.Op == "open":
		return absent(path.Path)
	case errors.Is(err, syscall.ENOTDIR) && path.Op == "open":
		return fmt.Sprintf("%s is a file, and a folder belongs here; name another one", filepath.Dir(path.Path))
	case errors.Is(err, syscall.ENOTDIR):
		return fmt.Sprintf("%s is a file, and a folder belongs here; name another one", path.Path)
	case errors.Is(err, syscall.EISDIR):
		return fmt.Sprintf("%s is a folder, and a file belongs here; name one in it", path.Path)
	}
	return text
}

// absent says of a file that is not there whether its folder is, and what in it has nearly its name.
func absent(path string) string {
	dir := filepath.Dir(path)
	entries, err := os.ReadDir(dir)
	if err != nil {
		return "there is no folder " + dir + "; make it first, or name another one"
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	if near := diag.Near(filepath.Base(path), names); len(near) > 0 {
		return fmt.Sprintf("there is no file %s; did you mean %q?", path, filepath.Join(dir, near[0]))
	}
	return "there is no file " + path + "; look at its name and its folder"
}
