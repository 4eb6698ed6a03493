package store

import (
	"encoding/binary"
	"math"

	"knockon/book"
	"knockon/ledger"
	"knockon/sweep"
)

// decoder reads what encoder wrote. What does not make sense sets bad; from
// then on everything is 0.
type decoder struct {
	b   []byte
	bad bool
}

// decode says whether a payload was read to its end and makes sense.
func decode(plain []byte, read func(*decoder)) bool {
	d := &decoder{b: plain}
	read(d)
	return !d.bad && len(d.b) == 0
}

func (d *decoder) number() uint64 {
	n, size := binary.Uvarint(d.b)
	if size <= 0 || d.bad {
		d.bad = true
		return 0
	}
	d.b = d.b[size:]
	return n
}

// upTo reads a number that is at most most.
func (d *decoder) upTo(most uint64) uint64 {
	n := d.number()
	if n > most {
		d.bad = true
		return 0
	}
	return n
}

// count reads how many things follow; each takes a byte at least.
func (d *decoder) count() int { return int(d.upTo(uint64(len(d.b)))) }

func (d *decoder) text() string {
	n := d.count()
	if n > len(d.b) {
		d.bad = true
		return ""
	}
	s := string(d.b[:n])
	d.b = d.b[n:]
	return s
}

func (d *decoder) texts() (list []string) {
	for range d.count() {
		list = append(list, d.text())
	}
	return list
}

// step reads the next member of an ascending list.
func (d *decoder) step(last int32) int32 {
	return last + int32(d.upTo(uint64(math.MaxInt32-last)))
}

func (d *decoder) ascending() (list []int32) {
	last, n := int32(0), d.count()
	if n == 0 {
		return nil
	}
	list = make([]int32, 0, n)
	for range n {
		last = d.step(last)
		list = append(list, last)
	}
	return list
}

func (d *decoder) heading() (h Heading) {
	h.Book, h.Build, h.Flight = d.text(), d.text(), d.text()
	h.Order = int(d.upTo(3))
	h.Failures, h.Phases = d.texts(), d.texts()
	return h
}

func (d *decoder) sheet() *sweep.Sheet {
	s := &sweep.Sheet{}
	s.Phase.ID = d.text()
	s.Phase.Moment.Phase = d.text()
	s.Phase.Moment.Offset = book.Time(d.upTo(math.MaxInt64))
	s.Phase.At = book.Time(d.upTo(math.MaxInt64))
	s.Order = int(d.upTo(3))
	for range d.count() {
		s.Outcomes = append(s.Outcomes, d.outcome())
	}
	s.Singles = d.places(len(s.Outcomes))
	s.Sets = d.keys()
	s.Of = d.places(len(s.Outcomes))
	s.Broken = d.keys()
	if len(s.Of) != len(s.Sets) {
		d.bad = true
	}
	return s
}

func (d *decoder) keys() (list []uint64) {
	last := uint64(0)
	for range d.count() {
		last += d.upTo(1<<60 - last)
		list = append(list, last)
	}
	return list
}

func (d *decoder) outcome() (o sweep.Outcome) {
	last, n := int32(0), d.count()
	if n > 0 {
		o.Lost = make([]sweep.Lost, 0, n)
	}
	for range n {
		last = d.step(last)
		how := d.upTo(1<<21 - 1)
		l := sweep.Lost{Function: last, Class: ledger.Class(how >> 1 & 7), Mattered: how&1 != 0, Shown: how>>4&1 != 0, LateS: uint16(how >> 5)}
		if l.Class > ledger.NotTold || l.Shown && l.Class != ledger.ToldWrong {
			d.bad = true
		}
		d.known(&l)
		o.Lost = append(o.Lost, l)
	}
	o.Wrong, o.Dark, o.False, o.Given = d.ascending(), d.ascending(), d.ascending(), d.ascending()
	return o
}

// known reads how a loss is known.
func (d *decoder) known(l *sweep.Lost) {
	x := d.upTo(1<<21 - 1)
	word := int(x & 7)
	if word >= len(ledger.Words) {
		d.bad = true
		return
	}
	l.Known, l.Distant, l.ByAlert, l.KnownS = ledger.Words[word], x>>3&1 != 0, x>>4&1 != 0, uint16(x>>5)
	if l.Distant && l.Known != ledger.Follows || (l.ByAlert || l.KnownS > 0) && l.Known != ledger.Late {
		d.bad = true
	}
}

func (d *decoder) places(outcomes int) (list []uint32) {
	for range d.count() {
		i := d.number()
		if i >= uint64(outcomes) {
			d.bad = true
		}
		list = append(list, uint32(i))
	}
	return list
}
