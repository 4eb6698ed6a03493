package book

import "github.com/hashicorp/hcl/v2/hclsyntax"

// LawForm is a law of physics that expressions may call: the units of what it takes
// and of what it gives, "" for any.
type LawForm struct {
	Name  string
	Takes []string
	Gives string
}

// Laws lists them. What they compute says docs/meaning.md, section 4.
var Laws = []LawForm{
	{"static_pressure", []string{"ft"}, "hpa"},
	{"impact_pressure", []string{"kt"}, "hpa"},
	{"altitude_of", []string{"hpa"}, "ft"},
	{"airspeed_of", []string{"hpa"}, "kt"},
	{"mach_of", []string{"hpa", "hpa"}, "mach"},
	{"airspeed_held", []string{"hpa", "hpa"}, "kt"},
	{"root_of", []string{""}, ""},
	{"air_through", []string{"hpa", "hpa"}, ""},
}

func lawNamed(name string) (LawForm, bool) {
	for _, l := range Laws {
		if l.Name == name {
			return l, true
		}
	}
	return LawForm{}, false
}

// between reads a table of rows along one number.
func (c *checker) between(n *hclsyntax.FunctionCallExpr) *Expr {
	e := &Expr{Op: OpLaw, Word: "between", Type: Number, fits: true, Range: rangeOf(n.Range())}
	least := 5
	if len(n.Args)%2 == 0 { // a row is a pair
		least = len(n.Args) + 1
	}
	if !c.args(n, least, -1) {
		return broken(n.Range())
	}
	x := c.check(n.Args[0])
	c.want(x, Number, n.Name)
	e.Args = []*Expr{x}
	ok := true
	for _, a := range n.Args[1:] {
		v, fine := c.constant(a, n.Name)
		e.Table, ok = append(e.Table, v), ok && fine
	}
	for i := 2; ok && i < len(e.Table); i += 2 {
		if e.Table[i] <= e.Table[i-2] {
			c.report(rowsNotRising(rangeOf(n.Args[i+1].Range()), e.Table[i-2], e.Table[i]))
			break
		}
	}
	return e
}

func (c *checker) law(n *hclsyntax.FunctionCallExpr, l LawForm) *Expr {
	e := &Expr{Op: OpLaw, Word: l.Name, Type: Number, Unit: l.Gives, fits: l.Gives == "", Range: rangeOf(n.Range())}
	if !c.args(n, len(l.Takes), len(l.Takes)) {
		return broken(n.Range())
	}
	e.Args = c.checkAll(n.Args)
	for i, a := range e.Args {
		if c.want(a, Number, l.Name) && l.Takes[i] != "" {
			c.sameUnit(&Expr{}, &Expr{Type: Number, Unit: l.Takes[i]}, a)
		}
	}
	return e
}
