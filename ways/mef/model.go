// Package mef reads and writes fault trees in the Open-PSA Model Exchange
// Format, XML version 2.0d, an open standard: so that other people's engines
// can check an answer, and trees from elsewhere can be solved here.
//
// The one invariant: a model that Read accepts means what the standard says.
// What it cannot read, or what would change the meaning if it were left out, is
// an error with line and column. Event trees, consequences and alignments do
// not change the meaning of a fault tree and are passed over.
//
// Start reading at Read and Write.
package mef

import (
	"fmt"
	"slices"
	"strings"

	"knockon/ways/logic"
)

// Model is a set of fault trees over one logic.
type Model struct {
	Name  string
	Logic *logic.Logic // its events are the basic events
	Gates []Gate       // in the order of their definition
	// Labels are the texts given to events, by the event's name.
	Labels map[string]string
}

// Gate is a named term.
type Gate struct {
	Tree  string // the fault tree that defines it
	Name  string
	Label string
	Term  logic.Term
	top   bool
}

// Tops returns the gates that no other gate refers to.
func (m *Model) Tops() []Gate {
	var tops []Gate
	for _, g := range m.Gates {
		if g.top {
			tops = append(tops, g)
		}
	}
	return tops
}

// Gate returns the gate with this name.
func (m *Model) Gate(name string) (g Gate, ok bool) {
	i := slices.IndexFunc(m.Gates, func(g Gate) bool { return g.Name == name })
	if i < 0 {
		return Gate{}, false
	}
	return m.Gates[i], true
}

// Error is something wrong in a file, with its place. Both numbers count from
// 1; the column counts bytes.
type Error struct {
	Line, Column int
	Reason       string
}

func (e *Error) Error() string { return fmt.Sprintf("%d:%d: %s", e.Line, e.Column, e.Reason) }

// Errors is everything found wrong in a file, in the order of its lines.
type Errors []*Error

func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i, x := range e {
		lines[i] = x.Error()
	}
	return strings.Join(lines, "\n")
}

// Limits bound what Read takes in. Zero means the default.
type Limits struct {
	Bytes    int // of the file; 64 million
	Elements int // 1 million
	Depth    int // of elements in one another; 500
	// MissionHours is the time that <system-mission-time> stands for. A file
	// that asks for it is refused if it is 0.
	MissionHours float64
}

func (l Limits) orDefault() Limits {
	if l.Bytes <= 0 {
		l.Bytes = 64_000_000
	}
	if l.Elements <= 0 {
		l.Elements = 1_000_000
	}
	if l.Depth <= 0 {
		l.Depth = 500
	}
	return l
}
