package web

import (
	"net"
	"sync"
)

// A seat is a connection that makes room when it is closed, once.
type seat struct {
	net.Conn
	leave func()
	once  sync.Once
}

func (s *seat) Close() error {
	err := s.Conn.Close()
	s.once.Do(s.leave)
	return err
}
