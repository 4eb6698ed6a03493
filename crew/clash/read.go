package clash

import (
	"fmt"
	"slices"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/say"
)

// Read lists what can be read off a build without flying: procedures that no
// alert names on any build of the book, and alerts that sound again and again
// while their procedure moves nothing that they read.
func Read(b *book.Build, c *circuit.Circuit) (list []*Conflict) {
	named := namedOn(b.Book)
	for _, p := range b.Procedures {
		if !slices.ContainsFunc(b.SendTo(p), func(id string) bool { return named[id] }) {
			list = append(list, &Conflict{Kind: Uncalled, Procedure: p, Says: fmt.Sprintf("No alert names the procedure %s.", say.Quoted(p.Title))})
		}
	}
	for _, a := range b.Alerts {
		if p := procedure(b, a.Procedure); p != nil && a.RepeatsS > 0 && !canEnd(c, a, p) {
			list = append(list, &Conflict{Kind: Uncleared, Procedure: p, Alert: a,
				Says: fmt.Sprintf("%s sounds every %g s, and no step of %s moves anything that it reads: it sounds on until the failure ends.", say.Quoted(a.Title), a.RepeatsS, say.Quoted(p.Title))})
		}
	}
	order(list)
	return list
}

// namedOn lists the procedures that an alert of some build names.
func namedOn(b *book.Book) map[string]bool {
	named := map[string]bool{}
	for _, v := range b.Variants {
		build, _ := b.Build(v.ID)
		for _, a := range build.Alerts {
			named[a.Procedure] = true
		}
	}
	return named
}

// procedure finds one by its id; nil if there is none.
func procedure(b *book.Build, id string) *book.Procedure {
	item, _ := b.Item(id)
	p, _ := item.(*book.Procedure)
	return p
}

// Advise is what Read lists on all builds of a book, once each, as advice.
func Advise(b *book.Book) (list book.Diagnostics) {
	seen := map[string]bool{}
	for _, v := range b.Variants {
		build, _ := b.Build(v.ID)
		c, err := circuit.Compile(build, nil)
		if err != nil {
			continue
		}
		for _, conflict := range Read(build, c) {
			d := conflict.Diagnostic()
			if key := d.String(); !seen[key] {
				seen[key] = true
				list = append(list, d)
			}
		}
	}
	list.Sort()
	return list
}

// canEnd says that a procedure moves a control that an alert reads.
func canEnd(c *circuit.Circuit, a *book.Alert, p *book.Procedure) (found bool) {
	n, ok := c.Node(circuit.Value{Item: a.ID})
	if !ok {
		return true
	}
	under := controlsUnder(c, n)
	crew.Walk(p.Steps, func(s *book.Step, _ string) {
		if number, _, ok := c.Control(s.Set, s.To); ok && s.Kind == "do" {
			found = found || under[number]
		}
	})
	return found
}

// controlsUnder lists the controls that a node reads, by their numbers.
func controlsUnder(c *circuit.Circuit, n circuit.Node) map[int]bool {
	found, seen := map[int]bool{}, map[circuit.Node]bool{}
	for stack := []circuit.Node{n}; len(stack) > 0; {
		n := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		if seen[n] {
			continue
		}
		seen[n] = true
		g := c.Gate(n)
		if g.Kind == circuit.GateSwitch {
			found[int(g.Num)] = true
		}
		stack = append(stack, g.Args...)
	}
	return found
}
