//go:build unix

package floor

import (
	"syscall"
	"time"
)

// CPU is the time that this process has worked so far, whatever else the machine does meanwhile.
func CPU() time.Duration {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		return 0
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
