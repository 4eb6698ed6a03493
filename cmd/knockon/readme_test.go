package main

import (
	"bytes"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// TestReadme_SessionsAreReal runs every "$ knockon …" of the README's console
// blocks and compares what it prints with what stands below it.
func TestReadme_SessionsAreReal(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	tried := 0
	for _, block := range regexp.MustCompile("(?s)```console\n(.*?)```").FindAllStringSubmatch(string(text), -1) {
		for _, session := range strings.Split("\n"+block[1], "\n$ ")[1:] {
			command, want, _ := strings.Cut(session, "\n")
			if !strings.HasPrefix(command, "knockon ") {
				continue
			}
			tried++
			if got := printed(t, command); got != want {
				t.Errorf("$ %s\nprints\n%s\nthe README says\n%s", command, got, want)
			}
		}
	}
	if tried == 0 {
		t.Error("the README has no session")
	}
}

// printed runs a command line, which may end in "| head -N".
func printed(t *testing.T, command string) string {
	t.Helper()
	line, head, piped := strings.Cut(command, " | head -")
	args := words(line)
	var stdout, stderr bytes.Buffer
	if code := run(args[1:], &stdout, &stderr); code != 0 {
		t.Fatalf("$ %s: exit %d: %s", command, code, &stderr)
	}
	if !piped {
		return stdout.String()
	}
	n, err := strconv.Atoi(head)
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.SplitAfter(stdout.String(), "\n")[:n], "")
}
