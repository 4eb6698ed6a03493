package main

import (
	"fmt"
	"go/scanner"
	"go/token"
	"os"
	"path/filepath"
	"strings"
)

// place says which token a mutant changes in words that hold while the lines
// around it move: the declaration it stands in, the line without its margin,
// which of the equal lines there, where in the line, and what stands instead.
type place struct {
	Folder, Within, Text string
	Nth, At              int
	Was, Is              string
}

// mutant is one token of one file, and what stands there instead.
type mutant struct {
	place
	File   string
	Line   int
	offset int
}

func (m mutant) String() string {
	return fmt.Sprintf("%s:%d: %q becomes %q in %s", m.File, m.Line, m.Was, m.Is, m.marked())
}

// marked is the line with the token between marks.
func (m mutant) marked() string {
	end := m.At + len(m.Was)
	return m.Text[:m.At] + "⟦" + m.Text[m.At:end] + "⟧" + m.Text[end:]
}

// instead lists what each token may become.
var instead = map[string][]string{
	"<": {"<=", ">"}, "<=": {"<", ">="}, ">": {">=", "<"}, ">=": {">", "<="},
	"==": {"!="}, "!=": {"=="}, "&&": {"||"}, "||": {"&&"},
	"+": {"-"}, "-": {"+"}, "*": {"/"}, "/": {"*"}, "+=": {"-="}, "-=": {"+="},
	"++": {"--"}, "!": {""}, "true": {"false"}, "false": {"true"},
	"break": {"continue"}, "continue": {"break"}, "&^": {"&"}, "|": {"&"}, "&": {"|"},
}

// mutantsOf lists every single-token mutant of the package in a folder.
func mutantsOf(folder string) (list []mutant, err error) {
	names, err := filepath.Glob(filepath.Join(folder, "*.go"))
	if err != nil {
		return nil, err
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		list = append(list, mutantsIn(filepath.Clean(folder), name, text)...)
	}
	if len(list) == 0 {
		return nil, fmt.Errorf("%s holds no Go file with anything to change", folder)
	}
	return list, nil
}

func mutantsIn(folder, name string, text []byte) (list []mutant) {
	set := token.NewFileSet()
	file := set.AddFile(name, -1, len(text))
	lines := linesOf(folder, string(text))
	var s scanner.Scanner
	s.Init(file, text, nil, 0)
	for {
		at, kind, word := s.Scan()
		if kind == token.EOF {
			return list
		}
		if word == "" || kind.IsOperator() && kind != token.SEMICOLON {
			word = kind.String()
		}
		for _, is := range changed(kind, word) {
			m := mutant{place: lines[file.Line(at)-1], File: name, Line: file.Line(at), offset: file.Offset(at)}
			m.At, m.Was, m.Is = file.Position(at).Column-1-m.At, word, is
			list = append(list, m)
		}
	}
}

// linesOf places every line of a file; At is the width of its margin.
func linesOf(folder, text string) (list []place) {
	var within string
	seen := map[string]int{}
	for _, line := range strings.Split(text, "\n") {
		bare := strings.TrimLeft(line, "\t")
		if bare == line && line != "" && !strings.HasPrefix(line, "//") && strings.Trim(line, "}) {") != "" {
			within = line
		}
		key := within + "\n" + bare
		list = append(list, place{Folder: folder, Within: within, Text: bare, Nth: seen[key], At: len(line) - len(bare)})
		seen[key]++
	}
	return list
}

// changed is what a token may become: another operator, or a whole number one
// more.
func changed(kind token.Token, word string) []string {
	if kind == token.INT {
		if word == "0" {
			return []string{"1"}
		}
		return []string{"(" + word + "+1)"}
	}
	return instead[word]
}

// changedFile is the file with the one token changed.
func (m mutant) changedFile() ([]byte, error) {
	old, err := os.ReadFile(m.File)
	if err != nil {
		return nil, err
	}
	return append(append(append([]byte{}, old[:m.offset]...), m.Is...), old[m.offset+len(m.Was):]...), nil
}
