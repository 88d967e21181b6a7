package sshsig

import (
	"errors"
	"fmt"
	"net"
	"os"

	"golang.org/x/crypto/ssh"
	"golang.org/x/crypto/ssh/agent"
)

// OpenKey opens a key to sign with: a private key, or a public one whose private half an agent holds. A private key under a passphrase
// goes to the agent too: this program never asks for a passphrase, so it can never lose one.
func OpenKey(name string, data []byte) (ssh.Signer, error) {
	if public, _, _, _, err := ssh.ParseAuthorizedKey(data); err == nil {
		return fromAgent(name, public)
	}
	signer, err := ssh.ParsePrivateKey(data)
	var locked *ssh.PassphraseMissingError
	if errors.As(err, &locked) {
		if locked.PublicKey != nil {
			if signer, err := fromAgent(name, locked.PublicKey); err == nil {
				return signer, nil
			}
		}
		return nil, fmt.Errorf("%s is locked by a passphrase; load it into your agent with ssh-add, and try again", name)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: this is no SSH key that can sign: %w", name, err)
	}
	return signer, nil
}

// fromAgent finds a key in the agent of the user.
func fromAgent(name string, public ssh.PublicKey) (ssh.Signer, error) {
	socket := os.Getenv("SSH_AUTH_SOCK")
	if socket == "" {
		return nil, fmt.Errorf("%s is a public key and no agent runs; name the private key, or start ssh-agent", name)
	}
	connection, err := net.Dial("unix", socket)
	if err != nil {
		return nil, fmt.Errorf("the agent does not answer: %w", err)
	}
	signers, err := agent.NewClient(connection).Signers()
	if err != nil {
		return nil, fmt.Errorf("the agent does not answer: %w", err)
	}
	for _, s := range signers {
		if same(s.PublicKey(), public) {
			return s, nil
		}
	}
	return nil, fmt.Errorf("the agent does not hold %s; load it with ssh-add", name)
}
