package book

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"knockon/say"

	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// builder makes one build. It is the scope of the build's expressions while
// they are checked.
type builder struct {
	*loader
	n       int // index of the variant
	book    *Book
	build   *Build
	symbols []*symbol       // by declaration; replaced, never changed
	known   map[string]bool // names of the aircraft's numbers
}

// checked is an expression that has been checked without a problem, with all
// that the result depends on.
type checked struct {
	expr  *Expr
	reads []read
	facts bool
}

// assemble makes the build of variant n.
func (l *loader) assemble(book *Book, n int, variant string) *Build {
	b := &builder{
		loader: l, n: n, book: book,
		build: &Build{Book: book, Variant: variant, items: make(map[string]Item, len(l.decls))},
	}
	l.builders = append(l.builders, b)
	b.symbols = make([]*symbol, len(l.decls))
	for i, d := range l.decls {
		s := b.symbolFor(d)
		b.symbols[i] = &s
	}
	b.findFacts()
	b.inferSignals()
	b.inferShown()
	for _, d := range l.decls {
		if d.on[n] && d.kind.word != "claim" && d.kind.word != "variant" {
			b.decode(d)
		}
	}
	b.shareActs()
	b.checkWhole()
	return b.build
}

// node gives the node of a declaration on this build.
func (b *builder) node(d *declaration) node {
	return node{l: b.loader, b: b, kind: d.kind, body: d.block.Body, over: d.overrides[b.build.Variant], at: d.at}
}

// symbolFor gives what is known of an item before any expression is looked at.
func (b *builder) symbolFor(d *declaration) symbol {
	s := symbol{kind: d.kind.word, absent: !d.on[b.n]}
	switch s.kind {
	case "unit":
		s.valued, s.typ, s.faults = true, YesNo, faultIDs(d.block)
	case "function", "alert", "phase":
		s.valued, s.typ = true, YesNo
	case "signal":
		s.valued = true
	case "control":
		s.valued, s.typ = true, Word
		s.words = sortedWords(b.node(d).words("positions"))
	}
	return s
}

func faultIDs(block *hclsyntax.Block) []string {
	var ids []string
	for _, sub := range block.Body.Blocks {
		if sub.Type == "fault" && len(sub.Labels) > 0 {
			ids = append(ids, sub.Labels[0])
		}
	}
	return ids
}

func (b *builder) findFacts() {
	b.known = map[string]bool{}
	for _, d := range b.decls {
		if d.kind.word != "aircraft" {
			continue
		}
		for _, attrs := range []hclsyntax.Attributes{d.block.Body.Attributes, d.overrides[b.build.Variant]} {
			for name := range attrs {
				if UnitOf(name) != "" {
					b.known[name] = true
				}
			}
		}
	}
}

func (b *builder) symbol(id string) *symbol {
	if d, ok := b.byID[id]; ok {
		return b.symbols[d.n]
	}
	if b.spoiled[id] {
		return &symbol{spoiled: true}
	}
	return nil
}

func (b *builder) fact(name string) bool { return b.known[name] }

func (b *builder) suggest(at Range, id string, kinds []string) string {
	if b.full() {
		return ""
	}
	chapter := b.chapterAt(at)
	key := fmt.Sprint(chapter, " ", id, " ", strings.Join(kinds, " "))
	if near, ok := b.near[key]; ok {
		return near
	}
	var here, elsewhere []string
	for _, d := range b.decls {
		switch {
		case !slices.Contains(kinds, d.kind.word):
		case d.chapter() == chapter:
			here = append(here, d.id)
		default:
			elsewhere = append(elsewhere, d.id)
		}
	}
	near := say.Nearest(id, append(here, elsewhere...))
	b.near[key] = near
	return near
}

// chapterAt is the chapter of the block that a place is in; 0 for none.
func (b *builder) chapterAt(at Range) int {
	for _, d := range b.decls {
		if r := d.block.Range(); r.Filename == at.File && r.Start.Line <= at.Line && at.Line <= d.block.CloseBraceRange.End.Line {
			return d.chapter()
		}
	}
	return 0
}

// chapter is what the block says of it, as a plain number; 0 where it says nothing.
func (d *declaration) chapter() int {
	a, ok := d.block.Body.Attributes[chapterWord]
	if !ok {
		return 0
	}
	v, diags := a.Expr.Value(nil)
	if diags.HasErrors() || !v.IsKnown() || v.IsNull() || v.Type() != cty.Number {
		return 0
	}
	n, _ := v.AsBigFloat().Int64()
	return int(n)
}

func (b *builder) suggestFact(name string) string {
	return say.Nearest(name, slices.Sorted(maps.Keys(b.known)))
}

func (b *builder) where() string {
	if len(b.variants) == 0 {
		return ""
	}
	return b.build.Variant
}

// expr checks an expression on this build, or takes it from an earlier build
// on which everything that it reads was the same.
func (b *builder) expr(n hclsyntax.Expression, report func(Diagnostic)) *Expr {
	if known, ok := b.cache[n]; ok && b.holds(known) {
		return known.expr
	}
	problems := 0
	c := checker{scope: b, report: func(d Diagnostic) { problems++; report(d) }}
	e := c.check(n)
	if problems == 0 {
		b.cache[n] = checked{e, c.reads, c.facts}
	}
	return e
}

func (b *builder) holds(k checked) bool {
	for _, r := range k.reads {
		if now := b.symbol(r.id); now != r.sym && !now.same(r.sym) {
			return false
		}
	}
	return !k.facts || b.n == 0
}
