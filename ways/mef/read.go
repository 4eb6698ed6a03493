package mef

import (
	"cmp"
	"io"
	"slices"
	"strconv"
	"strings"

	"knockon/say"
	"knockon/ways/logic"
)

// Read reads a model. Its error is Errors, with everything that is wrong, or
// the reader's own. House events become constants. An event that is used but
// not defined is a basic event without a probability, as the standard allows.
// Random deviates of the stochastic layer are taken at their means.
func Read(r io.Reader, limits Limits) (*Model, error) {
	root, err := scan(r, limits.orDefault())
	if err != nil {
		return nil, Errors{err}
	}
	b := &reader{
		limits: limits,
		byPath: map[string]*definition{},
		public: map[string]*definition{},
		model:  &Model{Logic: logic.New(), Labels: map[string]string{}},
	}
	if root.name != "opsa-mef" {
		return nil, Errors{root.err("the root element is <%s>; it must be <opsa-mef>", root.name)}
	}
	b.model.Name = root.attr("name")
	b.container(root, scope{})
	b.build()
	if len(b.errs) > 0 {
		slices.SortStableFunc(b.errs, func(x, y *Error) int {
			return cmp.Or(cmp.Compare(x.Line, y.Line), cmp.Compare(x.Column, y.Column))
		})
		return nil, b.errs
	}
	return b.model, nil
}

// reader turns elements into a model: first it notes what is defined where,
// then it builds the gates.
type reader struct {
	limits Limits
	errs   Errors
	byPath map[string]*definition // by full path
	public map[string]*definition // by bare name
	list   []*definition
	model  *Model
}

func (b *reader) fail(e *Error) { b.errs = append(b.errs, e) }

// scope is where an element stands: the path of its containers, each with a
// dot after it, and whether what is defined there is private.
type scope struct {
	path    string
	tree    string
	private bool
}

// definition is a define-… element of the fault tree layer.
type definition struct {
	*element
	kind  string // gate, basic-event, house-event, parameter
	name  string // how the model calls it
	scope scope
	state state
	term  logic.Term
	value float64
	used  bool
}

// state of a definition that may refer to others.
type state uint8

const (
	untouched state = iota
	open            // being worked out
	done
)

var definers = map[string]string{
	"define-gate": "gate", "define-basic-event": "basic-event",
	"define-house-event": "house-event", "define-parameter": "parameter",
}

// passedOver are the elements that do not change what a fault tree means.
var passedOver = []string{
	"label", "attributes", "define-event-tree", "define-alignment", "define-consequence",
	"define-consequence-group", "define-rule", "define-initiating-event", "define-initiating-event-group",
}

// container notes the definitions in an element and in the containers in it.
func (b *reader) container(e *element, at scope) {
	for _, c := range e.children {
		switch kind, defines := definers[c.name]; {
		case defines:
			b.define(c, kind, at)
		case c.name == "define-fault-tree" || c.name == "define-component":
			b.container(c, b.enter(c, at))
		case c.name == "model-data":
			b.container(c, scope{})
		case !slices.Contains(passedOver, c.name):
			b.fail(c.err("<%s> in <%s> is not supported", c.name, e.name))
		}
	}
}

func (b *reader) enter(c *element, at scope) scope {
	name := b.needName(c)
	if at.path == "" {
		at.tree = name
	}
	at.path += name + "."
	at.private = private(c, at.private)
	return at
}

// private says whether an element is, given whether its container is.
func private(e *element, container bool) bool {
	switch e.attr("role") {
	case "private":
		return true
	case "public":
		return false
	}
	return container
}

func (b *reader) needName(e *element) string {
	name := e.attr("name")
	if name == "" {
		b.fail(e.err("<%s> has no name", e.name))
	}
	return name
}

func (b *reader) define(e *element, kind string, at scope) {
	name := b.needName(e)
	if name == "" {
		return
	}
	d := &definition{element: e, kind: kind, name: name, scope: at}
	path := at.path + name
	if first := b.byPath[path]; first != nil {
		b.fail(e.err("%s is defined twice, first in line %d", name, first.line))
		return
	}
	b.byPath[path] = d
	if private(e, at.private) {
		d.name = path
	} else if first := b.public[name]; first != nil {
		b.fail(e.err("%s is defined twice, first in line %d; one of them must be private", name, first.line))
		return
	} else {
		b.public[name] = d
	}
	b.list = append(b.list, d)
}

// find looks a reference up: as a path from the innermost container outwards,
// and then by its bare name.
func (b *reader) find(name string, at scope) *definition {
	for path := at.path; ; {
		if d := b.byPath[path+name]; d != nil {
			return d
		}
		if path == "" {
			return b.public[name]
		}
		outer := strings.LastIndexByte(strings.TrimSuffix(path, "."), '.')
		path = path[:outer+1]
	}
}

// build works everything out, basic events first so that they keep their order.
func (b *reader) build() {
	for _, d := range b.list {
		if d.kind == "basic-event" {
			b.basic(d)
		}
	}
	for _, d := range b.list {
		switch d.kind {
		case "gate":
			b.gate(d)
		case "parameter":
			b.parameter(d)
		case "house-event":
			b.house(d)
		}
	}
	for _, d := range b.list {
		if d.kind == "gate" {
			b.model.Gates = append(b.model.Gates, Gate{
				Tree: d.scope.tree, Name: d.name, Label: d.label(), Term: d.term, top: !d.used,
			})
		}
	}
}

// basic declares a basic event, with its probability if it has one.
func (b *reader) basic(d *definition) logic.Term {
	if d.state == done {
		return d.term
	}
	d.state = done
	d.term = b.model.Logic.Event(d.name)
	if label := d.label(); label != "" {
		b.model.Labels[d.name] = label
	}
	content := d.content()
	if len(content) == 0 {
		return d.term
	}
	if len(content) > 1 {
		b.fail(content[1].err("basic event %s has more than one expression", d.name))
	}
	if p, ok := b.number(content[0], d.scope); ok {
		if err := b.model.Logic.SetP(d.term, p); err != nil {
			b.fail(content[0].err("%v", err))
		}
	}
	return d.term
}

// house returns the constant that a house event is; no, if it has no value.
func (b *reader) house(d *definition) logic.Term {
	if d.state == done {
		return d.term
	}
	d.state, d.term = done, logic.False
	if content := d.content(); len(content) > 0 {
		d.term = b.constant(content[0])
	}
	return d.term
}

func (b *reader) constant(e *element) logic.Term {
	value := e.attr("value")
	if e.name != "constant" || value != "true" && value != "false" {
		b.fail(e.err(`expected <constant value="true"/> or <constant value="false"/>`))
	}
	if value == "true" {
		return logic.True
	}
	return logic.False
}

// gate builds a gate, after those that it refers to.
func (b *reader) gate(d *definition) logic.Term {
	if d.state != untouched {
		return d.term
	}
	content := d.content()
	d.state = open
	if len(content) == 1 {
		d.term = b.formula(content[0], d)
	} else {
		b.fail(d.err("gate %s has %s; it must have one", d.name, say.Counted(len(content), "formula")))
	}
	d.state = done
	return d.term
}

func (b *reader) integer(e *element, name string) int {
	n, err := strconv.Atoi(e.attr(name))
	if err != nil || n < 0 {
		b.fail(e.err("<%s> needs a whole number as its %q, not %q", e.name, name, e.attr(name)))
		return 0
	}
	return n
}
