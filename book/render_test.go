package book

import (
	"context"
	"strings"
	"testing"
)

func rendered(t *testing.T, parts ...string) string {
	t.Helper()
	files := filesOf(parts...)
	_, problems := Load(context.Background(), files)
	var s strings.Builder
	if err := problems.Write(&s, files); err != nil {
		t.Fatal(err)
	}
	return s.String()
}

func TestDiagnostics_Write(t *testing.T) {
	got := rendered(t, "a.hcl", "aircraft \"a\" { title = \"A\" }\nunit \"pump\" {}\n",
		"b.hcl", "unit \"pump\" {}\nsignal \"x\" {\n\tvalue = pump && pmup\n}\nsignal \"y\" {\n  value = z\n}\nsignal \"z\" {\n  value = !y\n}\n")
	want := `error: The id "pump" is there twice [duplicate]
  b.hcl:1:6
  1 | unit "pump" {}
    |      ^^^^^^
  the first is here: a.hcl:2:1
  2 | unit "pump" {}
    | ^^^^^^^^^^^
  It is already the id of a unit. An id is unique in the whole book, in all files and on all builds.

error: Nothing is called "pmup" [unknown-id]
  b.hcl:3:18
  3 | 	value = pump && pmup
    | 	                ^^^^
  Did you mean "pump"?

error: "y" depends on itself [loop]
  b.hcl:6:11
  6 |   value = z
    |           ^
  "z" is read here: b.hcl:6:11
  6 |   value = z
    |           ^
  "y" is read here: b.hcl:9:12
  9 |   value = !y
    |            ^
  The ring is "y" → "z" → "y". Somewhere in it a memory is needed: a latch, held, pulse, before, total, count or a control.
`
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestDiagnostics_WriteLongLines(t *testing.T) {
	got := rendered(t, `signal "x" { value = `+strings.Repeat("pump || ", 200)+`pmup }`)
	for _, line := range strings.Split(got, "\n") {
		if len([]rune(line)) > 200 {
			t.Errorf("a line of %d characters: %s", len(line), line)
		}
	}
	if !strings.Contains(got, "…") {
		t.Errorf("nothing is cut from\n%s", got)
	}
}

func TestDiagnostics_WriteTypedText(t *testing.T) {
	_, problems := ParseExpr("pump_1 && engin_1", oneBuild(t, smallBook))
	var s strings.Builder
	problems.Write(&s, nil)
	want := `error: Nothing is called "engin_1" [unknown-id]
  1:11
  1 | pump_1 && engin_1
    |           ^^^^^^^
  Did you mean "engine_1"?
`
	if s.String() != want {
		t.Errorf("got\n%s\nwant\n%s", s.String(), want)
	}
}

func TestDiagnostics_SortByPlace(t *testing.T) {
	at := func(file string, offset int, s Severity) Diagnostic {
		return Diagnostic{Severity: s, Summary: file, Subject: Range{File: file, Offset: offset}}
	}
	all := Diagnostics{at("b", 1, Error), at("a", 9, Error), at("a", 2, Advice), at("", 0, Advice), at("a", 2, Error)}
	all.Sort()
	var got []string
	for _, d := range all {
		got = append(got, d.Subject.File+d.Severity.String()[:1])
	}
	if s := strings.Join(got, " "); s != "a ae aa ae be" {
		t.Errorf("sorted as %q", s)
	}
}
