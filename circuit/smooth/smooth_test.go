package smooth

import (
	"math"
	"math/rand/v2"
	"testing"

	"knockon/book"
)

// curve is a parabola held against nothing: yes while it is above.
type curve struct {
	a, b, c float64
	now     bool
}

func (k curve) value(at book.Time) float64 { s := at.Seconds(); return k.a*s*s + k.b*s + k.c }

func (k curve) Look(at book.Time) Look {
	v := k.value(at)
	return Look{at, (v > 0) != k.now, v}
}

func (k curve) Corner(from book.Time) book.Time { return from + 7*book.Second }

// scan is First in the slow way: every millisecond, and within the one in
// which it turns every microsecond.
func scan(k curve, from, until book.Time) book.Time {
	for t := from; t <= until; t += 1000 {
		if !k.Look(t).Differ {
			continue
		}
		for t = max(from, t-1000); !k.Look(t).Differ; t++ {
		}
		return t
	}
	return book.Never
}

func TestFirst_IsTheFirstMicrosecond(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 0))
	found := 0
	for range 3000 {
		k := curve{a: r.NormFloat64(), b: 10 * r.NormFloat64(), c: 30 * r.NormFloat64()}
		from := book.Time(r.Int64N(int64(3 * book.Second)))
		k.now = k.value(from) > 0
		until := from + book.Time(r.Int64N(int64(12*book.Second)))/1000*1000
		got, want := First(k, from, until), scan(k, from, until)
		if got != want {
			t.Errorf("%+v from %d to %d: %d, want %d", k, from, until, got, want)
		}
		if want != book.Never {
			found++
		}
	}
	if found < 300 {
		t.Errorf("only %d of the curves turn", found)
	}
}

func TestSimpson_IsExactForCubics(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 0))
	knots := Knots{0, 40 * book.Second}
	for range 1000 {
		c := [4]float64{r.NormFloat64(), r.NormFloat64(), r.NormFloat64(), r.NormFloat64()}
		rate := func(at book.Time) float64 { s := at.Seconds(); return c[0] + s*(c[1]+s*(c[2]+s*c[3])) }
		whole := func(s float64) float64 { return s * (c[0] + s*(c[1]/2+s*(c[2]/3+s*c[3]/4))) }
		a := book.AtSeconds(30 * r.Float64())
		b := a + 2*book.AtSeconds(r.Float64()/2) // the middle is a whole microsecond
		if got, want := knots.Simpson(rate, a, b), whole(b.Seconds())-whole(a.Seconds()); math.Abs(got-want) > 1e-9*(1+math.Abs(whole(30))) {
			t.Errorf("%v over %d to %d: %g, want %g", c, a, b, got, want)
		}
	}
}

func TestTank_MeetsItsBoundWhereItSaysSo(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 0))
	for range 1000 {
		s := Tank{Base: 10 * r.Float64(), At: book.AtSeconds(100 * r.Float64()), Rate: r.NormFloat64(), Bounds: &book.Bounds{Least: 0, Most: 10}}
		full := s.Full()
		if full == book.Never {
			continue
		}
		to := 10.0
		if s.Rate < 0 {
			to = 0
		}
		if v := s.Value(full + 2); v != to {
			t.Errorf("%+v: %g just after it should be at %g", s, v, to)
		}
		if v := s.Value(max(s.At, full-book.Second/100)); v == to && full-s.At > book.Second/50 {
			t.Errorf("%+v: at its bound too early", s)
		}
	}
	if got := (Tank{Base: 5, Bounds: &book.Bounds{Most: 10}}).Full(); got != book.Never {
		t.Errorf("a tank that neither fills nor empties is full at %d", got)
	}
}
