package ledger_test

import (
	"cmp"
	"context"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/run"
)

// frame is what every small book here stands in: phases by the clock, so that
// all moments are whole seconds, and a short flight, cut to 400 s.
const frame = `
aircraft "toy" {
  title = "Toy"
  %s
}
phase "ground" {
  title = "On the ground"
}
phase "climb" {
  title  = "Climb"
  begins = real.time_s >= 100
}
phase "cruise" {
  title  = "Cruise"
  begins = real.time_s >= 200
}
phase "landing" {
  title  = "Landing"
  begins = real.time_s >= 300
}
flight "hop" {
  title              = "Hop"
  from               = "Here"
  to                 = "There"
  takeoff_mass_kg    = 33000
  fuel_kg            = 3000
  cruise_altitude_ft = 4000
  distance_nm        = 25
  rotate_kt          = 125
  climb_kt           = 250
  climb_mach         = 0.7
  descent_kt         = 250
  approach_kt        = 128
}
`

// clock is a flight of 400 s on which nothing moves but the clock.
type clock struct{}

func (clock) End() book.Time     { return 400 * book.Second }
func (clock) Knots() []book.Time { return []book.Time{0, 400 * book.Second} }
func (clock) Value(q int, t book.Time) float64 {
	if book.Quantities[q].Name == "time_s" {
		return t.Seconds()
	}
	return 0
}

// load loads a small book within the frame. A first line "# aircraft: ..."
// gives attributes of the aircraft.
func load(t testing.TB, text string) *book.Build {
	t.Helper()
	attributes := ""
	if line, rest, _ := strings.Cut(strings.TrimSpace(text), "\n"); strings.HasPrefix(line, "# aircraft: ") {
		attributes, text = strings.ReplaceAll(strings.TrimPrefix(line, "# aircraft: "), "; ", "\n"), rest
	}
	whole := fmt.Sprintf(frame, attributes) + text
	b, diags := book.Load(context.Background(), fstest.MapFS{"book.hcl": {Data: []byte(whole)}})
	if b == nil {
		var all strings.Builder
		for _, d := range diags {
			if d.Severity == book.Error {
				fmt.Fprintln(&all, d)
			}
		}
		t.Fatalf("%s\n%s", all.String(), text)
	}
	build, _ := b.Build("")
	return build
}

func course(t testing.TB, text string) *run.Course {
	t.Helper()
	c, err := run.NewCourse(load(t, text), nil, run.Setting{Path: clock{}})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// failing reads "pump@100 gen.low@120+30 /spare lever=up@130 =lever=up@130": units
// that fail at a second, one of them for 30 s, one that is inoperative from the
// start, an act, and a set-up.
func failing(t testing.TB, text string) run.Scenario {
	t.Helper()
	var s run.Scenario
	for _, word := range strings.Fields(text) {
		if unit, ok := strings.CutPrefix(word, "/"); ok {
			s.Inoperative = append(s.Inoperative, book.FailureRef{Unit: unit})
			continue
		}
		name, when, _ := strings.Cut(word, "@")
		if control, position, ok := strings.Cut(strings.TrimPrefix(name, "="), "="); ok {
			seconds, _ := strconv.ParseFloat(when, 64)
			a := run.Action{Control: control, Position: position, At: book.Moment{Offset: book.AtSeconds(seconds)}}
			if strings.HasPrefix(word, "=") {
				s.SetUp = append(s.SetUp, a)
			} else {
				s.Actions = append(s.Actions, a)
			}
			continue
		}
		unit, fault, _ := strings.Cut(name, ".")
		var at, lasts float64
		if n, _ := fmt.Sscanf(when, "%g+%g", &at, &lasts); n == 0 {
			t.Fatalf("bad failure %q", word)
		}
		s.Strikes = append(s.Strikes, run.Strike{
			Fail: []book.FailureRef{{Unit: unit, Fault: fault}},
			At:   book.Moment{Offset: book.AtSeconds(at)}, Lasts: book.AtSeconds(lasts),
		})
	}
	return s
}

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
