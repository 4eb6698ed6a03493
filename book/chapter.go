package book

import (
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

const chapterWord = "chapter"

// declareChapter takes the attributes that stand outside the blocks of a file. One
// is allowed there, before the first block: the chapter of all blocks that say none.
func (l *loader) declareChapter(body *hclsyntax.Body) {
	file := body.SrcRange.Filename
	_, begun := l.chapters[file]
	for _, a := range byPosition(body.Attributes) {
		switch {
		case a.Name != chapterWord:
			l.add(attributeOutside(rangeOf(a.NameRange), a.Name))
		case begun || len(body.Blocks) > 0 && body.Blocks[0].TypeRange.Start.Byte < a.NameRange.Start.Byte:
			l.add(chapterTooLate(rangeOf(a.NameRange)))
		case l.isChapter(body):
			l.chapters[file] = a
		}
	}
	if _, known := l.chapters[file]; len(body.Blocks) > 0 && !known {
		l.chapters[file] = nil // begun, without one
	}
}

// isChapter reads the chapter of a file once, so that what is wrong with it is said
// once and not of every block.
func (l *loader) isChapter(body *hclsyntax.Body) bool {
	before := l.of[Error]
	node{l: l, body: body}.chapter()
	return l.of[Error] == before
}

// inherit gives a block the chapter of its file, if it may have one and says none.
func (l *loader) inherit(k *blockKind, block *hclsyntax.Block) {
	a := l.chapters[rangeOf(block.TypeRange).File]
	if a == nil || !slices.Contains(k.may, chapterWord) || block.Body.Attributes[chapterWord] != nil {
		return
	}
	block.Body.Attributes[chapterWord] = a
}
