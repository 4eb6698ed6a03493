package ledger_test

import (
	"context"
	"testing"

	"knockon/internal/corvane"
	"knockon/ledger"
	"knockon/run"
)

// demoCourse compiles the demonstration book's first build on its first flight.
func demoCourse(t testing.TB) *run.Course {
	t.Helper()
	build := corvane.Build(t, "")
	c, err := run.NewCourse(build, nil, run.Setting{})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Many rows at once: both main DC buses of the demonstration book.
func BenchmarkOf(b *testing.B) {
	c := demoCourse(b)
	s := failing(b, "dc_left@1500 dc_right@2000")
	here, err := c.Fly(context.Background(), s)
	if err != nil {
		b.Fatal(err)
	}
	there, err := c.Healthy(context.Background(), s)
	if err != nil {
		b.Fatal(err)
	}
	rows := 0
	for b.Loop() {
		l := ledger.Of(here, there)
		rows = len(l.Losses) + len(l.Wrong) + len(l.Dark)
	}
	if rows < 50 {
		b.Fatalf("only %d rows: the scenario measures nothing", rows)
	}
}

func BenchmarkView(b *testing.B) {
	l := answer(b, demoCourse(b), failing(b, "dc_left@1500 dc_right@2000"))
	for b.Loop() {
		l.View()
	}
}
