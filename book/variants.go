package book

import (
	"slices"

	"knockon/say"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// standard is the build of a book without variant blocks.
const standard = "standard"

// findVariants lists the builds and works out which item exists on which.
func (l *loader) findVariants(book *Book) {
	for _, d := range l.decls {
		if d.kind.word != "variant" {
			continue
		}
		if len(l.variants) >= mostVariants {
			l.add(tooManyVariants(d.at))
			break
		}
		l.variants = append(l.variants, d)
		n := node{l: l, kind: d.kind, body: d.block.Body, at: d.at}
		v := &Variant{Head: n.head(d.id)}
		n.mustHave("")
		book.Variants = append(book.Variants, v)
	}
	if len(book.Variants) == 0 {
		book.Variants = []*Variant{{Head: Head{ID: standard, Kind: "variant", Title: standard}}}
	}
	for _, d := range l.decls {
		d.on = l.existence(d, book)
		d.overrides = l.overridesOf(d, book)
	}
}

// existence works out only and except.
func (l *loader) existence(d *declaration, book *Book) []bool {
	n := node{l: l, kind: d.kind, body: d.block.Body, at: d.at}
	only, except := n.variantList("only", book), n.variantList("except", book)
	if a := n.attr("except"); a != nil && n.attr("only") != nil {
		l.add(onlyAndExcept(rangeOf(a.NameRange)))
	}
	on := make([]bool, len(book.Variants))
	for i, v := range book.Variants {
		on[i] = (n.attr("only") == nil || slices.Contains(only, v.ID)) && !slices.Contains(except, v.ID)
	}
	if len(only) == listed(n.attr("only")) && !slices.Contains(on, true) {
		l.add(onNoBuild(d.at, d.id))
	}
	return on
}

// listed counts the entries of a list.
func listed(a *hclsyntax.Attribute) int {
	if a == nil {
		return 0
	}
	return len(elements(a.Expr))
}

func (n node) variantList(name string, book *Book) []string {
	a := n.attr(name)
	if a == nil {
		return nil
	}
	var ids []string
	for _, e := range elements(a.Expr) {
		if id, ok := n.bareID(e, "variant"); ok && n.l.isVariant(rangeOf(e.Range()), id, book) {
			ids = append(ids, id)
		}
	}
	return ids
}

func (l *loader) isVariant(at Range, id string, book *Book) bool {
	ids := IDs(book.Variants)
	if slices.Contains(ids, id) {
		return true
	}
	if !l.spoiled[id] {
		l.add(unknownVariant(at, id, say.Nearest(id, ids)))
	}
	return false
}

func (l *loader) overridesOf(d *declaration, book *Book) map[string]hclsyntax.Attributes {
	if !slices.Contains(d.kind.blocks, "variant") {
		return nil
	}
	var overrides map[string]hclsyntax.Attributes
	for _, block := range d.block.Body.Blocks {
		if block.Type != "variant" || len(block.Labels) != 1 {
			continue
		}
		id, at := block.Labels[0], labelRange(block)
		switch _, twice := overrides[id]; {
		case twice:
			l.add(duplicateOverride(at, id))
		case validID(id) && l.isVariant(at, id, book):
			if overrides == nil {
				overrides = map[string]hclsyntax.Attributes{}
			}
			overrides[id] = block.Body.Attributes
		}
	}
	return overrides
}
