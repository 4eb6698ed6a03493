package book

import (
	"bytes"
	"context"
	"maps"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

var startOfFile = hcl.Pos{Line: 1, Column: 1}

// parse turns sources into bodies, in the same order; what cannot be parsed at
// all gives none.
func (l *loader) parse(ctx context.Context, sources []source) []*hclsyntax.Body {
	var bodies []*hclsyntax.Body
	for _, p := range parseAll(ctx, l.pieces(sources)) {
		for _, d := range p.problems {
			l.tear(d)
		}
		if p.body != nil {
			maps.Copy(l.twins, p.twins)
			bodies = append(bodies, p.body)
		}
	}
	return bodies
}

// piece is a part of a file with whole blocks in it.
type piece struct {
	source
	start, end int
	line       int // of start, from 1
}

// pieces cuts up the sources that are safe to parse.
func (l *loader) pieces(sources []source) []piece {
	var pieces []piece
	for _, s := range sources {
		l.lines.add(s)
		g := guard{text: s.text, marks: l.marks}
		if t, at := g.check(); t != noTrouble {
			l.tear(troubled(t, placeAt(s.name, s.text, at)))
			continue
		}
		l.marks = g.marks
		next := piece{source: s, line: 1}
		for _, cut := range append(g.cuts, len(s.text)) {
			next.end = cut
			pieces = append(pieces, next)
			next.line += bytes.Count(s.text[next.start:cut], []byte("\n"))
			next.start = cut
		}
	}
	return pieces
}

// parsed is what one piece gives.
type parsed struct {
	body     *hclsyntax.Body
	twins    map[*hclsyntax.Block]*hclsyntax.Block
	problems []Diagnostic
}

// parseAll parses as many pieces at a time as there are processors; most of the
// time of a load goes into it.
func parseAll(ctx context.Context, pieces []piece) []parsed {
	results := make([]parsed, len(pieces))
	var next atomic.Int64
	var work sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(pieces)) {
		work.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(pieces) && ctx.Err() == nil; i = int(next.Add(1)) - 1 {
				results[i] = parsePiece(pieces[i])
			}
		})
	}
	work.Wait()
	return results
}

func parsePiece(p piece) parsed {
	file, problems := hclsyntax.ParseConfig(p.text[p.start:p.end], p.name, hcl.Pos{Line: p.line, Column: 1, Byte: p.start})
	body, _ := file.Body.(*hclsyntax.Body)
	if len(problems) > 0 {
		return parsed{body: body, problems: syntaxProblems(problems, p.text)}
	}
	return parsed{body: body, twins: twinsOf(body, p.source)}
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
	if !ok || r.Line == 0 {
		return ""
	}
	line, rest, more := bytes.Cut(text, []byte("\n"))
	for range r.Line - 1 {
		if !more {
			return ""
		}
		line, rest, more = bytes.Cut(rest, []byte("\n"))
	}
	if len(line) > mostLine {
		return ""
	}
	return string(bytes.ToValidUTF8(bytes.TrimRight(line, "\r"), []byte("?")))
}

const mostLine = 4000

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
