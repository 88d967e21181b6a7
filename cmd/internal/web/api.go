package web

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"mime"
	"net/http"
	"syscall"
	"time"

	"hoistbook/render/walk"
)

// A problem is how an answer says that something was not taken.
type problem struct {
	What string `json:"what"`
	Fix  string `json:"fix,omitempty"`
}

func say(w http.ResponseWriter, status int, v any) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(v) // who asked has gone: there is nobody to tell
}

// decode reads a body of JSON strictly, and answers itself when it is none.
func decode(w http.ResponseWriter, r *http.Request, into any) bool {
	if kind, _, err := mime.ParseMediaType(r.Header.Get("Content-Type")); err != nil || kind != "application/json" {
		say(w, http.StatusUnsupportedMediaType, problem{What: "this is not JSON"})
		return false
	}
	d := json.NewDecoder(r.Body)
	d.DisallowUnknownFields()
	err := d.Decode(into)
	if err == nil {
		if _, more := d.Token(); !errors.Is(more, io.EOF) {
			err = errors.New("there is more than one value")
		}
	}
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		say(w, http.StatusRequestEntityTooLarge, problem{What: "this is too long"})
	case err != nil:
		say(w, http.StatusBadRequest, problem{What: "this cannot be read"})
	}
	return err == nil
}

func (s *Server) view(w http.ResponseWriter, _ *http.Request) {
	shown, _ := s.Session.View()
	say(w, http.StatusOK, shown)
}

// do gives an input. Whoever sends it again after a lost answer is told that it is recorded.
func (s *Server) do(w http.ResponseWriter, r *http.Request) {
	var in walk.Input
	if !decode(w, r, &in) {
		return
	}
	if in.Do == walk.Resume { // what the program says of itself
		say(w, http.StatusBadRequest, problem{What: "this cannot be read"})
		return
	}
	e, err := s.Session.Do(in)
	var refusal *walk.Refusal
	var twice *walk.Twice
	switch {
	case err == nil:
		say(w, http.StatusOK, taken{e.N, e.Line()})
	case errors.As(err, &twice):
		say(w, http.StatusOK, taken{N: twice.N})
	case errors.As(err, &refusal):
		say(w, http.StatusConflict, problem{refusal.What, refusal.Fix})
	default:
		// what the disk says names files, and is for the terminal
		say(w, http.StatusInsufficientStorage, problem{What: "the record cannot be written", Fix: "tell whoever has the computer: " + remedy(err)})
	}
}

// remedy is what to do at the computer.
func remedy(err error) string {
	if errors.Is(err, syscall.ENOSPC) {
		return "its disk is full, and needs room"
	}
	return "its disk takes nothing"
}

type taken struct {
	N    int    `json:"n"`
	Text string `json:"text,omitempty"`
}

// events sends the view whenever it changes, and now and then because time passes.
func (s *Server) events(w http.ResponseWriter, r *http.Request) {
	select {
	case s.seats <- struct{}{}:
		defer func() { <-s.seats }()
	default:
		say(w, http.StatusServiceUnavailable, problem{What: "too many phones look on", Fix: "close a page"})
		return
	}
	w.Header().Set("Content-Type", "text/event-stream")
	c := http.NewResponseController(w)
	_ = c.SetReadDeadline(time.Time{}) // a stream has no end to be read by
	tick := time.NewTicker(beat)
	defer tick.Stop()
	for {
		shown, changed := s.Session.View()
		text, err := json.Marshal(shown)
		if err != nil {
			return
		}
		_ = c.SetWriteDeadline(time.Now().Add(beat))
		if _, err := fmt.Fprintf(w, "id: %d\ndata: %s\n\n", shown.N, text); err != nil {
			return
		}
		if err := c.Flush(); err != nil {
			return
		}
		select {
		case <-changed:
		case <-tick.C:
		case <-r.Context().Done():
			return
		}
	}
}
