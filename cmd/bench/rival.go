package main

import (
	"fmt"
	"strings"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// rival is a circuit's logic in a general-purpose expression engine: one
// program for each named yes/no value of the book. It gets for nothing what
// such an engine has no notion of: the memories, the numbers and their
// comparisons are handed to it ready, each instant is worked out once instead
// of until it settles, and no outcome is drawn from it.
type rival struct {
	c        *circuit.Circuit
	programs []program
	given    []circuit.Node // handed over ready
	env      map[string]any
	names    []string // by node
	vm       vm.VM
}

type program struct {
	node circuit.Node
	name string
	code *vm.Program
}

func newRival(c *circuit.Circuit) (*rival, error) {
	r := &rival{c: c, env: map[string]any{}}
	named := map[circuit.Node]bool{}
	for _, v := range c.Values() {
		if v.Type == book.YesNo && r.isLogic(v.Node) {
			named[v.Node] = true
		}
	}
	asked := map[circuit.Node]bool{}
	var texts []string
	for n := range c.Size() {
		if node := circuit.Node(n); named[node] {
			texts = append(texts, r.text(node, named, asked, true))
			r.programs = append(r.programs, program{node: node, name: name(node)})
		}
	}
	for n := range c.Size() {
		if node := circuit.Node(n); asked[node] && !named[node] {
			r.given = append(r.given, node)
		}
		r.env[name(circuit.Node(n))] = false
		r.names = append(r.names, name(circuit.Node(n)))
	}
	for i, text := range texts {
		code, err := expr.Compile(text, expr.Env(r.env), expr.AsBool())
		if err != nil {
			return nil, fmt.Errorf("%s: %w", text, err)
		}
		r.programs[i].code = code
	}
	return r, nil
}

func name(n circuit.Node) string { return fmt.Sprintf("n%d", n) }

func (r *rival) isLogic(n circuit.Node) bool {
	switch g := r.c.Gate(n); g.Kind {
	case circuit.GateNot, circuit.GateAnd, circuit.GateOr, circuit.GateAtLeast:
		return true
	case circuit.GateIf:
		return r.c.Type(n) == book.YesNo
	}
	return false
}

// text writes a node in the engine's language: logic within one item in one
// expression, other items and what is handed over by name.
func (r *rival) text(n circuit.Node, named, asked map[circuit.Node]bool, top bool) string {
	if !top && (named[n] || !r.isLogic(n)) {
		asked[n] = true
		return name(n)
	}
	g := r.c.Gate(n)
	var parts []string
	for _, a := range g.Args {
		parts = append(parts, r.text(a, named, asked, false))
	}
	switch g.Kind {
	case circuit.GateNot:
		return "!" + parts[0]
	case circuit.GateAnd:
		return "(" + strings.Join(parts, " && ") + ")"
	case circuit.GateOr:
		return "(" + strings.Join(parts, " || ") + ")"
	case circuit.GateIf:
		return "(" + parts[0] + " ? " + parts[1] + " : " + parts[2] + ")"
	}
	for i, p := range parts {
		parts[i] = "(" + p + " ? 1 : 0)"
	}
	return fmt.Sprintf("(%s >= %d)", strings.Join(parts, " + "), int(g.Num))
}

// still is what the engine is handed at one instant, and what it should say.
type still struct{ given, want []bool }

// stills are the instants of a record from the first strike on.
func (r *rival) stills(here *run.Record) (list []still) {
	strike, _ := here.FirstStrike()
	last := book.Time(-1)
	for _, t := range here.Instants() {
		if t < strike || t == last {
			continue
		}
		last = t
		var s still
		for _, n := range r.given {
			s.given = append(s.given, here.At(n, t) != 0)
		}
		for _, p := range r.programs {
			s.want = append(s.want, here.At(p.node, t) != 0)
		}
		list = append(list, s)
	}
	return list
}

// fly works every instant out, and counts the values that are not as they
// should be.
func (r *rival) fly(list []still) (wrong int, err error) {
	for _, s := range list {
		for i, n := range r.given {
			r.env[r.names[n]] = s.given[i]
		}
		for i, p := range r.programs {
			v, err := r.vm.Run(p.code, r.env)
			if err != nil {
				return wrong, err
			}
			if v.(bool) != s.want[i] {
				wrong++
			}
			r.env[p.name] = v
		}
	}
	return wrong, nil
}
