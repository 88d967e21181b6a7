package cli

import (
	"crypto/ed25519"
	"encoding/pem"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/crypto/ssh"
)

// ed25519Key writes a private key and a file of signers that names it.
func ed25519Key(t *testing.T, dir string) string {
	t.Helper()
	public, private, err := ed25519.GenerateKey(nil)
	if err != nil {
		t.Fatal(err)
	}
	block, err := ssh.MarshalPrivateKey(private, "ann")
	if err != nil {
		t.Fatal(err)
	}
	key := filepath.Join(dir, "key")
	if err := os.WriteFile(key, pem.EncodeToMemory(block), 0o600); err != nil {
		t.Fatal(err)
	}
	shared, err := ssh.NewPublicKey(public)
	if err != nil {
		t.Fatal(err)
	}
	line := append([]byte("ann@club.example "), ssh.MarshalAuthorizedKey(shared)...)
	if err := os.WriteFile(filepath.Join(dir, "signers"), line, 0o600); err != nil {
		t.Fatal(err)
	}
	return key
}
