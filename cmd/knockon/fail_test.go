package main

import (
	"bytes"
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/ledger"
)

// TestFail_OpensWithOneScreen: what an answer opens with is no longer than a screen, and
// leads with what happened, what is worth teaching and what goes together; what is left
// out of these is counted, and --all has every point.
func TestFail_OpensWithOneScreen(t *testing.T) {
	for _, args := range leads {
		if args[0] != "fail" {
			continue
		}
		if i := len(args) - 2; args[i] == "--points" {
			args = args[:i]
		}
		opens := printedBy(t, append(args, "--width", "100"))
		if n := strings.Count(opens, "\n"); n > ledger.MostLines {
			t.Errorf("%v prints %d lines:\n%s", args, n, opens)
		}
		last := -1
		for _, part := range []string{"WORTH TEACHING", "WHAT GOES TOGETHER", "--all", book.Caution[:20]} {
			at := strings.Index(opens, part)
			if at < last && (at >= 0 || part != "WHAT GOES TOGETHER") {
				t.Errorf("%v: %q is not in its place:\n%s", args, part, opens)
			}
			last = max(last, at)
		}
		all := printedBy(t, append(args, "--all", "--width", "100"))
		shown, points := strings.Count(opens, "\n"), len(numbered.FindAllString(all, -1))
		if got := len(numbered.FindAllString(opens, -1)); got != points && !strings.Contains(opens, " more point") {
			t.Errorf("%v: %d points of %d in %d lines, and none is counted:\n%s", args, got, points, shown, opens)
		}
	}
}

// numbered is where a point begins.
var numbered = regexp.MustCompile(`(?m)^[1-9]  \S`)

// TestFail_Mail: five lines, each what it says, and below them what every copy carries; the
// question in it gives the same answer again.
func TestFail_Mail(t *testing.T) {
	mail := printedBy(t, []string{"fail", "duct_burst", "--at", "cruise + 60 s", "--mail"})
	lines := strings.Split(mail, "\n")
	for i, want := range []string{
		"What happens: Left bleed duct bursts and takes its leak detector along comes 20:03 into the flight (Cruise).",
		"What is told: “Left pack lost” +0:08",
		"What is not: Lost, and hidden: wing structure free of overheating (+10:00)",
		"What to do: Set left bleed switch to “off” and Cross-bleed valve switch to “shut” until +9:59",
		"What it depends on: Hands off this is lost as well: wing free of ice. With left bleed leak detector in order",
		"",
		"Corvane 71, build First series, as first delivered; The northern link",
		"knockon fail duct_burst --at 'cruise + 60 s'",
		book.Caution,
	} {
		if i >= len(lines) || !strings.HasPrefix(lines[i], want) || want == "" && lines[i] != "" {
			t.Errorf("line %d does not begin with %q:\n%s", i+1, want, mail)
		}
	}
	if len(lines) != 10 {
		t.Errorf("%d lines:\n%s", len(lines)-1, mail)
	}
	again := printedBy(t, words(strings.ReplaceAll(lines[7], "'", `"`))[1:])
	if first, _, _ := strings.Cut(strings.TrimPrefix(lines[0], "What happens: "), "\n"); !strings.HasPrefix(again, first[:60]) {
		t.Errorf("its question gives another answer:\n%s", again)
	}
	if told := printedBy(t, []string{"fail", "gen_left", "--at", "climb", "--mail"}); !strings.Contains(told, "\nWhat is not: Nothing that is lost when it is called for is hidden") || !strings.Contains(told, "so that no rescue was looked for") {
		t.Errorf("where all is told:\n%s", told)
	}
}

// TestFail_Only: the rows that fit, counted beside all, in text as in JSON; what it opens
// with and the points stay those of the whole answer; what means nothing is refused.
func TestFail_Only(t *testing.T) {
	args := []string{"fail", "tr_right", "--out", "tr_left", "--at", "climb + 120 s"}
	some := append(slices.Clone(args), "--only", "phase=approach", "--only", "has=brake", "--only", "has=temperature")
	text := printedBy(t, append(some, "--width", "100"))
	for _, want := range []string{"2 of ", "rows shown: phase: Approach; words: “brake” and “temperature”.", "Brake temperature watched", "Brake temperature readout"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing:\n%s", want, text)
		}
	}
	type answer struct {
		Lead   string
		Worth  json.RawMessage `json:"worth_teaching"`
		Only   struct{ Rows, Of int }
		Groups []struct{ Rows []struct{ ID string } }
	}
	read := func(args []string) (a answer, ids []string) {
		if err := json.Unmarshal([]byte(printedBy(t, append(args, "--json"))), &a); err != nil {
			t.Fatal(err)
		}
		for _, g := range a.Groups {
			for _, r := range g.Rows {
				ids = append(ids, r.ID)
			}
		}
		return a, ids
	}
	whole, all := read(args)
	less, rows := read(some)
	if len(rows) != 2 || less.Only.Rows != 2 || less.Only.Of != len(all) || less.Lead != whole.Lead || string(less.Worth) != string(whole.Worth) {
		t.Errorf("%v: %+v of %d", rows, less.Only, len(all))
	}
	for wish, want := range map[string]string{"phse=x": `no part "phse"`, "phase=aproach": `did you mean "approach"`, "chapter=x": "such as 24", "brake": "part=value"} {
		var stdout, stderr bytes.Buffer
		if code := run(append(slices.Clone(args), "--only", wish), &stdout, &stderr); code != exitUsage || !strings.Contains(stderr.String(), want) {
			t.Errorf("%s: exit %d: %s", wish, code, &stderr)
		}
	}
}

func printedBy(t *testing.T, args []string) string {
	t.Helper()
	var stdout, stderr bytes.Buffer
	if code := run(args, &stdout, &stderr); code != 0 {
		t.Fatalf("%v: %s", args, &stderr)
	}
	return stdout.String()
}
