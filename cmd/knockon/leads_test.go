package main

import (
	"bytes"
	"encoding/json"
	"regexp"
	"strings"
	"testing"
)

// leads are the questions that the demonstration opens with, and some whose answer
// is none, limited or broken off.
var leads = [][]string{
	{"fail", "tr_right", "--out", "tr_left", "--at", "climb + 120 s"},
	{"fail", "radio_alt_1.reads_low", "radio_alt_2.reads_low", "--at", "approach"},
	{"fail", "engine_left", "engine_right", "--at", "cruise"},
	{"fail", "waste_blower", "--at", "climb"},
	{"fail", "gen_left", "--at", "cruise", "--act", "engine_left_switch=off@climb + 130 s"},
	{"crew", "tr_right", "--out", "tr_left", "--at", "climb + 120 s"},
	{"crew", "engine_left", "engine_right", "--at", "cruise"},
	{"costs", "tr_right", "--out", "tr_left", "--at", "climb + 120 s"},
	{"ways", "brakes_normal", "--in", "landing_roll"},
	{"ways", "fire_watch_left", "--untold", "--out", "tr_left"},
	{"ways", "--out", "tr_left", "--in", "cruise"},
	{"worth", "left_generator_off"},
	{"sweep", "--phase", "climb", "--build", "first_series", "--order", "1"},
}

// ofTheBook are fields in which the book's author speaks, or a person of it.
var ofTheBook = map[string]bool{"because": true, "book_says": true, "title": true, "procedure_title": true, "message": true, "where": true}

// TestLeads_NoDoubleNegatives: no clause that the program says in an answer holds two
// negatives, but for "no … and no …", of which both are meant. What is quoted from the
// book is the book's.
func TestLeads_NoDoubleNegatives(t *testing.T) {
	clauses := 0
	for _, args := range leads {
		var stdout, stderr bytes.Buffer
		if code := run(append(args, "--json"), &stdout, &stderr); code != 0 {
			t.Errorf("%v: %s", args, stderr.String())
			continue
		}
		var answer any
		if err := json.Unmarshal(stdout.Bytes(), &answer); err != nil {
			t.Fatalf("%v: %v", args, err)
		}
		said(answer, "", func(text string) {
			for _, clause := range clauseEnds.Split(quoted.ReplaceAllString(text, "…"), -1) {
				clauses++
				if twice(clause) {
					t.Errorf("%v: %q in %q", args, clause, text)
				}
			}
		})
	}
	if clauses < 5000 {
		t.Errorf("only %d clauses", clauses)
	}
}

var (
	negative   = regexp.MustCompile(`(?i)\b(no|not|none|nothing|never|nobody|neither|nor|without|cannot|nowhere|missing|unless)\b`)
	both       = regexp.MustCompile(`(?i)\bno (\w+) and no\b`)
	clauseEnds = regexp.MustCompile(`[.;:,!?]\s+|\s\(|\)`)
	quoted     = regexp.MustCompile(`“[^”]*”|"[^"]*"`)
)

// twice says that a clause has more than one negative.
func twice(clause string) bool {
	return len(negative.FindAllString(both.ReplaceAllString(clause, "no $1 and"), 2)) > 1
}

// said gives every sentence of an answer.
func said(x any, key string, give func(string)) {
	switch x := x.(type) {
	case map[string]any:
		for k, v := range x {
			said(v, k, give)
		}
	case []any:
		for _, v := range x {
			said(v, key, give)
		}
	case string:
		if strings.Contains(x, " ") && !ofTheBook[key] {
			give(x)
		}
	}
}

// TestTwice finds what the test above is there for.
func TestTwice(t *testing.T) {
	for clause, want := range map[string]bool{
		"No alert is given that is not given without the failure.": true, "nothing goes without a word": true, "no set of up to 3 failures is missing": true,
		"No alert is given only with the failure.": false, "No alert and no indication tells of it": false, "all sets were found": false,
	} {
		if twice(clause) != want {
			t.Errorf("%q: %v", clause, !want)
		}
	}
}
