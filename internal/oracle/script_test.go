package oracle_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/internal/oracle"
)

const step = book.Second / 20

// script is a path written by hand. A yes/no is a list of spans in seconds in
// which it is yes ("2-5 7-9"), a number a list of corners ("0:0 10:100"),
// straight between them.
type script struct {
	end   book.Time
	value map[int]func(book.Time) float64
	knots []book.Time
}

func (s *script) End() book.Time     { return s.end }
func (s *script) Knots() []book.Time { return s.knots }

func (s *script) Value(q int, t book.Time) float64 {
	if f := s.value[q]; f != nil {
		return f(min(max(t, 0), s.end))
	}
	return 0
}

// newScript reads lines such as "icing 2-5; height_ft 0:0 10:100".
func newScript(t testing.TB, text string, end float64) *script {
	t.Helper()
	s := &script{end: book.AtSeconds(end), value: map[int]func(book.Time) float64{}}
	s.value[0] = book.Time.Seconds
	knots := map[book.Time]bool{0: true, s.end: true}
	for line := range strings.SplitSeq(text, ";") {
		words := strings.Fields(line)
		if len(words) == 0 {
			continue
		}
		points := pairs(t, words[1:])
		for _, p := range points {
			knots[book.AtSeconds(p[0])] = true
			if !strings.Contains(words[1], ":") {
				knots[book.AtSeconds(p[1])] = true
			}
		}
		s.value[quantity(t, words[0])] = along(points, strings.Contains(words[1], ":"))
	}
	for at := range knots {
		if at >= 0 && at <= s.end {
			s.knots = append(s.knots, at)
		}
	}
	sortTimes(s.knots)
	return s
}

func pairs(t testing.TB, words []string) (points [][2]float64) {
	t.Helper()
	for _, w := range words {
		a, b, _ := strings.Cut(strings.Replace(w, ":", "-", 1), "-")
		x, err1 := strconv.ParseFloat(a, 64)
		y, err2 := strconv.ParseFloat(b, 64)
		if err1 != nil || err2 != nil {
			t.Fatalf("bad point %q", w)
		}
		points = append(points, [2]float64{x, y})
	}
	return points
}

func quantity(t testing.TB, name string) int {
	t.Helper()
	for i, q := range book.Quantities {
		if q.Name == name {
			return i
		}
	}
	t.Fatalf("no quantity %s", name)
	return 0
}

func along(points [][2]float64, number bool) func(book.Time) float64 {
	if number {
		return func(t book.Time) float64 { return corner(points, t) }
	}
	return func(t book.Time) float64 {
		for _, p := range points {
			if t >= book.AtSeconds(p[0]) && t < book.AtSeconds(p[1]) {
				return 1
			}
		}
		return 0
	}
}

func corner(points [][2]float64, t book.Time) float64 {
	last := points[0]
	for _, p := range points {
		if t < book.AtSeconds(p[0]) {
			if t <= book.AtSeconds(last[0]) {
				return last[1]
			}
			return last[1] + (p[1]-last[1])*(t.Seconds()-last[0])/(p[0]-last[0])
		}
		last = p
	}
	return last[1]
}

// load reads a book from one text.
func load(t testing.TB, text string) *book.Build {
	t.Helper()
	if !strings.Contains(text, "aircraft ") {
		text = "aircraft \"test\" {\n  title = \"Test\"\n}\n" + text
	}
	b, diagnostics := book.Load(t.Context(), fstest.MapFS{"test.hcl": {Data: []byte(text)}})
	if diagnostics.HasErrors() {
		for _, d := range diagnostics {
			t.Errorf("%s: %s %s", d.Subject, d.Code, d.Summary)
		}
		t.Fatalf("the test's book is wrong:\n%s", text)
	}
	build, _ := b.Build("")
	return build
}

// fly flies a book's first flight, if it has one, along a script.
func fly(t testing.TB, b *book.Build, path string, end float64, s oracle.Scenario) (*oracle.Trace, error) {
	t.Helper()
	var f *book.Flight
	if len(b.Flights) > 0 {
		f = b.Flights[0]
	}
	return oracle.Fly(b, f, newScript(t, path, end), s, step)
}

// told writes a history as it stands in the tests: "no 3:yes 5:no".
func told(h *oracle.History) string {
	if h == nil {
		return "nothing"
	}
	var out []string
	for i, c := range h.Changes {
		v := fmt.Sprintf("%g", c.Value.Number)
		switch h.Type {
		case book.YesNo:
			v = [...]string{"no", "yes"}[int(c.Value.Number)]
		case book.Word:
			v = c.Value.Word
		}
		if i > 0 {
			v = fmt.Sprintf("%g:%s", c.At.Seconds(), v)
		}
		out = append(out, v)
	}
	return strings.Join(out, " ")
}

// numberAt gives the sample of a number at a moment.
func numberAt(t testing.TB, h *oracle.History, seconds float64) float64 {
	t.Helper()
	if h == nil {
		t.Fatal("no such history")
	}
	for _, c := range h.Changes {
		if c.At == book.AtSeconds(seconds) {
			return c.Value.Number
		}
	}
	t.Fatalf("%s has no sample at %g s", h.Aspect, seconds)
	return 0
}

// expr parses an expression of a book by way of a signal that holds it.
func expr(t testing.TB, text string) *book.Expr {
	t.Helper()
	b := load(t, "signal \"given_here\" {\n  value = "+text+"\n}\n")
	return b.Signals[0].Value
}
