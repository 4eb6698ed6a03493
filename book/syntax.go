package book

import (
	"bytes"
	"regexp"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
)

// plainer says in the words of this language what the parser says in HCL's.
var plainer = strings.NewReplacer(
	"function argument", "function argument", "Missing argument separator", "Missing comma or closing parenthesis",
	"configuration block", "block", "configuration body", "file", "argument definitions", "attributes", "Argument definitions", "Attributes",
	"argument definition", "attribute", "Argument definition", "Attribute", "Argument or block definition", "Attribute or block",
	"argument or block definition", "attribute or block", "block definition", "block", "argument name", "attribute name",
	"Argument names", "Attribute names", "single-argument", "one-line", "arguments", "attributes", "argument", "attribute",
)

// syntaxProblems translates the complaints of the parser about one file. Where
// an expression goes on in the next line, what the parser says of that line is
// left out.
func syntaxProblems(problems hcl.Diagnostics, text []byte) []Diagnostic {
	var out []Diagnostic
	open := -1 // last line that an expression went on to without parentheses
	for _, p := range problems {
		d := syntaxProblem(p, text)
		if open > 0 && (d.Subject.Line == open || d.Subject.Line == open+1) {
			open = d.Subject.Line
			continue
		}
		open = -1
		if d.Code == "line-break" {
			open = d.Subject.Line
		}
		out = append(out, d)
	}
	return out
}

func syntaxProblem(d *hcl.Diagnostic, text []byte) Diagnostic {
	var at Range
	if d.Subject != nil {
		at = rangeOf(*d.Subject)
	}
	var out Diagnostic
	switch {
	case d.Summary == "Attribute redefined":
		out = givenTwice(at, string(text[at.Offset:at.EndOffset]), firstLine.FindStringSubmatch(d.Detail))
	case brokenLine(d.Summary, text, at):
		out = problem("line-break", at, "An expression may break across lines only in parentheses",
			"Here it goes on without. Put the whole expression in parentheses: value = ( … ).")
	case d.Summary == "Missing newline after argument", d.Summary == "Extra characters after expression":
		out = problem("syntax", at, "The expression ends before this", joinHint(code(text[min(at.Offset, len(text)):])))
	default:
		out = problem("syntax", unclosed(d, text, at), plainer.Replace(d.Summary), plainer.Replace(d.Detail))
	}
	if d.Context != nil {
		out = out.within(rangeOf(*d.Context))
	}
	return out
}

// firstLine finds where the parser says that an attribute was set before.
var firstLine = regexp.MustCompile(`:(\d+),\d+-`)

// joinHint says what people probably mean who write on after an expression.
func joinHint(rest string) string {
	word, _, _ := strings.Cut(rest, " ")
	switch strings.ToLower(word) {
	case "and":
		return "For and write &&."
	case "or":
		return "For or write ||."
	case "not", "is", "=", "equals":
		return "To compare write == or !=."
	}
	return "Join conditions with && or ||, put each attribute in a line of its own, and units into names, not after numbers."
}

// unclosed moves a complaint about a bracket that is not closed from the line
// where the parser noticed to the bracket.
func unclosed(d *hcl.Diagnostic, text []byte, at Range) Range {
	if d.Context == nil || d.Context.Start.Line == at.Line || !atLineStart(text, at.Offset) {
		return at
	}
	r := rangeOf(*d.Context)
	r.EndLine, r.EndCol, r.EndOffset = r.Line, r.Column+1, r.Offset+1
	return r
}

// brokenLine tells whether the parser stumbled because an expression goes on in
// the next line: either it met a line end where something more should come, or
// a line begins with an operator.
func brokenLine(summary string, text []byte, at Range) bool {
	if at.Offset > len(text) || at.File == typed {
		return false // in a typed text lines do not count
	}
	here := code(text[at.Offset:])
	switch summary {
	case "Invalid expression", "Missing expression", "Missing false expression in conditional":
		return here == ""
	case "Argument or block definition required":
		return atLineStart(text, at.Offset) && slices.ContainsFunc(openSigns, func(s string) bool { return strings.HasPrefix(here, s) })
	}
	return false
}

// code gives what stands in the first line of text, without a comment.
func code(text []byte) string {
	line, _, _ := bytes.Cut(text[:min(len(text), 200)], []byte("\n"))
	s := strings.TrimSpace(string(line))
	if strings.HasPrefix(s, "#") || strings.HasPrefix(s, "//") {
		return ""
	}
	return s
}

func atLineStart(text []byte, at int) bool {
	before := text[max(0, at-500):at]
	return len(bytes.TrimLeft(before[bytes.LastIndexByte(before, '\n')+1:], " \t")) == 0
}

var openSigns = []string{"&&", "||", "==", "!=", "<=", ">=", "<", ">", "+", "-", "*", "/", "?", ":"}
