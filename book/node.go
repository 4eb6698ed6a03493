package book

import (
	"math"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// node reads the attributes of one block on one build. Every reading gives the
// zero value for an attribute that is not there and reports one that is wrong.
type node struct {
	l    *loader
	b    *builder // nil while variants are being found
	kind *blockKind
	body *hclsyntax.Body
	over hclsyntax.Attributes // what the block says otherwise on this build
	at   Range
}

func (n node) attr(name string) *hclsyntax.Attribute {
	if a, ok := n.over[name]; ok {
		return a
	}
	return n.body.Attributes[name] // nil if there is none
}

// mustHave reports attributes that are missing; where names the build if it matters.
func (n node) mustHave(where string) {
	for _, name := range n.kind.must {
		if n.attr(name) == nil {
			n.l.add(missingAttribute(n.at, name, n.kind.word, where))
		}
	}
}

// sub gives the node of a block inside this one.
func (n node) sub(block *hclsyntax.Block) node {
	return node{l: n.l, b: n.b, kind: subKinds[block.Type], body: block.Body, at: rangeOf(block.DefRange())}
}

func (n node) head(id string) Head {
	return Head{
		ID: id, Kind: n.kind.word, Title: n.title(id), Chapter: n.chapter(), Note: n.text("note"), Source: n.text("source"), NotModelled: n.text("not_modelled"),
		AlsoCalled: n.words("also_called"), Range: n.at,
	}
}

func (n node) chapter() int { return int(n.whole(chapterWord, 0, 100)) }

func (n node) title(id string) string {
	if t := n.text("title"); t != "" {
		return t
	}
	return spaced(id)
}

func spaced(id string) string { return strings.ReplaceAll(id, "_", " ") }

func (n node) text(name string) string {
	a := n.attr(name)
	if a == nil {
		return ""
	}
	text, ok := textOf(bare(a.Expr))
	switch {
	case !ok && !isBroken(a.Expr):
		n.l.add(wantsText(rangeOf(a.Expr.Range()), name))
	case ok && text == "":
		n.l.add(emptyText(rangeOf(a.Expr.Range()), name))
	}
	return text
}

// oneOf reads a word that must be one of some.
func (n node) oneOf(name string, words []string) string {
	a := n.attr(name)
	if a == nil {
		return ""
	}
	word, ok := n.wordOf(a.Expr, name)
	if ok && !slices.Contains(words, word) {
		n.l.add(notOneOf(rangeOf(a.Expr.Range()), name, word, words))
		return ""
	}
	return word
}

func (n node) wordOf(e hclsyntax.Expression, name string) (word string, ok bool) {
	word, ok = textOf(bare(e))
	switch {
	case !ok && !isBroken(e):
		n.l.add(wantsText(rangeOf(e.Range()), name))
	case ok && word == "":
		n.l.add(emptyText(rangeOf(e.Range()), name))
		ok = false
	}
	return word, ok
}

func (n node) words(name string) []string {
	a := n.attr(name)
	if a == nil {
		return nil
	}
	var words []string
	for _, e := range elements(a.Expr) {
		word, ok := n.wordOf(e, name)
		switch {
		case !ok:
		case slices.Contains(words, word):
			n.l.add(listedTwice(rangeOf(e.Range()), word))
		default:
			words = append(words, word)
		}
	}
	return words
}

// someOf reads words that must be among some.
func (n node) someOf(name string, words []string) []string {
	list := n.words(name)
	for _, w := range list {
		if !slices.Contains(words, w) {
			n.l.add(notOneOf(rangeOf(n.attr(name).Expr.Range()), name, w, words))
		}
	}
	return list
}

// number reads a plain number between least and most; whole one without a fraction.
func (n node) number(name string, least, most float64) float64 {
	num, _ := n.between(name, least, most)
	return num
}

// between is number, and whether there is one that can be.
func (n node) between(name string, least, most float64) (num float64, ok bool) {
	a := n.attr(name)
	if a == nil {
		return 0, false
	}
	at := rangeOf(a.Expr.Range())
	e := n.plain(a.Expr, func(r Range) Diagnostic { return notPlainNumber(r, name) })
	if e.Type == Unknown {
		return 0, false
	}
	num, ok = fold64(e)
	switch {
	case !ok:
		n.l.add(notPlainNumber(at, name))
	case num < least || num > most:
		n.l.add(outOfRange(at, name, least, most))
		ok = false
	}
	return num, ok
}

func (n node) whole(name string, least, most float64) float64 {
	num := n.number(name, least, most)
	if num != math.Trunc(num) {
		n.l.add(notWhole(rangeOf(n.attr(name).Expr.Range()), name))
		return 0
	}
	return num
}

func (n node) seconds(name string) float64 { return n.number(name, 0, mostSeconds) }

// rate reads a rate of failures. None, and more than one an hour, can hardly be
// meant.
func (n node) rate() float64 {
	r, ok := n.between("rate_per_hour", 0, mostRate)
	if ok && (r == 0 || r > 1) {
		n.l.add(oddRate(rangeOf(n.attr("rate_per_hour").Expr.Range()), r))
	}
	return r
}

// mostRate is one failure in a second.
const mostRate = 3600

// checked reads how often a part is checked.
func (n node) checked() float64 { return n.number("checked_every_h", leastChecked, mostChecked) }

// leastChecked is about the shortest of flights, mostChecked far longer than any
// aircraft lives.
const (
	leastChecked = 0.1
	mostChecked  = 1e6
)

func (n node) truth(name string) bool {
	a := n.attr(name)
	if a == nil {
		return false
	}
	wrong := func(r Range) Diagnostic { return notTrueOrFalse(r, name) }
	e := n.plain(a.Expr, wrong)
	if e.Type != Unknown && e.Op != OpYesNo {
		n.l.add(wrong(e.Range))
	}
	return e.Num == 1
}

// plain checks an expression that may not read anything.
func (n node) plain(e hclsyntax.Expression, wrong func(Range) Diagnostic) *Expr {
	if len(hclsyntax.Variables(e)) > 0 {
		n.l.add(wrong(rangeOf(e.Range())))
		return broken(e.Range())
	}
	c := checker{scope: noScope{}, report: n.l.add}
	return c.check(e)
}

// bare takes parentheses away.
func bare(e hclsyntax.Expression) hclsyntax.Expression {
	for {
		p, ok := e.(*hclsyntax.ParenthesesExpr)
		if !ok {
			return e
		}
		e = p.Expression
	}
}

// isBroken tells whether the parser has already complained about e.
func isBroken(e hclsyntax.Expression) bool {
	switch e := bare(e).(type) {
	case *hclsyntax.ExprSyntaxError:
		return true
	case *hclsyntax.LiteralValueExpr:
		return !e.Val.IsKnown()
	}
	return false
}

// elements gives the items of a list; a single value is a list of one.
func elements(e hclsyntax.Expression) []hclsyntax.Expression {
	if t, ok := bare(e).(*hclsyntax.TupleConsExpr); ok {
		return t.Exprs
	}
	return []hclsyntax.Expression{e}
}

// noScope is the scope of plain numbers.
type noScope struct{}

func (noScope) symbol(string) *symbol                  { return nil }
func (noScope) fact(string) bool                       { return false }
func (noScope) suggest(Range, string, []string) string { return "" }
func (noScope) suggestFact(string) string              { return "" }
func (noScope) where() string                          { return "" }
