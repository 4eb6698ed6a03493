//go:build unix

package ways_test

import (
	"syscall"
	"time"
)

// cpuTime is the processor time that this process has used. Unlike the clock it
// hardly depends on what else the machine is doing.
func cpuTime() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		panic(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
