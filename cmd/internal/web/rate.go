package web

import (
	"net"
	"net/http"
	"sync"
	"time"
)

// A rate lets so many requests through at once and so many a second afterwards.
type rate struct {
	burst, perSecond float64
}

// People tap; pages look. All phones together get what the machine can give.
var (
	post   = rate{30, 6}
	get    = rate{60, 10}
	allOf  = rate{400, 100}
	latest = 10 * time.Minute // a caller that is quiet for so long is forgotten
)

type bucket struct {
	left float64
	at   time.Time
}

func (b *bucket) take(now time.Time, r rate) bool {
	if passed := now.Sub(b.at).Seconds(); passed > 0 {
		b.left = min(b.left+passed*r.perSecond, r.burst)
		b.at = now
	}
	if b.left < 1 {
		return false
	}
	b.left--
	return true
}

// mostCallers bounds what is remembered of callers.
const mostCallers = 1000

// A caller is a paired phone, or an address that has none.
type caller struct {
	name string
	kind rate
}

type rates struct {
	now     func() time.Time
	mu      sync.Mutex
	callers map[caller]*bucket
	all     bucket
}

func newRates(now func() time.Time) *rates {
	return &rates{now: now, callers: map[caller]*bucket{}, all: bucket{allOf.burst, now()}}
}

func (r *rates) allow(name string, kind rate) bool {
	r.mu.Lock()
	defer r.mu.Unlock()
	now := r.now()
	who := caller{name, kind}
	b, known := r.callers[who]
	if !known {
		if len(r.callers) >= mostCallers {
			r.forget(now)
		}
		if len(r.callers) >= mostCallers {
			return false
		}
		b = &bucket{kind.burst, now}
		r.callers[who] = b
	}
	return b.take(now, kind) && r.all.take(now, allOf)
}

func (r *rates) forget(now time.Time) {
	for who, b := range r.callers {
		if now.Sub(b.at) > latest {
			delete(r.callers, who)
		}
	}
}

// limited slows a caller down.
func (s *Server) limited(kind rate, next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := address(r)
		if s.Pairing != nil {
			if token, ok := s.Pairing.knows(r); ok {
				name = token
			}
		}
		if !s.rates.allow(name, kind) {
			w.Header().Set("Retry-After", "1")
			say(w, http.StatusTooManyRequests, problem{What: "too many at once", Fix: "wait a second"})
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
		next.ServeHTTP(w, r)
	})
}

func address(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return r.RemoteAddr
	}
	return host
}
