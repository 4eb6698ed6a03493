//go:build unix

package logbook

import (
	"os"
	"syscall"
)

// lock holds a file for this process; the system lets it go when the process ends,
// however it ends.
func lock(f *os.File) error {
	if err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); err != nil {
		return ErrBusy
	}
	return nil
}
