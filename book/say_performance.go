package book

import (
	"fmt"
	"strings"

	"knockon/say"
)

// The constructors of diagnostics about a manual's numbers.

func secondPerformance(at Range, where string, first Range) Diagnostic {
	if where != "" {
		where = fmt.Sprintf(" on build %q", where)
	}
	return problem("duplicate", at, "There are two performance blocks"+where, "Put all tables into one, or say with only = [ … ] on which builds each holds.").with("the first is here", first)
}

func duplicateTable(at Range, t *Table, first Range) Diagnostic {
	return problem("duplicate", at, fmt.Sprintf("There are two tables of %s", shortened(t.Name())), "Put all their rows into one.").with("the first is here", first)
}

func duplicateFactor(at Range, id string, first Range) Diagnostic {
	return problem("duplicate", at, fmt.Sprintf("There are two factors %q", id), "Give one of them another name, or put both conditions into one.").with("the first is here", first)
}

func duplicateRow(at Range, t *Table, first Range) Diagnostic {
	return problem("duplicate", at, "This row is there twice",
		fmt.Sprintf("Another row has the same %s. Leave one of the two out, or mend the number that is wrong.", say.And(t.KeysOf()))).with("the other is here", first)
}

func rowOrder(at Range, t *Table, before Range) Diagnostic {
	return problem("row-order", at, fmt.Sprintf("This row of %s is out of order", shortened(t.Name())),
		"The order of the rows changes nothing, but a number written wrong often shows so. Put the row in its place.").with("the row before it", before)
}

func noRows(at Range, t *Table) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("The table of %s has no row", shortened(t.Name())), "Write rows = [ [ … ], [ … ] ], one number for each column.")
}

func wantsRows(at Range) Diagnostic {
	return problem("wrong-value", at, "A list of rows is needed here", "Write rows = [ [ … ], [ … ] ], one number for each column.")
}

func rowLength(at Range, t *Table, count int) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("This row has %s for %s", say.Counted(count, "number", "numbers"), say.Counted(len(t.Columns), "column", "columns")),
		"Give one number for each of "+strings.Join(t.Columns, ", ")+". Leave a row out that the manual does not give in full.")
}

func unknownColumn(at Range, kind *TableKind, name string) Diagnostic {
	return problem("unknown-word", at, fmt.Sprintf("A table of %s has no column %q", kind.Word, shortened(name)),
		say.DidYouMean(say.Nearest(name, kind.may()), "Its columns are: "+strings.Join(kind.may(), ", ")+"."))
}

func missingColumn(at Range, kind *TableKind, name string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("A table of %s needs the column %q", kind.Word, name), "Add it to columns, and its number to every row.")
}

func speedColumns(at Range, kind *TableKind, count int) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("A table of %s needs one column for the speed, and has %d", kind.Word, count), "Give one of "+strings.Join(SpeedColumns, ", ")+".")
}

func emptyFactor(at Range, id string) Diagnostic {
	return problem("incomplete", at, fmt.Sprintf("Factor %q changes nothing", id), "Give landing_ratio, fuel_ratio or adds_m; landing_ratio = 1 where the manual says that nothing is added.")
}

func glideShrinks(at Range, ft, nm float64) Diagnostic {
	return problem("contradiction", at, fmt.Sprintf("From %s ft the glide does not go farther than from below", plainNumber(ft)),
		fmt.Sprintf("It says %s nm. From a greater height it must be a greater distance, and at height 0 it is 0.", plainNumber(nm)))
}

func massBeyond(at Range, t *Table, kg float64, what string, bound float64) Diagnostic {
	return problem("out-of-range", at, fmt.Sprintf("No aircraft of this book has a mass of %s kg", plainNumber(kg)),
		fmt.Sprintf("The %s is %s kg, and this table has a nearer row beyond it, which is enough to read up to it. Mend the mass, or leave the row out.", what, plainNumber(bound)))
}

func settingNever(at Range, t *Table, words []string) Diagnostic {
	return problem("never-equal", at, fmt.Sprintf("Slats and flaps never stand in %q", shortened(t.Setting)),
		say.DidYouMean(say.Nearest(t.Setting, words), "The effect flap_setting can be: "+quoted(words)+"."))
}

func lacksTables(at Range, missing []string) Diagnostic {
	return problem("no-number", at, "The performance block has no table of "+say.And(missing), "Without drag polars what needs it is not worked out in a price. Add the table, if the manual gives it.")
}

func lacksNumber(l Lack) Diagnostic {
	return problem("no-number", l.Effect.Range, fmt.Sprintf("What the effect %q does to a flight is not worked out", l.Effect.Name), l.Says())
}

// Says names what the book lacks, and what to do.
func (l Lack) Says() string {
	switch {
	case l.Factor:
		return fmt.Sprintf("No factor of the performance block covers it. Give one with covers = [%q].", l.Effect.Name)
	case len(l.Tables) > 0:
		return "The performance block has no table of " + say.And(l.Tables) + "."
	}
	return "The aircraft block does not give " + say.And(l.Numbers) + "."
}
