package book

import "bytes"

// The parser of HCL and the checker call themselves for every bracket and
// every operator. The guard looks at the bare text before either does, so that
// no text, however it was made, makes them go too deep. It counts brackets
// inside brackets, and operators since the last comma or line end on each level
// of brackets; the sum over the levels bounds the depth of the tree. Where texts
// and comments begin and end it sees exactly as the scanner of HCL does; what
// would need more than that (a template inside a text) it refuses.
type guard struct {
	text   []byte
	inside bool // the whole text is as if in parentheses, where line ends do not count
	at     int
	levels []level
	deep   int   // sum of operators over the levels
	marks  int   // characters that are tokens of their own; begins with those of the files before
	cuts   []int // where the text may be cut into pieces: line starts outside all brackets
}

// pieceBytes is the least size of a piece. Small pieces are parsed faster, since
// what the parser makes of them stays near the processor.
const pieceBytes = 8 << 10

// level is one open bracket.
type level struct {
	bracket   byte // 0 for the file itself
	operators int
}

// trouble is what the guard can find.
type trouble uint8

const (
	noTrouble trouble = iota
	tooDeep
	tooLong
	numberTooLong
	tooManyMarks
	templateInText
	oddMarker
)

// check gives the first trouble and its offset.
func (g *guard) check() (t trouble, at int) {
	g.levels = append(g.levels[:0], level{})
	if g.inside {
		g.levels[0].bracket = '('
	}
	for g.at < len(g.text) {
		start := g.at
		switch t := g.token(); t {
		case noTrouble:
		case templateInText:
			return t, g.at
		default:
			return t, start
		}
	}
	return noTrouble, 0
}

func (g *guard) token() trouble {
	c := g.text[g.at]
	switch {
	case c == '"':
		return g.skipText()
	case c == '#' || g.sees("//"):
		g.skipTo("\n")
	case g.sees("/*") && g.skipTo("*/"):
	case g.sees("<<"):
		return g.skipHeredoc()
	case isDigit(c):
		if g.skipWord() > mostNumberSize {
			return numberTooLong
		}
	case isLetter(c):
		g.skipWord()
	default:
		return g.mark(c)
	}
	return noTrouble
}

// mark counts a character that is neither word nor text nor comment.
func (g *guard) mark(c byte) trouble {
	g.at++
	top := &g.levels[len(g.levels)-1]
	switch c {
	case ' ', '\t', '\r':
		return noTrouble
	case '(', '[', '{':
		top.operators++ // f()[a][b] is as deep as it has brackets
		g.deep++
		g.levels = append(g.levels, level{bracket: c})
	case ')', ']', '}':
		g.close()
	case ',':
		g.restart(top)
	case '\n':
		if top.bracket == 0 || top.bracket == '{' {
			g.restart(top)
		}
		if top.bracket == 0 {
			g.cut()
		}
	default:
		top.operators++
		g.deep++
	}
	g.marks++
	switch {
	case g.marks > mostMarks:
		return tooManyMarks
	case len(g.levels) > mostNesting:
		return tooDeep
	case g.deep > mostOperators:
		return tooLong
	}
	return noTrouble
}

func (g *guard) cut() {
	last := 0
	if len(g.cuts) > 0 {
		last = g.cuts[len(g.cuts)-1]
	}
	if g.at-last >= pieceBytes {
		g.cuts = append(g.cuts, g.at)
	}
}

func (g *guard) restart(l *level) {
	g.deep -= l.operators
	l.operators = 0
}

func (g *guard) close() {
	if n := len(g.levels); n > 1 {
		g.restart(&g.levels[n-1])
		g.levels = g.levels[:n-1]
	}
}

func (g *guard) sees(s string) bool { return bytes.HasPrefix(g.text[g.at:], []byte(s)) }

// skipTo moves behind the next end, which may be the end of the text for a
// line; it stays and gives false where there is no end.
func (g *guard) skipTo(end string) bool {
	i := bytes.Index(g.text[g.at:], []byte(end))
	switch {
	case i >= 0 && end == "\n":
		g.at += i // the line end counts for itself
	case i >= 0:
		g.at += i + len(end)
	case end == "\n":
		g.at = len(g.text)
	default:
		return false
	}
	return true
}

func (g *guard) skipText() trouble {
	for g.at++; g.at < len(g.text); g.at++ {
		switch c := g.text[g.at]; {
		case c == '"':
			g.at++
			return noTrouble
		case c == '\\' && !g.endsLine(g.at+1):
			g.at++
		case g.sees("${") || g.sees("%{"):
			return templateInText
		}
	}
	return noTrouble
}

func (g *guard) endsLine(at int) bool {
	return at < len(g.text) && (g.text[at] == '\n' || g.text[at] == '\r')
}

// skipHeredoc skips a text of several lines: <<END, the lines, END.
func (g *guard) skipHeredoc() trouble {
	start := g.at + 2
	if start < len(g.text) && g.text[start] == '-' {
		start++
	}
	end := start
	for end < len(g.text) && (isLetter(g.text[end]) || isDigit(g.text[end]) || g.text[end] == '-') {
		if g.text[end] >= 0x80 {
			return oddMarker
		}
		end++
	}
	if end == start || isDigit(g.text[start]) || g.text[start] == '-' || !bytes.HasPrefix(bytes.TrimPrefix(g.text[end:], []byte("\r")), []byte("\n")) {
		return g.mark('<')
	}
	marker := g.text[start:end]
	g.at = end
	g.skipTo("\n")
	return g.skipToMarker(marker)
}

func (g *guard) skipToMarker(marker []byte) trouble {
	for g.at++; g.at < len(g.text); g.at++ {
		line, _, _ := bytes.Cut(g.text[g.at:], []byte("\n"))
		if i := max(bytes.Index(line, []byte("${")), bytes.Index(line, []byte("%{"))); i >= 0 {
			g.at += i
			return templateInText
		}
		g.at += len(line)
		if bytes.Equal(bytes.TrimSpace(line), marker) {
			return noTrouble
		}
	}
	return noTrouble
}

func (g *guard) skipWord() int {
	start := g.at
	for g.at < len(g.text) && (isLetter(g.text[g.at]) || isDigit(g.text[g.at]) || g.text[g.at] == '.') {
		g.at++
	}
	return g.at - start
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func isLetter(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '_' || c >= 0x80
}
