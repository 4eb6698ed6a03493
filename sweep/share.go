package sweep

import (
	"encoding/binary"
	"slices"
)

// shared keeps one copy of each list that outcomes are made of. The outcomes of
// three failures together run to tens of thousands in a phase, but most differ
// from others in one list only; with copies of their own they would fill the
// memory.
type shared struct {
	numbers map[string][]int32
	losses  map[string][]Lost
	key     []byte
	scratch Outcome
}

func newShared() *shared {
	return &shared{numbers: map[string][]int32{}, losses: map[string][]Lost{}}
}

// list gives the copy of a list of numbers; the list itself may be used again.
func (s *shared) list(l []int32) []int32 {
	s.key = s.key[:0]
	for _, n := range l {
		s.key = binary.LittleEndian.AppendUint32(s.key, uint32(n))
	}
	return kept(s.numbers, s.key, l)
}

// lost gives the copy of a list of losses.
func (s *shared) lost(l []Lost) []Lost {
	s.key = s.key[:0]
	for _, x := range l {
		s.key = binary.LittleEndian.AppendUint32(s.key, uint32(x.Function))
		s.key = binary.LittleEndian.AppendUint16(s.key, x.LateS)
		s.key = append(s.key, byte(x.Class), bit(x.Mattered)|bit(x.Shown)<<1|bit(x.Distant)<<2|bit(x.ByAlert)<<3|byte(slices.Index(words, x.Known))<<4)
		s.key = binary.LittleEndian.AppendUint16(s.key, x.KnownS)
	}
	return kept(s.losses, s.key, l)
}

func bit(is bool) byte {
	if is {
		return 1
	}
	return 0
}

func kept[T any](all map[string][]T, key []byte, l []T) []T {
	if len(l) == 0 {
		return nil
	}
	had, ok := all[string(key)]
	if !ok {
		had = slices.Clip(slices.Clone(l))
		all[string(key)] = had
	}
	return had
}
