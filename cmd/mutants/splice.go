package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strings"
)

// spliced is a file with mutants in it: each is a copy of its function with the
// token changed, behind the text that there was, and the function begins by
// handing over to the copy that is asked for.
type spliced struct {
	pkg    string
	text   string
	lines  []int       // the mutant that each line is of, by its number; 0 for none
	first  map[int]int // by mutant: the number that its function goes by
	bad    []int       // mutants that are no Go
	set    *token.FileSet
	old    []byte
	behind string
}

// splice writes mutants, by their numbers, into the text of their file.
func splice(old []byte, mutants map[int]mutant) (*spliced, error) {
	s := &spliced{set: token.NewFileSet(), old: old, first: map[int]int{}, lines: make([]int, strings.Count(string(old), "\n")+1)}
	tree, err := parser.ParseFile(s.set, "", old, 0)
	if err != nil {
		return nil, err
	}
	s.pkg = tree.Name.Name
	done := 0
	for _, d := range tree.Decls {
		f, ok := d.(*ast.FuncDecl)
		if !ok || !handsOver(f) {
			continue
		}
		if here := s.copies(f, mutants); len(here) > 0 {
			open := s.at(f.Body.Lbrace) + 1
			s.text += string(old[done:open]) + handing(f, here)
			done = open
		}
	}
	s.text += string(old[done:]) + "\n" + s.behind
	return s, nil
}

// copies writes the mutants of one function and gives their numbers.
func (s *spliced) copies(f *ast.FuncDecl, mutants map[int]mutant) (here []int) {
	for _, n := range sortedKeys(mutants) {
		m := mutants[n]
		if m.offset < s.at(f.Body.Lbrace) || m.offset > s.at(f.End()) {
			continue
		}
		copied := s.copied(f, m, n)
		if _, err := parser.ParseFile(token.NewFileSet(), "", "package p\n"+copied, 0); err != nil {
			s.bad = append(s.bad, n)
			continue
		}
		here = append(here, n)
		s.first[n] = here[0]
		s.behind += copied + "\n"
		s.lines = append(s.lines, slices.Repeat([]int{n}, strings.Count(copied, "\n")+1)...)
	}
	return here
}

func (s *spliced) at(p token.Pos) int { return s.set.Position(p).Offset }

// copied is a function under another name with the token changed.
func (s *spliced) copied(f *ast.FuncDecl, m mutant, number int) string {
	return string(s.old[s.at(f.Pos()):s.at(f.Name.End())]) + suffix(number) +
		string(s.old[s.at(f.Name.End()):m.offset]) + m.Is + string(s.old[m.offset+len(m.Was):s.at(f.End())])
}

func suffix(number int) string { return fmt.Sprintf("__mutant%d", number) }

// handing is how a function hands over to its mutants.
func handing(f *ast.FuncDecl, numbers []int) string {
	text := fmt.Sprintf(" switch mutantIn(%d) {", numbers[0])
	for _, n := range numbers {
		call := f.Name.Name + suffix(n) + "(" + arguments(f) + ")"
		if f.Recv != nil {
			call = f.Recv.List[0].Names[0].Name + "." + call
		}
		if f.Type.Results != nil {
			call = "return " + call
		} else {
			call += "; return"
		}
		text += fmt.Sprintf(" case %d: %s;", n, call)
	}
	return text + " };"
}

func arguments(f *ast.FuncDecl) string {
	var names []string
	for _, p := range f.Type.Params.List {
		for _, n := range p.Names {
			names = append(names, n.Name)
		}
		if _, dots := p.Type.(*ast.Ellipsis); dots {
			names[len(names)-1] += "..."
		}
	}
	return strings.Join(names, ", ")
}

// handsOver says whether a function can hand over: everything it is given has a
// name, and it may be called.
func handsOver(f *ast.FuncDecl) bool {
	if f.Body == nil || f.Type.TypeParams != nil || f.Recv == nil && (f.Name.Name == "init" || f.Name.Name == "main") {
		return false
	}
	given := slices.Clone(f.Type.Params.List)
	if f.Recv != nil {
		given = append(given, f.Recv.List...)
	}
	return !slices.ContainsFunc(given, func(p *ast.Field) bool {
		return len(p.Names) == 0 || slices.ContainsFunc(p.Names, func(n *ast.Ident) bool { return n.Name == "_" })
	})
}
