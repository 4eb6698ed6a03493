package main

import (
	"bytes"
	"os"
	"regexp"
	"strings"
	"testing"

	"knockon/demo"
)

// priced is what costs prints for a question.
func priced(t *testing.T, args ...string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if code := run(append([]string{"costs"}, args...), &stdout, &stderr); code != exitGood {
		t.Fatalf("exit %d: %s", code, stderr.String())
	}
	return strings.Join(strings.Fields(stdout.String()), " ")
}

// TestCosts_AFlightWithoutEndsIsTheBooksFault: nobody wrote --turn, so the error
// is not about it; it names the lines that the book lacks.
func TestCosts_AFlightWithoutEndsIsTheBooksFault(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, demo.Book()); err != nil {
		t.Fatal(err)
	}
	if err := os.CopyFS(dir+"/"+ownFields, demo.Region()); err != nil {
		t.Fatal(err)
	}
	file := dir + "/06-flights.hcl"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	write(t, file, regexp.MustCompile(`(?m)^  (from|to) +=.*(Kestrin|Vardholm|Little Ansa)"\n`).ReplaceAllString(string(text), ""))
	var stdout, stderr bytes.Buffer
	code := run([]string{"costs", "engine_left", "--book", dir, "--at", "climb"}, &stdout, &stderr)
	got := strings.Join(strings.Fields(stderr.String()), " ")
	if code != exitUsage || strings.Contains(got, "--turn") || strings.Contains(got, `""`) || stdout.Len() > 0 {
		t.Errorf("exit %d: %s", code, got)
	}
	for _, says := range []string{"--book: ", `from = "`, `to = "`, "--airfields"} {
		if !strings.Contains(got, says) {
			t.Errorf("%s does not say %s", got, says)
		}
	}
}

// TestCosts_TheFieldBehindIsReturnedTo: a minute after lift-off Kestrin is behind the
// tail. It is flown to by a circuit, which takes minutes, and is judged like any other.
func TestCosts_TheFieldBehindIsReturnedTo(t *testing.T) {
	got := priced(t, "engine_left", "--most", "2", "--crew", "none")
	for _, says := range []string{"Of 2 airfields 2 are left; with nothing failed 2 are.", "Kestrin 2 9 294 4,890 26 1,009 3,505 yes"} {
		if !strings.Contains(got, says) {
			t.Errorf("no %q in %s", says, got)
		}
	}
	if strings.Contains(got, "not worked out") {
		t.Error(got)
	}
}

// TestCosts_TheHeadingNamesWhatTheCrewDid, and what was set: both change the price.
func TestCosts_TheHeadingNamesWhatTheCrewDid(t *testing.T) {
	got := priced(t, "engine_left", "--at", "climb + 130 s", "--set", "mask_switch=drop", "--act", "engine_right_switch=off@climb+140 s", "--most", "1", "--crew", "none")
	if heading, _, _ := strings.Cut(got, " The one"); !strings.HasSuffix(heading, "; set, whatever fails: Cabin mask switch to drop from the start; the crew: Right engine switch to off at climb + 140 s; nothing else is done.") {
		t.Error(got)
	}
	if got := priced(t, "engine_left", "--at", "climb + 130 s", "--most", "1"); strings.Contains(got, "the crew:") || strings.Contains(got, "set,") {
		t.Error(got)
	}
}
