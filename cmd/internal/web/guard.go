package web

import (
	"net"
	"net/http"
	"net/netip"
)

// guarded refuses requests that no page of this program makes, and says in every answer what a browser may do with it.
func guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=()")
		h.Set("Cache-Control", "no-store")
		switch {
		case !rightHost(r):
			http.Error(w, "this address is not served", http.StatusMisdirectedRequest)
		case !ownPage(r):
			http.Error(w, "another site may not ask this", http.StatusForbidden)
		default:
			next.ServeHTTP(w, r)
		}
	})
}

// rightHost reports whether the Host header is the very address that the connection came in at, or localhost for one that
// never leaves the machine. A name that somebody's name server points at this machine is neither.
func rightHost(r *http.Request) bool {
	local, ok := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	if !ok {
		return false
	}
	at, err := netip.ParseAddrPort(local.String())
	if err != nil {
		return false
	}
	at = netip.AddrPortFrom(at.Addr().Unmap().WithZone(""), at.Port())
	host := r.Host
	if name, port, err := net.SplitHostPort(host); err == nil && name == "localhost" && at.Addr().IsLoopback() {
		asked, err := netip.ParseAddrPort("127.0.0.1:" + port)
		return err == nil && asked.Port() == at.Port()
	}
	asked, err := netip.ParseAddrPort(host)
	if err != nil { // a browser leaves the port out when it is 80
		addr, err := netip.ParseAddr(trimBrackets(host))
		if err != nil {
			return false
		}
		asked = netip.AddrPortFrom(addr, 80)
	}
	return netip.AddrPortFrom(asked.Addr().Unmap(), asked.Port()) == at
}

func trimBrackets(host string) string {
	if n := len(host); n > 2 && host[0] == '[' && host[n-1] == ']' {
		return host[1 : n-1]
	}
	return host
}

// ownPage reports whether a request comes from our own page, as far as browsers say: what changes something must name its
// origin, and nothing may come from another site.
func ownPage(r *http.Request) bool {
	if site := r.Header.Get("Sec-Fetch-Site"); site != "" && site != "same-origin" && site != "none" {
		return false
	}
	origin := r.Header.Get("Origin")
	if r.Method == http.MethodGet || r.Method == http.MethodHead {
		return origin == "" || origin == "http://"+r.Host
	}
	return origin == "http://"+r.Host
}
