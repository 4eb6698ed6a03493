//go:build !unix

package logbook

import "os"

// lock does nothing here: one process must not write a log that another writes.
func lock(*os.File) error { return nil }

// sync does nothing: a folder is nothing that can be written here.
func sync(string) error { return nil }
