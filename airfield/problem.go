package airfield

import (
	"fmt"
	"strings"
)

// Problem is something in a table that could not be used.
type Problem struct {
	File   string
	Row    int    // as a spreadsheet counts: the header is row 1
	Column string // empty if the whole row is meant
	Text   string // what is wrong and what was expected
}

// String gives the message with its place: file, row, column.
func (p Problem) String() string {
	if p.Column == "" {
		return fmt.Sprintf("%s row %d: %s", p.File, p.Row, p.Text)
	}
	return fmt.Sprintf("%s row %d, column %s: %s", p.File, p.Row, p.Column, p.Text)
}

// Problems are the messages of both tables: the airports' first, then by row,
// then in the order in which the columns are read.
type Problems struct {
	List []Problem // at most MostProblems of each table
	More int       // that many more were found
}

// MostProblems is how many messages of one table are kept.
const MostProblems = 100

// String gives one message a line, and "and N more" where the list was cut.
func (p Problems) String() string {
	var b strings.Builder
	for _, x := range p.List {
		fmt.Fprintln(&b, x)
	}
	if p.More > 0 {
		fmt.Fprintf(&b, "and %d more\n", p.More)
	}
	return b.String()
}

func (p *Problems) full() bool { return len(p.List) >= MostProblems }

func (p *Problems) add(q Problem) {
	if p.full() {
		p.More++
		return
	}
	p.List = append(p.List, q)
}

func both(a, b Problems) Problems {
	return Problems{List: append(a.List, b.List...), More: a.More + b.More}
}
