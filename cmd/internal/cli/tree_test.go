package cli

import (
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"hoistbook/cmd/internal/terminal"
)

// every visits all commands.
func every(c *cobra.Command, visit func(*cobra.Command)) {
	visit(c)
	for _, inner := range c.Commands() {
		every(inner, visit)
	}
}

// Manual pages and help are made of the tree: every command says what it does, and every flag what it is for.
func TestEveryCommandExplainsItself(t *testing.T) {
	count := 0
	every(Tree(), func(c *cobra.Command) {
		count++
		if c.Short == "" || c.Long == "" || strings.HasSuffix(c.Short, ".") {
			t.Errorf("%s: short %q, long %q", c.CommandPath(), c.Short, c.Long)
		}
		for _, line := range strings.Split(c.Long+"\n"+c.UsageString(), "\n") {
			if len([]rune(line)) > terminal.Columns && c.Name() != "completion" && (!c.HasParent() || c.Parent().Name() != "completion") {
				t.Errorf("%s: a line of its help has %d characters", c.CommandPath(), len([]rune(line)))
			}
		}
		if c.HasParent() && c.Parent() == c.Root() && c.Name() != "help" && c.Name() != "completion" {
			if line := strings.TrimSpace(c.Example); !strings.HasPrefix(line, c.CommandPath()+" ") || strings.Contains(line, "\n") {
				t.Errorf("%s: no example that begins with it in one line: %q", c.CommandPath(), line)
			}
		}
		for _, line := range strings.Split(c.LocalFlags().FlagUsages(), "\n") {
			if fields := strings.Fields(line); len(fields) == 1 {
				t.Errorf("%s: %s says nothing", c.CommandPath(), line)
			}
		}
	})
	if count < 14 {
		t.Errorf("only %d commands", count)
	}
}

func TestVersion(t *testing.T) {
	status, out, _ := run(t, "--version")
	if status != Done || !strings.HasPrefix(out, "hoistbook ") || !strings.Contains(out, "go1.") || strings.Count(out, "\n") != 1 {
		t.Errorf("status %d, %q", status, out)
	}
}

func TestCompletion(t *testing.T) {
	for _, c := range []struct {
		line []string
		want string // a line of the answer
		rest string // the directive of the shell
	}{
		{[]string{"check", "d"}, "demo:fen-relay", ":4"},
		{[]string{"check", "demo:m"}, "demo:marsh-data", ":4"},
		{[]string{"check", "k"}, "json", ":8"},
		{[]string{"verify", ""}, "pdf", ":8"},
		{[]string{"compare", "demo:fen-relay", "demo:"}, "demo:ridge-sphere", ":4"},
		{[]string{"explain", "lift.gr"}, "lift.gross_kg", ":4"},
		{[]string{"explain", "demo:fen-relay", "cost.bud"}, "cost.budget", ":4"},
		{[]string{"check", "--units", ""}, "us", ":4"},
		{[]string{"book", "--lang", ""}, "de", ":4"},
		{[]string{"new", "--region", ""}, "uk", ":4"},
		{[]string{"new", "--from", "demo:"}, "demo:fen-relay", ":4"},
		{[]string{"schema", ""}, "overlay", ":4"},
		{[]string{"ver"}, "verify\tSay whether a book still tells the truth, and who signed it", ":4"},
	} {
		_, out, _ := run(t, append([]string{"__complete"}, c.line...)...)
		if !strings.Contains("\n"+out, "\n"+c.want+"\n") || !strings.Contains(out, "\n"+c.rest) {
			t.Errorf("%q: got %q, want %q and %s", c.line, out, c.want, c.rest)
		}
	}
	for _, shell := range []string{"bash", "zsh", "fish", "powershell"} {
		if status, out, _ := run(t, "completion", shell); status != Done || !strings.Contains(out, "hoistbook") {
			t.Errorf("%s: status %d", shell, status)
		}
	}
}
