// Package live runs one walk-through for all its faces: the terminal and every phone give their inputs here, one after the
// other, and are told when something has changed. An input counts when it is on the disk, and not before.
package live

import (
	"sync"
	"time"

	"hoistbook/cmd/internal/logbook"
	"hoistbook/render/walk"
)

// A Session is a walk-through that is going on.
type Session struct {
	now func() time.Time

	mu      sync.Mutex
	state   walk.State
	book    *logbook.Book // nil: nothing is kept
	changed chan struct{} // closed at the next change
}

// Shown is a view with the end of the record's chain, for crews that write it down.
type Shown struct {
	walk.View
	Check string `json:"check,omitempty"`
}

// New goes on from a state whose entries are in the book.
func New(state walk.State, book *logbook.Book, now func() time.Time) *Session {
	return &Session{now: now, state: state, book: book, changed: make(chan struct{})}
}

// Do gives an input. The error is a *walk.Refusal, a *walk.Twice, or says why it could not be recorded; then nothing has changed.
func (s *Session) Do(in walk.Input) (walk.Entry, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	next, e, err := s.state.Next(in, s.now())
	if err != nil {
		return e, err
	}
	if s.book != nil {
		if err := s.book.Append(e); err != nil {
			return e, err
		}
	}
	s.state = next
	close(s.changed)
	s.changed = make(chan struct{})
	return e, nil
}

// View shows the state as it is now, and returns a channel that is closed when it is no longer so.
func (s *Session) View() (Shown, <-chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	shown := Shown{View: s.state.View(s.now())}
	if s.book != nil {
		shown.Check = s.book.Chain().Short()
	}
	return shown, s.changed
}

// State is the state as it is now.
func (s *Session) State() walk.State {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.state
}
