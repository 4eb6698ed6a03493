package sweep_test

import (
	"fmt"
	"testing"
	"unsafe"

	"knockon/internal/corvane"
)

// TestSheet_KeepsEachListOnce: three failures together come to some sixty
// thousand outcomes in a phase, which fill a gigabyte if each has lists of its
// own.
func TestSheet_KeepsEachListOnce(t *testing.T) {
	s := sweepOf(t, corvane.Book(t), "")
	h, err := s.Run(t.Context(), len(s.Phases())/2, 2, nil)
	if err != nil {
		t.Fatal(err)
	}
	copies := map[string]unsafe.Pointer{}
	once := func(list any, at unsafe.Pointer) {
		name := fmt.Sprintf("%#v", list) // every field of it
		if had, ok := copies[name]; ok && had != at {
			t.Fatalf("%s is kept twice", name)
		}
		copies[name] = at
	}
	for _, o := range h.Outcomes {
		if len(o.Lost) > 0 {
			once(o.Lost, unsafe.Pointer(unsafe.SliceData(o.Lost)))
		}
		for _, list := range [][]int32{o.Wrong, o.Dark, o.False, o.Given} {
			if len(list) > 0 {
				once(list, unsafe.Pointer(unsafe.SliceData(list)))
			}
		}
	}
	if len(copies) < 100 || len(copies) > 2*len(h.Outcomes) {
		t.Errorf("%d lists for %d outcomes", len(copies), len(h.Outcomes))
	}
}
