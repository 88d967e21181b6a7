package sshsig

import (
	"bytes"
	"crypto/ed25519"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"golang.org/x/crypto/ssh"
	"pgregory.net/rapid"
)

// keygen runs ssh-keygen of OpenSSH, the general tool for this format. Without it the test is skipped, but not where changes are judged.
func keygen(t *testing.T, stdin []byte, args ...string) ([]byte, error) {
	t.Helper()
	path, err := exec.LookPath("ssh-keygen")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("ssh-keygen is not installed (Debian: openssh-client)")
		}
		t.Skip("ssh-keygen is not installed (Debian: openssh-client)")
	}
	cmd := exec.Command(path, args...)
	cmd.Stdin = bytes.NewReader(stdin)
	return cmd.CombinedOutput()
}

func mustKeygen(t *testing.T, stdin []byte, args ...string) {
	t.Helper()
	if out, err := keygen(t, stdin, args...); err != nil {
		t.Fatalf("ssh-keygen %q: %v\n%s", args, err, out)
	}
}

func write(t *testing.T, path string, data []byte) string {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func read(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

var message = []byte("{\"format\": \"hoistbook-manifest/1\"}\n")

// What is signed here, ssh-keygen verifies, and what ssh-keygen signs is verified here; a changed byte is told by both.
func TestAgainstOpenSSH(t *testing.T) {
	for _, kind := range [][]string{{"ed25519"}, {"ecdsa", "-b", "256"}, {"ecdsa", "-b", "384"}, {"ecdsa", "-b", "521"}, {"rsa", "-b", "3072"}} {
		t.Run(strings.Join(kind, ""), func(t *testing.T) {
			dir := t.TempDir()
			key := filepath.Join(dir, "key")
			mustKeygen(t, nil, append([]string{"-q", "-N", "", "-C", "ann@club.example", "-f", key, "-t"}, kind...)...)
			allowed := write(t, filepath.Join(dir, "allowed"), append([]byte("ann@club.example namespaces=\""+Namespace+"\" "), read(t, key+".pub")...))
			signer, err := OpenKey("key", read(t, key))
			if err != nil {
				t.Fatal(err)
			}
			ours, err := Sign(signer, message)
			if err != nil {
				t.Fatal(err)
			}
			signature := write(t, filepath.Join(dir, "ours.sig"), ours)
			verify := []string{"-Y", "verify", "-f", allowed, "-I", "ann@club.example", "-n", Namespace, "-s", signature}
			mustKeygen(t, message, verify...)
			if out, err := keygen(t, append([]byte(" "), message...), verify...); err == nil {
				t.Errorf("ssh-keygen verifies another message: %s", out)
			}

			file := write(t, filepath.Join(dir, "kit.json"), message)
			for _, hash := range []string{"sha256", "sha512"} {
				os.Remove(file + ".sig")
				mustKeygen(t, nil, "-Y", "sign", "-q", "-f", key, "-n", Namespace, "-O", "hashalg="+hash, file)
				theirs, err := Parse(read(t, file+".sig"))
				if err != nil {
					t.Fatal(err)
				}
				if err := theirs.Verify(message); err != nil {
					t.Errorf("%s: a signature of ssh-keygen: %v", hash, err)
				}
				if err := theirs.Verify(append([]byte(" "), message...)); !errors.Is(err, ErrAltered) {
					t.Errorf("%s: another message: got %v, want ErrAltered", hash, err)
				}
				signers, err := ReadSigners("allowed", read(t, allowed), time.UTC)
				if err != nil {
					t.Fatal(err)
				}
				if name, err := signers.Whose(theirs, "", time.Now()); name != "ann@club.example" || err != nil {
					t.Errorf("%s: signed by %q, %v", hash, name, err)
				}
			}
		})
	}
}

// Every way of the file of signers to say no is one that ssh-keygen says no to as well, and the other way round.
func TestSignersAgainstOpenSSH(t *testing.T) {
	dir := t.TempDir()
	key, authority := filepath.Join(dir, "key"), filepath.Join(dir, "authority")
	for _, name := range []string{key, authority} {
		mustKeygen(t, nil, "-q", "-N", "", "-t", "ed25519", "-f", name)
	}
	mustKeygen(t, nil, "-q", "-s", authority, "-I", "ann", "-n", "ann@club.example,bob@club.example", "-V", "-1d:+1d", key+".pub")
	file := write(t, filepath.Join(dir, "kit.json"), message)
	mustKeygen(t, nil, "-Y", "sign", "-q", "-f", key, "-n", Namespace, file)
	plain := read(t, file+".sig")
	os.Remove(file + ".sig")
	mustKeygen(t, nil, "-Y", "sign", "-q", "-f", key+"-cert.pub", "-n", Namespace, file)
	certified := read(t, file+".sig")
	public, root := string(read(t, key+".pub")), string(read(t, authority+".pub"))
	const ann = "ann@club.example"
	for name, c := range map[string]struct {
		signature []byte
		allowed   string
		want      bool
	}{
		"her key":              {plain, ann + " " + public, true},
		"a comment, a blank":   {plain, "# our club\n\n" + ann + " " + public, true},
		"a pattern":            {plain, "*@club.example " + public, true},
		"a pattern with ?":     {plain, "a?n@club.example " + public, true},
		"several names":        {plain, "bob@club.example,ann@club.example " + public, true},
		"in quotation marks":   {plain, "\"ann@club.example,x y\" " + public, true},
		"but not she":          {plain, "*@club.example,!ann@club.example " + public, false},
		"another name":         {plain, "bob@club.example " + public, false},
		"another key":          {plain, ann + " " + root, false},
		"kits among others":    {plain, ann + " namespaces=\"file,kit@*\" " + public, true},
		"only for files":       {plain, ann + " namespaces=\"file\" " + public, false},
		"valid":                {plain, ann + " valid-after=\"20200101\",valid-before=\"20990101000000Z\" " + public, true},
		"not yet":              {plain, ann + " valid-after=\"20990101\" " + public, false},
		"no longer":            {plain, ann + " valid-before=\"202001010000\" " + public, false},
		"an unknown option":    {plain, ann + " only-on-sundays " + public, false},
		"no key":               {plain, ann + " ssh-ed25519 AAAA", false},
		"a key for signing":    {plain, ann + " cert-authority " + public, false},
		"a certificate":        {certified, "*@club.example cert-authority " + root, true},
		"of others":            {certified, "*@marsh.example cert-authority " + root, false},
		"of another authority": {certified, "*@club.example cert-authority " + public, false},
		"no authority":         {certified, "*@club.example " + root, false},
		"the second line":      {plain, ann + " " + root + ann + " " + public, true},
	} {
		allowed := write(t, filepath.Join(dir, "allowed"), []byte(c.allowed))
		signature := write(t, filepath.Join(dir, "sig"), c.signature)
		out, theirs := keygen(t, message, "-Y", "verify", "-f", allowed, "-I", ann, "-n", Namespace, "-s", signature)
		signers, err := ReadSigners("allowed", []byte(c.allowed), time.Local)
		ours := err
		if err == nil {
			s, err := Parse(c.signature)
			if err != nil {
				t.Fatal(err)
			}
			if ours = s.Verify(message); ours == nil {
				_, ours = signers.Whose(s, ann, time.Now())
			}
		}
		if (ours == nil) != c.want || (theirs == nil) != c.want {
			t.Errorf("%s: here %v, ssh-keygen %v (%s), want it to pass: %v", name, ours, theirs, bytes.TrimSpace(out), c.want)
		}
	}
}

func TestSignaturesForOtherPurposes(t *testing.T) {
	dir := t.TempDir()
	key := filepath.Join(dir, "key")
	mustKeygen(t, nil, "-q", "-N", "", "-t", "ed25519", "-f", key)
	file := write(t, filepath.Join(dir, "mail"), message)
	mustKeygen(t, nil, "-Y", "sign", "-q", "-f", key, "-n", "email", file)
	s, err := Parse(read(t, file+".sig"))
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Verify(message); err == nil || !strings.Contains(err.Error(), `signed as "email"`) {
		t.Errorf("got %v", err)
	}
}

func TestKeysUnderAPassphraseGoToTheAgent(t *testing.T) {
	dir := t.TempDir()
	key := filepath.Join(dir, "key")
	mustKeygen(t, nil, "-q", "-N", "a passphrase", "-t", "ed25519", "-f", key)
	t.Setenv("SSH_AUTH_SOCK", "")
	for _, name := range []string{key, key + ".pub"} {
		if _, err := OpenKey(name, read(t, name)); err == nil || !strings.Contains(err.Error(), "agent") {
			t.Errorf("%s: got %v", name, err)
		}
	}
	if _, err := OpenKey("x", []byte("nonsense")); err == nil || !strings.Contains(err.Error(), "no SSH key") {
		t.Errorf("got %v", err)
	}
}

func TestSigningThroughAnAgent(t *testing.T) {
	path, err := exec.LookPath("ssh-agent")
	if err != nil {
		t.Skip("ssh-agent is not installed")
	}
	dir := t.TempDir()
	key, socket := filepath.Join(dir, "key"), filepath.Join(dir, "agent")
	mustKeygen(t, nil, "-q", "-N", "", "-t", "rsa", "-b", "3072", "-f", key)
	agent := exec.Command(path, "-D", "-a", socket)
	if err := agent.Start(); err != nil {
		t.Fatal(err)
	}
	defer func() { _ = agent.Process.Kill(); _ = agent.Wait() }()
	for range 100 {
		if _, err := os.Stat(socket); err == nil {
			break
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Setenv("SSH_AUTH_SOCK", socket)
	if out, err := exec.Command("ssh-add", "-q", key).CombinedOutput(); err != nil {
		t.Fatalf("ssh-add: %v\n%s", err, out)
	}
	signer, err := OpenKey("key.pub", read(t, key+".pub"))
	if err != nil {
		t.Fatal(err)
	}
	armoured, err := Sign(signer, message)
	if err != nil {
		t.Fatal(err)
	}
	s, err := Parse(armoured)
	if err != nil || s.Verify(message) != nil {
		t.Errorf("a signature of the agent: %v", err)
	}
}

// No bit of a signature or of a message can be turned without being noticed.
func TestNothingCanBeTurned(t *testing.T) {
	_, private, err := ed25519.GenerateKey(nil)
	if err != nil {
		t.Fatal(err)
	}
	signer, err := ssh.NewSignerFromKey(private)
	if err != nil {
		t.Fatal(err)
	}
	armoured, err := Sign(signer, message)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := Parse(armoured)
	if err != nil || whole.Verify(message) != nil {
		t.Fatal(err)
	}
	rapid.Check(t, func(t *rapid.T) {
		changed, bad := bytes.Clone(message), bytes.Clone(armoured)
		if rapid.Bool().Draw(t, "message") {
			changed[rapid.IntRange(0, len(changed)-1).Draw(t, "at")] ^= 1 << rapid.IntRange(0, 7).Draw(t, "bit")
		} else {
			i := rapid.IntRange(len(begin)+1, len(bad)-len(end)-3).Draw(t, "at")
			bad[i] = rapid.SampledFrom([]byte("ABCxyz019+/=\n")).Draw(t, "to")
		}
		s, err := Parse(bad)
		if err == nil && s.Verify(changed) == nil && (!bytes.Equal(changed, message) || !same(s.Key, signer.PublicKey())) {
			t.Fatalf("%q is verified", changed)
		}
	})
}

func FuzzParse(f *testing.F) {
	f.Add([]byte(begin + "\nU1NIU0lH\n" + end))
	f.Fuzz(func(t *testing.T, data []byte) {
		if s, err := Parse(data); err == nil {
			_ = s.Verify(message)
			_ = s.Fingerprint()
		}
	})
}

func FuzzReadSigners(f *testing.F) {
	f.Add("ann@club.example namespaces=\"file\",valid-after=\"20200101\" ssh-ed25519 AAAA")
	f.Add("\"a b\" cert-authority ssh-rsa AAAA")
	f.Fuzz(func(t *testing.T, text string) { _, _ = ReadSigners("signers", []byte(text), time.UTC) })
}
