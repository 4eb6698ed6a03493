package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"knockon/book"
	"knockon/internal/booktest"
)

// asCommand says that this binary is to be the command itself: a test that kills
// it runs it so.
func asCommand() bool { return os.Getenv("KNOCKON_AS_COMMAND") != "" }

// TestSweep_KilledAndGoneOn kills a small sweep at random moments, goes on with
// it each time, and compares what is stored with what a sweep that was let
// alone stores.
func TestSweep_KilledAndGoneOn(t *testing.T) {
	folder := writeBook(t)
	whole := filepath.Join(t.TempDir(), "whole")
	began := time.Now()
	if out, err := sweeping(t, folder, whole).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	took := time.Since(began)
	want := stored(t, whole)
	chance := rand.New(rand.NewPCG(5, 5))
	kept := filepath.Join(t.TempDir(), "kept")
	killed, finished := 0, 0
	for killed < 50 {
		c := sweeping(t, folder, kept)
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(chance.Float64() * float64(took)))
		err := c.Process.Kill()
		if state, _ := c.Process.Wait(); err == nil && state != nil && !state.Exited() {
			killed++
			continue
		}
		// It was done before: compare, and begin anew.
		if got := stored(t, kept); !bytes.Equal(got, want) {
			t.Fatalf("after %d kills: %d bytes, want the %d of a sweep that was let alone", killed, len(got), len(want))
		}
		if err := os.RemoveAll(kept); err != nil {
			t.Fatal(err)
		}
		finished++
	}
	if out, err := sweeping(t, folder, kept).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	if got := stored(t, kept); !bytes.Equal(got, want) {
		t.Fatalf("after %d kills: %d bytes, want the %d of a sweep that was let alone", killed, len(got), len(want))
	}
	t.Logf("killed at %d moments of %s, finished %d times on the way: the same %d bytes each time", killed, took.Round(time.Millisecond), finished+1, len(want))
}

func sweeping(t *testing.T, folder, store string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(self, "sweep", "--book", folder, "--store", store, "--order", "2")
	c.Env = append(os.Environ(), "KNOCKON_AS_COMMAND=1")
	return c
}

// stored gives everything that a folder holds.
func stored(t *testing.T, folder string) (all []byte) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(folder, "*.sweep"))
	if err != nil || len(files) == 0 {
		t.Fatalf("nothing is stored in %s: %v", folder, err)
	}
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, f[len(folder):]+" "+strconv.Itoa(len(data))+"\n"...)
		all = append(all, data...)
	}
	return all
}

// writeBook puts a book of 40 units into a folder.
func writeBook(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	files := booktest.Synthetic(40, 160)
	if _, diags := book.Load(t.Context(), files); diags.HasErrors() {
		t.Fatal(diags[0])
	}
	if err := os.CopyFS(folder, files); err != nil {
		t.Fatal(err)
	}
	return folder
}
