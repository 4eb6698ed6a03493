package follow

import (
	"testing"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/run"
)

// TestLate: the list of a warning that is read and not done ten minutes after its
// warning, also where the flight ends first; nothing else.
func TestLate(t *testing.T) {
	const min = 60 * book.Second
	list := &book.Procedure{Head: book.Head{ID: "x_list", Title: "X"}}
	call := func(level string, given, begun, done book.Time) crew.Call {
		return crew.Call{Alert: &book.Alert{Level: level}, Procedure: list, Given: given, Begun: begun, Done: done}
	}
	joined := call("warning", 0, 0, 20*min)
	joined.Joined = true
	p := &crew.Plan{Record: &run.Record{Trace: &circuit.Trace{End: 30 * min}}, Calls: []crew.Call{
		call("warning", 0, 1*min, 10*min), call("caution", 0, 1*min, 20*min), call("warning", 0, book.Never, book.Never), joined,
		call("warning", 25*min, 26*min, book.Never),
	}}
	if got := late(p); len(got) != 0 {
		t.Errorf("%+v", got)
	}
	p.Calls = append(p.Calls, call("warning", 2*min, 3*min, 12*min+1), call("warning", 15*min, 16*min, book.Never))
	got := late(p)
	if len(got) != 2 || got[0].At != 2*min || got[0].Took != 10*min+1 || got[1].At != 15*min || got[1].Took != 15*min {
		t.Fatalf("%+v", got)
	}
	if text, want := got[0].says(0), "the warning comes at +2:00, and “X” is not done 10 min 00 s later"; text != want {
		t.Errorf("%q, want %q", text, want)
	}
	f := &Followed{Flown: 1, Called: 1, Findings: got}
	if n := f.worse(); n != 0 || f.alone() != " After 1 of them the list of a warning is not done ten minutes after it is given." {
		t.Error(n, f.alone())
	}
}
