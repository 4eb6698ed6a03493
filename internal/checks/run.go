package checks

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
)

// Tester is what Run needs of a test.
type Tester interface {
	Helper()
	Errorf(format string, args ...any)
}

// How computes a quantity from what it is of: a float64, an int, or words.
type How = func(v Value) any

// Of makes a How of what computes from the numbers alone.
func Of(f func(n []float64) float64) How {
	return func(v Value) any { return f(v.Numbers()) }
}

// Run checks every row of a table: how holds, for each quantity of the table,
// what computes it. A quantity that nothing computes is an error, and so is one
// of how that the table does not have.
func Run(t Tester, area string, how map[string]How) {
	t.Helper()
	tables, _, err := Tables()
	if err != nil {
		t.Errorf("%v", err)
		return
	}
	i := slices.IndexFunc(tables, func(a Table) bool { return a.Area == area })
	if i < 0 {
		t.Errorf("there is no table %s", area)
		return
	}
	tables[i].run(t, how)
}

func (a *Table) run(t Tester, how map[string]How) {
	t.Helper()
	met := map[string]bool{}
	for _, v := range a.Values {
		met[v.What] = true
		compute, ok := how[v.What]
		if !ok {
			t.Errorf("%s.tsv:%d: nothing computes %s", a.Area, v.Line, v.What)
			continue
		}
		if wrong := v.against(compute(v)); wrong != "" {
			t.Errorf("%s.tsv:%d: %s (%s): %s; %s, %s", a.Area, v.Line, v.What, v.Given, wrong, v.Source.Title, v.Place)
		}
	}
	for _, what := range slices.Sorted(maps.Keys(how)) {
		if !met[what] {
			t.Errorf("%s.tsv has no row of %s", a.Area, what)
		}
	}
}

// against tells what is wrong with a computed value; nothing if it agrees.
func (v Value) against(got any) string {
	if n, ok := got.(int); ok {
		got = float64(n)
	}
	switch got := got.(type) {
	case string:
		if got != v.Want {
			return fmt.Sprintf("got %q, want %q", got, v.Want)
		}
	case float64:
		want, err := strconv.ParseFloat(v.Want, 64)
		within := v.Tolerance
		if v.Relative {
			within *= math.Abs(want)
		}
		if err != nil || !(math.Abs(got-want) <= within) {
			return fmt.Sprintf("got %.12g, want %s within %g", got, v.Want, within)
		}
	default:
		return fmt.Sprintf("got %v, which is no value", got)
	}
	return ""
}
