// Package sshsig signs files with the keys that people already have for SSH, and verifies such signatures, in the format that
// OpenSSH publishes (PROTOCOL.sshsig): ssh-keygen -Y verify reads what is written here, and the other way round.
//
// A signature says that whoever holds a key has signed these bytes for this purpose (the namespace). Whose key it is, a file of allowed
// signers says (ssh-keygen(1), ALLOWED SIGNERS), which people exchange in another way than the signed files.
package sshsig

import (
	"bytes"
	"crypto/rand"
	"crypto/sha256"
	"crypto/sha512"
	"encoding/base64"
	"errors"
	"fmt"
	"strings"

	"golang.org/x/crypto/ssh"
)

// Namespace is the purpose for which kits are signed, in the form that OpenSSH asks of private ones: a signature that was made for
// mail or for a commit is none for a kit.
const Namespace = "kit@hoistbook.example"

const (
	magic   = "SSHSIG"
	version = 1
	begin   = "-----BEGIN SSH SIGNATURE-----"
	end     = "-----END SSH SIGNATURE-----"
	column  = 70 // characters of base64 in a line
)

// blob is a signature as it is encoded, behind the magic.
type blob struct {
	Version   uint32
	PublicKey []byte
	Namespace string
	Reserved  string
	Hash      string
	Signature []byte
}

// signed is what is really signed, behind the magic.
type signed struct {
	Namespace string
	Reserved  string
	Hash      string
	Digest    []byte
}

// A Signature is one that was read, not one that was verified.
type Signature struct {
	Key       ssh.PublicKey
	Namespace string
	hash      string
	reserved  string
	signature *ssh.Signature
}

// Fingerprint is the key's, as ssh-keygen prints it.
func (s *Signature) Fingerprint() string { return ssh.FingerprintSHA256(s.Key) }

// Sign signs a message and returns the signature in its armour. RSA keys sign with SHA-512: the older way with SHA-1 is not allowed.
func Sign(signer ssh.Signer, message []byte) ([]byte, error) {
	const hash = "sha512"
	data := toSign(Namespace, "", hash, message)
	var signature *ssh.Signature
	var err error
	if signer.PublicKey().Type() == ssh.KeyAlgoRSA {
		able, ok := signer.(ssh.AlgorithmSigner)
		if !ok {
			return nil, errors.New("this RSA key can only sign with SHA-1, which is not allowed")
		}
		signature, err = able.SignWithAlgorithm(rand.Reader, data, ssh.KeyAlgoRSASHA512)
	} else {
		signature, err = signer.Sign(rand.Reader, data)
	}
	if err != nil {
		return nil, err
	}
	return armour(append([]byte(magic), ssh.Marshal(blob{
		Version: version, PublicKey: signer.PublicKey().Marshal(), Namespace: Namespace, Hash: hash, Signature: ssh.Marshal(signature),
	})...)), nil
}

func toSign(namespace, reserved, hash string, message []byte) []byte {
	var digest []byte
	switch hash {
	case "sha256":
		sum := sha256.Sum256(message)
		digest = sum[:]
	case "sha512":
		sum := sha512.Sum512(message)
		digest = sum[:]
	}
	return append([]byte(magic), ssh.Marshal(signed{namespace, reserved, hash, digest})...)
}

func armour(data []byte) []byte {
	var b bytes.Buffer
	b.WriteString(begin + "\n")
	for text := base64.StdEncoding.EncodeToString(data); text != ""; {
		n := min(column, len(text))
		b.WriteString(text[:n] + "\n")
		text = text[n:]
	}
	b.WriteString(end + "\n")
	return b.Bytes()
}

// mostBytes bounds a signature: the longest that anybody makes has a few kilobytes.
const mostBytes = 1 << 16

// Parse reads a signature in its armour.
func Parse(armoured []byte) (*Signature, error) {
	text := strings.TrimSpace(string(armoured))
	inner, ok := strings.CutPrefix(text, begin)
	inner, ok2 := strings.CutSuffix(inner, end)
	if !ok || !ok2 || len(text) > mostBytes {
		return nil, errors.New("this is no SSH signature; it begins with \"" + begin + "\"")
	}
	data, err := base64.StdEncoding.DecodeString(strings.Join(strings.Fields(inner), ""))
	if err != nil {
		return nil, fmt.Errorf("the signature is damaged: %w", err)
	}
	data, ok = bytes.CutPrefix(data, []byte(magic))
	var b blob
	if !ok || ssh.Unmarshal(data, &b) != nil {
		return nil, errors.New("the signature is damaged")
	}
	if b.Version != version {
		return nil, fmt.Errorf("the signature has the version %d, and only %d is known", b.Version, version)
	}
	if b.Hash != "sha256" && b.Hash != "sha512" {
		return nil, fmt.Errorf("the signature hashes with %q; only sha256 and sha512 are allowed", b.Hash)
	}
	s := &Signature{Namespace: b.Namespace, hash: b.Hash, reserved: b.Reserved, signature: new(ssh.Signature)}
	if s.Key, err = ssh.ParsePublicKey(b.PublicKey); err != nil {
		return nil, fmt.Errorf("the key in the signature cannot be read: %w", err)
	}
	if err := ssh.Unmarshal(b.Signature, s.signature); err != nil {
		return nil, errors.New("the signature is damaged")
	}
	return s, nil
}

// ErrAltered says that a signature is not one of these bytes.
var ErrAltered = errors.New("the file is not the one that was signed")

// Verify reports whether the key in the signature signed these bytes for kits; it does not say whose key it is. An error that is
// ErrAltered means that the bytes are others, or the signature is.
func (s *Signature) Verify(message []byte) error {
	if s.Namespace != Namespace {
		return fmt.Errorf("it was signed as %q and not as a kit (%s)", s.Namespace, Namespace)
	}
	switch s.signature.Format {
	case ssh.KeyAlgoRSA, "ssh-dss": // SHA-1 both; OpenSSH no longer takes either
		return fmt.Errorf("the signature is made with %s, which is no longer allowed", s.signature.Format)
	}
	key := s.Key
	if cert, ok := key.(*ssh.Certificate); ok {
		key = cert.Key
	}
	if err := key.Verify(toSign(s.Namespace, s.reserved, s.hash, message), s.signature); err != nil {
		return ErrAltered
	}
	return nil
}
