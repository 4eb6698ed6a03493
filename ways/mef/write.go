package mef

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"knockon/ways/logic"
)

// Of makes a model of one term: a fault tree with the top gate "top" and a gate
// for each term below it that stands in more than one place.
func Of(name string, l *logic.Logic, top logic.Term) *Model {
	m := &Model{Name: name, Logic: l, Labels: map[string]string{}}
	uses := map[logic.Term]int{}
	order := l.Reach(top)
	for _, t := range order {
		for _, a := range l.Args(t) {
			uses[a.Plain()]++
		}
	}
	for _, t := range order {
		if uses[t] > 1 && l.Op(t) != logic.Basic && l.Op(t) != logic.Constant {
			m.Gates = append(m.Gates, Gate{Tree: name, Name: fmt.Sprintf("g%d", len(m.Gates)+1), Term: t})
		}
	}
	m.Gates = append(m.Gates, Gate{Tree: name, Name: "top", Term: top, top: true})
	return m
}

// Write writes a model. Names that the standard advises against are replaced,
// and then stand in the label. Reading what it wrote and writing that again
// gives the same bytes.
func Write(w io.Writer, m *Model) error {
	p := &writer{w: bufio.NewWriter(w), m: m, l: m.Logic, taken: map[string]bool{}, holds: map[logic.Term]string{}}
	p.nameAll()
	p.print(0, `<?xml version="1.0" encoding="UTF-8"?>`)
	p.print(0, `<!DOCTYPE opsa-mef>`)
	p.print(0, "<opsa-mef%s>", attribute("name", p.container(m.Name)))
	for from := 0; from < len(m.Gates); {
		to := from + 1
		for to < len(m.Gates) && m.Gates[to].Tree == m.Gates[from].Tree {
			to++
		}
		p.tree(from, to)
		from = to
	}
	p.modelData()
	p.print(0, "</opsa-mef>")
	return p.w.Flush()
}

// writer holds the names as they are written. bufio keeps the first error.
type writer struct {
	w      *bufio.Writer
	m      *Model
	l      *logic.Logic
	taken  map[string]bool
	events []string              // by event
	gates  []string              // by gate of the model
	holds  map[logic.Term]string // the gate that holds a term
}

// nameAll gives everything a portable name, events first.
func (p *writer) nameAll() {
	for _, e := range p.l.Events() {
		p.events = append(p.events, p.portable(e.Name))
	}
	for _, g := range p.m.Gates {
		name := p.portable(g.Name)
		p.gates = append(p.gates, name)
		// The first gate holds the term; others with the same refer to it.
		if t := g.Term; p.holds[t] == "" && p.l.Op(t) > logic.Basic {
			p.holds[t] = name
		}
	}
}

// container makes a name of a model or a tree portable. Such names are of their
// own kind, so that they may be those of events too.
func (p *writer) container(name string) string {
	if name == "" {
		return ""
	}
	return clean(name)
}

// portable turns a name into one that every tool takes: it begins with a
// letter, goes on with letters, digits and "_", and is not taken yet.
func (p *writer) portable(name string) string {
	fit := clean(name)
	free := fit
	for n := 2; p.taken[free]; n++ {
		free = fmt.Sprintf("%s_%d", fit, n)
	}
	p.taken[free] = true
	return free
}

func clean(name string) string {
	fit := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '_' {
			return r
		}
		return '_'
	}, name)
	if fit == "" || fit[0] < 'A' {
		fit = "x" + fit
	}
	return fit
}

func attribute(name, value string) string {
	if value == "" {
		return ""
	}
	return " " + name + `="` + escape(value) + `"`
}

func escape(text string) string {
	var b strings.Builder
	// Writing to a Builder cannot fail.
	_ = xml.EscapeText(&b, []byte(text))
	return b.String()
}

func (p *writer) print(depth int, format string, args ...any) {
	for range depth {
		p.w.WriteString("  ")
	}
	fmt.Fprintf(p.w, format+"\n", args...)
}

func (p *writer) label(depth int, label, name, written string) {
	if label == "" && name != written {
		label = name
	}
	if label != "" {
		p.print(depth, "<label>%s</label>", escape(label))
	}
}

func (p *writer) tree(from, to int) {
	name := p.container(p.m.Gates[from].Tree)
	if name == "" {
		name = "tree"
	}
	p.print(1, "<define-fault-tree%s>", attribute("name", name))
	for i := from; i < to; i++ {
		g := p.m.Gates[i]
		p.print(2, "<define-gate%s>", attribute("name", p.gates[i]))
		p.label(3, g.Label, g.Name, p.gates[i])
		if held := p.holds[g.Term]; held != "" && held != p.gates[i] {
			p.print(3, "<gate%s/>", attribute("name", held))
		} else {
			p.body(3, g.Term)
		}
		p.print(2, "</define-gate>")
	}
	p.print(1, "</define-fault-tree>")
}

// term writes a term that stands in another.
func (p *writer) term(depth int, t logic.Term) {
	if name := p.holds[t]; name != "" {
		p.print(depth, "<gate%s/>", attribute("name", name))
		return
	}
	p.body(depth, t)
}

// body writes what a term is made of.
func (p *writer) body(depth int, t logic.Term) {
	switch {
	case t <= logic.True:
		p.print(depth, `<constant value="%v"/>`, t == logic.True)
	case t.Negated():
		p.print(depth, "<not>")
		p.term(depth+1, t.Not())
		p.print(depth, "</not>")
	case p.l.Op(t) == logic.Basic:
		p.print(depth, "<basic-event%s/>", attribute("name", p.events[p.l.K(t)]))
	default:
		p.operation(depth, t)
	}
}

func (p *writer) operation(depth int, t logic.Term) {
	name, attributes := p.l.Op(t).String(), ""
	if p.l.Op(t) == logic.AtLeast {
		name, attributes = "atleast", attribute("min", strconv.Itoa(p.l.K(t)))
	}
	p.print(depth, "<%s%s>", name, attributes)
	for _, a := range p.l.Args(t) {
		p.term(depth+1, a)
	}
	p.print(depth, "</%s>", name)
}

// modelData writes every event, so that none loses its place in the order.
func (p *writer) modelData() {
	if len(p.events) == 0 {
		return
	}
	p.print(1, "<model-data>")
	for i, e := range p.l.Events() {
		p.print(2, "<define-basic-event%s>", attribute("name", p.events[i]))
		p.label(3, p.m.Labels[e.Name], e.Name, p.events[i])
		if !math.IsNaN(e.P) {
			p.print(3, `<float value="%s"/>`, strconv.FormatFloat(e.P, 'g', -1, 64))
		}
		p.print(2, "</define-basic-event>")
	}
	p.print(1, "</model-data>")
}
