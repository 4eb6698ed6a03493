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
		if text[m.offset:m.offset+len(m.was)] != m.was {
			t.Errorf("%s: the token is not at its offset", m)
		}
		got = append(got, m.was+"→"+m.is)
	}
	want := strings.Split("<→<=,<→>,&&→||,!→,==→!=,10→(10+1)", ",")
	if !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}
