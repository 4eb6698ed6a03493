package crew_test

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"knockon/book"
	"knockon/crew"
	"knockon/internal/corvane"
)

// TestView: the same failure gives the same bytes from two teams, every alert and
// line of the plan is in it, and the text keeps to its width.
func TestView(t *testing.T) {
	b := corvane.Build(t, "")
	ctx, s := context.Background(), failing(t, b, "cruise", "dc_left", "engine_right")
	var bytesOf [2]string
	for i := range bytesOf {
		tm := team(t, b, "short_hop", crew.Setting{})
		p, err := tm.Fly(ctx, s)
		if err != nil {
			t.Fatal(err)
		}
		v, err := tm.View(ctx, p)
		if err != nil {
			t.Fatal(err)
		}
		text, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		bytesOf[i] = string(text)
		if len(v.Lines) != len(p.Lines) || len(v.Alerts) != len(p.Calls) || len(v.Findings) != len(p.Findings) || len(p.Lines) < 20 {
			t.Errorf("%d lines, %d alerts, %d findings of %d, %d, %d", len(v.Lines), len(v.Alerts), len(v.Findings), len(p.Lines), len(p.Calls), len(p.Findings))
		}
		widths(t, v)
	}
	if bytesOf[0] != bytesOf[1] {
		t.Error("two teams say different things")
	}
}

func widths(t *testing.T, v *crew.View) {
	t.Helper()
	for _, width := range []int{60, 100} {
		var out bytes.Buffer
		if err := crew.WriteText(&out, v, width); err != nil {
			t.Fatal(err)
		}
		for _, line := range strings.Split(out.String(), "\n") {
			if utf8.RuneCountInString(line) > width {
				t.Errorf("wider than %d: %q", width, line)
			}
		}
		if !strings.Contains(strings.Join(strings.Fields(out.String()), " "), book.Caution) {
			t.Error("the caution line is missing")
		}
	}
}
