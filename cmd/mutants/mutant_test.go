package main

import (
	"slices"
	"strings"
	"testing"
)

func TestMutants_AreOneTokenEach(t *testing.T) {
	const text = "package p\n\n// a < b in a comment is no token\nfunc f(a, b int) bool { return a < b && !(a == 10) }\n"
	var got []string
	for _, m := range mutantsIn("p", "p.go", []byte(text)) {
		if text[m.offset:m.offset+len(m.Was)] != m.Was {
			t.Errorf("%s: the token is not at its offset", m)
		}
		got = append(got, m.Was+"→"+m.Is)
	}
	want := strings.Split("<→<=,<→>,&&→||,!→,==→!=,10→(10+1)", ",")
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

// TestPlace_HoldsWhileLinesMove: a mutant is found again where lines were added
// before it and its function has moved; equal lines of one function are told apart.
func TestPlace_HoldsWhileLinesMove(t *testing.T) {
	const f = "func f(a, b int) bool {\n\tif a < b {\n\t\treturn true\n\t}\n\tif a < b {\n\t\treturn true\n\t}\n\treturn false\n}\n"
	before, after := mutantsIn("p", "p.go", []byte("package p\n\n"+f)), mutantsIn("p", "q.go", []byte("package p\n\nfunc g(a, b int) bool {\n\treturn a < b\n}\n\n"+f))
	for _, m := range before {
		same := slices.DeleteFunc(slices.Clone(after), func(x mutant) bool { return x.place != m.place })
		if len(same) != 1 || same[0].Line != m.Line+4 {
			t.Errorf("%s: found again %v", m, same)
		}
	}
}

// TestSplice_HandsOver: the text with all mutants in it, each a function of its own
// that the first lines of the old one choose among; what is no Go is left out.
func TestSplice_HandsOver(t *testing.T) {
	const text = "package p\n\nfunc (x *T) f(a int, more ...int) bool {\n\treturn a < 1\n}\n\nfunc g(T) { h(1) }\n"
	mutants := map[int]mutant{}
	for i, m := range mutantsIn("p", "p.go", []byte(text)) {
		mutants[i+1] = m
	}
	s, err := splice([]byte(text), mutants)
	if err != nil {
		t.Fatal(err)
	}
	want := "package p\n\nfunc (x *T) f(a int, more ...int) bool { switch mutantIn(2) {" +
		" case 2: return x.f__mutant2(a, more...); case 3: return x.f__mutant3(a, more...); case 4: return x.f__mutant4(a, more...); };\n\treturn a < 1\n}\n\nfunc g(T) { h(1) }\n\n" +
		"func (x *T) f__mutant2(a int, more ...int) bool {\n\treturn a <= 1\n}\n" +
		"func (x *T) f__mutant3(a int, more ...int) bool {\n\treturn a > 1\n}\n" +
		"func (x *T) f__mutant4(a int, more ...int) bool {\n\treturn a < (1+1)\n}\n"
	if s.text != want {
		t.Errorf("got\n%s\nwant\n%s", s.text, want)
	}
	if got := s.lines[len(s.lines)-1]; got != 4 || s.first[4] != 2 || s.first[5] != 0 {
		t.Errorf("the last line is of %d; %v", got, s.first)
	}
	if lines := strings.Split(s.text, "\n"); lines[s.lineOf(3)-1] != "func (x *T) f__mutant3(a int, more ...int) bool {" {
		t.Errorf("mutant 3 begins at line %d", s.lineOf(3))
	}
}

// lineOf is the first line of a mutant, from 1.
func (s *spliced) lineOf(number int) int { return slices.Index(s.lines, number) + 1 }
