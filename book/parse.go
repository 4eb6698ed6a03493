package book

import (
	"bytes"
	"context"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

var startOfFile = hcl.Pos{Line: 1, Column: 1}

// parse turns sources into bodies; a file that cannot be parsed at all gives none.
func (l *loader) parse(ctx context.Context, sources []source) []*hclsyntax.Body {
	var bodies []*hclsyntax.Body
	for _, s := range sources {
		if l.stopped(ctx) {
			return nil
		}
		l.lines.add(s)
		g := guard{text: s.text, marks: l.marks}
		if t, at := g.check(); t != noTrouble {
			l.tear(troubled(t, placeAt(s.name, s.text, at)))
			continue
		}
		l.marks = g.marks
		file, problems := hclsyntax.ParseConfig(s.text, s.name, startOfFile)
		for _, d := range syntaxProblems(problems, s.text) {
			l.tear(d)
		}
		if body, ok := file.Body.(*hclsyntax.Body); ok {
			bodies = append(bodies, body)
		}
	}
	return bodies
}

// rangeOf translates a range of the parser.
func rangeOf(r hcl.Range) Range {
	return Range{
		File: r.Filename,
		Line: r.Start.Line, Column: r.Start.Column,
		EndLine: r.End.Line, EndCol: r.End.Column,
		Offset: r.Start.Byte, EndOffset: r.End.Byte,
	}
}

// lines finds the text of a line for the renderer.
type lines map[string][]byte

func (l lines) add(s source) { l[s.name] = s.text }

// of gives the line in which r begins, without its end. A line of more than
// mostLine bytes is too long to show.
func (l lines) of(r Range) string {
	text, ok := l[r.File]
	if !ok || r.Offset > len(text) || r.Line == 0 {
		return ""
	}
	start := bytes.LastIndexByte(text[:r.Offset], '\n') + 1
	line, _, _ := bytes.Cut(text[start:], []byte("\n"))
	if len(line) > mostLine {
		return ""
	}
	return string(bytes.ToValidUTF8(bytes.TrimRight(line, "\r"), []byte("?")))
}

const mostLine = 4000
