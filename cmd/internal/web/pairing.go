package web

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"errors"
	"fmt"
	"math/big"
	"net/http"
	"strings"
	"sync"
	"time"
)

// A Pairing lets phones in by a code that is shown in the terminal. Wrong codes cost the caller time, twice as much each
// time; all callers together have so many tries, and then there is another code.
type Pairing struct {
	Show func(code string) // prints a code

	now    func() time.Time
	mu     sync.Mutex
	code   string
	wrong  int
	slow   map[string]penalty
	paired map[[sha256.Size]byte]bool
}

type penalty struct {
	times int
	until time.Time
}

const (
	codeDigits  = 8
	wrongBefore = 20 // tries, before there is another code
	mostPaired  = 100
	longest     = time.Minute
	cookie      = "hoistbook-walk"
)

var errFull = errors.New("too many phones are paired; start the program again to let others in")

// NewPairing makes a code and shows it.
func NewPairing(now func() time.Time, show func(code string)) (*Pairing, error) {
	p := &Pairing{Show: show, now: now, slow: map[string]penalty{}, paired: map[[sha256.Size]byte]bool{}}
	return p, p.renew()
}

func (p *Pairing) renew() error {
	n, err := rand.Int(rand.Reader, big.NewInt(1e8))
	if err != nil {
		return err
	}
	p.code = fmt.Sprintf("%0*d", codeDigits, n)
	p.wrong = 0
	p.Show(p.shown())
	return nil
}

func (p *Pairing) shown() string { return p.code[:codeDigits/2] + " " + p.code[codeDigits/2:] }

// Code is the code that lets phones in now.
func (p *Pairing) Code() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.shown()
}

// try takes a code. It returns the token of a phone that is now paired, or how long the caller must wait, or neither when the
// code is wrong.
func (p *Pairing) try(address, code string) (token string, wait time.Duration, err error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	now := p.now()
	slow := p.slow[address]
	if now.Before(slow.until) {
		return "", slow.until.Sub(now), nil
	}
	digits := strings.NewReplacer(" ", "", "-", "").Replace(code)
	want, got := sha256.Sum256([]byte(p.code)), sha256.Sum256([]byte(digits))
	if subtle.ConstantTimeCompare(want[:], got[:]) != 1 {
		if len(p.slow) >= mostCallers {
			clear(p.slow)
		}
		slow.times++
		slow.until = now.Add(min(time.Second<<min(slow.times, 10), longest))
		p.slow[address] = slow
		if p.wrong++; p.wrong >= wrongBefore {
			err = p.renew()
		}
		return "", 0, err
	}
	if len(p.paired) >= mostPaired {
		return "", 0, errFull
	}
	delete(p.slow, address)
	token = rand.Text() + rand.Text()
	p.paired[sha256.Sum256([]byte(token))] = true
	return token, 0, nil
}

// knows reports whether a request comes from a paired phone, and names the phone. Tokens are found by their hash, so that how
// long it takes tells nothing about any of them.
func (p *Pairing) knows(r *http.Request) (name string, ok bool) {
	c, err := r.Cookie(cookie)
	if err != nil {
		return "", false
	}
	sum := sha256.Sum256([]byte(c.Value))
	p.mu.Lock()
	defer p.mu.Unlock()
	return "phone " + string(sum[:]), p.paired[sum]
}

func (s *Server) paired(next http.HandlerFunc) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if s.Pairing != nil {
			if _, ok := s.Pairing.knows(r); !ok {
				say(w, http.StatusUnauthorized, problem{What: "this phone is not paired", Fix: "write the code that the terminal shows"})
				return
			}
		}
		next(w, r)
	})
}

func (s *Server) pair(w http.ResponseWriter, r *http.Request) {
	var asked struct {
		Code string `json:"code"`
	}
	if s.Pairing == nil || !decode(w, r, &asked) {
		if s.Pairing == nil {
			say(w, http.StatusNotFound, problem{What: "there is nothing to pair"})
		}
		return
	}
	token, wait, err := s.Pairing.try(address(r), asked.Code)
	switch {
	case err != nil:
		say(w, http.StatusServiceUnavailable, problem{What: err.Error()})
	case wait > 0:
		seconds := int(wait.Seconds()) + 1
		w.Header().Set("Retry-After", fmt.Sprint(seconds))
		say(w, http.StatusTooManyRequests, problem{What: "too soon after a wrong code", Fix: fmt.Sprintf("wait %d s", seconds)})
	case token == "":
		say(w, http.StatusForbidden, problem{What: "that is not the code", Fix: "look at the terminal: it may be another one now"})
	default:
		http.SetCookie(w, &http.Cookie{Name: cookie, Value: token, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
		say(w, http.StatusOK, struct{}{})
	}
}
