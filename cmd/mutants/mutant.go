package main

import (
	"fmt"
	"go/scanner"
	"go/token"
	"os"
	"path/filepath"
	"strings"
)

// mutant is one token of one file, and what stands there instead.
type mutant struct {
	folder, file string
	offset       int
	line         int
	was, is      string
	quick, slow  []string // the package's tests, those under a second apart
}

func (m mutant) String() string {
	return fmt.Sprintf("%s:%d: %q becomes %q", m.file, m.line, m.was, m.is)
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
		list = append(list, mutantsIn(folder, name, text)...)
	}
	if len(list) == 0 {
		return nil, fmt.Errorf("%s holds no Go file with anything to change", folder)
	}
	return list, nil
}

func mutantsIn(folder, name string, text []byte) (list []mutant) {
	set := token.NewFileSet()
	file := set.AddFile(name, -1, len(text))
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
			list = append(list, mutant{folder: folder, file: name, offset: file.Offset(at), line: file.Line(at), was: word, is: is})
		}
	}
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

// text is the file with the one token changed.
func (m mutant) text() ([]byte, error) {
	old, err := os.ReadFile(m.file)
	if err != nil {
		return nil, err
	}
	return append(append(append([]byte{}, old[:m.offset]...), m.is...), old[m.offset+len(m.was):]...), nil
}
