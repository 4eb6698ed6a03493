package oracle_test

import (
	"testing"

	"knockon/book"
	"knockon/internal/oracle"
)

// said is a list of changes in tenths of a second, with the values by turns
// no, yes, no, ...
func said(tenths ...int) (all []oracle.Change) {
	for i, t := range append([]int{0}, tenths...) {
		all = append(all, oracle.Change{At: book.Time(t) * book.Second / 10, Value: oracle.Val{Number: float64(i % 2)}})
	}
	return all
}

type saying struct {
	changes []oracle.Change
	number  func(book.Time) float64
}

func (s saying) Changes(oracle.Aspect) ([]oracle.Change, bool) { return s.changes, s.changes != nil }

func (s saying) Number(_ oracle.Aspect, at book.Time) (float64, bool) {
	return s.number(at), true
}

func differences(want []oracle.Change, t book.Type, got saying) []oracle.Difference {
	h := &oracle.History{Aspect: oracle.Aspect{Item: "x", Of: oracle.Value}, Type: t, Changes: want}
	trace := &oracle.Trace{End: 100 * book.Second, Histories: []*oracle.History{h}}
	return oracle.Compare(trace, got, oracle.Tolerance{Time: 2 * book.Second / 10, Relative: 1e-3})
}

func TestCompareHistories(t *testing.T) {
	for _, c := range []struct {
		name      string
		want, got []oracle.Change
		differ    float64 // seconds; -1: they agree
	}{
		{"the same", said(30, 50), said(30, 50), -1},
		{"nearly the same", said(30, 50), said(31, 49), -1},
		{"too late", said(30, 50), said(33, 50), 3},
		{"too early", said(30, 50), said(27, 50), 2.9},
		{"missing", said(30, 50), said(), 3},
		{"surplus", said(), said(30, 50), 3.2},
		{"too short to matter", said(30, 31, 60), said(60), -1},
		{"too short to matter there", said(60), said(30, 31, 60), -1},
		{"without duration", said(30, 30), said(31, 31), -1},
		{"without duration, missing", said(30, 30), said(), 3},
		{"without duration, surplus", said(), said(30, 30), 3},
		{"a gap", said(30, 90), said(30, 50, 58, 90), 5.2},
		{"cut off by the end", said(999), said(), -1},
		{"other after the end", said(30), append(said(30), oracle.Change{At: 101 * book.Second}), -1},
		{"nothing said", said(30), nil, 0},
	} {
		d := differences(c.want, book.YesNo, saying{changes: c.got})
		switch {
		case c.differ < 0 && len(d) > 0:
			t.Errorf("%s: %v", c.name, d)
		case c.differ >= 0 && (len(d) != 1 || d[0].At.Seconds() != c.differ):
			t.Errorf("%s: got %v, want a difference at %g s", c.name, d, c.differ)
		}
	}
}

func TestCompareNumbers(t *testing.T) {
	jump := func(at book.Time) float64 {
		if at < 3*book.Second {
			return 10
		}
		return 20
	}
	sample := func(at, v float64) []oracle.Change {
		return []oracle.Change{{At: book.AtSeconds(at), Value: oracle.Val{Number: v}}}
	}
	for _, c := range []struct {
		at, v float64
		agree bool
	}{
		{2, 10, true}, {2, 10.005, true}, {2, 10.2, false}, {2, 20, false},
		{3.1, 10, true}, {3.1, 15, true}, {2.9, 20, true}, {3.3, 10, false}, {3.1, 21, false},
	} {
		if d := differences(sample(c.at, c.v), book.Number, saying{number: jump}); (len(d) == 0) != c.agree {
			t.Errorf("%g at %g s: got %v", c.v, c.at, d)
		}
	}
}
