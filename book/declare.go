package book

import (
	"cmp"
	"slices"
	"strings"

	"knockon/say"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// declaration is one block of the book with an id, not yet decoded.
type declaration struct {
	kind      *blockKind
	id        string
	n         int // index in loader.decls
	block     *hclsyntax.Block
	at        Range
	on        []bool                          // by variant: exists there
	overrides map[string]hclsyntax.Attributes // by variant id
}

// declare takes the blocks of one file; false if the book is too big to go on.
func (l *loader) declare(body *hclsyntax.Body) bool {
	l.declareChapter(body)
	for _, block := range body.Blocks {
		if len(l.decls)+len(l.acts) >= mostItems {
			l.tear(tooManyItems(rangeOf(block.TypeRange)))
			return false
		}
		l.declareBoth(block)
	}
	return true
}

func (l *loader) declareOne(block *hclsyntax.Block) {
	if block.Type == actWord {
		l.declareAct(block)
		return
	}
	l.declareBlock(block)
}

// declareAct takes an act that stands by itself: it belongs to every flight.
func (l *loader) declareAct(block *hclsyntax.Block) {
	k := topAct
	l.label(block, k)
	l.checkBody(k, block.Body)
	l.checkMissing(k, block)
	l.acts = append(l.acts, block)
}

func (l *loader) declareBlock(block *hclsyntax.Block) {
	k, ok := topKinds[block.Type]
	if !ok {
		l.add(unknownBlock(rangeOf(block.TypeRange), block.Type, "a book", say.Nearest(block.Type, topWords)))
		l.spoil(block)
		return
	}
	id, ok := l.label(block, k)
	l.checkBody(k, block.Body)
	if !ok {
		l.spoil(block)
		return
	}
	l.inherit(k, block)
	if k.word == effectWord {
		if id, ok = l.effectID(block, id); !ok {
			return
		}
	}
	d := &declaration{kind: k, id: id, n: len(l.decls), block: block, at: rangeOf(block.DefRange())}
	if !l.isNew(d) {
		return
	}
	l.byID[id] = d
	l.decls = append(l.decls, d)
}

// spoil notes the ids that a block would have had, so that what reads them is
// not blamed.
func (l *loader) spoil(block *hclsyntax.Block) {
	for _, label := range block.Labels {
		l.spoiled[label] = true
		l.spoiled[repairedID(label)] = true
	}
}

// isNew reports a second use of an id.
func (l *loader) isNew(d *declaration) bool {
	if first, ok := l.byID[d.id]; ok {
		if d.kind.word == effectWord {
			l.add(duplicateEffect(labelRange(d.block), d.block.Labels[0], first.at))
			return false
		}
		l.add(duplicateID(labelRange(d.block), d.id, first.kind.word, first.at))
		return false
	}
	return true
}

func labelRange(block *hclsyntax.Block) Range {
	if len(block.LabelRanges) == 0 {
		return rangeOf(block.TypeRange)
	}
	return rangeOf(block.LabelRanges[0])
}

// label reads what stands between a block's word and its brace; ok is false if
// the block cannot be used.
func (l *loader) label(block *hclsyntax.Block, k *blockKind) (label string, ok bool) {
	most := 1
	if k.label == labelNone {
		most = 0
	}
	switch {
	case len(block.Labels) > most:
		l.add(surplusLabel(rangeOf(block.LabelRanges[most]), k.word, most))
	case len(block.Labels) == 0 && (k.label == labelID || k.label == labelText):
		l.add(missingLabel(rangeOf(block.TypeRange), k.word, k.label == labelID))
		return "", false
	}
	if len(block.Labels) == 0 || most == 0 {
		return "", true
	}
	label = block.Labels[0]
	if k.label == labelText && label == "" {
		l.add(missingLabel(labelRange(block), k.word, false))
		return "", false
	}
	if k.label == labelID && !l.isID(labelRange(block), label) {
		return label, false
	}
	return label, true
}

// reserved are words that an expression reads in another way.
var reserved = []string{"real", "aircraft", "seen", "flight", "true", "false", "null", "for"}

func (l *loader) isID(at Range, id string) bool {
	switch {
	case slices.Contains(reserved, id):
		l.add(reservedID(at, id))
	case !validID(id):
		l.add(badID(at, id, repairedID(id), l.byID[repairedID(id)]))
	default:
		return true
	}
	return false
}

func validID(id string) bool {
	for i := range len(id) {
		c := id[i]
		if !(c >= 'a' && c <= 'z') && (i == 0 || !isDigit(c) && c != '_') {
			return false
		}
	}
	return id != ""
}

// repairedID gives the id that was probably meant, "" if none can be made.
func repairedID(id string) string {
	repaired := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		}
		return '_'
	}, strings.ToLower(strings.TrimSpace(id)))
	repaired = strings.TrimLeft(repaired, "_0123456789")
	if len(repaired) > 60 || !validID(repaired) {
		return ""
	}
	return repaired
}

// checkBody reports attributes and blocks that do not belong, down to the last
// sub-block, and attributes missing in sub-blocks. Those of the item itself may
// stand in its variant blocks; they are looked for when a build is assembled.
func (l *loader) checkBody(k *blockKind, body *hclsyntax.Body) {
	for _, a := range byPosition(body.Attributes) {
		l.checkAttribute(k, a)
	}
	for _, block := range body.Blocks {
		switch sub := subKinds[block.Type]; {
		case !slices.Contains(k.blocks, block.Type):
			l.add(unknownBlock(rangeOf(block.TypeRange), block.Type, k.word, say.Nearest(block.Type, k.blocks)))
		case block.Type == "variant":
			l.checkOverride(k, block)
		default:
			l.label(block, sub)
			l.checkBody(sub, block.Body)
			l.checkMissing(sub, block)
		}
	}
}

func (l *loader) checkAttribute(k *blockKind, a *hclsyntax.Attribute) {
	at := rangeOf(a.NameRange)
	switch {
	case slices.Contains(k.may, a.Name), k.endings && UnitOf(a.Name) != "" && validID(a.Name):
	case slices.Contains(k.blocks, a.Name):
		l.add(blockAsAttribute(at, a.Name))
	case k.endings:
		l.add(factWithoutUnit(at, a.Name, say.Nearest(a.Name, k.may)))
	default:
		l.add(unknownAttribute(at, a.Name, k, say.Nearest(a.Name, k.may)))
	}
}

func (l *loader) checkMissing(k *blockKind, block *hclsyntax.Block) {
	for _, name := range k.must {
		if _, ok := block.Body.Attributes[name]; !ok {
			l.add(missingAttribute(rangeOf(block.DefRange()), name, k.word, ""))
		}
	}
}

func (l *loader) checkOverride(k *blockKind, block *hclsyntax.Block) {
	l.label(block, topKinds["variant"])
	for _, a := range byPosition(block.Body.Attributes) {
		if a.Name == "only" || a.Name == "except" {
			l.add(notInOverride(rangeOf(a.NameRange), a.Name))
			continue
		}
		l.checkAttribute(k, a)
	}
	for _, sub := range block.Body.Blocks {
		l.add(notInOverride(rangeOf(sub.TypeRange), sub.Type))
	}
}

// byPosition puts attributes in the order of the text.
func byPosition(attrs hclsyntax.Attributes) []*hclsyntax.Attribute {
	list := make([]*hclsyntax.Attribute, 0, len(attrs))
	for _, a := range attrs {
		list = append(list, a)
	}
	slices.SortFunc(list, func(a, b *hclsyntax.Attribute) int {
		return cmp.Compare(a.NameRange.Start.Byte, b.NameRange.Start.Byte)
	})
	return list
}
