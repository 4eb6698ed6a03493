package sweep

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"knockon/book"
	"knockon/known"
	"knockon/ledger"
)

// Outcome is what a set of failures brings about, beside the flight without
// them (docs/meaning.md 10). Numbers are places in the build's Functions,
// Indications and Alerts; lists are ascending.
type Outcome struct {
	Lost  []Lost
	Wrong []int32 // indications that are lit and wrong
	Dark  []int32 // indications with nothing to light them
	False []int32 // alerts given although what they say is not so
	Given []int32 // alerts given here and not there
}

// Lost is a function that is lost, as its row of the ledger has it.
type Lost struct {
	Function int32
	Class    ledger.Class
	Mattered bool
	Shown    bool   // told wrong: in every such span an indication shows it rightly as well
	LateS    uint16 // told late: whole seconds, the longest of the row's spans of that class; at most 65,535

	Known   ledger.Word // how people can know of its heaviest span
	Distant bool        // follows: from far
	ByAlert bool        // late: an alert tells it before it follows
	KnownS  uint16      // late: whole seconds; at most 65,535
}

// words are the ways of being known by their weight, as the code of a row counts them.
var words = func() []ledger.Word {
	list := slices.Clone(ledger.Words)
	slices.Reverse(list)
	return list
}()

// codeOfWord is the part of a row's code that says how a loss is known.
func codeOfWord(k ledger.Known) uint64 {
	code := uint64(slices.Index(words, k.Word)) << codeWord
	switch {
	case k.Word == ledger.Follows && k.Follows.Distant:
		code |= codeDistant
	case k.Word == ledger.Late:
		code |= uint64(min(k.LateBy/book.Second, math.MaxUint16)) << codeKnownS
		if k.ByAlert {
			code |= codeByAlert
		}
	}
	return code
}

// knowing reads it back.
func (l *Lost) knowing(code uint64) {
	l.Known = words[code>>codeWord&7]
	l.Distant, l.ByAlert, l.KnownS = code&codeDistant != 0, code&codeByAlert != 0, uint16(code>>codeKnownS)
}

// Heaviest is how the heaviest span of a loss is known, of those that mattered if any
// did; the first of equals.
func Heaviest(x ledger.Loss) (k ledger.Known) {
	for _, s := range x.Spans {
		if s.Mattered == x.Mattered && (k.Word == "" || known.Weight(s.Known) > known.Weight(k)) {
			k = s.Known
		}
	}
	if k.Word == "" { // nobody judged it
		k.Word = x.Word()
	}
	return k
}

// Weight is how much there is to teach of how it is known.
func (l Lost) Weight() float64 { return known.WeightOf(l.Known, float64(l.KnownS), l.Distant) }

// String says how people can know of the loss.
func (l Lost) String() string {
	switch {
	case l.Known == ledger.Late && l.ByAlert:
		return fmt.Sprintf("told %d s late", l.KnownS)
	case l.Known == ledger.Late:
		return fmt.Sprintf("follows %d s late", l.KnownS)
	case l.Known == ledger.Denied && l.Shown:
		return "denied and shown rightly"
	case l.Distant:
		return "follows from far"
	}
	return string(l.Known)
}

// worse compares two losses of one function: what mattered, then the class, then
// what nothing shows rightly, then how late, then how it is known.
func (l Lost) worse(o Lost) int {
	rank := func(l Lost) int {
		r := int(l.Class)<<17 | int(l.LateS)
		if !l.Shown {
			r |= 1 << 16
		}
		if l.Mattered {
			r |= 1 << 24
		}
		how := slices.Index(words, l.Known)<<18 | int(l.KnownS)
		if l.Distant {
			how |= 1 << 17
		}
		if l.ByAlert {
			how |= 1 << 16
		}
		return r<<24 | how
	}
	return rank(l) - rank(o)
}

// Loss returns the row of a function.
func (o *Outcome) Loss(function int32) (l Lost, ok bool) {
	i, ok := slices.BinarySearchFunc(o.Lost, function, func(l Lost, f int32) int { return cmp.Compare(l.Function, f) })
	if !ok {
		return l, false
	}
	return o.Lost[i], true
}

// Equal says that two outcomes are the same.
func (o *Outcome) Equal(other *Outcome) bool {
	return slices.Equal(o.Lost, other.Lost) && slices.Equal(o.Wrong, other.Wrong) && slices.Equal(o.Dark, other.Dark) &&
		slices.Equal(o.False, other.False) && slices.Equal(o.Given, other.Given)
}

// Merge is what two outcomes come to if neither changes the other: of each
// function the worse row, and all else that either has.
func Merge(a, b Outcome) Outcome {
	return Outcome{
		Lost:  mergeLost(a.Lost, b.Lost),
		Wrong: union(a.Wrong, b.Wrong), Dark: union(a.Dark, b.Dark), False: union(a.False, b.False), Given: union(a.Given, b.Given),
	}
}

func mergeLost(a, b []Lost) (m []Lost) {
	if len(a)+len(b) > 0 {
		m = make([]Lost, 0, len(a)+len(b))
	}
	for len(a) > 0 && len(b) > 0 {
		switch {
		case a[0].Function < b[0].Function:
			m, a = append(m, a[0]), a[1:]
		case a[0].Function > b[0].Function:
			m, b = append(m, b[0]), b[1:]
		case a[0].worse(b[0]) >= 0:
			m, a, b = append(m, a[0]), a[1:], b[1:]
		default:
			m, a, b = append(m, b[0]), a[1:], b[1:]
		}
	}
	return append(append(m, a...), b...)
}

func union(a, b []int32) (m []int32) {
	if len(a) == 0 || len(b) == 0 {
		return append(append(m, a...), b...)
	}
	m = append(append(make([]int32, 0, len(a)+len(b)), a...), b...)
	slices.Sort(m)
	return slices.Compact(m)
}

// OutcomeOf is the outcome that a ledger shows of which known.Judge has worked out how
// losses are known: the plain way, one run at a time.
func OutcomeOf(l *ledger.Ledger) (o Outcome) {
	b := l.Here.Course.Build
	functions, indications, alerts := places(b.Functions), places(b.Indications), places(b.Alerts)
	for _, loss := range l.Losses {
		row := rowOf(loss)
		row.Function = functions[loss.Function.ID]
		o.Lost = append(o.Lost, row)
	}
	for _, r := range l.Wrong {
		o.Wrong = append(o.Wrong, indications[r.Indication.ID])
	}
	for _, r := range l.Dark {
		o.Dark = append(o.Dark, indications[r.Indication.ID])
	}
	for _, a := range l.False {
		o.False = append(o.False, alerts[a.Alert.ID])
	}
	for _, a := range l.Alerts {
		o.Given = append(o.Given, alerts[a.Alert.ID])
	}
	slices.SortFunc(o.Lost, func(a, b Lost) int { return cmp.Compare(a.Function, b.Function) })
	for _, list := range [][]int32{o.Wrong, o.Dark, o.False, o.Given} {
		slices.Sort(list)
	}
	return o
}

func places[T book.Item](items []T) map[string]int32 {
	of := map[string]int32{}
	for i, it := range items {
		of[it.Named().ID] = int32(i)
	}
	return of
}

// rowOf is the row of a loss, but for its number: the worst of the spans that
// gave it its class.
func rowOf(l ledger.Loss) Lost {
	row := Lost{Class: l.Class, Mattered: l.Mattered, Shown: l.Class == ledger.ToldWrong}
	row.knowing(codeOfWord(Heaviest(l)))
	for _, s := range l.Spans {
		if s.Class == l.Class && s.Mattered == l.Mattered {
			row.LateS = max(row.LateS, uint16(min(s.Late/book.Second, 65535)))
			row.Shown = row.Shown && s.Shown != nil
		}
	}
	return row
}

// Phase is a phase of flight and the moment of it at which the failures strike.
type Phase struct {
	ID     string
	Moment book.Moment
	At     book.Time
}

// Set is the numbers of one to three failures, ascending.
type Set []int

// Key packs a set. Keys are ordered as their sets are, a set before those that
// begin with it.
func (s Set) Key() uint64 {
	k := uint64(0)
	for i := range 3 {
		k <<= 20
		if i < len(s) {
			k |= uint64(s[i] + 1)
		}
	}
	return k
}

// SetOf unpacks a key.
func SetOf(key uint64) (s Set) {
	for shift := 40; shift >= 0; shift -= 20 {
		if n := int(key >> shift & (1<<20 - 1)); n > 0 {
			s = append(s, n-1)
		}
	}
	return s
}

// Sheet is what a sweep found in one phase: the outcome of every failure alone,
// and of every set of up to Order of them that is of its own: that comes to
// something else than its parts. Any other set comes to the merged outcomes of
// its parts (docs/meaning.md 10).
type Sheet struct {
	Phase    Phase
	Order    int
	Singles  []uint32 // by failure: index into Outcomes
	Sets     []uint64 // keys of the sets of their own, ascending
	Of       []uint32 // by set: index into Outcomes
	Outcomes []Outcome

	Broken []uint64 // keys of the sets that were flown and whose run breaks off, ascending: nothing is known after that

	Felt []bool // by failure: the flight would feel it alone; see Setting. A store does not keep it
}

// Open says that a run with a set, or with a part of it, breaks off: its outcome
// is what had come by then, and nothing is known of the rest of the flight.
func (h *Sheet) Open(s Set) bool {
	return slices.ContainsFunc(h.Broken, func(key uint64) bool { return s.holds(SetOf(key)) })
}

// holds says that all of a part is in the set.
func (s Set) holds(part Set) bool {
	return !slices.ContainsFunc(part, func(f int) bool { return !slices.Contains(s, f) })
}

// Restless are the smallest sets whose run breaks off.
func (h *Sheet) Restless() (sets []Set) {
	for _, key := range h.Broken {
		s := SetOf(key)
		if !slices.ContainsFunc(h.Broken, func(k uint64) bool { return k != key && s.holds(SetOf(k)) }) {
			sets = append(sets, s)
		}
	}
	return sets
}

// met finds the outcome of a set of its own.
func (h *Sheet) met(s Set) (o Outcome, ok bool) {
	i, ok := slices.BinarySearch(h.Sets, s.Key())
	if !ok {
		return o, false
	}
	return h.Outcomes[h.Of[i]], true
}

// Outcome is what a set of up to Order failures comes to.
func (h *Sheet) Outcome(s Set) Outcome {
	switch len(s) {
	case 0:
		return Outcome{}
	case 1:
		return h.Outcomes[h.Singles[s[0]]]
	}
	if o, ok := h.met(s); ok {
		return o
	}
	if len(s) == 3 {
		for i := range s {
			pair := Set{s[(i+1)%3], s[(i+2)%3]}
			slices.Sort(pair)
			if o, ok := h.met(pair); ok {
				return Merge(o, h.Outcome(s[i:i+1]))
			}
		}
	}
	return Merge(h.Outcome(s[:len(s)-1]), h.Outcome(s[len(s)-1:]))
}

// Met calls visit for every set of its own, in order.
func (h *Sheet) Met(visit func(Set, Outcome)) {
	for i, k := range h.Sets {
		visit(SetOf(k), h.Outcomes[h.Of[i]])
	}
}
