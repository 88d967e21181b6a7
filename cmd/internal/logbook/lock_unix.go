//go:build unix

package logbook

import (
	"os"
	"syscall"
)

// lock keeps a second program off the file until this one closes it or ends.
func lock(f *os.File) error { return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) }
