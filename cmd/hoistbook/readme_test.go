package main

import (
	"crypto/ed25519"
	"encoding/pem"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"golang.org/x/crypto/ssh"
)

// What README.md prints in a block of its own and in its table are commands.
var (
	block = regexp.MustCompile(`(?m)^    (.*)$`)
	cell  = regexp.MustCompile("(?m)^\\| [^|]* \\| (`hoistbook .*`) \\|")
	ticks = regexp.MustCompile("`(hoistbook [^`]*)`")
	guide = regexp.MustCompile(`(?s)\n## From your prototype to a shared kit\n.*?\n## `)
)

// forDevelopers are the commands that build and test the program itself: they need its sources, and running the tests would run
// this one.
var forDevelopers = []string{"go install ./cmd/hoistbook", "go test ./..."}

// readmeCommands are those of the table, those of the guide, which makes the kit that others work on, and the rest.
func readmeCommands(readme string) []string {
	var commands []string
	add := func(found [][]string) {
		for _, f := range found {
			if command := strings.Replace(f[1], "go run ./cmd/hoistbook", "hoistbook", 1); !slices.Contains(forDevelopers, f[1]) {
				commands = append(commands, command)
			}
		}
	}
	for _, row := range cell.FindAllStringSubmatch(readme, -1) {
		add(ticks.FindAllStringSubmatch(row[1], -1))
	}
	add(block.FindAllStringSubmatch(guide.FindString(readme), -1))
	add(block.FindAllStringSubmatch(guide.ReplaceAllString(readme, ""), -1))
	return commands
}

// Every command of the README works as it is printed for somebody who has a kit with its overlay, rules and stock, a key, and a
// file of signers. Nobody answers the walk-through here: it may end without a launch, and is still understood.
func TestCommandsInReadme(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("the guide is written for a shell of Unix")
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	commands := readmeCommands(string(readme))
	if len(commands) < 28 {
		t.Fatalf("README.md has only %d commands: %q", len(commands), commands)
	}
	script := "exec hoistbook new start\nexec sh -c 'cp start/* . && printf \"reference,quantity\\nFUS1,3\\n\" > stock.csv'\n"
	for _, command := range commands {
		if strings.HasPrefix(command, "hoistbook walk") || strings.HasPrefix(command, "hoistbook record") {
			command += " || true"
		}
		script += "exec sh -c '" + strings.ReplaceAll(command, "'", "''") + "'\n! stderr 'write: hoistbook|there is no (flag|command)'\n"
	}
	script += "exists kit-book/book.pdf order.pdf order.xlsx our-book/book.pdf their-book/preflight.pdf their-relay/kit.json.sig change-sheet.pdf our-relay/as-built-0001.json\n"
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "readme.txt"), []byte(script), 0o600); err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{Dir: dir, RequireExplicitExec: true, Setup: func(env *testscript.Env) error {
		env.Setenv("HOME", env.WorkDir)
		return writeKey(env.WorkDir)
	}})
}

// writeKey makes a key where people have it, and a file of signers that names it.
func writeKey(home string) error {
	public, private, err := ed25519.GenerateKey(nil)
	if err != nil {
		return err
	}
	block, err := ssh.MarshalPrivateKey(private, "")
	if err != nil {
		return err
	}
	shared, err := ssh.NewPublicKey(public)
	if err != nil {
		return err
	}
	if err := os.Mkdir(filepath.Join(home, ".ssh"), 0o700); err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(home, ".ssh", "id_ed25519"), pem.EncodeToMemory(block), 0o600); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(home, "signers"), append([]byte("relay@our-club.example "), ssh.MarshalAuthorizedKey(shared)...), 0o600)
}
