package book

import (
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// The letters of ClaimFunctions for arguments that are ids, and the block words.
var argumentKinds = map[string][]string{
	"f":   {"function"},
	"a":   {"alert"},
	"i":   {"indication"},
	"p":   {"phase"},
	"f|i": {"function", "indication"},
}

// ledger checks a function of a claim. Inside it the ordinary language holds:
// what is observed cannot itself be a finding.
func (c *checker) ledger(n *hclsyntax.FunctionCallExpr) *Expr {
	e := &Expr{Op: OpLedger, Word: n.Name, Range: rangeOf(n.Range())}
	var forms []string
	for _, f := range ClaimFunctions {
		if f.Name == n.Name {
			forms, e.Type = strings.Split(f.Args, ","), f.Type
		}
	}
	if e.Type == Number {
		e.Unit = "s"
		if n.Name == "times" {
			e.Unit = "count"
		}
	}
	if !c.args(n, len(forms), len(forms)) {
		return e
	}
	c.claims = false
	for i, form := range forms {
		e.Args = append(e.Args, c.ledgerArgument(n.Args[i], form, n.Name))
	}
	c.claims = true
	return e
}

func (c *checker) ledgerArgument(n hclsyntax.Expression, form, by string) *Expr {
	at := rangeOf(n.Range())
	switch form {
	case "e":
		a := c.check(n)
		c.want(a, YesNo, by)
		return a
	case "n":
		s, ok := c.constant(n, by)
		if ok && !isDuration(s) {
			c.report(badDuration(at, by))
		}
		return &Expr{Op: OpNumber, Type: Number, Unit: "s", Num: s, Range: at}
	}
	id, kind := c.named(n, argumentKinds[form]...)
	a := &Expr{Op: OpRef, ID: id, Range: at}
	if kind != "" && kind != "indication" {
		a.Type = YesNo
	}
	return a
}

// needsMoment finds the first value in a claim that is read without saying at
// which moment, nil if there is none.
func needsMoment(e *Expr) *Expr {
	switch e.Op {
	case OpLedger, OpInvalid, OpFact:
		return nil
	case OpRef, OpReal, OpFault, OpFailed, OpHeld, OpPulse, OpBefore, OpFrozen, OpTotal, OpCount:
		return e
	}
	for _, a := range e.Args {
		if found := needsMoment(a); found != nil {
			return found
		}
	}
	return nil
}
