//go:build unix

package logbook_test

import (
	"errors"
	"os"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"knockon/drill"
)

// full lets no file of this process grow beyond a size while something is done:
// the system then refuses to write as on a full disk, in the middle of a line too.
func full(t *testing.T, size uint64, do func()) {
	t.Helper()
	signal.Ignore(syscall.SIGXFSZ)
	var was syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_FSIZE, &was); err != nil {
		t.Fatal(err)
	}
	now := was
	now.Cur = size
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &now); err != nil {
		t.Fatal(err)
	}
	do()
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &was); err != nil {
		t.Fatal(err)
	}
}

func files(t *testing.T, dir string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// TestBegin_OnAFullDiskLeavesNothing: no empty or half file stays behind, be the
// disk full before the first byte or within the line.
func TestBegin_OnAFullDiskLeavesNothing(t *testing.T) {
	for _, size := range []uint64{0, 5} {
		s, dir := shelf(t)
		var begun, seats error
		full(t, size, func() {
			_, begun = s.Begin("one", drill.Script{Title: "long enough not to fit"})
			seats = s.PutSeats("one", []byte("long enough not to fit"))
		})
		if begun == nil || seats == nil {
			t.Fatalf("%d bytes: nothing fails: %v, %v", size, begun, seats)
		}
		if left := files(t, dir); len(left) > 0 {
			t.Errorf("%d bytes: %v stay behind", size, left)
		}
		if _, err := s.Begin("one", drill.Script{}); err != nil {
			t.Errorf("with space again: %v", err)
		}
	}
}

// TestAppend_OnAFullDiskCanBeTriedAgain: what did not fit leaves no half line, and
// when there is space again the log goes on.
func TestAppend_OnAFullDiskCanBeTriedAgain(t *testing.T) {
	s, dir := shelf(t)
	w, err := s.Begin("one", drill.Script{Title: "T"})
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Append(look(1)); err != nil {
		t.Fatal(err)
	}
	before := text(t, s, "one")
	full(t, uint64(len(before))+10, func() {
		for range 2 {
			if err := w.Append(look(2)); !errors.Is(err, syscall.EFBIG) {
				t.Errorf("on a full disk: %v", err)
			}
		}
	})
	if now := text(t, s, "one"); now != before || w.Lines() != 2 {
		t.Errorf("a half line stays:\n%s", now)
	}
	if err := w.Append(look(2)); err != nil {
		t.Fatal(err)
	}
	if now := text(t, s, "one"); !strings.HasPrefix(now, before) || strings.Count(now, "\n") != 3 || w.Lines() != 3 {
		t.Errorf("with space again:\n%s", now)
	}
	w.Close()
	if left := files(t, dir); len(left) != 1 {
		t.Errorf("%v", left)
	}
}

// TestSetAside_LosesNothing: a spoiled log is kept as it was under another name,
// and goes on after its last good line; on a full disk it is left alone.
func TestSetAside_LosesNothing(t *testing.T) {
	s, dir := shelf(t)
	w, err := s.Begin("one", drill.Script{Title: "T"})
	if err != nil {
		t.Fatal(err)
	}
	for n := range 4 {
		if err := w.Append(look(n + 1)); err != nil {
			t.Fatal(err)
		}
	}
	was := text(t, s, "one")
	full(t, 20, func() {
		if _, err := s.SetAside("one", w, 3); err == nil {
			t.Error("set aside on a full disk")
		}
	})
	if text(t, s, "one") != was || len(files(t, dir)) != 1 {
		t.Errorf("on a full disk: %v", files(t, dir))
	}
	for range 2 { // a second one under yet another name
		path, err := s.SetAside("one", w, 3)
		if err != nil {
			t.Fatal(err)
		}
		if kept, err := os.ReadFile(path); err != nil || string(kept) != was || filepath.Dir(path) != dir {
			t.Errorf("%s: %v\n%s", path, err, kept)
		}
		if err := errors.Join(w.Append(look(7)), w.Append(look(8))); err != nil {
			t.Fatal(err)
		}
		was = text(t, s, "one")
		if strings.Count(was, "\n") != 5 || w.Lines() != 5 || strings.Contains(was, `"number":3`) || !strings.Contains(was, `"number":8`) {
			t.Errorf("goes on as:\n%s", was)
		}
	}
	if len(files(t, dir)) != 3 {
		t.Errorf("%v", files(t, dir))
	}
	if ids, _ := s.List(); len(ids) != 1 {
		t.Errorf("%v", ids)
	}
}

// TestContinue_SaysThatALogWasCut: a half last line is left out and told.
func TestContinue_SaysThatALogWasCut(t *testing.T) {
	s, _ := shelf(t)
	w, err := s.Begin("one", drill.Script{Title: "T"})
	if err != nil || w.WasCut() {
		t.Fatal(err)
	}
	if err := w.Append(look(1)); err != nil {
		t.Fatal(err)
	}
	w.Close()
	whole := text(t, s, "one")
	for _, c := range []struct {
		text  string
		cut   bool
		lines int
	}{{whole, false, 2}, {whole[:len(whole)-3], true, 1}, {whole + `{"cl`, true, 2}} {
		if err := os.WriteFile(s.Path("one"), []byte(c.text), 0o600); err != nil {
			t.Fatal(err)
		}
		w, err := s.Continue("one")
		if err != nil || w.WasCut() != c.cut || w.Lines() != c.lines {
			t.Fatalf("%q: %v, cut %v, %d lines", c.text, err, w.WasCut(), w.Lines())
		}
		w.Close()
	}
}

// TestSeats_AreKeptBesideTheLog: whole, for nobody else's eyes, and not as a log.
func TestSeats_AreKeptBesideTheLog(t *testing.T) {
	s, dir := shelf(t)
	if _, err := s.Seats("one"); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("none kept: %v", err)
	}
	for _, want := range []string{"first", "2nd"} {
		if err := s.PutSeats("one", []byte(want)); err != nil {
			t.Fatal(err)
		}
		if got, err := s.Seats("one"); err != nil || string(got) != want {
			t.Errorf("%q, %v", got, err)
		}
	}
	info, err := os.Stat(filepath.Join(dir, "one.seats"))
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
	if ids, _ := s.List(); len(ids) != 0 {
		t.Errorf("%v", ids)
	}
	for _, id := range []string{"", "../one", "A"} {
		if _, err := s.Seats(id); err == nil || s.PutSeats(id, nil) == nil {
			t.Errorf("%q is taken as a name", id)
		}
	}
}
