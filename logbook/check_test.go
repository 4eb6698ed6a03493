package logbook_test

import (
	"os"
	"testing"

	"knockon/logbook"
)

// A folder in which nothing can be kept is found out at the start, and one in
// which something can is left as it was.
func TestShelf_Check(t *testing.T) {
	dir := t.TempDir() + "/logs"
	s, err := logbook.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Check(); err != nil {
		t.Error(err)
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
		t.Errorf("%v is left behind: %v", left, err)
	}
	if err := os.Remove(dir); err != nil {
		t.Fatal(err)
	}
	if s.Check() == nil {
		t.Error("a folder that is gone is good to keep logs in")
	}
}
