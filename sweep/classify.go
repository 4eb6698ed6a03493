package sweep

import (
	"math"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/known"
	"knockon/ledger"
	"knockon/span"
)

// Parts of the code of a row, which stands below the number of its item. The low 16
// bits are how late a loss is told, and those from codeKnownS on how late it is known.
const (
	codeLost     = 1 << 16 // the class stands in the three bits above
	codeClass    = 17
	codeMattered = 1 << 20
	codeGiven    = 1 << 21
	codeFalse    = 1 << 22
	codeWrong    = 1 << 23
	codeDark     = 1 << 24
	codeHidden   = 1 << 25 // told wrong, and nothing shows it rightly
	codeWord     = 26      // the word by weight, in three bits: 0 told to 6 hidden
	codeDistant  = 1 << 29
	codeByAlert  = 1 << 30
	codeKnownS   = 32
	rowItem      = 48
)

// item is the number of the bundle that a row is of.
func (r row) item() int { return int(r >> rowItem) }

// classify sorts what one lane has to say of an item.
func (o *observer) classify(x *bundle, lane int) uint64 {
	v := view{o, lane}
	switch x.what {
	case aFunction:
		return v.loss(x, o.toldOf(lane))
	case anAlert:
		return v.alert(x)
	}
	return v.reading(x.reading)
}

// view is one lane of a block, beside lane 0.
type view struct {
	o    *observer
	lane int
}

// spansOf lists when a node is yes in a lane, from just before the strike on.
func (v view) spansOf(n circuit.Node, lane int) []circuit.Span {
	at := v.o.begin.at - 1
	on, from := v.o.begin.state.val[n].has(lane), at
	var list []circuit.Span
	for _, x := range v.o.e.log[v.o.e.p.place[n]] {
		switch is := x.in.has(lane); {
		case is && !on:
			on, from = true, x.at
		case !is && on:
			on = false
			list = append(list, circuit.Span{From: from, To: x.at})
		}
	}
	if on {
		list = append(list, circuit.Span{From: from, To: v.o.e.p.end})
	}
	return list
}

func (v view) here(n circuit.Node) span.Set  { return span.Lasting(v.spansOf(n, v.lane)) }
func (v view) there(n circuit.Node) span.Set { return span.Lasting(v.spansOf(n, 0)) }
func (v view) newly(n circuit.Node) span.Set { return v.here(n).Beyond(v.there(n)) }

// loss gives the code of a function, beside what is told in the lane.
func (v view) loss(x *bundle, told *toldRun) uint64 {
	gone := v.there(x.works).Beyond(v.here(x.works)).Join(v.o.e.p.wrong)
	if len(gone) == 0 {
		return 0
	}
	wanted := v.here(x.wanted)
	var worst uint64
	var heaviest [2]ledger.Known // of what did not matter, and of what did
	for _, p := range gone {
		due, mattered := p.From, uint64(0)
		if w := ledger.Wanted(wanted, p); len(w) > 0 && (ledger.Counts(p, v.o.e.p.wrong) || p.To == v.o.e.p.end) {
			due, mattered = w[0].From, codeMattered
		}
		tells := v.tells(x, p)
		if code := v.class(x, p, due, tells) | mattered; badness(row(code)) >= badness(row(worst)) {
			worst = code
		}
		k, h := v.known(x, told, known.Facts{Due: due, Within: v.o.e.p.within, Tells: tells}, p), &heaviest[mattered/codeMattered]
		if h.Word == "" || known.Weight(k) > known.Weight(*h) {
			*h = k
		}
	}
	return codeLost | worst | codeOfWord(heaviest[worst/codeMattered&1])
}

// tells is when the first alert that tells a span was right; Never if none does.
func (v view) tells(x *bundle, p circuit.Span) book.Time {
	told := book.Never
	for _, a := range x.tells {
		if at, ok := ledger.Tells(v.right(a), p, v.o.e.p.within); ok {
			told = min(told, at)
		}
	}
	return told
}

// class sorts one span of a loss: the first class that fits. due is when the
// function is first wanted, told when an alert tells.
func (v view) class(x *bundle, p circuit.Span, due, told book.Time) uint64 {
	switch {
	case told <= due+v.o.e.p.within:
		return codeOf(ledger.Told, 0, false)
	case told < book.Never:
		return codeOf(ledger.ToldLate, told-due, false)
	}
	lies := slices.ContainsFunc(x.covers, func(r reading) bool { return len(v.lies(r).Within(p).Longer(v.o.e.p.wrong)) > 0 })
	shown := slices.ContainsFunc(x.covers, func(r reading) bool { return v.shows(r, p) })
	switch {
	case lies:
		return codeOf(ledger.ToldWrong, 0, shown)
	case shown:
		return codeOf(ledger.OnlyShown, 0, true)
	}
	return codeOf(ledger.NotTold, 0, false)
}

// codeOf is the code of a class.
func codeOf(c ledger.Class, late book.Time, shown bool) uint64 {
	code := uint64(c)<<codeClass | uint64(min(late/book.Second, math.MaxUint16))
	if c == ledger.ToldWrong && !shown {
		code |= codeHidden
	}
	return code
}

// right is when an alert is given here and not there, and not false.
func (v view) right(a telling) span.Set {
	if a.falsely == circuit.None {
		return v.newly(a.given)
	}
	return v.newly(a.given).Minus(v.here(a.falsely))
}

func (v view) lies(r reading) span.Set { return v.newly(r.wrong).Longer(v.o.e.p.wrong) }

// shows says that an indication is legible and shows something else than there
// at some moment of a span.
func (v view) shows(r reading, p circuit.Span) bool {
	legible := v.here(r.lit).Minus(v.here(r.wrong)).Within(p)
	if len(legible) == 0 {
		return false
	}
	if len(legible.Beyond(v.there(r.lit))) > 0 {
		return true
	}
	if v.o.e.p.gates[r.shows].yes {
		here, there := v.here(r.shows), v.there(r.shows)
		return len(legible.And(here.Minus(there)).Longer(span.Rounding)) > 0 || len(legible.And(there.Minus(here)).Longer(span.Rounding)) > 0
	}
	return v.showsNumber(r, legible)
}

// piece is a number or word in both lanes over a stretch.
type piece struct {
	circuit.Span
	here, there term
}

func (v view) showsNumber(r reading, legible span.Set) bool {
	within := 0.0
	if r.of.Shows.Type == book.Number {
		within = r.of.Within
	}
	var steady []circuit.Span
	pieces := v.pieces(r.shows)
	for i, p := range pieces {
		t := v.o.e.terms
		switch {
		case p.here == p.there:
		case t.isConst(p.here) && t.isConst(p.there):
			if apart(t.list[p.here].value, t.list[p.there].value, within) {
				steady = append(steady, p.Span)
			}
		default:
			if v.search(pieces[i:], legible, within) {
				return true
			}
		}
	}
	return len(legible.And(span.Lasting(steady)).Longer(span.Rounding)) > 0
}

// apart says that two values differ as an eye would see it.
func apart(x, y, within float64) bool {
	return math.Abs(x-y) > max(within, 1e-9*max(math.Abs(x), math.Abs(y)))
}

func (v view) pieces(n circuit.Node) (list []piece) {
	start := v.o.begin.state.alts[n]
	p := piece{circuit.Span{From: v.o.begin.at - 1}, start[0].term, start[0].term}
	for _, x := range v.o.e.log[v.o.e.p.place[n]] {
		here, there := termIn(x.alts, v.lane), termIn(x.alts, 0)
		if here == p.here && there == p.there {
			continue
		}
		p.To = x.at
		list = append(list, p)
		p = piece{circuit.Span{From: x.at}, here, there}
	}
	p.To = v.o.e.p.end
	return append(list, p)
}

// search looks at two numbers that change all the time: where they begin to
// differ, at the corners of the flight, at the moments of the flight without
// failures, and halfway between these.
func (v view) search(from []piece, legible span.Set, within float64) bool {
	for _, s := range legible.Within(from[0].Span) {
		looks := append([]book.Time{s.From}, v.o.e.p.looksIn(s)...)
		looks = append(looks, s.To-1)
		for i, t := range looks {
			if v.differ(from, t, within) || i > 0 && v.differ(from, looks[i-1]+(t-looks[i-1])/2, within) {
				return true
			}
		}
	}
	return false
}

// differ says that the numbers differ at a moment and for longer than span.Rounding.
func (v view) differ(from []piece, t book.Time, within float64) bool {
	later := min(t+span.Rounding, v.o.e.p.end)
	return v.apartAt(from, t, within) && v.apartAt(from, later, within)
}

func (v view) apartAt(from []piece, t book.Time, within float64) bool {
	for len(from) > 1 && from[0].To <= t {
		from = from[1:]
	}
	return apart(v.o.e.terms.at(from[0].here, t), v.o.e.terms.at(from[0].there, t), within)
}

// looksIn lists the moments inside a stretch at which numbers are looked at.
func (p *program) looksIn(s circuit.Span) []book.Time {
	from, _ := slices.BinarySearch(p.looks, s.From+1)
	to, _ := slices.BinarySearch(p.looks, s.To)
	return p.looks[min(from, to):to]
}

// alert gives the code of an alert.
func (v view) alert(x *bundle) (code uint64) {
	here, there := v.spansOf(x.given, v.lane), v.spansOf(x.given, 0)
	if len(span.Lasting(here).Beyond(span.Lasting(there))) > 0 || len(span.OnlyHere(here, there)) > 0 {
		code |= codeGiven
	}
	wrong, right := v.spansOf(x.falsely, v.lane), v.spansOf(x.falsely, 0)
	brief := slices.DeleteFunc(span.OnlyHere(wrong, right), func(t book.Time) bool { return !v.sounds(x, here, t) })
	if len(span.Lasting(wrong).Beyond(span.Lasting(right))) > 0 || len(brief) > 0 {
		code |= codeFalse
	}
	return code
}

// sounds says that an alert sounds at a moment: it becomes given, or it is time
// to repeat.
func (v view) sounds(x *bundle, given []circuit.Span, t book.Time) bool {
	every := book.AtSeconds(v.o.e.p.course.Build.Alerts[x.index].RepeatsS)
	for _, s := range given {
		if s.From == v.o.begin.at-1 {
			s.From = v.since(x.given, s.From)
		}
		if s.From == t || every > 0 && t > s.From && t < s.To && (t-s.From)%every == 0 {
			return true
		}
	}
	return false
}

// since is the moment from which a node has been yes without failures.
func (v view) since(n circuit.Node, t book.Time) book.Time {
	for _, s := range v.o.e.p.there.Spans(n) {
		if s.From <= t && t < s.To {
			return s.From
		}
	}
	return t
}

// reading gives the code of an indication.
func (v view) reading(r reading) (code uint64) {
	if r.wrong != circuit.None && len(v.lies(r)) > 0 {
		code |= codeWrong
	}
	if len(v.there(r.lit).Beyond(v.here(r.lit))) > 0 {
		code |= codeDark
	}
	return code
}
