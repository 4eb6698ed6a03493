package book

import (
	"math"
	"strings"

	"knockon/say"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Calls lists the functions of expressions and how they are called, in the order
// of docs/language.md.
var Calls = []struct{ Name, Form string }{
	{"any", "any(a, b, …)"}, {"all", "all(a, b, …)"}, {"at_least", "at_least(k, a, b, …)"},
	{"least_of", "least_of(x, y, …)"}, {"most_of", "most_of(x, y, …)"}, {"size", "size(x)"},
	{"static_pressure", "static_pressure(altitude_ft)"}, {"impact_pressure", "impact_pressure(airspeed_kt)"},
	{"altitude_of", "altitude_of(static_hpa)"}, {"airspeed_of", "airspeed_of(impact_hpa)"}, {"mach_of", "mach_of(impact_hpa, static_hpa)"},
	{"airspeed_held", "airspeed_held(dynamic_hpa, static_hpa)"}, {"root_of", "root_of(x)"},
	{"air_through", "air_through(inside_hpa, outside_hpa)"}, {"between", "between(x, x1, y1, x2, y2, …)"},
	{"failed", "failed(unit)"}, {"held", "held(x, s)"}, {"pulse", "pulse(x, s)"}, {"before", "before(x)"},
	{"frozen", "frozen(x, when)"}, {"total", "total(x) or total(x, start, least, most)"}, {"count", "count(x)"},
	{"called_by", "called_by(alert)"},
}

func (c *checker) call(n *hclsyntax.FunctionCallExpr) *Expr {
	if n.ExpandFinal {
		return c.wrong(n, notInLanguage)
	}
	switch n.Name {
	case "any":
		return c.logic(n, OpAny)
	case "all":
		return c.logic(n, OpAll)
	case "at_least":
		return c.atLeast(n)
	case "least_of":
		return c.numeric(n, OpMin)
	case "most_of":
		return c.numeric(n, OpMax)
	case "size":
		return c.numeric(n, OpAbs)
	case "failed":
		return c.failed(n)
	case "held":
		return c.timer(n, OpHeld)
	case "pulse":
		return c.timer(n, OpPulse)
	case "before":
		return c.before(n)
	case "frozen":
		return c.frozen(n)
	case "between":
		return c.between(n)
	case "total":
		return c.total(n)
	case "count":
		return c.count(n)
	case "called_by":
		return c.calledBy(n)
	}
	return c.otherCall(n)
}

func (c *checker) otherCall(n *hclsyntax.FunctionCallExpr) *Expr {
	if l, ok := lawNamed(n.Name); ok {
		return c.law(n, l)
	}
	ledger := isLedger(n.Name)
	switch {
	case ledger && c.claims:
		return c.ledger(n)
	case ledger:
		c.report(onlyInClaims(rangeOf(n.NameRange), n.Name))
	default:
		c.report(unknownFunction(rangeOf(n.NameRange), n.Name, say.Nearest(n.Name, c.callNames())))
	}
	return broken(n.Range())
}

func isLedger(name string) bool { _, ok := ClaimFunctionNamed(name); return ok }

func (c *checker) callNames() []string {
	var names []string
	for _, f := range Calls {
		names = append(names, f.Name)
	}
	if c.claims {
		for _, f := range ClaimFunctions {
			names = append(names, f.Name)
		}
	}
	return names
}

// args checks the number of arguments; most < 0 is any number.
func (c *checker) args(n *hclsyntax.FunctionCallExpr, least, most int) bool {
	if len(n.Args) >= least && (most < 0 || len(n.Args) <= most) {
		return true
	}
	c.report(wrongArguments(rangeOf(n.Range()), n.Name, callForm(n.Name), len(n.Args)))
	for _, a := range n.Args {
		c.check(a)
	}
	return false
}

// callForm shows how a function is called.
func callForm(name string) string {
	for _, f := range Calls {
		if f.Name == name {
			return f.Form
		}
	}
	if f, ok := ClaimFunctionNamed(name); ok {
		return f.call()
	}
	return name
}

func (c *checker) checkAll(ns []hclsyntax.Expression) []*Expr {
	args := make([]*Expr, len(ns))
	for i, n := range ns {
		args[i] = c.check(n)
	}
	return args
}

func (c *checker) logic(n *hclsyntax.FunctionCallExpr, op Op) *Expr {
	e := &Expr{Op: op, Type: YesNo, Range: rangeOf(n.Range())}
	if !c.args(n, 1, -1) {
		return broken(n.Range())
	}
	e.Args = c.checkAll(n.Args)
	for _, a := range e.Args {
		c.want(a, YesNo, n.Name)
	}
	return e
}

func (c *checker) atLeast(n *hclsyntax.FunctionCallExpr) *Expr {
	e := &Expr{Op: OpAtLeast, Type: YesNo, Range: rangeOf(n.Range())}
	if !c.args(n, 2, -1) {
		return broken(n.Range())
	}
	k, ok := c.constant(n.Args[0], "at_least")
	if ok && (k != math.Trunc(k) || k < 1 || k > float64(len(n.Args)-1)) {
		c.report(badCount(rangeOf(n.Args[0].Range()), len(n.Args)-1))
	}
	e.Num, e.Args = k, c.checkAll(n.Args[1:])
	for _, a := range e.Args {
		c.want(a, YesNo, n.Name)
	}
	return e
}

func (c *checker) numeric(n *hclsyntax.FunctionCallExpr, op Op) *Expr {
	e := &Expr{Op: op, Type: Number, fits: true, Range: rangeOf(n.Range())}
	most := -1
	if op == OpAbs {
		most = 1
	}
	if !c.args(n, 1, most) {
		return broken(n.Range())
	}
	e.Args = c.checkAll(n.Args)
	for _, a := range e.Args {
		if !c.want(a, Number, n.Name) {
			return e
		}
	}
	e.fits = false
	c.sameUnit(e, e.Args...)
	return e
}

// constant gives the value of an expression of plain numbers.
func (c *checker) constant(n hclsyntax.Expression, by string) (num float64, ok bool) {
	e := c.check(n)
	if e.Type == Unknown {
		return 0, false
	}
	num, ok = fold64(e)
	if !ok {
		c.report(notPlainNumber(e.Range, by))
	}
	return num, ok
}

// fold64 works out an expression of plain numbers.
func fold64(e *Expr) (num float64, ok bool) {
	if e.Op == OpNumber {
		return e.Num, true
	}
	if e.Op < OpAdd || e.Op > OpDiv {
		return 0, false
	}
	a, okA := fold64(e.Args[0])
	b, okB := fold64(e.Args[1])
	switch e.Op {
	case OpAdd:
		num = a + b
	case OpSub:
		num = a - b
	case OpMul:
		num = a * b
	case OpDiv:
		num = a / b
	}
	return num, okA && okB && !math.IsInf(num, 0) && !math.IsNaN(num)
}

func (c *checker) failed(n *hclsyntax.FunctionCallExpr) *Expr {
	e := &Expr{Op: OpFailed, Type: YesNo, Range: rangeOf(n.Range())}
	if !c.args(n, 1, 1) {
		return broken(n.Range())
	}
	e.ID, _ = c.named(n.Args[0], "unit")
	return e
}

// named reads an argument that must be the id of an item of one of some kinds.
func (c *checker) named(n hclsyntax.Expression, kinds ...string) (id, kind string) {
	names, ok := namesOf(n)
	at := rangeOf(n.Range())
	if !ok || len(names) != 1 {
		c.report(wantsID(at, strings.Join(kinds, " or ")))
		return "", ""
	}
	s, ok := c.find(at, names[0], kinds...)
	if !ok {
		return "", ""
	}
	for _, k := range kinds {
		if s.kind == k {
			return names[0], k
		}
	}
	c.report(wrongKind(at, names[0], s.kind, strings.Join(kinds, " or ")))
	return "", ""
}

func (c *checker) timer(n *hclsyntax.FunctionCallExpr, op Op) *Expr {
	e := &Expr{Op: op, Type: YesNo, Range: rangeOf(n.Range())}
	if !c.args(n, 2, 2) {
		return broken(n.Range())
	}
	a := c.check(n.Args[0])
	c.want(a, YesNo, n.Name)
	s, ok := c.constant(n.Args[1], n.Name)
	if ok && !isDuration(s) {
		c.report(badDuration(rangeOf(n.Args[1].Range()), n.Name))
	}
	e.Args, e.Num = []*Expr{a}, s
	return e
}

// isDuration tells whether s seconds can be the length of something in a flight.
func isDuration(s float64) bool { return s >= 0 && s <= mostSeconds }

// mostSeconds is more than any flight lasts.
const mostSeconds = 1e7

func (c *checker) before(n *hclsyntax.FunctionCallExpr) *Expr {
	if !c.args(n, 1, 1) {
		return broken(n.Range())
	}
	a := c.check(n.Args[0])
	return &Expr{
		Op: OpBefore, Args: []*Expr{a}, Type: a.Type, Unit: a.Unit, fits: a.fits, Words: a.Words, Range: rangeOf(n.Range()),
	}
}

func (c *checker) frozen(n *hclsyntax.FunctionCallExpr) *Expr {
	if !c.args(n, 2, 2) {
		return broken(n.Range())
	}
	a, when := c.check(n.Args[0]), c.check(n.Args[1])
	c.want(when, YesNo, n.Name)
	return &Expr{
		Op: OpFrozen, Args: []*Expr{a, when}, Type: a.Type, Unit: a.Unit, fits: a.fits, Words: a.Words, Range: rangeOf(n.Range()),
	}
}

func (c *checker) total(n *hclsyntax.FunctionCallExpr) *Expr {
	e := &Expr{Op: OpTotal, Type: Number, fits: true, Range: rangeOf(n.Range())}
	if len(n.Args) != 1 && !c.args(n, 4, 4) {
		return broken(n.Range())
	}
	a := c.check(n.Args[0])
	e.Args = []*Expr{a}
	switch {
	case a.Type == Word:
		c.report(wrongType(a, Number, n.Name))
	case a.Type == YesNo:
		e.Unit, e.fits = "s", false
	case a.Unit == "kg_per_s":
		e.Unit, e.fits = "kg", false
	}
	if len(n.Args) == 4 {
		e.Bound = c.bounds(n)
	}
	return e
}

func (c *checker) bounds(n *hclsyntax.FunctionCallExpr) *Bounds {
	var b Bounds
	ok := true
	for i, p := range []*float64{&b.Start, &b.Least, &b.Most} {
		num, fine := c.constant(n.Args[i+1], n.Name)
		*p, ok = num, ok && fine
	}
	if ok && !(b.Least <= b.Start && b.Start <= b.Most) {
		c.report(badBounds(rangeOf(n.Range())))
	}
	return &b
}

func (c *checker) count(n *hclsyntax.FunctionCallExpr) *Expr {
	if !c.args(n, 1, 1) {
		return broken(n.Range())
	}
	a := c.check(n.Args[0])
	c.want(a, YesNo, n.Name)
	return &Expr{Op: OpCount, Args: []*Expr{a}, Type: Number, Unit: "count", Range: rangeOf(n.Range())}
}
