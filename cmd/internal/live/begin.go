package live

import (
	"errors"
	"fmt"
	"time"

	"hoistbook/cmd/internal/logbook"
	"hoistbook/render/walk"
)

// Open begins a walk-through, or goes on with the one whose record is at path; an empty path keeps no record. The kit is
// asked for only when a new record begins. Notes say what a crew should know of a record that was gone on with.
func Open(path, list string, kit func() (*walk.Kit, error), resume func(*walk.Opening) (*walk.Kit, error), now func() time.Time) (*Session, []string, error) {
	if path == "" {
		k, err := kit()
		if err != nil {
			return nil, nil, err
		}
		state, _, err := walk.Start(k, list, now())
		return New(state, nil, now), nil, err
	}
	book, record, err := logbook.Open(path)
	if err != nil {
		return nil, nil, err
	}
	var s *Session
	var notes []string
	if len(record.Entries) == 0 {
		s, err = begin(book, list, kit, now)
	} else {
		s, notes, err = goOn(book, record, list, resume, now)
	}
	if err != nil {
		return nil, nil, errors.Join(err, book.Close())
	}
	return s, notes, nil
}

func begin(book *logbook.Book, list string, kit func() (*walk.Kit, error), now func() time.Time) (*Session, error) {
	k, err := kit()
	if err != nil {
		return nil, err
	}
	state, e, err := walk.Start(k, list, now())
	if err != nil {
		return nil, err
	}
	return New(state, book, now), book.Append(e)
}

func goOn(book *logbook.Book, record *walk.Record, list string, resume func(*walk.Opening) (*walk.Kit, error), now func() time.Time) (*Session, []string, error) {
	k, err := resume(record.Entries[0].Opening)
	if err != nil {
		return nil, nil, err
	}
	state, notes, err := walk.Again(k, record.Entries)
	if err != nil {
		return nil, nil, err
	}
	s := New(state, book, now)
	if list != walk.Recovery && state.List == walk.Recovery {
		return nil, nil, errors.New("this record is on the way home already; walk recovery goes on with it")
	}
	if state.Closed() {
		return s, append(notes, "this record is closed"), nil
	}
	text := ""
	if record.Torn > 0 {
		text = fmt.Sprintf("a line that was not finished was cut off (%d bytes)", record.Torn)
		notes = append(notes, text+"; answer again what you answered last")
	}
	if _, err = s.Do(walk.Input{Do: walk.Resume, Text: text}); err != nil {
		return nil, nil, err
	}
	switch {
	case list == walk.Recovery && state.List != walk.Recovery:
		_, err = s.Do(walk.Input{Do: walk.Recover, Who: state.Leader()})
	case list == walk.Change && state.List == walk.Preflight:
		_, err = s.Do(walk.Input{Do: walk.Swap, Who: state.Leader()})
	}
	return s, notes, err
}

// Close gives the record's file back.
func (s *Session) Close() error {
	if s.book == nil {
		return nil
	}
	return s.book.Close()
}
