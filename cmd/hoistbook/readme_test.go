package main

import (
	"crypto/ed25519"
	"encoding/pem"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"golang.org/x/crypto/ssh"
)

// guide is the section of README.md whose commands are tried.
var guide = regexp.MustCompile(`(?s)\n## From your prototype to a shared kit\n(.*?)\n## `)

// Every command of the guide works as it is printed, one after the other, for somebody who has a key and a file of signers.
func TestGuideInReadme(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("the guide is written for a shell of Unix")
	}
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	section := guide.FindSubmatch(readme)
	if section == nil {
		t.Fatal("README.md has no guide")
	}
	script, count := "", 0
	for _, line := range strings.Split(string(section[1]), "\n") {
		if command, ok := strings.CutPrefix(line, "    "); ok {
			script += "exec sh -c '" + strings.ReplaceAll(command, "'", "''") + "'\n"
			count++
		}
	}
	if count < 12 {
		t.Fatalf("the guide has only %d commands", count)
	}
	script += "exists our-book/book.pdf their-book/preflight.pdf their-relay/kit.json.sig change-sheet.pdf our-relay/as-built-0001.json\n"
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "guide.txt"), []byte(script), 0o600); err != nil {
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
