package logbook_test

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"knockon/drill"
	"knockon/logbook"
)

func shelf(t *testing.T) (*logbook.Shelf, string) {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "drills")
	s, err := logbook.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	return s, dir
}

func text(t *testing.T, s *logbook.Shelf, id string) string {
	t.Helper()
	r, err := s.Read(id)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	all, err := io.ReadAll(r)
	if err != nil {
		t.Fatal(err)
	}
	return string(all)
}

func look(n int) drill.Input {
	return drill.Input{Client: "a", Number: n, Who: drill.Alone, Do: drill.Look, ID: "x"}
}

func TestShelf_KeepsAndTakesOver(t *testing.T) {
	s, dir := shelf(t)
	w, err := s.Begin("first-one", drill.Script{Title: "T"})
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Append(look(1)); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Continue("first-one"); !errors.Is(err, logbook.ErrBusy) {
		t.Errorf("taken over while it is written: %v", err)
	}
	if _, err := s.Begin("first-one", drill.Script{}); !errors.Is(err, fs.ErrExist) {
		t.Errorf("begun twice: %v", err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	whole := text(t, s, "first-one")
	torn := filepath.Join(dir, "first-one.drill")
	if err := os.WriteFile(torn, []byte(whole+`{"client":"a","num`), 0o644); err != nil {
		t.Fatal(err)
	}
	if w, err = s.Continue("first-one"); err != nil {
		t.Fatal(err)
	}
	if err := w.Append(look(2)); err != nil {
		t.Fatal(err)
	}
	w.Close()
	if got := text(t, s, "first-one"); !strings.HasPrefix(got, whole) || strings.Count(got, "\n") != 3 || !strings.Contains(got, `"number":2`) {
		t.Errorf("after a torn line:\n%s", got)
	}
	if ids, err := s.List(); err != nil || !slices.Equal(ids, []string{"first-one"}) {
		t.Errorf("%v, %v", ids, err)
	}
}

func TestShelf_RefusesWhatCannotBe(t *testing.T) {
	s, dir := shelf(t)
	for _, id := range []string{"", "../other", "A", "a b", strings.Repeat("a", 65), "a.drill"} {
		if _, err := s.Begin(id, drill.Script{}); err == nil {
			t.Errorf("%q is taken as a name", id)
		}
	}
	if _, err := s.Continue("nowhere"); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a log that is not there: %v", err)
	}
	if err := os.WriteFile(filepath.Join(dir, "stillborn.drill"), []byte(`{"title":`), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Continue("stillborn"); !errors.Is(err, logbook.ErrEmpty) {
		t.Errorf("a log that was never begun: %v", err)
	}
	w, err := s.Begin("born", drill.Script{})
	if err != nil {
		t.Fatal(err)
	}
	w.Close()
	if err := w.Append(look(1)); err == nil {
		t.Error("a closed log is written")
	}
	if err := w.Append(look(1)); err == nil {
		t.Error("and again")
	}
	if _, err := logbook.Open(filepath.Join(dir, "stillborn.drill")); err == nil {
		t.Error("a file is taken as a folder")
	}
}
