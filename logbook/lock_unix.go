//go:build unix

package logbook

import (
	"errors"
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

// sync makes sure that a new file's name is on the disk.
func sync(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := d.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	return nil
}
