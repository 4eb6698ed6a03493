package smooth

import (
	"math"
	"sort"

	"knockon/book"
)

// Rate is what a sum that follows itself grows by, a second, at a moment at which it
// is worth v.
type Rate func(at book.Time, v float64) float64

// Arc is such a sum from one moment to another: a polynomial in time.
type Arc struct {
	From, To  book.Time
	Base, End float64 // what it is worth at From and To
	by        [nodes]float64
}

// At is what the sum is worth at a moment of the arc.
func (a *Arc) At(t book.Time) float64 {
	if t >= a.To {
		return a.End
	}
	x := float64(t-a.From) / float64(a.To-a.From)
	return Finite(a.Base + x*(a.by[0]+x*(a.by[1]+x*(a.by[2]+x*(a.by[3]+x*(a.by[4]+x*a.by[5]))))))
}

// ArcAt is the place of the arc in a list, one after the other, that reaches a
// moment; len(list) if none does.
func ArcAt(list []Arc, t book.Time) int {
	return sort.Search(len(list), func(i int) bool { return list[i].To >= t })
}

// Arcs adds what a sum that is worth v at a is from there to b, where its rate
// follows the sum itself: the solution of v' = rate(t, v). A piece is a polynomial
// that grows at that rate at both ends and four moments between; it is divided until
// it does elsewhere too, as nearly as matters.
func (k Knots) Arcs(into []Arc, rate Rate, a, b book.Time, v float64) []Arc {
	e := equation{rate: rate, arcs: into}
	e.solve(a, b, k.last(a, b), v, rate(a, v))
	return e.arcs
}

// equation is a sum that is being solved for.
type equation struct {
	rate Rate
	arcs []Arc
}

// nodes is at how many moments a piece grows at the rate asked for. They are those of
// Lobatto, with which what it comes to is exact to the tenth order, and steady however
// fast a difference dies away (E. Hairer and G. Wanner, Solving Ordinary Differential
// Equations II, IV.5 "Lobatto IIIA").
const nodes = 6

var nodeAt = [nodes]float64{0, 0.5 - outer, 0.5 - inner, 0.5 + inner, 0.5 + outer, 1}

var outer, inner = math.Sqrt((7 + 2*math.Sqrt(7)) / 84), math.Sqrt((7 - 2*math.Sqrt(7)) / 84)

// weights are those of a piece. Time is whole microseconds, so that its nodes are not
// quite where they should be.
type weights struct {
	powers [nodes][nodes]float64 // from the rates to the coefficients of x to x⁴ of what they add up to
	upTo   [nodes][nodes]float64 // from the rates to what they add up to by each node
}

func weightsOf(at *[nodes]float64) (w weights) {
	for j := range nodes {
		p := [nodes]float64{1} // of the rate that is 1 at node j and 0 at the others
		for i := range nodes {
			if i == j {
				continue
			}
			by := 1 / (at[j] - at[i])
			for d := nodes - 1; d > 0; d-- {
				p[d] = by * (p[d-1] - at[i]*p[d])
			}
			p[0] *= -at[i] * by
		}
		for d := range nodes {
			w.powers[d][j] = p[d] / float64(d+1)
		}
		for i, x := range at {
			w.upTo[i][j] = x * (w.powers[0][j] + x*(w.powers[1][j]+x*(w.powers[2][j]+x*(w.powers[3][j]+x*(w.powers[4][j]+x*w.powers[5][j])))))
		}
	}
	return w
}

// usual are the weights of a piece whose nodes are where they should be.
var usual = weightsOf(&nodeAt)

// shortest is the shortest piece that is divided.
const shortest = book.Second / 4096

// asALine is up to where a piece has no room for nodes in whole microseconds: the
// flight may turn right after it began. It is taken as a line.
const asALine = book.Second / 15625

// line is an arc that grows at one rate.
func line(a, b book.Time, v, k float64) Arc {
	x := Arc{From: a, To: b, Base: v}
	x.by[0] = (b - a).Seconds() * k
	x.End = Finite(v + x.by[0])
	return x
}

// solve goes from a, where the sum is worth v and grows by k, to b, and gives what
// it is worth and grows by there.
func (e *equation) solve(a, b, last book.Time, v, k float64) (end, rate float64) {
	d := 1e-5 * max(math.Abs(v), 1)
	return e.divide(a, b, last, v, k, (e.rate(a, v+d)-k)/d)
}

// divide is solve where it is known by how much the rate changes with the sum.
func (e *equation) divide(a, b, last book.Time, v, k, bend float64) (end, rate float64) {
	if b-a < asALine {
		e.arcs = append(e.arcs, line(a, b, v, k))
		end = e.arcs[len(e.arcs)-1].End
		return end, e.rate(last, end)
	}
	p := newPiece(a, b, last, v, k, bend)
	if p.meet(e.rate) || b-a <= shortest {
		e.arcs = append(e.arcs, p.arc())
		return e.arcs[len(e.arcs)-1].End, p.rates[nodes-1]
	}
	mid := a + (b-a)/2
	half, k := e.divide(a, mid, mid, v, k, bend)
	return e.solve(mid, b, last, half, k)
}

// piece is an arc that is being looked for.
type piece struct {
	from, to  book.Time
	v, bend   float64
	moments   [nodes]book.Time
	at, rates [nodes]float64 // what it is worth and grows by at the nodes
	weights
}

func newPiece(a, b, last book.Time, v, k, bend float64) piece {
	p := piece{from: a, to: b, v: v, bend: bend, moments: [nodes]book.Time{0: a, nodes - 1: last}}
	var at [nodes]float64
	for i, x := range nodeAt {
		if i > 0 && i < nodes-1 {
			p.moments[i] = a + book.Time(x*float64(b-a))
		}
		at[i] = float64(p.moments[i]-a) / float64(b-a)
		p.at[i] = v + (b-a).Seconds()*at[i]*k
	}
	p.rates[0], p.weights = k, weightsOf(&at)
	return p
}

const (
	mostRounds = 8
	roundsTo   = 1e-11 // of the sum: what a last round may change
	strays     = 1e-9  // of the sum: how far it is from the rate between nodes, over the piece
)

// meet looks for the values at the nodes that agree with the rates there, by Newton's
// method, and says whether it found them and whether they do between as well.
func (p *piece) meet(rate Rate) bool {
	h := (p.to - p.from).Seconds()
	solve := newtonOf(h * p.bend)
	for range mostRounds {
		for i := 1; i < nodes; i++ {
			p.rates[i] = rate(p.moments[i], p.at[i])
		}
		most := p.round(h, &solve)
		size := max(min(math.Abs(p.v), math.Abs(p.at[nodes-1])), 1)
		if most <= roundsTo*size {
			return p.follows(rate, h, strays*size)
		}
		if most != most {
			return false
		}
	}
	return false
}

// follows says whether the piece grows at the rate between nodes too, so nearly that
// it would be no more than off out over its length; what dies away does less.
func (p *piece) follows(rate Rate, h, off float64) bool {
	x := p.arc()
	for _, t := range [2]book.Time{p.from + (p.to-p.from)/2, p.from + (p.to-p.from)/4} {
		if stray := x.slope(t) - rate(t, x.At(t)); !(math.Abs(stray)*h <= off*(1+max(-h*p.bend, 0))) {
			return false
		}
	}
	return true
}

// round moves the values towards what the rates add up to, and gives the most that
// one moved.
func (p *piece) round(h float64, solve *[nodes - 1][nodes - 1]float64) (most float64) {
	var off [nodes - 1]float64
	for i := range off {
		sum := 0.0
		for j := range nodes {
			sum += p.upTo[i+1][j] * p.rates[j]
		}
		off[i] = p.v + h*sum - p.at[i+1]
	}
	for i, row := range solve {
		by := 0.0
		for j, x := range row {
			by += x * off[j]
		}
		p.at[i+1] += by
		p.rates[i+1] += p.bend * by
		if most = max(most, math.Abs(by)); by != by {
			return by
		}
	}
	return most
}

func (p *piece) arc() Arc {
	a, h := Arc{From: p.from, To: p.to, Base: p.v}, (p.to - p.from).Seconds()
	for d := range a.by {
		for j, k := range p.rates {
			a.by[d] += h * p.powers[d][j] * k
		}
	}
	a.End = Finite(p.v + a.by[0] + a.by[1] + a.by[2] + a.by[3] + a.by[4] + a.by[5])
	return a
}

// slope is what the arc grows by at a moment, a second.
func (a *Arc) slope(t book.Time) float64 {
	x := float64(t-a.From) / float64(a.To-a.From)
	return (a.by[0] + x*(2*a.by[1]+x*(3*a.by[2]+x*(4*a.by[3]+x*(5*a.by[4]+x*6*a.by[5]))))) / (a.To - a.From).Seconds()
}

// newtonOf is the inverse of what the values miss by when they move, where the rate
// changes with the sum by x over the piece.
func newtonOf(x float64) (inverse [nodes - 1][nodes - 1]float64) {
	m := inverse
	for i := range m {
		for j := range m {
			m[i][j] = -x * usual.upTo[i+1][j+1]
		}
		m[i][i]++
		inverse[i][i] = 1
	}
	for k := range m { // Gauss and Jordan; it needs no exchange of rows
		by := 1 / m[k][k]
		for j := range m {
			m[k][j] *= by
			inverse[k][j] *= by
		}
		for i := range m {
			if f := m[i][k]; i != k {
				for j := range m {
					m[i][j] -= f * m[k][j]
					inverse[i][j] -= f * inverse[k][j]
				}
			}
		}
	}
	return inverse
}
