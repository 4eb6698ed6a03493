package say

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// LeastWidth is the least width that a page is set in.
const LeastWidth = 40

// Page is plain text that is being set, no line wider than its width unless a
// single word is.
type Page struct {
	strings.Builder
	Width int
}

// NewPage starts a page; one narrower than LeastWidth is set in that.
func NewPage(width int) *Page { return &Page{Width: max(width, LeastWidth)} }

// Gap sets an empty line.
func (p *Page) Gap() { p.WriteByte('\n') }

// Head sets a heading, behind an empty line.
func (p *Page) Head(text string) {
	p.Gap()
	p.Hang("", "", strings.ToUpper(text))
}

// Paragraph breaks text into lines, the first behind a lead, the others as far in.
func (p *Page) Paragraph(lead, text string) {
	p.Hang(lead, strings.Repeat(" ", utf8.RuneCountInString(lead)), text)
}

// Hang breaks text into lines, the first behind one lead, the others behind another.
func (p *Page) Hang(lead, rest, text string) {
	line, in := lead, utf8.RuneCountInString(lead)
	length := in
	for _, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case length == in:
			line, length = line+word, length+n
		case length+1+n > p.Width:
			fmt.Fprintln(p, strings.TrimRight(line, " "))
			in = utf8.RuneCountInString(rest)
			line, length = rest+word, in+n
		default:
			line, length = line+" "+word, length+1+n
		}
	}
	fmt.Fprintln(p, strings.TrimRight(line, " "))
}

// Headed sets a title with something at the right edge of its line, or behind
// it where there is no room.
func (p *Page) Headed(lead, title, right string) {
	room := p.Width - utf8.RuneCountInString(lead+title+right)
	if right == "" || room < 2 {
		p.Paragraph(lead, strings.TrimSpace(title+" "+Ahead("– ", right)))
		return
	}
	fmt.Fprintln(p, lead+title+strings.Repeat(" ", room)+right)
}

// Fold breaks the lines of a text that are wider than a width; what goes on is
// set a little further in. A width of 0 or less breaks nothing.
func Fold(text string, width int) string {
	if width <= 0 {
		return text
	}
	var out strings.Builder
	for line := range strings.Lines(text) {
		line, end := strings.CutSuffix(line, "\n")
		foldLine(&out, []rune(line), width)
		if end {
			out.WriteByte('\n')
		}
	}
	return out.String()
}

func foldLine(out *strings.Builder, line []rune, width int) {
	in := 0
	for in < len(line) && line[in] == ' ' {
		in++
	}
	in = min(in+2, width/2)
	for len(line) > width {
		cut := breakAt(line, width)
		out.WriteString(strings.TrimRight(string(line[:cut]), " ") + "\n")
		rest := strings.TrimLeft(string(line[cut:]), " ")
		line = []rune(strings.Repeat(" ", in) + rest)
	}
	out.WriteString(string(line))
}

// breakAt is where a line that is too wide is cut: behind a word, or inside the
// one that fills it.
func breakAt(line []rune, width int) int {
	begun := false
	cut := 0
	for i, r := range line[:width+1] {
		if r == ' ' && begun {
			cut = i
		}
		begun = begun || r != ' '
	}
	if cut == 0 {
		return width
	}
	return cut
}
