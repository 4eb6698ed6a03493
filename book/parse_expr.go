package book

import (
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// typed is the file name in the ranges of a text that a person typed.
const typed = ""

// ParseExpr reads one expression of the language, such as a condition that a
// person types, and checks it against a build. Functions of claims are not
// allowed. The ranges count from the start of the text; File is "".
func ParseExpr(text string, b *Build) (*Expr, Diagnostics) {
	return parseText(text, func(l *loader, n hclsyntax.Expression) *Expr {
		c := checker{scope: buildScope{b}, report: l.add}
		e := c.check(n)
		(&continuity{signals: b.Signals}).checkBounds(e, l.add)
		return e
	})
}

func parseText(text string, check func(*loader, hclsyntax.Expression) *Expr) (*Expr, Diagnostics) {
	s := source{typed, []byte(text)}
	l := newLoader()
	l.lines.add(s)
	e := l.parseText(s, check)
	all := l.sorted()
	for i := range all {
		all[i].Line = l.lines.of(all[i].Subject)
	}
	if all.HasErrors() {
		return nil, all
	}
	return e, all
}

func (l *loader) parseText(s source, check func(*loader, hclsyntax.Expression) *Expr) *Expr {
	if !l.isText(s.name, s.text) {
		return nil
	}
	if strings.TrimSpace(string(s.text)) == "" {
		l.tear(nothingWritten(placeAt(s.name, s.text, 0)))
		return nil
	}
	g := guard{text: s.text, inside: true}
	if t, at := g.check(); t != noTrouble {
		l.tear(troubled(t, placeAt(s.name, s.text, at)))
		return nil
	}
	n, problems := hclsyntax.ParseExpression(s.text, s.name, startOfFile)
	for _, d := range syntaxProblems(problems, s.text) {
		l.tear(d)
	}
	if l.failed() {
		return nil
	}
	return check(l, n)
}
