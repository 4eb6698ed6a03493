//go:build outputs

package main

import (
	"bytes"
	"context"
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestOutputs_Write writes some hundred whole outputs, text, JSON and pages, to
// the folder that KNOCKON_OUTPUTS names, to be compared with those of another
// checkout: a change of the house must change none of them, and a change of
// words exactly those with the word.
//
//	KNOCKON_OUTPUTS=/tmp/before go test -tags outputs -run Outputs ./cmd/knockon
//
// KNOCKON_OUTPUTS_ONLY is a regular expression: those outputs alone.
func TestOutputs_Write(t *testing.T) {
	dir := os.Getenv("KNOCKON_OUTPUTS")
	if err := os.MkdirAll(dir, 0o777); err != nil {
		t.Fatalf("KNOCKON_OUTPUTS names no folder: %v", err)
	}
	text, err := os.ReadFile("testdata/outputs.list")
	if err != nil {
		t.Fatal(err)
	}
	give, only := newGiver(t), regexp.MustCompile(os.Getenv("KNOCKON_OUTPUTS_ONLY"))
	for i, what := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		if !only.MatchString(what) {
			continue
		}
		code, printed := give.output(what)
		name := regexp.MustCompile(`[^A-Za-z0-9.]+`).ReplaceAllString(what, "_")
		whole := fmt.Appendf(nil, "%s\n%d\n%s", what, code, printed)
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%03d_%.80s", i, name)), whole, 0o666); err != nil {
			t.Fatal(err)
		}
	}
}

// giver gives the output of a command line or of an address.
type giver struct {
	t     *testing.T
	serve func(address string) (int, []byte)
}

func newGiver(t *testing.T) giver {
	t.Helper()
	o := &out{Context: context.Background(), stdout: os.Stderr, stderr: os.Stderr}
	desk, err := bookFlag{}.desk(o)
	if err != nil {
		t.Fatal(err)
	}
	g, err := regionFlags{}.region(o, bookFlag{})
	if err != nil {
		t.Fatal(err)
	}
	handler, closing, err := pages(o, desk, site{region: g, drills: t.TempDir()})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(closing)
	return giver{t, func(address string) (int, []byte) {
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, httptest.NewRequest("GET", "http://127.0.0.1:8765"+address, nil))
		return w.Code, w.Body.Bytes()
	}}
}

func (g giver) output(what string) (code int, printed []byte) {
	if address, isPage := strings.CutPrefix(what, "GET "); isPage {
		return g.serve(address)
	}
	var args []string
	for _, m := range regexp.MustCompile(`"((?:[^"\\]|\\.)*)"|(\S+)`).FindAllStringSubmatch(what, -1) {
		args = append(args, strings.ReplaceAll(m[1], `\"`, `"`)+m[2])
	}
	var stdout, stderr bytes.Buffer
	code = run(args[1:], &stdout, &stderr)
	return code, append(stdout.Bytes(), stderr.Bytes()...)
}
