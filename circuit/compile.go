package circuit

import (
	"fmt"

	"knockon/book"
)

// Compile turns a build into a circuit. The acts of the flight (nil for none)
// are part of it, as are the expressions to watch, which change nothing.
// It fails only on a build that book.Load would have refused.
func Compile(b *book.Build, f *book.Flight, watch ...*book.Expr) (*Circuit, error) {
	return CompileHolding(nil, b, f, watch...)
}

// CompileHolding is Compile with units, functions and yes/no signals, named by
// their ids, that can be held at a value of one's own: HeldYes and HeldNo are ways
// in which each then fails.
func CompileHolding(items []string, b *book.Build, f *book.Flight, watch ...*book.Expr) (c *Circuit, err error) {
	k := &compiler{
		Circuit: &Circuit{Build: b, holds: items, index: map[Value]Node{}, names: map[Node]Value{}, wayOf: map[book.FailureRef]int{}, controlOf: map[string]int{}},
		open:    map[string]bool{}, shared: map[string]Node{}, flight: f,
	}
	defer func() {
		if r := recover(); r != nil {
			refusal, ok := r.(refusal)
			if !ok {
				panic(r)
			}
			c, err = nil, refusal.err
		}
	}()
	k.build()
	if f != nil {
		k.flightActs(f.Acts)
	}
	k.item, k.alike = "", map[string]Node{}
	for _, e := range watch {
		k.watch = append(k.watch, watched{e, k.expr(e)})
		k.drain()
	}
	k.finish()
	return k.Circuit, nil
}

// Watching compiles the same build and flight again with more to watch.
func (c *Circuit) Watching(f *book.Flight, more ...*book.Expr) (*Circuit, error) {
	var all []*book.Expr
	for _, w := range c.watch {
		all = append(all, w.expr)
	}
	return CompileHolding(c.holds, c.Build, f, append(all, more...)...)
}

// refusal carries a compile error up through the recursion.
type refusal struct{ err error }

type compiler struct {
	*Circuit
	flight *book.Flight
	item   string          // whose text is being compiled
	open   map[string]bool // items under way: a second visit is a loop
	shared map[string]Node // sources that all uses share
	later  []func()        // inputs of memories
	alike  map[string]Node // comparisons of numbers in what is watched, by their text; nil before
}

func (k *compiler) refuse(format string, a ...any) {
	panic(refusal{fmt.Errorf("circuit: "+format, a...)})
}

// drain compiles what memories wait for; until then they have no inputs, and
// that is what lets a value depend on itself through one.
func (k *compiler) drain() {
	for len(k.later) > 0 {
		next := k.later[0]
		k.later = k.later[1:]
		next()
	}
}

// add appends a node.
func (k *compiler) add(o op, operands ...Node) Node {
	o.first, o.n = int32(len(k.args)), int32(len(operands))
	k.args = append(k.args, operands...)
	o.item = k.item
	k.ops = append(k.ops, o)
	return Node(len(k.ops) - 1)
}

// memory appends a node whose operands are compiled later.
func (k *compiler) memory(o op, inputs ...*book.Expr) Node {
	o.first, o.n = int32(len(k.args)), int32(len(inputs))
	for range inputs {
		k.args = append(k.args, None)
	}
	o.item = k.item
	k.ops = append(k.ops, o)
	n, first, item := Node(len(k.ops)-1), o.first, k.item
	k.later = append(k.later, func() {
		k.item = item
		for i, e := range inputs {
			input := k.expr(e)
			k.args[int(first)+i] = input
		}
	})
	return n
}

// source returns the one node that all uses of a source share.
func (k *compiler) source(name string, o op, operands ...Node) Node {
	if n, ok := k.shared[name]; ok {
		return n
	}
	n := k.add(o, operands...)
	k.shared[name] = n
	return n
}

func (k *compiler) yes() Node { return k.source("yes", op{code: cConst, kind: book.YesNo, num: 1}) }

func (k *compiler) word(w string) float64 {
	if v := k.wordOf(w); v >= 0 {
		return v
	}
	k.words = append(k.words, w)
	return float64(len(k.words) - 1)
}

func (k *compiler) name(v Value, n Node) {
	k.index[v] = n
	if _, ok := k.names[n]; !ok {
		k.names[n] = v
	}
	k.named = append(k.named, Named{v, n, k.ops[n].kind})
}

// build compiles every item. Inputs first, so that their nodes are shared.
func (k *compiler) build() {
	k.inputs()
	b := k.Build
	for _, u := range b.Units {
		k.name(Value{u.ID, Main}, k.ref(u.ID))
	}
	for _, s := range b.Signals {
		k.name(Value{s.ID, Main}, k.ref(s.ID))
	}
	for _, f := range b.Functions {
		k.name(Value{f.ID, Main}, k.ref(f.ID))
		k.item = f.ID
		k.name(Value{f.ID, Wanted}, k.orYes(f.Wanted))
	}
	for _, a := range b.Alerts {
		k.ref(a.ID)
		k.nameAlert(a)
	}
	for _, i := range b.Indications {
		k.indication(i)
	}
	for _, f := range b.Functions {
		k.noticed(f)
	}
	if a := b.Aircraft; a != nil && a.Flyable != nil {
		k.item = a.ID
		k.name(Value{a.ID, Flyable}, k.expr(a.Flyable))
	}
	if a := b.Aircraft; a != nil && a.CrewAble != nil {
		k.item = a.ID
		k.name(Value{a.ID, CrewAble}, k.expr(a.CrewAble))
	}
	k.drain()
	k.effects()
	k.begins()
	k.resetInputs()
	k.drain()
}

func (k *compiler) inputs() {
	b := k.Build
	for _, u := range b.Units {
		k.way(book.FailureRef{Unit: u.ID})
		for _, f := range u.Faults {
			k.way(book.FailureRef{Unit: u.ID, Fault: f.ID})
		}
	}
	for i, c := range b.Controls {
		k.item = c.ID
		for _, p := range c.Positions {
			k.word(p)
		}
		n := k.add(op{code: cControl, kind: book.Word, num: float64(i), where: c.Range})
		k.controls = append(k.controls, control{c.ID, n, k.word(c.Initial)})
		k.controlOf[c.ID] = i
		k.name(Value{c.ID, Main}, n)
	}
	for _, id := range k.holds {
		k.way(book.FailureRef{Unit: id, Fault: HeldYes})
		k.way(book.FailureRef{Unit: id, Fault: HeldNo})
	}
	k.item = ""
	k.phaseNode = k.add(op{code: cPhase, kind: book.Number})
	for i, p := range b.Phases {
		k.item = p.ID
		n := k.add(op{code: cIsPhase, kind: book.YesNo, num: float64(i), where: p.Range}, k.phaseNode)
		k.phases = append(k.phases, phase{p.ID, None, n})
		k.name(Value{p.ID, Main}, n)
	}
}

func (k *compiler) way(r book.FailureRef) {
	k.item = r.Unit
	n := k.add(op{code: cWay, kind: book.YesNo, num: float64(len(k.ways))})
	k.wayOf[r] = len(k.ways)
	k.ways = append(k.ways, r)
	k.wayNode = append(k.wayNode, n)
	aspect := Failed
	if r.Fault != "" {
		aspect = Aspect(r.Fault)
	}
	k.name(Value{r.Unit, aspect}, n)
}

func (k *compiler) begins() {
	for i, p := range k.Build.Phases {
		k.item = p.ID
		if p.Begins != nil {
			k.phases[i].begins = k.expr(p.Begins)
		}
	}
}

func (k *compiler) resetInputs() {
	for _, u := range k.Build.Units {
		if u.ResetBy != nil {
			k.item = u.ID
			k.resets = append(k.resets, reset{u.ID, k.expr(u.ResetBy)})
		}
	}
}

func (k *compiler) flightActs(acts []*book.Act) {
	for _, a := range acts {
		number, to, ok := k.Control(a.Set, a.To)
		if !ok {
			k.refuse("act %q sets %s to %q, which this build does not have", a.Title, a.Set, a.To)
		}
		k.item = ""
		k.acts = append(k.acts, act{k.expr(a.When), number, to, a.Range, a.Title})
		k.drain()
	}
}

// ref returns the node of an item's main value, compiling it on first use.
func (k *compiler) ref(id string) Node {
	if n, ok := k.index[Value{id, Main}]; ok {
		return n
	}
	if n, ok := k.shared["item "+id]; ok {
		return n
	}
	if k.open[id] {
		k.refuse("%s depends on itself with no memory between", id)
	}
	k.open[id] = true
	outer := k.item
	k.item = id
	n := k.held(id, k.define(id))
	k.item = outer
	delete(k.open, id)
	k.shared["item "+id] = n
	return n
}

// The ways in which what can be held is held.
const (
	HeldYes = "held yes"
	HeldNo  = "held no"
)

// held puts an item that can be held behind its two ways.
func (k *compiler) held(id string, n Node) Node {
	yes, ok := k.wayOf[book.FailureRef{Unit: id, Fault: HeldYes}]
	if !ok {
		return n
	}
	free := k.add(op{code: cAnd, kind: book.YesNo}, n, k.not(k.wayNode[k.wayOf[book.FailureRef{Unit: id, Fault: HeldNo}]]))
	return k.add(op{code: cOr, kind: book.YesNo}, free, k.wayNode[yes])
}

func (k *compiler) define(id string) Node {
	item, ok := k.Build.Item(id)
	if !ok {
		k.refuse("no item %q in build %q", id, k.Build.Variant)
	}
	switch it := item.(type) {
	case *book.Unit:
		return k.unit(it)
	case *book.Signal:
		return k.signal(it)
	case *book.Function:
		return k.expr(it.Works)
	case *book.Alert:
		return k.alert(it)
	}
	k.refuse("%s %q has no value", item.Named().Kind, id)
	return None
}

func (k *compiler) unit(u *book.Unit) Node {
	operands := []Node{k.not(k.wayNode[k.wayOf[book.FailureRef{Unit: u.ID}]])}
	for _, f := range u.Faults {
		if f.Stops {
			operands = append(operands, k.not(k.wayNode[k.wayOf[book.FailureRef{Unit: u.ID, Fault: f.ID}]]))
		}
	}
	if u.Needs != nil {
		operands = append(operands, k.expr(u.Needs))
	}
	return k.add(op{code: cAnd, kind: book.YesNo, where: u.Range}, operands...)
}

func (k *compiler) not(n Node) Node {
	return k.add(op{code: cNot, kind: book.YesNo}, n)
}

func (k *compiler) signal(s *book.Signal) Node {
	if s.Value != nil {
		return k.expr(s.Value)
	}
	initial := 0.0
	if s.Initial {
		initial = 1
	}
	return k.memory(op{code: cLatch, kind: book.YesNo, num: initial, where: s.Range}, s.Set, s.Reset)
}

// noticed compiles what a loss is noticed by. An indication counts while it is lit.
func (k *compiler) noticed(f *book.Function) {
	if f.Noticed == nil || f.Noticed.When == nil {
		return
	}
	k.item = f.ID
	n := k.expr(f.Noticed.When)
	if lit := k.Build.SeenWhen(f.Noticed.When); lit != nil {
		n = k.add(op{code: cAnd, kind: book.YesNo, where: f.Noticed.When.Range}, n, k.expr(lit))
	}
	k.name(Value{f.ID, Noticed}, n)
}

func (k *compiler) orYes(e *book.Expr) Node {
	if e == nil {
		return k.yes()
	}
	return k.expr(e)
}

// alert compiles an alert and returns the node of "given".
func (k *compiler) alert(a *book.Alert) Node {
	believed := k.expr(a.When)
	operands := []Node{believed}
	by := a.GivenBy
	if by == nil {
		by = k.Build.Aircraft.AlertsGivenBy
	}
	if by != nil {
		operands = append(operands, k.expr(by))
	}
	if a.Until != nil {
		operands = append(operands, k.not(k.expr(a.Until)))
	}
	ways := k.reaches(a)
	if len(ways) > 0 {
		operands = append(operands, k.add(op{code: cOr, kind: book.YesNo, where: a.Range}, ways...))
	}
	possible := k.add(op{code: cAnd, kind: book.YesNo, where: a.Range}, operands...)
	given := possible
	if len(a.QuietIn) > 0 || a.QuietWhen != nil {
		given = k.heldBackIn(a, possible)
	}
	k.shared["believed "+a.ID], k.shared["possible "+a.ID] = believed, possible
	return given
}

// tellers are the aspects of the ways of telling, in the order of book.Ways.
var tellers = []Aspect{ByText, ByLight, BySound}

// reaches compiles what each way of telling needs, those that the alert has.
func (k *compiler) reaches(a *book.Alert) (ways []Node) {
	for i, e := range k.Build.Reaches(a).Each() {
		if e != nil {
			n := k.expr(e)
			k.shared[string(tellers[i])+" "+a.ID] = n
			ways = append(ways, n)
		}
	}
	return ways
}

func (k *compiler) heldBackIn(a *book.Alert, possible Node) Node {
	var quiet []Node
	for _, id := range a.QuietIn {
		quiet = append(quiet, k.ref(id))
	}
	if a.QuietWhen != nil {
		quiet = append(quiet, k.expr(a.QuietWhen))
	}
	stood := k.memory(op{code: cStood, kind: book.YesNo, where: a.Range}, &book.Expr{Op: book.OpRef, ID: a.ID, Type: book.YesNo})
	loud := k.not(k.add(op{code: cOr, kind: book.YesNo, where: a.Range}, quiet...))
	may := k.add(op{code: cOr, kind: book.YesNo, where: a.Range}, loud, stood)
	return k.add(op{code: cAnd, kind: book.YesNo, where: a.Range}, possible, may)
}

func (k *compiler) nameAlert(a *book.Alert) {
	k.item = a.ID
	given, possible := k.shared["item "+a.ID], k.shared["possible "+a.ID]
	k.name(Value{a.ID, Main}, given)
	k.name(Value{a.ID, Believed}, k.shared["believed "+a.ID])
	k.name(Value{a.ID, Possible}, possible)
	held := k.add(op{code: cAnd, kind: book.YesNo, where: a.Range}, possible, k.not(given))
	k.name(Value{a.ID, HeldBack}, held)
	for _, way := range tellers {
		if n, ok := k.shared[string(way)+" "+a.ID]; ok {
			k.name(Value{a.ID, way}, k.add(op{code: cAnd, kind: book.YesNo, where: a.Range}, given, n))
		}
	}
	truth := a.TrueWhen
	if truth == nil {
		truth = a.When
	}
	k.name(Value{a.ID, False}, k.add(op{code: cAnd, kind: book.YesNo, where: a.Range}, given, k.not(k.expr(truth))))
}

func (k *compiler) indication(i *book.Indication) {
	k.item = i.ID
	shows := k.expr(i.Shows)
	k.name(Value{i.ID, Main}, shows)
	lit := k.orYes(i.LitBy)
	k.name(Value{i.ID, Lit}, lit)
	if i.Means == nil {
		return
	}
	means := k.expr(i.Means)
	k.name(Value{i.ID, Means}, means)
	differ := k.differ(i, shows, means)
	k.name(Value{i.ID, Wrong}, k.add(op{code: cAnd, kind: book.YesNo, where: i.Range}, lit, differ))
}

// effects compiles what the systems do to the flight, and which factors of a
// manual stand.
func (k *compiler) effects() {
	for _, e := range k.Build.Effects {
		k.item = e.ID
		k.name(Value{e.ID, Main}, k.expr(e.Value))
		k.drain()
	}
	if k.Build.Performance == nil {
		return
	}
	for _, f := range k.Build.Performance.Factors {
		k.item = book.FactorID(f.ID)
		k.name(Value{k.item, Main}, k.expr(f.When))
		k.drain()
	}
}

func (k *compiler) differ(i *book.Indication, shows, means Node) Node {
	if k.ops[shows].kind != book.Number {
		return k.add(op{code: cDiffer, kind: book.YesNo, where: i.Range}, shows, means)
	}
	off := k.add(op{code: cSub, kind: book.Number, where: i.Range}, shows, means)
	size := k.add(op{code: cAbs, kind: book.Number, where: i.Range}, off)
	within := k.add(op{code: cConst, kind: book.Number, num: i.Within, where: i.Range})
	return k.add(op{code: cGt, kind: book.YesNo, where: i.Range}, size, within)
}
