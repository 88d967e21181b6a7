// Package web is the page of a walk-through, for phones and tablets at the launch site. It is served by the program itself,
// asks for nothing from outside and writes nothing: what a request says goes to the session, and nowhere else.
//
// What is assumed: on a local network others can listen, as nothing is encrypted, and others can call. So a phone is let in
// by a code that the terminal shows, only from addresses of this machine, and only as fast as people type.
package web

import (
	"context"
	"net"
	"net/http"
	"time"

	"hoistbook/cmd/internal/live"
)

// A Server serves one session.
type Server struct {
	Session *live.Session
	Pairing *Pairing // nil: whoever reaches the address may take part
	Now     func() time.Time

	rates *rates
	seats chan struct{} // for streams of events
}

// The greatest numbers of things at once.
const (
	mostBody    = 8 << 10
	mostHeader  = 16 << 10
	mostStreams = 64
	mostConns   = 256
	beat        = 15 * time.Second // a stream says something at least this often
)

// Handler answers requests.
func (s *Server) Handler() http.Handler {
	s.rates, s.seats = newRates(s.Now), make(chan struct{}, mostStreams)
	mux := http.NewServeMux()
	for path, f := range files {
		mux.Handle("GET "+path, f)
	}
	mux.Handle("POST /pair", s.limited(post, http.HandlerFunc(s.pair)))
	mux.Handle("GET /view", s.limited(get, s.paired(s.view)))
	mux.Handle("GET /events", s.limited(get, s.paired(s.events)))
	mux.Handle("POST /do", s.limited(post, s.paired(s.do)))
	return guarded(mux)
}

// Serve answers on a listener until the context ends; then streams are closed and what is being recorded is finished.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	h := &http.Server{
		Handler: s.Handler(), MaxHeaderBytes: mostHeader, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 10 * time.Second, IdleTimeout: time.Minute,
		BaseContext: func(net.Listener) context.Context { return ctx },
	}
	h.Protocols = new(http.Protocols)
	h.Protocols.SetHTTP1(true)
	failed := make(chan error, 1)
	go func() { failed <- h.Serve(&seated{Listener: l, seats: make(chan struct{}, mostConns)}) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	grace, cancel := context.WithTimeout(context.WithoutCancel(ctx), 2*time.Second)
	defer cancel()
	if err := h.Shutdown(grace); err != nil {
		return h.Close()
	}
	return nil
}

// seated takes so many connections at once and lets others wait.
type seated struct {
	net.Listener
	seats chan struct{}
}

func (l *seated) Accept() (net.Conn, error) {
	l.seats <- struct{}{}
	c, err := l.Listener.Accept()
	if err != nil {
		<-l.seats
		return nil, err
	}
	return &seat{Conn: c, leave: func() { <-l.seats }}, nil
}
