package web

import (
	"net"
	"net/netip"
)

// URLs are the addresses of the page on a listener: those of every network that the machine is in when it listens everywhere.
func URLs(l net.Listener) []string {
	bound := l.Addr().(*net.TCPAddr).AddrPort()
	if !bound.Addr().IsUnspecified() {
		return []string{"http://" + netip.AddrPortFrom(bound.Addr().Unmap(), bound.Port()).String() + "/"}
	}
	var urls []string
	addresses, err := net.InterfaceAddrs()
	if err != nil {
		return nil
	}
	for _, a := range addresses {
		p, err := netip.ParsePrefix(a.String())
		if err != nil || p.Addr().IsLoopback() || p.Addr().IsLinkLocalUnicast() {
			continue
		}
		urls = append(urls, "http://"+netip.AddrPortFrom(p.Addr(), bound.Port()).String()+"/")
	}
	return urls
}
