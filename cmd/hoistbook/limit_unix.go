//go:build unix

package main

import (
	"os/signal"
	"syscall"
)

// Where files may not grow beyond a limit (setrlimit(2), RLIMIT_FSIZE), a write that would is an error, which is told and
// cleaned up after like a full disk; the system's own way is to end the program in the middle.
func init() { signal.Ignore(syscall.SIGXFSZ) }
