package ledger_test

import (
	"cmp"
	"context"
	"fmt"
	"strings"
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/internal/smallbook"
	"knockon/ledger"
	"knockon/run"
)

var (
	course  = smallbook.Course
	failing = smallbook.Failing
)

func answer(t testing.TB, c *run.Course, s run.Scenario) *ledger.Ledger {
	t.Helper()
	l, err := ledger.Answer(context.Background(), c, s)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// dump writes all of a ledger, a line for each stretch, times in seconds.
func dump(l *ledger.Ledger) string {
	var w strings.Builder
	for _, x := range l.Losses {
		fmt.Fprintf(&w, "lost %s: %s%s\n", x.Function.ID, x.Class, unless(x.Mattered, ", not wanted"))
		for _, s := range x.Spans {
			fmt.Fprintf(&w, "  %s %s\n", stretch(s.Span, s.ToEnd), lossSpan(s))
		}
	}
	readings(&w, "wrong", l.Wrong)
	readings(&w, "dark", l.Dark)
	announcements(&w, "given", l.Alerts)
	announcements(&w, "false", l.False)
	announcements(&w, "held", l.Held)
	for _, k := range l.Kept {
		fmt.Fprintf(&w, "kept %s: without %s by %s at %g\n", k.Function.ID, strings.Join(k.Gone, " "), strings.Join(k.By, " "), k.At.Seconds())
	}
	return w.String()
}

func unless(yes bool, text string) string {
	if yes {
		return ""
	}
	return text
}

func stretch(s circuit.Span, toEnd bool) string {
	if toEnd {
		return fmt.Sprintf("%g-end", s.From.Seconds())
	}
	return fmt.Sprintf("%g-%g", s.From.Seconds(), s.To.Seconds())
}

func lossSpan(s ledger.LossSpan) string {
	parts := []string{s.Class.String()}
	if s.By != nil {
		parts = append(parts, fmt.Sprintf("by %s at %g", s.By.ID, s.At.Seconds()))
	}
	if s.Via != nil {
		parts = append(parts, fmt.Sprintf("via %s at %g", s.Via.ID, s.At.Seconds()))
	}
	if s.Late != 0 {
		parts = append(parts, fmt.Sprintf("late %g", s.Late.Seconds()))
	}
	if len(s.HeldIn) > 0 {
		parts = append(parts, "held in "+strings.Join(s.HeldIn, " "))
	}
	for _, i := range s.Lies {
		parts = append(parts, "lie "+i.ID)
	}
	if s.Shown != nil {
		parts = append(parts, fmt.Sprintf("shown by %s at %g", s.Shown.ID, s.ShownAt.Seconds()))
	}
	switch {
	case !s.Mattered:
		parts = append(parts, "not wanted")
	case s.Wanted != s.Span:
		parts = append(parts, "wanted "+stretch(s.Wanted, false))
	}
	return strings.Join(parts, ", ")
}

func readings(w *strings.Builder, word string, list []ledger.Reading) {
	for _, r := range list {
		fmt.Fprintf(w, "%s %s:", word, r.Indication.ID)
		for _, s := range r.Spans {
			fmt.Fprintf(w, " %s", stretch(s.Span, s.ToEnd))
			if word == "wrong" {
				fmt.Fprintf(w, " %s for %s", s.Shows, s.Means)
			}
		}
		fmt.Fprintln(w)
	}
}

func announcements(w *strings.Builder, word string, list []ledger.Announcement) {
	for _, a := range list {
		fmt.Fprintf(w, "%s %s:", word, a.Alert.ID)
		for _, s := range a.Spans {
			fmt.Fprintf(w, " %s", stretch(s, s.To == 400*book.Second))
		}
		if len(a.Sounds) > 1 {
			fmt.Fprintf(w, ", sounds")
			for _, t := range a.Sounds {
				fmt.Fprintf(w, " %g", t.Seconds())
			}
		}
		if word == "held" {
			fmt.Fprintf(w, ", in %s, %s", strings.Join(a.Phases, " "), cmp.Or(unless(!a.Given, fmt.Sprintf("given at %g", a.At.Seconds())), "never given"))
		}
		fmt.Fprintln(w)
	}
}
