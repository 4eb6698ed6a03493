//go:build !unix

package ways_test

import "time"

var begun = time.Now()

// cpuTime is the time by the clock where the processor time is not known.
func cpuTime() time.Duration { return time.Since(begun) }
