//go:build unix

package whole

import (
	"errors"
	"os"
	"syscall"
)

// hold waits until no other program renames in a folder, and keeps others waiting until it is released.
func hold(dir string) (release func(), err error) {
	d, err := os.Open(dir)
	if err != nil {
		return nil, err
	}
	for {
		err = syscall.Flock(int(d.Fd()), syscall.LOCK_EX)
		if err != syscall.EINTR {
			break
		}
	}
	switch {
	case errors.Is(err, syscall.ENOTSUP), errors.Is(err, syscall.ENOLCK), errors.Is(err, syscall.ENOSYS): // a disk that knows no locks
	case err != nil:
		_ = d.Close()
		return nil, &os.PathError{Op: "lock", Path: dir, Err: err}
	}
	return func() { _ = d.Close() }, nil
}
