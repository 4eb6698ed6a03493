package airfield

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// table is a CSV file with named columns, read row by row.
type table struct {
	file     string
	rows     *rows
	columns  []string
	lacking  []string // columns that the header should have
	problems Problems
	cells    []string
	bad      bool // something was said about this row
}

// mostRows bounds what a table can make us hold.
const mostRows = 2_000_000

func openTable(file string, in io.Reader) (*table, error) {
	t := &table{file: file, rows: newRows(in)}
	header, err := t.rows.header()
	if err == io.EOF {
		err = errors.New("the file is empty")
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	for _, c := range header {
		t.columns = append(t.columns, strings.TrimSpace(c))
	}
	return t, nil
}

// place finds a column, -1 if there is none; large and small letters are alike.
func (t *table) place(name string) int {
	return slices.IndexFunc(t.columns, func(c string) bool { return strings.EqualFold(c, name) })
}

// must gives the place of a column that the table cannot do without.
func (t *table) must(name string) int {
	i := t.place(name)
	if i < 0 {
		t.lacking = append(t.lacking, name)
	}
	return i
}

// may gives the place of a column, -1 if it is missing, and says what is then
// taken for granted.
func (t *table) may(name, otherwise string) int {
	i := t.place(name)
	if i < 0 {
		t.problems.add(Problem{t.file, 1, name, "the column is missing: " + otherwise})
	}
	return i
}

// complete fails if columns that must be there are missing.
func (t *table) complete() error {
	if len(t.lacking) == 0 {
		return nil
	}
	return fmt.Errorf("%s: the header lacks %s; it has %s", t.file, strings.Join(t.lacking, ", "), t.shown())
}

// shown is the header, cut to what can be read.
func (t *table) shown() string {
	text := strings.ToValidUTF8(strings.Join(t.columns, ", "), "\ufffd")
	if runes := []rune(text); len(runes) > 200 {
		return string(runes[:200]) + " ..."
	}
	return text
}

// next goes to the next row that has the shape of the header; false at the end.
func (t *table) next() (bool, error) {
	for {
		cells, err := t.rows.next()
		var broken errRow
		switch {
		case err == io.EOF:
			return false, nil
		case errors.As(err, &broken):
			t.say(-1, "%s; the row is left out", broken)
			continue
		case err != nil:
			return false, fmt.Errorf("%s: row %d: %w", t.file, t.rows.row, err)
		}
		if t.rows.row > mostRows {
			t.say(-1, "more than %d rows: the rest is left out", mostRows)
			return false, nil
		}
		if t.fits(cells) {
			t.cells, t.bad = cells, false
			return true, nil
		}
	}
}

// fits refuses a row with more cells than the header: they stand in the wrong
// columns.
func (t *table) fits(cells []string) bool {
	for _, c := range cells[min(len(cells), len(t.columns)):] {
		if c != "" {
			t.say(-1, "%d cells where the header has %d (a separator in a cell needs quotes); the row is left out", len(cells), len(t.columns))
			return false
		}
	}
	return true
}

// say notes a problem with a column of the row.
func (t *table) say(column int, format string, a ...any) {
	t.bad = true
	if t.problems.full() { // a bad file of a million rows need not word them all
		t.problems.More++
		return
	}
	p := Problem{File: t.file, Row: t.rows.row, Text: fmt.Sprintf(format, a...)}
	if column >= 0 {
		p.Column = t.columns[column]
	}
	t.problems.add(p)
}

// text is what stands in a cell; empty if there is no such cell or column.
func (t *table) text(column int) string {
	if column < 0 || column >= len(t.cells) {
		return ""
	}
	return strings.ToValidUTF8(strings.TrimSpace(t.cells[column]), "\ufffd")
}

// number reads a cell that may be empty.
func (t *table) number(column int, r span) (x float64, given bool) {
	text := t.text(column)
	if text == "" {
		return 0, false
	}
	x, err := t.parse(text)
	if err != nil {
		t.say(column, "%s is not a number; the row is left out", quote(text))
		return 0, false
	}
	if !(x >= r.least && x <= r.most) {
		t.say(column, "%s is no %s: expected %v to %v %s; the row is left out", quote(text), r.what, r.least, r.most, r.unit)
		return 0, false
	}
	return x, true
}

// needed reads a cell that must have a number.
func (t *table) needed(column int, r span) float64 {
	if t.text(column) == "" {
		t.say(column, "no %s; the row is left out", r.what)
		return 0
	}
	x, _ := t.number(column, r)
	return x
}

// span is what a number may be.
type span struct {
	what, unit  string
	least, most float64
}

// parse reads a plain decimal number. Where commas do not separate cells, one
// may be the decimal mark.
func (t *table) parse(text string) (float64, error) {
	if t.rows.comma != ',' {
		text = strings.Replace(text, ",", ".", 1)
	}
	if strings.Trim(text, "0123456789+-.eE") != "" {
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(text, 64)
}

// quote shows a cell, shortened.
func quote(text string) string {
	if runes := []rune(text); len(runes) > 30 {
		text = string(runes[:30]) + "..."
	}
	return strconv.Quote(text)
}
