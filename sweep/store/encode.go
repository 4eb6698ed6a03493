package store

import (
	"encoding/binary"
	"slices"

	"knockon/ledger"
	"knockon/sweep"
)

// encoder appends numbers of variable length. Ascending lists are written as
// the steps from one member to the next.
type encoder struct{ b []byte }

func (e *encoder) number(n uint64) { e.b = binary.AppendUvarint(e.b, n) }

func (e *encoder) count(n int) { e.number(uint64(n)) }

func (e *encoder) text(s string) {
	e.count(len(s))
	e.b = append(e.b, s...)
}

func (e *encoder) texts(list []string) {
	e.count(len(list))
	for _, s := range list {
		e.text(s)
	}
}

func (e *encoder) ascending(list []int32) {
	e.count(len(list))
	last := int32(0)
	for _, n := range list {
		e.number(uint64(n - last))
		last = n
	}
}

func encodeHeading(h Heading) []byte {
	var e encoder
	e.text(h.Book)
	e.text(h.Build)
	e.text(h.Flight)
	e.count(h.Order)
	e.texts(h.Failures)
	e.texts(h.Phases)
	return e.b
}

func encodeSheet(s *sweep.Sheet) []byte {
	var e encoder
	e.text(s.Phase.ID)
	e.text(s.Phase.Moment.Phase)
	e.number(uint64(s.Phase.Moment.Offset))
	e.number(uint64(s.Phase.At))
	e.count(s.Order)
	e.count(len(s.Outcomes))
	for i := range s.Outcomes {
		e.outcome(&s.Outcomes[i])
	}
	e.places(s.Singles)
	e.keys(s.Sets)
	e.places(s.Of)
	e.keys(s.Broken)
	return e.b
}

// keys writes sets, which are ascending.
func (e *encoder) keys(list []uint64) {
	e.count(len(list))
	last := uint64(0)
	for _, k := range list {
		e.number(k - last)
		last = k
	}
}

func (e *encoder) outcome(o *sweep.Outcome) {
	e.count(len(o.Lost))
	last := int32(0)
	for _, l := range o.Lost {
		e.number(uint64(l.Function - last))
		last = l.Function
		how := uint64(l.Class) << 1
		if l.Mattered {
			how |= 1
		}
		if l.Shown {
			how |= 1 << 4
		}
		e.number(how | uint64(l.LateS)<<5)
		known := uint64(slices.Index(ledger.Words, l.Known))
		if l.Distant {
			known |= 1 << 3
		}
		if l.ByAlert {
			known |= 1 << 4
		}
		e.number(known | uint64(l.KnownS)<<5)
	}
	for _, list := range [][]int32{o.Wrong, o.Dark, o.False, o.Given} {
		e.ascending(list)
	}
}

// places writes indices of outcomes.
func (e *encoder) places(list []uint32) {
	e.count(len(list))
	for _, i := range list {
		e.number(uint64(i))
	}
}
