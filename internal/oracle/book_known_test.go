package oracle_test

import (
	"fmt"
	"slices"
	"strings"
)

// What random books say of how a loss is known (docs/meaning.md, section 5a).

// waits are how soon an alert must tell, and how long an indication may lie.
func (m *maker) waits() string {
	if !m.tells || m.one(3) {
		return ""
	}
	return fmt.Sprintf("  told_within_s = %s\n  wrong_after_s = %s\n", m.pick("1", "1", "2", "5"), m.pick("0.5", "1"))
}

// title is a line of a block that has one.
func (m *maker) title() string {
	if !m.tells || m.one(3) {
		return ""
	}
	return "  title = \"Titled\"\n"
}

// of lists the items of a kind, some left out.
func (m *maker) of(kinds ...string) string {
	var ids []string
	for _, t := range m.items {
		if slices.Contains(kinds, t.kind) && m.one(2) {
			ids = append(ids, t.id)
		}
	}
	return "[" + strings.Join(ids, ", ") + "]"
}

// believed is what makes an alert given: often that something is down.
func (m *maker) believed(depth int) string {
	if !m.tells {
		return m.yes(depth)
	}
	down := m.pick("!"+m.up(), "!"+m.up(), "failed(unit_0)", "unit_1.odd", "unit_0.odd", "!"+m.yes(0))
	switch m.IntN(10) {
	case 0, 1, 2:
		return down
	case 8, 9:
		return fmt.Sprintf("held(%s, %d.5)", down, 1+m.IntN(6))
	case 3:
		return fmt.Sprintf("(%s && %s)", down, m.yes(1))
	case 4:
		return fmt.Sprintf("(%s && %s)", down, m.up())
	case 5:
		return fmt.Sprintf("%s(%s, %s)", m.pick("held", "pulse"), down, m.seconds())
	case 6:
		return fmt.Sprintf("%s%s, !%s)", m.pick("all(", "any(", "at_least(2, ", "at_least(1, "), down, m.up())
	}
	return m.yes(depth)
}

// seldom is every other time, but seldom where alerts are to be given.
func (m *maker) seldom() bool {
	if m.leans {
		return m.one(10)
	}
	return m.one(2)
}

// perhaps is maybe, but seldom where alerts are to be given.
func (m *maker) perhaps(name, value string) {
	if m.seldom() {
		m.write("  %s = %s\n", name, value)
	}
}

// orTold is one number, or another in a book that says how losses are known.
func (m *maker) orTold(n, told int) int {
	if m.tells {
		return told
	}
	return n
}

// needs of a unit.
func (m *maker) needs() string {
	if !m.tells {
		return m.yes(1)
	}
	return m.pick("true", m.leaning(1))
}

// lamp is an indication that means a function.
func (m *maker) lamp() {
	m.write("  shows = %s\n  means = %s\n", m.pick("true", "held("+m.up()+", 2.5)", m.up()), m.pick("use_0", "function_0", "use_1"))
	m.maybe("lit_by", m.up())
	m.maybe("tells", m.of("function", "use"))
	m.write("}\n")
}

// leaning is a yes/no that often hangs on items alone.
func (m *maker) leaning(depth int) string {
	if !m.leans || m.one(4) {
		return m.yes(depth)
	}
	a, b := m.up(), m.up()
	switch m.IntN(10) {
	case 9:
		return fmt.Sprintf("(%s || %s)", a, m.pick("!"+b, "failed(unit_0)", "unit_1.odd", `control_0 == "b"`, `control_0 == "c"`))
	case 0, 1, 2:
		return a
	case 3, 4:
		return fmt.Sprintf("(%s && %s)", a, b)
	case 5:
		return fmt.Sprintf("(%s || %s)", a, b)
	case 6:
		return fmt.Sprintf("!held(!%s, %s)", m.anyUp(), m.seconds())
	case 7:
		return fmt.Sprintf("at_least(%d, %s, %s, %s)", 1+m.IntN(3), a, b, m.up())
	}
	return fmt.Sprintf("(%s && !%s)", a, m.yes(1))
}

// up is an item that may be read here and mostly is yes until something fails.
func (m *maker) up() string {
	var ids []string
	for _, t := range m.items[:m.here] {
		if slices.Contains([]string{"unit", "leaf", "lean", "use"}, t.kind) && !t.latch {
			ids = append(ids, t.id)
		}
	}
	if len(ids) == 0 || m.one(8) {
		return m.pick("!failed(unit_0)", "!unit_1.odd", "!failed(unit_1)")
	}
	return m.pick(ids...)
}

// anyUp is such an item, wherever it stands.
func (m *maker) anyUp() string {
	here := m.here
	m.here = len(m.items)
	defer func() { m.here = here }()
	return m.up()
}

func (m *maker) claims() {
	if !m.tells {
		return
	}
	if !m.leans || m.one(3) {
		m.maybe("tells", m.of("function", "use"))
	}
	if m.one(3) {
		down := []string{"unit_0", "unit_1.odd", "unit_1, unit_0.odd", "signal_0", "function_0", "signal_1, unit_1"}
		if m.leans {
			down = append(down, "leaf_0", "lean_0", "use_0", "leaf_0, lean_1", "use_1", "leaf_0.odd")
		}
		m.write("  claims_down = [%s]\n", m.pick(down...))
	}
}

func (m *maker) function(t thing) {
	if !m.tells {
		m.write("function %q {\n  works  = %s\n  wanted = %s\n}\n", t.id, m.yes(2), m.yes(1))
		return
	}
	m.write("function %q {\n%s  works  = %s\n  wanted = %s\n", t.id, m.title(), m.leaning(2), m.pick("true", m.yes(1)))
	switch m.IntN(6) {
	case 0:
		m.write("  noticed_at_once = true\n")
	case 1, 2:
		m.write("  noticed_when = %s\n", m.look(2))
	case 3:
		s := m.seconds()
		if m.long {
			s = m.pick("60", "117.5", "118.75", "119", "119.25", "125")
		}
		m.write("  noticed_when = held(!%s, %s)\n", t.id, s)
	case 4:
		m.write("  noticed_when = (!%s && %s)\n", t.id, m.look(1))
	default:
		m.write("}\n")
		return
	}
	m.write("  noticed_by = \"seen\"\n  noticed_source = \"test\"\n}\n")
}

// look is a condition that people look at.
func (m *maker) look(depth int) string {
	if depth == 0 {
		return m.glance()
	}
	a := func() string { return m.look(depth - 1) }
	switch m.IntN(9) {
	case 0, 1:
		return fmt.Sprintf("(%s %s %s)", a(), m.pick("&&", "||"), a())
	case 2:
		return "!" + a()
	case 3:
		return fmt.Sprintf("%s%s, %s, %s)", m.pick("any(", "all(", "at_least(2, "), a(), a(), a())
	case 4:
		return fmt.Sprintf("(%s ? %s : %s)", a(), a(), a())
	case 5:
		return fmt.Sprintf("%s(%s, %s)", m.pick("held", "pulse"), a(), m.seconds())
	case 6:
		return m.pick("!unit_0", "failed(unit_1)", "!unit_1")
	}
	return m.glance()
}

// glance is one thing that is seen.
func (m *maker) glance() string {
	for _, t := range m.items {
		if t.kind != "indication" || !m.one(2) {
			continue
		}
		switch t.shows {
		case 0:
			return t.id
		case 1:
			return fmt.Sprintf("(%s %s %s)", t.id, m.pick(">", "<="), m.literal())
		case 2:
			return fmt.Sprintf("(%s %s control_0)", t.id, m.pick("==", "!="))
		}
	}
	return m.pick("seen.icing", "seen.on_ground", "seen.outside_visible", "!unit_0", "alert_0", "(control_0 == \"a\")")
}
