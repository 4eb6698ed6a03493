package airfield

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"strings"
)

// rows cuts a text into rows of cells, as RFC 4180 says, with any separator
// and line end. It holds no more than a few rows at a time whatever comes: a
// quote that is never closed costs its own row, not the rest of the text.
type rows struct {
	in    *bufio.Reader
	comma byte
	row   int      // number of the last row; empty lines count
	ahead []string // lines read for a quote that did not close
	then  error    // what came after them
	cells []string
}

const (
	longestRow = 1 << 16 // bytes
	mostLines  = 20      // within one row
)

// errRow is a row that cannot be read; the next one can.
type errRow string

func (e errRow) Error() string { return string(e) }

const (
	errLong = errRow("the row is longer than 65,536 characters")
	errOpen = errRow("a quote is opened and not closed")
	errNul  = errRow("the row has zero bytes in it: is this a text file?")
)

func newRows(in io.Reader) *rows {
	return &rows{in: bufio.NewReaderSize(in, longestRow)}
}

// header reads the first row and finds the separator by it.
func (r *rows) header() ([]string, error) {
	line, err := r.line()
	if err != nil {
		return nil, err
	}
	r.row = 1
	if strings.HasPrefix(line, "\xff\xfe") || strings.HasPrefix(line, "\xfe\xff") {
		return nil, errors.New("the file is in UTF-16: save it as UTF-8")
	}
	line = strings.TrimPrefix(line, "\ufeff")
	r.comma = separator(line)
	cells, open, _ := cut(line, r.comma, nil)
	if open {
		return nil, errOpen
	}
	return cells, nil
}

// separator is the mark that is most frequent outside quotes.
func separator(header string) byte {
	var count [3]int
	quoted := false
	for _, c := range header {
		if c == '"' {
			quoted = !quoted
		}
		if i := strings.IndexRune(",;\t", c); i >= 0 && !quoted {
			count[i]++
		}
	}
	best := 0
	for i, n := range count {
		if n > count[best] {
			best = i
		}
	}
	return ",;\t"[best]
}

// next gives the next row that is not empty. An errRow concerns that row only;
// io.EOF ends the text. The cells are good until the next call.
func (r *rows) next() ([]string, error) {
	for {
		line, err := r.line()
		if err == io.EOF {
			return nil, err
		}
		r.row++
		if err != nil {
			return nil, err
		}
		if line != "" {
			return r.whole(line)
		}
	}
}

// whole joins further lines to a line that leaves a quote open.
func (r *rows) whole(line string) ([]string, error) {
	if strings.IndexByte(line, 0) >= 0 {
		return nil, errNul
	}
	cells, open, _ := cut(line, r.comma, r.cells[:0])
	r.cells = cells
	if !open {
		return cells, nil
	}
	text := line
	var more []string
	for len(more) < mostLines && len(text) < longestRow {
		line, err := r.line()
		if err != nil {
			r.then = err
			break
		}
		more = append(more, line)
		text += "\n" + line
		cells, open, stray := cut(text, r.comma, r.cells[:0])
		if !open && !stray {
			r.cells = cells
			return cells, nil
		}
		if stray {
			break
		}
	}
	r.ahead = append(more, r.ahead...)
	return nil, errOpen
}

// line gives the next line without its end.
func (r *rows) line() (string, error) {
	if len(r.ahead) > 0 {
		line := r.ahead[0]
		r.ahead = r.ahead[1:]
		return line, nil
	}
	if err := r.then; err != nil {
		r.then = nil
		return "", err
	}
	b, err := r.in.ReadSlice('\n')
	if err == bufio.ErrBufferFull {
		return "", r.skip()
	}
	if err != nil && (err != io.EOF || len(b) == 0) {
		return "", err
	}
	b = bytes.TrimSuffix(bytes.TrimSuffix(b, []byte("\n")), []byte("\r"))
	return string(b), nil
}

// skip leaves out the rest of a line that is too long.
func (r *rows) skip() error {
	for {
		_, err := r.in.ReadSlice('\n')
		switch err {
		case nil, io.EOF:
			return errLong
		case bufio.ErrBufferFull:
		default:
			return err
		}
	}
}

// cut appends the cells of a text. open tells that a quote was not closed,
// stray that something stands between a closing quote and the next separator;
// that is then part of the cell. A quote inside a cell that does not begin
// with one is a plain character.
func cut(text string, comma byte, cells []string) (out []string, open, stray bool) {
	for {
		cell, rest, more := "", "", false
		if strings.HasPrefix(text, `"`) {
			var closed bool
			cell, text, closed = unquote(text[1:])
			open = open || !closed
			stray = stray || text != "" && text[0] != comma
		}
		i := strings.IndexByte(text, comma)
		if i >= 0 {
			text, rest, more = text[:i], text[i+1:], true
		}
		cells = append(cells, cell+text)
		if !more {
			return cells, open, stray
		}
		text = rest
	}
}

// unquote gives what stands before the closing quote and what follows it.
func unquote(text string) (cell, rest string, closed bool) {
	doubled := false
	for i := 0; i < len(text); i++ {
		if text[i] != '"' {
			continue
		}
		if i+1 < len(text) && text[i+1] == '"' {
			doubled = true
			i++
			continue
		}
		return single(text[:i], doubled), text[i+1:], true
	}
	return single(text, doubled), "", false
}

func single(cell string, doubled bool) string {
	if !doubled {
		return cell
	}
	return strings.ReplaceAll(cell, `""`, `"`)
}
