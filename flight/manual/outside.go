package manual

import (
	"fmt"
	"strings"

	"knockon/book"
	"knockon/say"
)

// Outside says that the rows of a manual do not go as far as they are asked to.
type Outside struct {
	Table *book.Table
	Key   string // the column that they do not cover
	Asked float64
	Rows  []float64 // that there are of it, ascending
	At    At        // where it was asked
	Among []string  // columns that were read before it
}

// Notion is what all such answers begin with.
const Notion = "not in the manual's numbers"

func (o *Outside) Error() string {
	where := o.Table.Name()
	for _, k := range o.Among {
		where += ", " + quantity(k, o.At.of(k))
	}
	rows := "the rows go from " + quantity(o.Key, o.Rows[0]) + " to " + quantity(o.Key, o.Rows[len(o.Rows)-1])
	if o.Key == "code" || len(o.Rows) == 1 {
		var list []string
		for _, v := range o.Rows {
			list = append(list, quantity(o.Key, v))
		}
		rows = "there are rows for " + say.And(list)
	}
	return fmt.Sprintf("%s: %s: %s, and %s (%s:%d)", Notion, where, quantity(o.Key, o.Asked), rows, o.Table.Range.File, o.Table.Range.Line)
}

// quantity says a key with its unit.
func quantity(key string, v float64) string {
	switch key {
	case "code":
		return fmt.Sprintf("condition code %.0f", v)
	case "mass_kg":
		return say.Whole(v) + " kg"
	case "headwind_kt":
		if v < 0 {
			return fmt.Sprintf("tailwind %.0f kt", -v)
		}
		return fmt.Sprintf("headwind %.0f kt", v)
	case "height_ft":
		return "height " + say.Whole(v) + " ft"
	}
	return say.Whole(v) + " ft"
}

// Missing says that a manual has no table, or a table not the number, that the
// flight needs.
type Missing struct {
	Of    *book.Performance
	What  string // "table of holding"
	Needs string // what for
}

func (m *Missing) Error() string {
	return fmt.Sprintf("%s: %s needs a %s, which the performance block does not give (%s:%d)", Notion, m.Needs, m.What, m.Of.Range.File, m.Of.Range.Line)
}

// Uncovered says that the rows hold for less than what is asked of a quantity for
// which they have no column.
type Uncovered struct {
	Table  *book.Table
	Column string // that it does not have
	Says   string
}

func (u *Uncovered) Error() string {
	return fmt.Sprintf("%s: %s: %s; its rows have no %s (%s:%d)", Notion, u.Table.Name(), u.Says, strings.TrimSpace(u.Column), u.Table.Range.File, u.Table.Range.Line)
}
