package oracle_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// maker writes random books. Every operator, memory and kind of item comes up,
// and loops through memories do.
type maker struct {
	*rand.Rand
	smooth bool // numbers may change continuously; else all happens on a grid
	tells  bool // it says how losses are known
	long   bool // and what is noticed may be so after two minutes
	leans  bool // and items lean on each other, and alerts say what is down
	out    strings.Builder
	items  []thing // in an order in which each may read those before it
	here   int     // the item being written
}

// thing is an item that expressions may read.
type thing struct {
	id, kind string // kind of block
	typ      byte   // y, n, w: yes/no, number, word
	latch    bool   // a signal with a memory
	steady   bool   // a number that changes at instants only
	shows    int    // an indication: 0 yes/no, 1 number, 2 word
}

// free tells whether a thing may be read in a loop.
func (t thing) free() bool { return t.latch || t.kind == "control" || t.kind == "phase" }

const gridStep = 0.25 // seconds; every time of a book that is not smooth is a multiple

// book writes a random book with one flight.
func (m *maker) book() string {
	m.plan()
	m.write("aircraft \"test\" {\n  title = \"Test\"\n")
	if m.seldom() {
		m.write("  alerts_given_by = %s\n", m.yes(1))
	}
	if m.one(8) {
		m.write("  flyable = %s\n", m.yes(1))
	}
	m.tellings()
	m.write("%s}\n", m.waits())
	for m.here = range m.items {
		m.item(m.items[m.here])
	}
	m.write("event \"fire\" {\n  fails = [unit_0, unit_1.odd]\n}\n")
	m.write("%s", m.flight())
	m.write("claim \"watched\" {\n  says   = \"Test\"\n  source = \"test\"\n  expect = [ever(%s), ever(%s)]\n  given {\n  }\n}\n", m.yes(3), m.remembered(2))
	return m.out.String()
}

func (m *maker) write(format string, args ...any) { fmt.Fprintf(&m.out, format, args...) }

// one is yes once in n times.
func (m *maker) one(n int) bool { return m.IntN(n) == 0 }

func (m *maker) plan() {
	m.some("unit", 2, 4, 'y')
	m.some("signal", 4, 9, 'y')
	m.some("number", 1, 4, 'n')
	if m.smooth {
		m.some("grown", 0, 2, 'n')
	}
	m.some("word", 0, 2, 'w')
	m.some("alert", 1, 3, 'y')
	m.some("function", 1, 2, 'y')
	if m.leans {
		m.some("leaf", 1, 3, 'y')
		m.some("lean", 2, 4, 'y')
		m.some("use", 2, 4, 'y')
		m.some("call", 2, 4, 'y')
	}
	m.Shuffle(len(m.items), func(i, j int) { m.items[i], m.items[j] = m.items[j], m.items[i] })
	m.some("phase", 0, 4, 'y')
	m.some("control", 1, 2, 'w')
	m.some("indication", 1, m.orTold(3, 4), 0)
}

func (m *maker) some(kind string, least, most int, typ byte) {
	for i := range least + m.IntN(most-least+1) {
		t := thing{id: fmt.Sprintf("%s_%d", kind, i), kind: kind, typ: typ}
		if typ == 'n' {
			t.id += "_ft"
			t.steady = kind == "number" && (!m.smooth || m.one(2))
		}
		t.latch = kind == "signal" && m.one(3)
		if m.tells {
			t.shows = m.IntN(3)
		}
		m.items = append(m.items, t)
	}
}

func (m *maker) item(t thing) {
	switch t.kind {
	case "unit", "leaf":
		m.write("unit %q {\n%s  needs    = %s\n  reset_by = %s\n  fault \"odd\" {\n    stops = %t\n  }\n}\n", t.id, m.title(), m.needs(), m.anywhere(1), m.one(2))
	case "signal", "lean":
		m.signal(t)
	case "number":
		m.write("signal %q {\n%s  value = %s\n}\n", t.id, m.title(), m.number(3, t.steady))
	case "grown":
		m.write("signal %q {\n%s  value = (1 * total((%s ? %s : 0.3) * (%s - %s)))\n}\n", t.id, m.title(), m.anywhere(2), m.pick("0", "0.05"), m.number(2, false), t.id)
	case "word":
		m.write("signal %q {\n%s  value = %s\n}\n", t.id, m.title(), m.word(2))
	case "alert", "call":
		m.alert(t)
	case "function", "use":
		m.function(t)
	case "phase":
		begins := ""
		if t.id != "phase_0" {
			begins = "  begins = " + m.anywhere(1) + "\n"
		}
		m.write("phase %q {\n%s}\n", t.id, begins)
	case "control":
		m.write("control %q {\n  positions = [\"a\", \"b\", \"c\"]\n  initial   = %s\n}\n", t.id, m.pick(`"a"`, `"b"`, `"c"`))
	case "indication":
		m.indication(t)
	}
}

func (m *maker) signal(t thing) {
	if !t.latch {
		m.write("signal %q {\n%s  value = (true && %s)\n}\n", t.id, m.title(), m.leaning(3)) // so that its type is plain
		return
	}
	m.write("signal %q {\n%s  set     = %s\n  reset   = %s\n  initial = %t\n}\n", t.id, m.title(), m.anywhere(2), m.anywhere(2), m.one(3))
}

// tellings may give the ways of telling a caution.
func (m *maker) tellings() {
	if m.one(2) && (!m.leans || m.one(4)) {
		m.write("  telling \"caution\" {\n")
		m.ways("    ")
		m.write("  }\n")
	}
}

// ways gives one way of telling or more.
func (m *maker) ways(indent string) {
	first := m.IntN(3)
	for i, way := range []string{"text", "light", "sound"} {
		if i == first || m.one(2) {
			m.write("%s%s = %s\n", indent, way, m.yes(1))
		}
	}
}

func (m *maker) alert(t thing) {
	m.write("alert %q {\n  level   = \"caution\"\n  message = \"Test\"\n  when    = %s\n", t.id, m.believed(2))
	m.maybe("true_when", m.believed(1))
	m.claims()
	m.perhaps("given_by", m.yes(1))
	m.perhaps("until", m.yes(1))
	if m.one(3) && (!m.leans || m.one(4)) {
		m.write("  quiet_when = %s\n", m.yes(1))
	}
	if m.one(4) && (!m.leans || m.one(4)) {
		m.ways("  ")
	}
	if m.one(2) {
		m.write("  repeats_s = %s\n", m.seconds())
	}
	var quiet []string
	for _, p := range m.items {
		if p.kind == "phase" && m.seldom() {
			quiet = append(quiet, p.id)
		}
	}
	if len(quiet) > 0 {
		m.write("  quiet_in = [%s]\n", strings.Join(quiet, ", "))
	}
	m.write("}\n")
}

func (m *maker) maybe(name, value string) {
	if m.one(2) {
		m.write("  %s = %s\n", name, value)
	}
}

func (m *maker) indication(t thing) {
	m.write("indication %q {\n", t.id)
	if m.leans && t.shows == 0 {
		m.lamp()
		return
	}
	if !m.tells {
		t.shows = m.IntN(3)
	}
	switch t.shows {
	case 0:
		m.write("  shows = %s\n  means = %s\n", m.yes(1), m.yes(1))
	case 1:
		m.write("  shows  = %s\n  means  = %s\n  within = %s\n", m.number(1, false), m.number(1, false), m.literal())
	case 2:
		m.write("  shows = %s\n  means = control_0\n", m.word(1))
	}
	m.maybe("lit_by", m.yes(1))
	if m.tells {
		m.maybe("tells", m.of("function", "use"))
	}
	m.write("}\n")
}

func (m *maker) flight() string {
	m.here = len(m.items)
	acts := ""
	for i := range m.IntN(4) {
		acts += fmt.Sprintf("  act \"Act %d\" {\n    set  = control_0\n    to   = %s\n    when = %s\n  }\n", i, m.pick(`"a"`, `"b"`, `"c"`), m.yes(2))
	}
	return "flight \"hop\" {\n" + flightNumbers + acts + "}\n"
}

func (m *maker) pick(from ...string) string { return from[m.IntN(len(from))] }

// anywhere writes a yes/no in which every item may be read, because a memory
// or nothing at all reads it.
func (m *maker) anywhere(depth int) string {
	here := m.here
	m.here = len(m.items)
	defer func() { m.here = here }()
	return m.yes(depth)
}

// read picks an item of a type that may be read here; ok is false if there is none.
func (m *maker) read(typ byte, steady bool) (id string, ok bool) {
	var ids []string
	for i, t := range m.items {
		if t.typ == typ && (i < m.here || t.free()) && (typ != 'n' || t.steady || !steady) {
			ids = append(ids, t.id)
		}
	}
	if len(ids) == 0 {
		return "", false
	}
	return m.pick(ids...), true
}

func (m *maker) seconds() string {
	if m.smooth && m.one(3) {
		return fmt.Sprintf("%.3f", 6*m.Float64())
	}
	return fmt.Sprint(float64(m.IntN(24)) * gridStep)
}

// literal is a number; where numbers move continuously it is one that two
// lines rarely reach at once.
func (m *maker) literal() string {
	if m.smooth {
		return fmt.Sprintf("%.3f", 20*m.Float64())
	}
	return fmt.Sprint(m.IntN(8))
}

func (m *maker) yes(depth int) string {
	if depth <= 0 {
		return m.plainYes()
	}
	a := func() string { return m.yes(depth - 1) }
	switch m.IntN(16) {
	case 0, 1:
		return fmt.Sprintf("(%s && %s)", a(), a())
	case 2, 3:
		return fmt.Sprintf("(%s || %s)", a(), a())
	case 4:
		return "!" + a()
	case 5:
		return fmt.Sprintf("(%s ? %s : %s)", a(), a(), a())
	case 6:
		return fmt.Sprintf("(%s %s %s)", a(), m.pick("==", "!="), a())
	case 7:
		return fmt.Sprintf("%s%s, %s, %s)", m.pick("any(", "all(", "at_least(1, ", "at_least(2, ", "at_least(3, "), a(), a(), a())
	case 8:
		return fmt.Sprintf("(%s %s control_0)", m.word(depth-1), m.pick("==", "!="))
	case 9, 10:
		return m.comparison(depth - 1)
	}
	return m.remembered(depth - 1)
}

// remembered is a yes/no with a memory.
func (m *maker) remembered(depth int) string {
	switch m.IntN(6) {
	case 0, 1:
		return fmt.Sprintf("held(%s, %s)", m.anywhere(depth), m.seconds())
	case 2:
		return fmt.Sprintf("pulse(%s, %s)", m.anywhere(depth), m.seconds())
	case 3:
		return fmt.Sprintf("before(%s)", m.anywhere(depth))
	case 4:
		x := m.yes(0)
		return fmt.Sprintf("(%s && !before(%s))", x, x)
	}
	return fmt.Sprintf("frozen(%s, %s)", m.yes(depth), m.anywhere(depth))
}

func (m *maker) plainYes() string {
	switch m.IntN(8) {
	case 0, 1:
		return "real." + m.pick("on_ground", "icing", "on_glide_path", "braking")
	case 2:
		return fmt.Sprintf("(control_0 == %s)", m.pick(`"a"`, `"b"`, `"c"`))
	case 3:
		return m.pick("failed(unit_0)", "unit_1.odd", "failed(unit_1)", "unit_0.odd")
	case 4:
		if m.one(4) {
			return m.pick("true", "false")
		}
	}
	if id, ok := m.read('y', false); ok {
		return id
	}
	return "real.icing"
}

// comparison compares numbers. Where they move continuously it uses > and <=
// only, of which one turns when the other does: at a line that reaches a value
// and goes on, >= turns a microsecond before >, which no fixed step can see.
func (m *maker) comparison(depth int) string {
	x := m.number(depth, false)
	if !m.smooth {
		return fmt.Sprintf("(%s %s %s)", x, m.pick("<", "<=", ">", ">=", "==", "!="), m.number(0, true))
	}
	return fmt.Sprintf("(%s %s %s)", x, m.pick(">", "<="), m.literal())
}

func (m *maker) number(depth int, steady bool) string {
	if depth <= 0 {
		return m.plainNumber(steady)
	}
	a := func() string { return m.number(depth-1, steady) }
	switch m.IntN(12) {
	case 9:
		return m.law(a)
	case 0, 1:
		return fmt.Sprintf("(%s %s %s)", a(), m.pick("+", "-"), a())
	case 2:
		return fmt.Sprintf("(%s * %s)", a(), m.number(depth-1, true))
	case 3:
		return m.quotient(a(), depth-1)
	case 4:
		return fmt.Sprintf("%s(%s, %s)", m.pick("least_of", "most_of"), a(), a())
	case 5:
		return fmt.Sprintf("%s(%s)", m.pick("size", "before", "-"), a())
	case 6:
		return fmt.Sprintf("frozen(%s, %s)", a(), m.anywhere(depth-1))
	case 7:
		return fmt.Sprintf("(1 * count(%s))", m.anywhere(depth-1))
	case 8:
		return m.total(depth-1, steady)
	}
	return fmt.Sprintf("(%s ? %s : %s)", m.yes(depth-1), a(), a())
}

// law calls laws of physics on numbers as small as those of these books. On a grid
// everything is compared to the last bit, and a law that is worked out in two ways
// agrees to fifteen digits.
func (m *maker) law(a func() string) string {
	if !m.smooth {
		return m.literal()
	}
	form := m.pick(
		"(airspeed_of(1 * (impact_pressure(20 * %[1]s) + static_pressure(1000 * %[2]s)) - static_pressure(900 * %[1]s)) / 20)",
		"(altitude_of(1 * static_pressure(900 * %s) - 1 * %s) / 900)",
		"(10 * mach_of(20 * %s, static_pressure(2500 * %s)))",
		"(airspeed_held(2 * %s, 50 * %s) / 20)",
		"(air_through(100 + 9 * %[1]s, 110 + 8 * %[2]s) / 20 + between(%[1]s, -2, 5.1, 3, 0.2, 9.5, 1.7) + 0 * %[2]s)",
		"(root_of(%s + 20.5 * size(%s) + 1) - 2)")
	return fmt.Sprintf(form, a(), a())
}

// quotient divides by a number that may be 0 (a bare 0 would be an error). What
// moves continuously is not divided by 0: it would jump where nothing looks.
func (m *maker) quotient(x string, depth int) string {
	if m.smooth {
		return fmt.Sprintf("(%s / %d.5)", x, m.IntN(20))
	}
	return fmt.Sprintf("(%s / size(%s))", x, m.number(depth, true))
}

func (m *maker) total(depth int, steady bool) string {
	switch {
	case steady || !m.smooth:
		return m.plainNumber(steady)
	case m.one(2):
		return fmt.Sprintf("(1 * total((%s ? %s : -%s), %d, 0, 20))", m.anywhere(depth), m.literal(), m.literal(), m.IntN(21))
	case m.one(2):
		return fmt.Sprintf("(1 * total(%s))", m.anywhere(depth))
	}
	return fmt.Sprintf("(0.1 * total(%s))", m.number(depth, false))
}

func (m *maker) plainNumber(steady bool) string {
	if !(steady && m.smooth) && m.one(3) {
		return m.pick("real.height_ft", "real.altitude_ft")
	}
	if id, ok := m.read('n', steady); ok && m.one(2) {
		return id
	}
	return m.literal()
}

func (m *maker) word(depth int) string {
	if depth > 0 && m.one(2) {
		return fmt.Sprintf("(%s ? %s : %s)", m.yes(depth-1), m.word(depth-1), m.word(depth-1))
	}
	if id, ok := m.read('w', false); ok {
		switch m.IntN(6) {
		case 0:
			return fmt.Sprintf("before(%s)", id)
		case 1:
			return fmt.Sprintf("frozen(%s, %s)", id, m.anywhere(0))
		case 2:
			return m.pick(`"a"`, `"b"`, `"c"`)
		}
		return id
	}
	return "control_0"
}
