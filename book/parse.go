package book

import (
	"bytes"
	"context"
	"runtime"
	"sync"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

var startOfFile = hcl.Pos{Line: 1, Column: 1}

// parse turns sources into bodies, in the same order; a file that cannot be
// parsed at all gives none.
func (l *loader) parse(ctx context.Context, sources []source) []*hclsyntax.Body {
	var bodies []*hclsyntax.Body
	for _, f := range parseAll(ctx, l.guarded(sources)) {
		for _, d := range f.problems {
			l.tear(d)
		}
		if f.body != nil {
			bodies = append(bodies, f.body)
		}
	}
	return bodies
}

// guarded gives the sources that are safe to parse.
func (l *loader) guarded(sources []source) []source {
	var safe []source
	for _, s := range sources {
		l.lines.add(s)
		g := guard{text: s.text, marks: l.marks}
		if t, at := g.check(); t != noTrouble {
			l.tear(troubled(t, placeAt(s.name, s.text, at)))
			continue
		}
		l.marks = g.marks
		safe = append(safe, s)
	}
	return safe
}

// parsed is what one file gives.
type parsed struct {
	body     *hclsyntax.Body
	problems []Diagnostic
}

// parseAll parses as many files at a time as there are processors; most of the
// time of a load goes into it.
func parseAll(ctx context.Context, sources []source) []parsed {
	files := make([]parsed, len(sources))
	var work sync.WaitGroup
	free := make(chan struct{}, runtime.GOMAXPROCS(0))
	for i, s := range sources {
		free <- struct{}{}
		work.Go(func() {
			if ctx.Err() == nil {
				files[i] = parseFile(s)
			}
			<-free
		})
	}
	work.Wait()
	return files
}

func parseFile(s source) parsed {
	file, problems := hclsyntax.ParseConfig(s.text, s.name, startOfFile)
	body, _ := file.Body.(*hclsyntax.Body)
	return parsed{body, syntaxProblems(problems, s.text)}
}

// rangeOf translates a range of the parser. Those of broken text may have no end.
func rangeOf(r hcl.Range) Range {
	if r.End.Byte < r.Start.Byte {
		r.End = r.Start
	}
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
