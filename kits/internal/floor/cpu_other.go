//go:build !unix

package floor

import "time"

var started = time.Now()

// CPU is the time since the start, where the standard library does not say how long a process has worked.
func CPU() time.Duration { return time.Since(started) }
