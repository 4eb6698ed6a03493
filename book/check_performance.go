package book

import "slices"

// checkPerformance holds the manual's numbers to the rest of the build.
func (b *builder) checkPerformance() {
	p := b.build.Performance
	if p == nil || b.build.Aircraft == nil {
		return
	}
	for _, t := range p.Tables {
		b.checkMasses(t)
		b.checkTableSetting(t)
	}
}

// checkMasses finds rows of masses that no aircraft of the book can have. One
// beyond each end is needed to read up to it.
func (b *builder) checkMasses(t *Table) {
	c := t.Column("mass_kg")
	if c < 0 {
		return
	}
	least, hasLeast := b.build.Aircraft.Number("empty_mass_kg")
	most, hasMost := b.build.Aircraft.Number("max_takeoff_mass_kg")
	for _, r := range t.Rows {
		kg := r.Values[c]
		nearer := func(from, to float64) bool {
			return slices.ContainsFunc(t.Rows, func(o Row) bool { return o.Values[c] > from && o.Values[c] < to })
		}
		switch {
		case hasMost && kg > most && (nearer(most, kg) || slices.ContainsFunc(t.Rows, func(o Row) bool { return o.Values[c] == most })):
			b.add(massBeyond(r.Range, t, kg, "greatest take-off mass", most))
		case hasLeast && kg < least && (nearer(kg, least) || slices.ContainsFunc(t.Rows, func(o Row) bool { return o.Values[c] == least })):
			b.add(massBeyond(r.Range, t, kg, "empty mass", least))
		}
	}
}

// checkTableSetting finds rows for a setting in which slats and flaps never stand.
func (b *builder) checkTableSetting(t *Table) {
	if t.Setting == "" {
		return
	}
	if e, ok := b.build.Effect("flap_setting"); ok && e.Value != nil && e.Value.Type == Word && !slices.Contains(e.Value.Words, t.Setting) {
		b.add(settingNever(t.Range, t, e.Value.Words))
	}
}

// advisePerformance tells what a price will not be able to say.
func (l *loader) advisePerformance(b *Build) {
	for _, lack := range b.Lacks() {
		l.add(lacksNumber(lack))
	}
	p := b.Performance
	if p == nil {
		return
	}
	for _, f := range p.Factors {
		if !changes(f.When) {
			l.add(constant(f.When.Range, "when"))
		}
	}
	var missing []string
	for _, word := range []string{"climb", "cruise", "descent", "holding", "approach", "landing"} {
		if !slices.ContainsFunc(p.Tables, func(t *Table) bool { return t.Kind == word }) {
			missing = append(missing, word)
		}
	}
	if len(missing) > 0 && !b.Polars() {
		l.add(lacksTables(p.Range, missing))
	}
}
