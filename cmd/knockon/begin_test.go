package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// words splits a command line as a shell does, as far as the tests' lines need.
func words(line string) (args []string) {
	for _, m := range regexp.MustCompile(`"([^"]*)"|(\S+)`).FindAllStringSubmatch(line, -1) {
		args = append(args, m[1]+m[2])
	}
	return args
}

func TestReadme_TheLittleBookWorksAsPrinted(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	printed := regexp.MustCompile("(?s)## A book\n\n```hcl\n(.*?)```").FindSubmatch(readme)
	if printed == nil {
		t.Fatal("the README prints no book")
	}
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "book.hcl"), printed[1], 0o600); err != nil {
		t.Fatal(err)
	}
	var stdout, stderr bytes.Buffer
	if code := run([]string{"check", "--book", dir}, &stdout, &stderr); code != exitGood || !strings.Contains(stdout.String(), "claim holds") {
		t.Errorf("exit %d: %s%s", code, &stdout, &stderr)
	}
	// The claim can fail: a third pump breaks it.
	broken := strings.Replace(string(printed[1]), "pump_1 || pump_2", "pump_1 || pump_2 || engine_2", 1)
	if err := os.WriteFile(filepath.Join(dir, "book.hcl"), []byte(broken), 0o600); err != nil {
		t.Fatal(err)
	}
	if code := run([]string{"check", "--book", dir}, &stdout, &stderr); code != exitFinding {
		t.Errorf("with a third pump the claim still holds: exit %d", code)
	}
	if !bytes.Equal(printed[1], littleBook) {
		t.Error("the book of the README is not the one that begin writes")
	}
}

// Every command that begin prints does what it is for, from the folder that it
// was given, with a space in its name.
func TestBegin_EveryCommandItPrintsWorks(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "my aircraft")
	var stdout, stderr bytes.Buffer
	if code := run([]string{"begin", dir}, &stdout, &stderr); code != exitGood {
		t.Fatalf("exit %d: %s", code, &stderr)
	}
	lines := regexp.MustCompile(`(?m)^  knockon (.*)$`).FindAllStringSubmatch(stdout.String(), -1)
	if len(lines) != 5 {
		t.Fatalf("%d commands in\n%s", len(lines), &stdout)
	}
	for want, line := range map[string][]string{"claim holds": lines[0], "Wheel brakes": lines[1], "Electric pump": lines[2], "engine_2 + pump_1": lines[3]} {
		var stdout, stderr bytes.Buffer
		if code := run(words(line[1]), &stdout, &stderr); code != exitGood || !strings.Contains(stdout.String(), want) {
			t.Errorf("%s: exit %d, no %q in\n%s%s", line[1], code, want, &stdout, &stderr)
		}
	}
	serves(t, words(lines[4][1]), "The pages are at http://127.0.0.1:")
}

// serves runs a command that serves until it says where, and ends it.
func serves(t *testing.T, args []string, says string) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	stdout := &until{says: says, then: stop}
	var stderr bytes.Buffer
	parsed, code, done := parse(append(args, "--address", "127.0.0.1:0", "--drills", t.TempDir()), stdout, &stderr)
	if done {
		t.Fatalf("%v: exit %d: %s", args, code, &stderr)
	}
	if err := parsed.Run(&out{Context: ctx, stdout: stdout, stderr: &stderr}); err != nil || !strings.Contains(stdout.String(), says) {
		t.Errorf("%v: %v, said %q", args, err, stdout.String())
	}
}

// until does something once a text was written.
type until struct {
	bytes.Buffer
	says string
	then func()
}

func (u *until) Write(b []byte) (int, error) {
	n, err := u.Buffer.Write(b)
	if strings.Contains(u.String(), u.says) {
		u.then()
	}
	return n, err
}

func TestBegin_LosesNothing(t *testing.T) {
	root := t.TempDir()
	full, file, empty := filepath.Join(root, "full"), filepath.Join(root, "file"), filepath.Join(root, "empty")
	for _, dir := range []string{full, empty} {
		if err := os.Mkdir(dir, 0o700); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{filepath.Join(full, "book.hcl"), file} {
		if err := os.WriteFile(name, []byte("mine"), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for dir, says := range map[string]string{full: "is not empty (book.hcl is in it)", file: "cannot hold a book", filepath.Join(file, "under"): "cannot hold a book"} {
		var stdout, stderr bytes.Buffer
		if code := run([]string{"begin", dir}, &stdout, &stderr); code == exitGood || stdout.Len() > 0 || !strings.Contains(stderr.String(), says) {
			t.Errorf("%s: exit %d, %q, %q", dir, code, &stdout, &stderr)
		}
	}
	for _, name := range []string{filepath.Join(full, "book.hcl"), file} {
		if text, err := os.ReadFile(name); err != nil || string(text) != "mine" {
			t.Errorf("%s now holds %q, %v", name, text, err)
		}
	}
	var stdout, stderr bytes.Buffer
	if code := run([]string{"begin", empty}, &stdout, &stderr); code != exitGood {
		t.Errorf("an empty folder: exit %d, %s", code, &stderr)
	}
}

// Where nothing can be written it is said, and nothing stays behind.
func TestBegin_SaysThatItCannotWrite(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "closed")
	if err := os.Mkdir(dir, 0o500); err != nil {
		t.Fatal(err)
	}
	says := "cannot write"
	if os.Geteuid() == 0 { // root writes into any folder, but not into this one
		dir, says = "/proc/my-aircraft", "cannot make the folder /proc/my-aircraft"
	}
	var stdout, stderr bytes.Buffer
	if code := run([]string{"begin", dir}, &stdout, &stderr); code != exitTrouble || !strings.Contains(stderr.String(), says) || stdout.Len() > 0 {
		t.Errorf("exit %d, %q, %q", code, &stdout, &stderr)
	}
}
