package sshsig

import (
	"bytes"
	"errors"
	"fmt"
	"path"
	"strings"
	"time"

	"golang.org/x/crypto/ssh"

	"hoistbook/kits/diag"
)

// Signers are the keys of people whose signatures count, as a file of allowed signers lists them (ssh-keygen(1)).
type Signers []signer

// A signer is one line.
type signer struct {
	principals    string // patterns
	key           ssh.PublicKey
	authority     bool   // the key signs certificates
	namespaces    string // patterns; empty is any
	after, before time.Time
}

// ReadSigners reads a file of allowed signers. Times without a Z are in the given location. The error is diag.Problems: every line that
// cannot be read.
func ReadSigners(name string, data []byte, local *time.Location) (Signers, error) {
	var all Signers
	var problems diag.Problems
	for i, line := range strings.Split(string(data), "\n") {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		s, err := readSigner(line, local)
		if err != nil {
			problems.Add(diag.Place{File: name, Line: i + 1, Col: 1}, err.Error(), `a line has names, options and a public key: ann@club.example ssh-ed25519 AAAA…`)
			continue
		}
		all = append(all, s)
	}
	return all, problems.Err()
}

func readSigner(line string, local *time.Location) (s signer, err error) {
	var rest string
	if s.principals, rest, err = word(line); err != nil {
		return s, err
	}
	if s.principals == "" || rest == "" {
		return s, errors.New("the line names no key")
	}
	if s.key, err = publicKey(rest); err == nil {
		return s, nil
	}
	options, rest := unquotedSpace(rest)
	if s.key, err = publicKey(rest); err != nil {
		return s, errors.New("the line has no public key that can be read")
	}
	return s, s.options(options, local)
}

// word takes the first word, which may stand in quotation marks.
func word(line string) (first, rest string, err error) {
	if quoted, ok := strings.CutPrefix(line, `"`); ok {
		first, rest, ok = strings.Cut(quoted, `"`)
		if !ok {
			return "", "", errors.New("a quotation mark is not closed")
		}
		return first, strings.TrimLeft(rest, " \t"), nil
	}
	i := strings.IndexAny(line, " \t")
	if i < 0 {
		return line, "", nil
	}
	return line[:i], strings.TrimLeft(line[i:], " \t"), nil
}

// unquotedSpace parts a line at the first white space outside quotation marks.
func unquotedSpace(line string) (head, tail string) {
	quoted := false
	for i, c := range line {
		switch {
		case c == '"':
			quoted = !quoted
		case (c == ' ' || c == '\t') && !quoted:
			return line[:i], strings.TrimLeft(line[i:], " \t")
		}
	}
	return line, ""
}

// publicKey reads a type and a key in base64; what follows is a comment.
func publicKey(text string) (ssh.PublicKey, error) {
	kind, _, _ := strings.Cut(text, " ")
	key, _, options, rest, err := ssh.ParseAuthorizedKey([]byte(text))
	if err != nil || len(options) > 0 || len(bytes.TrimSpace(rest)) > 0 || key.Type() != kind {
		return nil, errors.New("no public key")
	}
	return key, nil
}

// options reads cert-authority, namespaces, valid-after and valid-before. Any other is an error: a condition that nobody checks must
// not look as if it were met.
func (s *signer) options(text string, local *time.Location) (err error) {
	for text != "" {
		option := text
		quoted := false
		for i, c := range text {
			if c == '"' {
				quoted = !quoted
			}
			if c == ',' && !quoted {
				option = text[:i]
				break
			}
		}
		text = strings.TrimPrefix(text[len(option):], ",")
		key, value, _ := strings.Cut(option, "=")
		value = strings.TrimSuffix(strings.TrimPrefix(value, `"`), `"`)
		switch strings.ToLower(key) {
		case "cert-authority":
			s.authority = true
		case "namespaces":
			s.namespaces = value
		case "valid-after":
			s.after, err = when(value, local)
		case "valid-before":
			s.before, err = when(value, local)
		default:
			return fmt.Errorf("there is no option %q", key)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// when reads YYYYMMDD, YYYYMMDDHHMM or YYYYMMDDHHMMSS, in UTC with a Z at the end.
func when(text string, local *time.Location) (time.Time, error) {
	digits, utc := strings.CutSuffix(text, "Z")
	if utc {
		local = time.UTC
	}
	layouts := map[int]string{8: "20060102", 12: "200601021504", 14: "20060102150405"}
	t, err := time.ParseInLocation(layouts[len(digits)], digits, local)
	if layouts[len(digits)] == "" || err != nil {
		return t, fmt.Errorf("%q is no time; write YYYYMMDD or YYYYMMDDHHMMSS, with a Z for UTC", text)
	}
	return t, nil
}

// Whose names the signers to whom the key of a signature belongs, for kits and at a time; principal, if it is not empty, must be one of them.
// The error says why nobody does.
func (all Signers) Whose(s *Signature, principal string, now time.Time) (names string, err error) {
	err = errors.New("nobody in the file of signers has this key")
	for _, line := range all {
		if principal != "" && !matches(line.principals, principal) {
			continue
		}
		if why := line.owns(s, principal, now); why != nil {
			if !errors.Is(why, errOther) {
				err = why
			}
			continue
		}
		if principal != "" {
			return principal, nil
		}
		return line.principals, nil
	}
	return "", err
}

var errOther = errors.New("the line is about another key")

// owns reports whether a line is about the key of a signature, and lets it sign kits now.
func (line signer) owns(s *Signature, principal string, now time.Time) error {
	cert, certified := s.Key.(*ssh.Certificate)
	switch {
	case line.authority && certified && same(line.key, cert.SignatureKey):
		if err := certifies(cert, line.principals, principal, now); err != nil {
			return err
		}
	case line.authority || !same(line.key, s.Key):
		return errOther
	}
	switch {
	case line.namespaces != "" && !matches(line.namespaces, Namespace):
		return fmt.Errorf("the key of %s may not sign kits (%s)", line.principals, Namespace)
	case !line.after.IsZero() && now.Before(line.after):
		return fmt.Errorf("the key of %s is valid only after %s", line.principals, line.after.UTC().Format(time.RFC3339))
	case !line.before.IsZero() && !now.Before(line.before):
		return fmt.Errorf("the key of %s was valid only before %s", line.principals, line.before.UTC().Format(time.RFC3339))
	}
	return nil
}

func same(a, b ssh.PublicKey) bool { return bytes.Equal(a.Marshal(), b.Marshal()) }

// certifies checks a certificate: its signature, its time, and that it names someone for whom the authority may speak.
func certifies(cert *ssh.Certificate, patterns, principal string, now time.Time) error {
	if cert.CertType != ssh.UserCert {
		return errors.New("the certificate is not one of a person")
	}
	checker := ssh.CertChecker{Clock: func() time.Time { return now }}
	for _, name := range cert.ValidPrincipals {
		if principal != "" && name != principal || !matches(patterns, name) {
			continue
		}
		if err := checker.CheckCert(name, cert); err != nil {
			return fmt.Errorf("the certificate is not valid: %w", err)
		}
		return nil
	}
	return errors.New("the certificate names nobody for whom its authority may speak")
}

// matches holds a name against a list of patterns with commas between (ssh_config(5), PATTERNS): one that begins with ! forbids.
func matches(patterns, name string) bool {
	found := false
	for pattern := range strings.SplitSeq(patterns, ",") {
		pattern, forbids := strings.CutPrefix(strings.TrimSpace(pattern), "!")
		if !match(pattern, name) {
			continue
		}
		if forbids {
			return false
		}
		found = true
	}
	return found
}

// match knows * and ?, and nothing else that path.Match knows.
func match(pattern, name string) bool {
	quoted := strings.NewReplacer(`\`, `\\`, "[", `\[`, "]", `\]`, "/", "\x00").Replace(pattern)
	ok, err := path.Match(quoted, strings.ReplaceAll(name, "/", "\x00"))
	return ok && err == nil
}
