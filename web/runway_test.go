package web

import (
	"encoding/json"
	"html"
	"strings"
	"testing"

	"knockon/ask"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
	"knockon/ledger"
	"knockon/scenario"
)

// TestPage_KnowsTheRunwayThatTheTerminalKnows: page, JSON and text are of one run, over
// the same ground, also on a desk that was asked before its pages were made.
func TestPage_KnowsTheRunwayThatTheTerminalKnows(t *testing.T) {
	desk := ask.NewDesk(corvane.Book(t))
	q := ask.Question{Flight: "short_hop", Plan: []string{"reject@take_off_roll + 5 s"}, Fail: []scenario.Strike{{What: []string{"brake_left"}, At: "take_off_roll"}}}
	if _, err := desk.Answer(t.Context(), q); err != nil {
		t.Fatal(err)
	}
	ground, err := islands.Read()
	if err != nil {
		t.Fatal(err)
	}
	s, err := New(Setting{Region: ground, Log: quiet()}, desk)
	if err != nil {
		t.Fatal(err)
	}
	a, err := desk.Answer(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	terminal := a.Ledger.View().Setting
	const address = "?flight=short_hop&fail=brake_left&at=take_off_roll&plan=reject@take_off_roll+%2B+5+s"
	page := html.UnescapeString(get(s, "/"+address).Body.String())
	var file struct{ Ledger ledger.View }
	if err := json.Unmarshal(get(s, "/answer.json"+address).Body.Bytes(), &file); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(terminal, " m of runway at Kestrin") || file.Ledger.Setting != terminal || !strings.Contains(page, terminal) {
		t.Errorf("terminal: %s\nfile: %s\non the page: %v", terminal, file.Ledger.Setting, strings.Contains(page, terminal))
	}
}
