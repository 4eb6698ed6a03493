package store

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"knockon/book"
	"knockon/ledger"
	"knockon/sweep"
)

// chance makes random sheets.
type chance struct{ *rand.Rand }

func (c chance) list(most int) (list []int32) {
	n := int32(0)
	for range c.IntN(most) {
		n += 1 + c.Int32N(40)
		list = append(list, n)
	}
	return list
}

func (c chance) outcome() (o sweep.Outcome) {
	for _, f := range c.list(9) {
		l := sweep.Lost{Function: f, Class: ledger.Class(c.IntN(5)), Mattered: c.IntN(2) == 0, LateS: uint16(c.IntN(1 << 16)), Known: ledger.Words[c.IntN(len(ledger.Words))]}
		switch l.Known {
		case ledger.Follows:
			l.Distant = c.IntN(2) == 0
		case ledger.Late:
			l.ByAlert, l.KnownS = c.IntN(2) == 0, uint16(c.IntN(1<<16))
		}
		o.Lost = append(o.Lost, l)
	}
	o.Wrong, o.Dark, o.False, o.Given = c.list(3), c.list(9), c.list(3), c.list(9)
	return o
}

func (c chance) sheet() *sweep.Sheet {
	s := &sweep.Sheet{Phase: sweep.Phase{ID: "climb", Moment: book.Moment{Phase: "climb", Offset: 5 * book.Second}, At: book.Time(c.Int64N(1 << 40))}, Order: 3}
	for range 1 + c.IntN(20) {
		s.Outcomes = append(s.Outcomes, c.outcome())
	}
	for range c.IntN(30) {
		s.Singles = append(s.Singles, c.Uint32N(uint32(len(s.Outcomes))))
	}
	for range c.IntN(200) {
		set := sweep.Set{c.IntN(30), 30 + c.IntN(30), 60 + c.IntN(30)}[:2+c.IntN(2)]
		s.Sets = append(s.Sets, set.Key())
	}
	slices.Sort(s.Sets)
	s.Sets = slices.Compact(s.Sets)
	for range s.Sets {
		s.Of = append(s.Of, c.Uint32N(uint32(len(s.Outcomes))))
	}
	if len(s.Sets) == 0 {
		s.Sets = nil
	}
	for i, key := range s.Sets {
		if i%7 == 0 {
			s.Broken = append(s.Broken, key)
		}
	}
	return s
}

var heading = Heading{Book: "digest", Build: "first", Flight: "short", Order: 3, Failures: []string{"a", "a.stuck", "b"}, Phases: []string{"climb", "cruise"}}

func stored(t *testing.T, sheets ...*sweep.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := WriteHeading(&b, heading); err != nil {
		t.Fatal(err)
	}
	for _, s := range sheets {
		if err := WriteSheet(&b, s); err != nil {
			t.Fatal(err)
		}
	}
	return b.Bytes()
}

func TestStore_GivesBackWhatWasPut(t *testing.T) {
	for seed := range uint64(40) {
		c := chance{rand.New(rand.NewPCG(seed, 1))}
		sheets := []*sweep.Sheet{c.sheet(), c.sheet()}
		data := stored(t, sheets...)
		h, got, good, err := Read(bytes.NewReader(data))
		if err != nil || good != int64(len(data)) || !reflect.DeepEqual(h, heading) || !reflect.DeepEqual(got, sheets) {
			t.Fatalf("seed %d: %d of %d bytes, %v, heading %v", seed, good, len(data), err, h)
		}
	}
}

// TestStore_CutAnywhere cuts a store in many places: what is read is
// the sheets that are whole, and going on from there gives the same bytes.
func TestStore_CutAnywhere(t *testing.T) {
	c := chance{rand.New(rand.NewPCG(7, 1))}
	sheets := []*sweep.Sheet{c.sheet(), c.sheet(), c.sheet()}
	data := stored(t, sheets...)
	for cut := 0; cut < len(data); cut += 1 + cut/40 { // each of the first bytes, then here and there
		_, got, good, err := Read(bytes.NewReader(data[:cut]))
		if err != nil {
			t.Fatalf("cut at %d: %v", cut, err)
		}
		whole := append([]byte{}, data[:good]...)
		if good == 0 {
			whole = stored(t)
		}
		b := bytes.NewBuffer(whole)
		for _, s := range sheets[len(got):] {
			if err := WriteSheet(b, s); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(b.Bytes(), data) {
			t.Fatalf("cut at %d, gone on from %d with %d sheets: other bytes", cut, good, len(got))
		}
	}
}

func TestStore_DamageIsNotRead(t *testing.T) {
	c := chance{rand.New(rand.NewPCG(9, 1))}
	data := stored(t, c.sheet(), c.sheet())
	for i := 0; i < len(data); i += 1 + i/40 {
		damaged := append([]byte{}, data...)
		damaged[i] ^= 1 << (i % 8)
		_, got, good, err := Read(bytes.NewReader(damaged))
		if i < len(magic) {
			if !errors.Is(err, ErrForeign) {
				t.Fatalf("byte %d: %v, want that it is foreign", i, err)
			}
			continue
		}
		if err != nil || good > int64(i) || len(got) == 2 {
			t.Fatalf("byte %d damaged: %d bytes and %d sheets are called good, %v", i, good, len(got), err)
		}
	}
}

func TestStore_Foreign(t *testing.T) {
	if _, _, _, err := Read(bytes.NewReader([]byte("PK\x03\x04 something else altogether"))); !errors.Is(err, ErrForeign) {
		t.Errorf("%v, want ErrForeign", err)
	}
	if _, _, good, err := Read(bytes.NewReader(nil)); good != 0 || err != nil {
		t.Errorf("an empty file: %d, %v", good, err)
	}
}

func FuzzRead(f *testing.F) {
	c := chance{rand.New(rand.NewPCG(3, 1))}
	var b bytes.Buffer
	_ = WriteHeading(&b, heading)
	_ = WriteSheet(&b, c.sheet())
	f.Add(b.Bytes())
	f.Add(encodeSheet(c.sheet()))
	f.Fuzz(func(t *testing.T, data []byte) {
		_, _, good, _ := Read(bytes.NewReader(data))
		if good > int64(len(data)) {
			t.Errorf("%d of %d bytes are good", good, len(data))
		}
		decode(data, func(d *decoder) { // a payload with a right checksum can still be nonsense
			s := d.sheet()
			if !d.bad {
				for i := range s.Sets {
					_ = s.Outcomes[s.Of[i]]
				}
			}
		})
	})
}
