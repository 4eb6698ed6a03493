package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A book of one's own is never priced over the fields of the demonstration: it has
// its own, or those that are named, or is told that it has none.
func TestCosts_NeverOverTheFieldsOfAnotherBook(t *testing.T) {
	from := filepath.Join("..", "..", "costs", "testdata", "manual")
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(filepath.Join(from, "book"))); err != nil {
		t.Fatal(err)
	}
	ask := []string{"costs", "brake_pump", "--at", "cruise + 10 min", "--book", dir}
	stdout, stderr, code := ran(ask...)
	if code == exitGood || !strings.Contains(strings.Join(strings.Fields(stderr), " "), "this book has no airfields of its own: give a folder that holds airports.csv and runways.csv") || stdout != "" {
		t.Errorf("without fields: %d, %s%s", code, stdout, stderr)
	}
	for _, args := range [][]string{append(ask, "--airfields", filepath.Join(from, "fields")), ask} {
		stdout, stderr, code = ran(args...)
		if code != exitGood || !strings.Contains(stdout, "Of 4 airfields one is left; with nothing failed 3 are.") || strings.Contains(stdout, "Kestrin") {
			t.Errorf("%v: %d, %s%s", args, code, stdout, stderr)
		}
		if err := os.CopyFS(filepath.Join(dir, ownFields), os.DirFS(filepath.Join(from, "fields"))); err != nil && !os.IsExist(err) {
			t.Fatal(err)
		}
	}
}

func ran(args ...string) (out, trouble string, code int) {
	var stdout, stderr bytes.Buffer
	code = run(args, &stdout, &stderr)
	return stdout.String(), stderr.String(), code
}
