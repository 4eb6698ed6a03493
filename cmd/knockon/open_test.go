package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"
)

func TestOpener_GivesTheAddressToTheSystem(t *testing.T) {
	for system, first := range map[string]string{"windows": "rundll32", "darwin": "open", "linux": "xdg-open", "freebsd": "xdg-open"} {
		words := opener(system, "http://127.0.0.1:1/")
		if words[0] != first || words[len(words)-1] != "http://127.0.0.1:1/" {
			t.Errorf("%s: %q", system, words)
		}
	}
}

// The demonstration opens in a browser; where there is none the address is said
// in other words.
func TestDemo_OpensTheBrowser(t *testing.T) {
	dir := t.TempDir()
	t.Setenv("PATH", dir)
	serves(t, []string{"demo", "--open"}, "No browser could be started")
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		return // what opens a page there is no program that a test can put in its place
	}
	asked := filepath.Join(dir, "asked")
	script := "#!/bin/sh\necho \"$1\" > " + asked + "\n"
	if err := os.WriteFile(filepath.Join(dir, "xdg-open"), []byte(script), 0o700); err != nil {
		t.Fatal(err)
	}
	serves(t, []string{"demo", "--open"}, "opens in your browser")
	for deadline := time.Now().Add(time.Minute); ; time.Sleep(20 * time.Millisecond) {
		text, _ := os.ReadFile(asked)
		if strings.HasPrefix(string(text), "http://127.0.0.1:") {
			break
		}
		if time.Now().After(deadline) {
			t.Fatalf("the browser was asked for %q", text)
		}
	}
}
