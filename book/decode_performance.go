package book

import (
	"cmp"
	"math"
	"slices"

	"knockon/say"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

func (n node) performance(d *declaration) *Performance {
	p := &Performance{Head: n.head(d.id), Combine: Combines[0]}
	if n.attr("combine") != nil {
		p.Combine = n.oneOf("combine", Combines)
	}
	for _, block := range d.block.Body.Blocks {
		sub := n.sub(block)
		switch _, table := TableNamed(block.Type); {
		case table:
			p.addTable(sub.table(block), sub)
		case block.Type == "factor" && len(block.Labels) > 0 && validID(block.Labels[0]):
			p.addFactor(sub.factor(block.Labels[0]), sub, labelRange(block))
		}
	}
	if first := n.b.build.Performance; first != nil {
		n.l.add(secondPerformance(n.at, n.b.where(), first.Range))
		return p
	}
	n.b.build.Performance = p
	return p
}

func (p *Performance) addTable(t *Table, n node) {
	i := slices.IndexFunc(p.Tables, func(o *Table) bool { return o.Name() == t.Name() })
	if i >= 0 {
		n.l.add(duplicateTable(n.at, t, p.Tables[i].Range))
		return
	}
	p.Tables = append(p.Tables, t)
}

func (p *Performance) addFactor(f *Factor, n node, at Range) {
	i := slices.IndexFunc(p.Factors, func(o *Factor) bool { return o.ID == f.ID })
	if i >= 0 {
		n.l.add(duplicateFactor(at, f.ID, p.Factors[i].Range))
		return
	}
	p.Factors = append(p.Factors, f)
}

// The most that a factor can be; more is a slip of the pen.
const mostFactor, mostAdded = 10.0, 20000.0

func (n node) factor(id string) *Factor {
	f := &Factor{ID: id, Title: n.title(id), When: n.yesNo("when"), Covers: n.effects("covers"), LandingRatio: 1, FuelRatio: 1, Range: n.at}
	if n.attr("landing_ratio") != nil {
		f.LandingRatio = n.number("landing_ratio", 1, mostFactor)
	}
	if n.attr("fuel_ratio") != nil {
		f.FuelRatio = n.number("fuel_ratio", 1, mostFactor)
	}
	f.AddsM = n.number("adds_m", 0, mostAdded)
	given := 0
	for _, name := range []string{"landing_ratio", "fuel_ratio", "adds_m"} {
		if n.attr(name) != nil {
			given++
		}
	}
	if given == 0 {
		n.l.add(emptyFactor(n.at, id))
	}
	return f
}

// effects reads a list of names of effects.
func (n node) effects(name string) []string {
	a := n.attr(name)
	words := n.words(name)
	for i, w := range words {
		if _, ok := EffectNamed(w); !ok {
			n.l.add(unknownEffect(rangeOf(elements(a.Expr)[i].Range()), w, say.Nearest(w, effectNames())))
		}
	}
	return words
}

// table reads the columns and the rows of a table.
func (n node) table(block *hclsyntax.Block) *Table {
	t := &Table{Kind: block.Type, Range: n.at}
	if len(block.Labels) > 0 {
		t.Setting = block.Labels[0]
	}
	kind, _ := TableNamed(t.Kind)
	if t.Columns = n.columns(&kind); t.Columns == nil {
		return t
	}
	a := n.attr("rows")
	if a == nil {
		return t
	}
	list, ok := n.lists(a.Expr)
	if ok && len(list) == 0 {
		n.l.add(noRows(rangeOf(a.Expr.Range()), t))
	}
	for _, e := range list {
		if row, ok := n.row(t, e); ok {
			t.Rows = append(t.Rows, row)
		}
	}
	n.inOrder(t)
	return t
}

// columns reads the names of the columns; nil if rows cannot be read by them.
func (n node) columns(kind *TableKind) []string {
	a := n.attr("columns")
	if a == nil {
		return nil
	}
	at, names, good := rangeOf(a.Expr.Range()), n.words("columns"), true
	good = len(names) == len(elements(a.Expr))
	for i, name := range names {
		if !slices.Contains(kind.may(), name) {
			n.l.add(unknownColumn(rangeOf(elements(a.Expr)[min(i, len(elements(a.Expr))-1)].Range()), kind, name))
			good = false
		}
	}
	for _, name := range kind.must() {
		if good && !slices.Contains(names, name) {
			n.l.add(missingColumn(at, kind, name))
			good = false
		}
	}
	t := Table{Columns: names}
	speeds := slices.DeleteFunc(slices.Clone(names), func(c string) bool { return !slices.Contains(SpeedColumns, c) })
	if good && kind.Speed && len(speeds) != 1 {
		n.l.add(speedColumns(at, kind, len(speeds)))
		good = false
	}
	if !good || len(t.Columns) == 0 {
		return nil
	}
	return names
}

// lists gives the rows of a list of lists.
func (n node) lists(e hclsyntax.Expression) (list []hclsyntax.Expression, ok bool) {
	t, ok := bare(e).(*hclsyntax.TupleConsExpr)
	switch {
	case ok:
		return t.Exprs, true
	case !isBroken(e):
		n.l.add(wantsRows(rangeOf(e.Range())))
	}
	return nil, false
}

func (n node) row(t *Table, e hclsyntax.Expression) (r Row, ok bool) {
	list, is := bare(e).(*hclsyntax.TupleConsExpr)
	r.Range = rangeOf(e.Range())
	switch {
	case !is && isBroken(e):
		return r, false
	case !is:
		n.l.add(wantsRows(r.Range))
		return r, false
	case len(list.Exprs) != len(t.Columns):
		n.l.add(rowLength(r.Range, t, len(list.Exprs)))
		return r, false
	}
	ok = true
	for i, cell := range list.Exprs {
		v, fine := n.cell(t.Columns[i], cell)
		r.Values, ok = append(r.Values, v), ok && fine
	}
	return r, ok
}

func (n node) cell(column string, e hclsyntax.Expression) (v float64, ok bool) {
	c := n.plain(e, func(r Range) Diagnostic { return notPlainNumber(r, column) })
	if c.Type == Unknown {
		return 0, false
	}
	at := rangeOf(e.Range())
	least, most := columnRange(column)
	switch v, ok = fold64(c); {
	case !ok:
		n.l.add(notPlainNumber(at, column))
	case v < least || v > most:
		n.l.add(outOfRange(at, column, least, most))
		return v, false
	case column == "code" && v != math.Trunc(v):
		n.l.add(notWhole(at, column))
		return v, false
	}
	return v, ok
}

// inOrder finds rows that are there twice, and tells of the first that does not
// come after the one before it: the order does not matter to anything, but a
// number written wrong often shows so.
func (n node) inOrder(t *Table) {
	keys := t.KeysOf()
	key := func(r Row) (list []float64) {
		for _, k := range keys {
			list = append(list, r.Values[t.Column(k)])
		}
		return list
	}
	sorted := slices.Clone(t.Rows)
	slices.SortStableFunc(sorted, func(a, b Row) int { return slices.Compare(key(a), key(b)) })
	for i := 1; i < len(sorted); i++ {
		if slices.Equal(key(sorted[i-1]), key(sorted[i])) {
			n.l.add(duplicateRow(sorted[i].Range, t, sorted[i-1].Range))
			return
		}
	}
	n.climbs(t, sorted)
	if at := t.disorder(keys, nil); at > 0 {
		n.l.add(rowOrder(t.Rows[at].Range, t, t.Rows[at-1].Range))
	}
}

// disorder gives the first row that goes back, whichever key the table is
// written by first, second and so on; 0 for none.
func (t *Table) disorder(keys, by []string) int {
	if len(by) == len(keys) {
		return t.disorderBy(by)
	}
	last := 0
	for _, k := range keys {
		if slices.Contains(by, k) {
			continue
		}
		at := t.disorder(keys, append(slices.Clone(by), k))
		if at == 0 {
			return 0
		}
		last = max(last, at)
	}
	return last
}

// disorderBy gives the first row that goes back in the first column that differs
// from the row before.
func (t *Table) disorderBy(by []string) int {
	for i := 1; i < len(t.Rows); i++ {
		for _, k := range by {
			c := t.Column(k)
			if d := cmp.Compare(t.Rows[i].Values[c], t.Rows[i-1].Values[c]); d != 0 {
				if d != t.direction(c) {
					return i
				}
				break
			}
		}
	}
	return 0
}

// direction is 1 where the first change in a column goes up, -1 where it goes down.
func (t *Table) direction(column int) int {
	for i := 1; i < len(t.Rows); i++ {
		if c := cmp.Compare(t.Rows[i].Values[column], t.Rows[i-1].Values[column]); c != 0 {
			return c
		}
	}
	return 0
}

// climbs checks that a glide goes farther from higher up.
func (n node) climbs(t *Table, sorted []Row) {
	if t.Kind != "glide" {
		return
	}
	at, height := t.Column("distance_nm"), t.Column("height_ft")
	for i, r := range sorted {
		before := 0.0
		if i > 0 {
			before = sorted[i-1].Values[at]
		}
		if r.Values[height] > 0 && r.Values[at] <= before {
			n.l.add(glideShrinks(r.Range, r.Values[height], r.Values[at]))
		}
	}
}
