package book

import (
	"regexp"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// mirrorWord makes a block stand for both sides of the aircraft: it is read a second
// time with left and right exchanged, in ids and in words.
const mirrorWord = "mirror"

var (
	letters = regexp.MustCompile(`[A-Za-z]+`)
	sides   = map[string]string{
		"left": "right", "Left": "Right", "LEFT": "RIGHT",
		"right": "left", "Right": "Left", "RIGHT": "LEFT",
	}
)

// otherSide exchanges left and right where they stand as words of their own or as
// parts of an id.
func otherSide(text string) string {
	return letters.ReplaceAllStringFunc(text, func(word string) string {
		if other, ok := sides[word]; ok {
			return other
		}
		return word
	})
}

// twinsOf reads the blocks of a body that are mirrored once more, for the other side.
// The lines of a twin are those of its block; its columns may differ by a few.
func twinsOf(body *hclsyntax.Body, s source) map[*hclsyntax.Block]*hclsyntax.Block {
	twins := map[*hclsyntax.Block]*hclsyntax.Block{}
	for _, block := range body.Blocks {
		if _, ok := block.Body.Attributes[mirrorWord]; !ok {
			continue
		}
		from := block.TypeRange.Start
		text := otherSide(string(s.text[from.Byte:block.CloseBraceRange.End.Byte]))
		file, _ := hclsyntax.ParseConfig([]byte(text), s.name, hcl.Pos{Line: from.Line, Column: from.Column, Byte: from.Byte})
		if twin, ok := file.Body.(*hclsyntax.Body); ok && len(twin.Blocks) == 1 {
			twins[block] = twin.Blocks[0]
		}
	}
	return twins
}

// declareBoth declares a block and, where it is mirrored, the one of the other side;
// not that one where the first has an error, which would then be said twice.
func (l *loader) declareBoth(block *hclsyntax.Block) {
	before := l.of[Error]
	l.declareOne(block)
	a := block.Body.Attributes[mirrorWord]
	if a == nil {
		return
	}
	twin := l.twins[block]
	switch {
	case l.of[Error] > before:
	case !(node{l: l, body: block.Body}).truth(mirrorWord):
		if l.of[Error] == before {
			l.add(mirrorOff(rangeOf(a.SrcRange)))
		}
	case twin == nil || len(block.Labels) == 0 || twin.Labels[0] == block.Labels[0]:
		l.add(mirrorOfNothing(rangeOf(a.SrcRange)))
	default:
		l.declareOne(twin)
		return
	}
	if twin != nil {
		l.spoil(twin)
	}
}
