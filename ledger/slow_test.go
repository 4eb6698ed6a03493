package ledger_test

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/ledger"
	"knockon/run"
)

// slow is the ledger worked out straight from docs/meaning.md section 5: every
// value is looked at at every moment of a grid, and the definitions are applied
// to what was seen. It shares no code with the ledger. All values must be
// steady between the moments of the grid.
type slow struct {
	here, there *run.Record
	grid        []book.Time // the last one is the end
	strike      int         // index
	w, v        book.Time
	seen        map[key][2][]bool
}

type key struct {
	id     string
	aspect circuit.Aspect
}

func newSlow(l *ledger.Ledger, grid []book.Time) *slow {
	s := &slow{here: l.Here, there: l.There, grid: grid, seen: map[key][2][]bool{}}
	s.w, s.v = ledger.ToldWithin(l.Here.Course.Build.Aircraft), ledger.WrongAfter(l.Here.Course.Build.Aircraft)
	for s.strike < len(grid)-1 && grid[s.strike] < l.Strike {
		s.strike++
	}
	return s
}

// look gives a yes/no at each moment of the grid in both runs.
func (s *slow) look(id string, a circuit.Aspect) (here, there []bool) {
	k := key{id, a}
	if _, ok := s.seen[k]; !ok {
		s.seen[k] = [2][]bool{s.sample(s.here, k), s.sample(s.there, k)}
	}
	return s.seen[k][0], s.seen[k][1]
}

func (s *slow) sample(r *run.Record, k key) []bool {
	seen := make([]bool, len(s.grid))
	n, ok := r.Circuit().Node(circuit.Value{Item: k.id, Aspect: k.aspect})
	for i, t := range s.grid {
		seen[i] = ok && r.At(n, t) != 0
	}
	return seen
}

// stretches gives the longest runs [i, j) of moments at which yes holds.
func (s *slow) stretches(yes func(i int) bool) (list [][2]int) {
	last := len(s.grid) - 1
	for i := 0; i < last; i++ {
		if !yes(i) {
			continue
		}
		j := i
		for j < last && yes(j) {
			j++
		}
		list = append(list, [2]int{i, j})
		i = j
	}
	return list
}

// newly gives the runs of moments at which a value is yes here and not there.
func (s *slow) newly(id string, a circuit.Aspect) [][2]int {
	here, there := s.look(id, a)
	return s.stretches(func(i int) bool { return here[i] && !there[i] })
}

// blinks lists the moments at which a value is yes here, for no duration, and
// not there.
func (s *slow) blinks(id string, a circuit.Aspect) (at []int) {
	blink := func(r *run.Record) map[book.Time]bool {
		found := map[book.Time]bool{}
		n, _ := r.Circuit().Node(circuit.Value{Item: id, Aspect: a})
		for _, ch := range r.Changes() {
			if ch.Node == n && ch.To != 0 && r.At(n, ch.At) == 0 {
				found[ch.At] = true
			}
		}
		return found
	}
	here, there := blink(s.here), blink(s.there)
	_, stays := s.look(id, a)
	for i, t := range s.grid {
		if here[t] && !there[t] && !stays[i] {
			at = append(at, i)
		}
	}
	return at
}

// dump writes the ledger in the form of the dump of frame_test.go, without
// what is kept and without how things read.
func (s *slow) dump() string {
	b := s.here.Course.Build
	var w strings.Builder
	var losses []ledger.Loss
	for _, f := range b.Functions {
		if l, ok := s.loss(f); ok {
			losses = append(losses, l)
		}
	}
	slices.SortStableFunc(losses, func(x, y ledger.Loss) int { return slowOrder(y) - slowOrder(x) })
	for _, x := range losses {
		fmt.Fprintf(&w, "lost %s: %s%s\n", x.Function.ID, x.Class, unless(x.Mattered, ", not wanted"))
		for _, p := range x.Spans {
			fmt.Fprintf(&w, "  %s %s\n", stretch(p.Span, p.ToEnd), lossSpan(p))
		}
	}
	s.dumpReadings(&w, b)
	s.dumpAlerts(&w, b)
	return w.String()
}

// slowOrder is how bad a row is: mattered, then class, then severity, that
// of a loss that nobody knows of where the class says so.
func slowOrder(l ledger.Loss) int {
	bad := 0
	if l.Mattered {
		bad = 1000
	}
	bad += map[ledger.Class]int{ledger.NotTold: 500, ledger.ToldWrong: 400, ledger.OnlyShown: 300, ledger.ToldLate: 200, ledger.Told: 100}[l.Class]
	class := l.Function.Severity
	if worse := l.Function.SeverityIfHidden; worse != "" && (l.Class == ledger.NotTold || l.Class == ledger.ToldWrong) {
		class = worse
	}
	return bad + 10*(1+slices.Index(book.Severities, class))
}

func (s *slow) loss(f *book.Function) (l ledger.Loss, ok bool) {
	here, there := s.look(f.ID, circuit.Main)
	var joined [][2]int
	for _, p := range s.stretches(func(i int) bool { return there[i] && !here[i] }) {
		if n := len(joined); n > 0 && s.grid[p[0]]-s.grid[joined[n-1][1]] < s.v {
			joined[n-1][1] = p[1]
		} else {
			joined = append(joined, p)
		}
	}
	l.Function = f
	for _, p := range joined {
		span := s.span(f, p)
		l.Mattered = l.Mattered || span.Mattered
		l.Spans = append(l.Spans, span)
	}
	for _, span := range l.Spans {
		if span.Mattered == l.Mattered && span.Class > l.Class {
			l.Class = span.Class
		}
	}
	return l, len(joined) > 0
}

func (s *slow) span(f *book.Function, p [2]int) ledger.LossSpan {
	last := len(s.grid) - 1
	x := ledger.LossSpan{Span: s.time(p), ToEnd: p[1] == last}
	wanted, _ := s.look(f.ID, circuit.Wanted)
	for _, q := range s.stretches(func(i int) bool { return i >= p[0] && i < p[1] && wanted[i] }) {
		if s.grid[q[1]]-s.grid[q[0]] <= book.Second/1000 {
			continue
		}
		if x.Brief = x.To-x.From <= s.v && !x.ToEnd; !x.Brief && !x.Mattered {
			x.Mattered, x.Wanted = true, s.time(q)
		}
	}
	liar, lied := s.liars(f, p, &x)
	by, told := s.teller(f, p)
	m := x.From
	if x.Mattered {
		m = x.Wanted.From
	}
	via, shown := s.shower(f, p)
	if liar != nil && via != nil {
		x.Shown, x.ShownAt = via, s.grid[shown]
	}
	switch {
	case by != nil && s.grid[told] <= m+s.w:
		x.Class, x.By, x.At = ledger.Told, by, s.grid[told]
	case by != nil:
		x.Class, x.By, x.At, x.Late = ledger.ToldLate, by, s.grid[told], s.grid[told]-m
		x.HeldIn = s.quiet([]*book.Alert{by}, p[0], told)
	case liar != nil:
		x.Class, x.Via, x.At, x.HeldIn = ledger.ToldWrong, liar, s.grid[lied], s.quiet(s.tellers(f), p[0], p[1])
	case via != nil:
		x.Class, x.Via, x.At, x.HeldIn = ledger.OnlyShown, via, s.grid[shown], s.quiet(s.tellers(f), p[0], p[1])
	default:
		x.Class, x.HeldIn = ledger.NotTold, s.quiet(s.tellers(f), p[0], p[1])
	}
	return x
}

func (s *slow) time(p [2]int) circuit.Span { return circuit.Span{From: s.grid[p[0]], To: s.grid[p[1]]} }

func (s *slow) tellers(f *book.Function) (list []*book.Alert) {
	for _, a := range s.here.Course.Build.Alerts {
		if slices.Contains(a.Tells, f.ID) {
			list = append(list, a)
		}
	}
	return list
}

// teller looks for the alert that tells a span: given here, not there and not
// false for half a second or more, and standing at its start, or ended at most w
// before it, or begun within it. Of these the one that began first.
func (s *slow) teller(f *book.Function, p [2]int) (by *book.Alert, at int) {
	for _, level := range book.Levels {
		for _, a := range s.tellers(f) {
			if a.Level != level {
				continue
			}
			here, there := s.look(a.ID, circuit.Main)
			wrong, _ := s.look(a.ID, circuit.False)
			for _, q := range s.stretches(func(i int) bool { return here[i] && !there[i] && !wrong[i] }) {
				stands := q[0] <= p[0] && p[0] < q[1]
				over := q[1] <= p[0] && s.grid[p[0]]-s.grid[q[1]] <= s.w
				later := p[0] < q[0] && q[0] < p[1]
				long := s.grid[q[1]]-s.grid[q[0]] >= book.Second/2
				if long && (stands || over || later) && (by == nil || q[0] < at) {
					by, at = a, q[0]
				}
			}
		}
	}
	return by, at
}

// quiet lists the phases in which one of the alerts is held back here and not there.
func (s *slow) quiet(alerts []*book.Alert, from, to int) (phases []string) {
	for _, p := range s.here.Course.Build.Phases {
		in, _ := s.look(p.ID, circuit.Main)
		for i := from; i < to; i++ {
			held := slices.ContainsFunc(alerts, func(a *book.Alert) bool {
				here, there := s.look(a.ID, circuit.HeldBack)
				return here[i] && !there[i]
			})
			if in[i] && held {
				phases = append(phases, p.ID)
				break
			}
		}
	}
	return phases
}

func (s *slow) covering(f *book.Function) (list []*book.Indication) {
	for _, i := range s.here.Course.Build.Indications {
		names := slices.Contains(i.Tells, f.ID)
		i.Means.Walk(func(e *book.Expr) { names = names || e.Op == book.OpRef && e.ID == f.ID })
		if names {
			list = append(list, i)
		}
	}
	return list
}

func (s *slow) liars(f *book.Function, p [2]int, x *ledger.LossSpan) (first *book.Indication, at int) {
	for _, ind := range s.covering(f) {
		here, there := s.look(ind.ID, circuit.Wrong)
		for _, q := range s.stretches(func(i int) bool { return i >= p[0] && i < p[1] && here[i] && !there[i] }) {
			if s.grid[q[1]]-s.grid[q[0]] <= s.v {
				continue
			}
			x.Lies = append(x.Lies, ind)
			if first == nil || q[0] < at {
				first, at = ind, q[0]
			}
			break
		}
	}
	return first, at
}

func (s *slow) shower(f *book.Function, p [2]int) (first *book.Indication, at int) {
	for i := p[0]; i < p[1]; i++ {
		for _, ind := range s.covering(f) {
			wrong, _ := s.look(ind.ID, circuit.Wrong)
			lit, litThere := s.look(ind.ID, circuit.Lit)
			if ind.Means != nil && lit[i] && !wrong[i] && (!litThere[i] || s.differs(ind, s.grid[i])) {
				return ind, i
			}
		}
	}
	return nil, 0
}

func (s *slow) differs(ind *book.Indication, t book.Time) bool {
	read := func(r *run.Record) float64 {
		n, _ := r.Circuit().Node(circuit.Value{Item: ind.ID})
		return r.At(n, t)
	}
	x, y := read(s.here), read(s.there)
	if ind.Shows.Type == book.Number {
		return max(x-y, y-x) > max(ind.Within, 1e-9*max(x, y, -x, -y))
	}
	return x != y
}
