package book

import (
	"bytes"
	"context"
	"errors"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"unicode/utf8"
)

// Limits that keep a load bounded in memory and time.
const (
	mostFileBytes  = 16 << 20
	mostBookBytes  = 64 << 20
	mostFiles      = 10_000
	mostItems      = 150_000
	mostVariants   = 64
	mostInAll      = 500_000   // items, counted on every build
	mostNesting    = 100       // brackets inside brackets
	mostOperators  = 1_000     // in one expression, between two commas
	mostNumberSize = 60        // characters of a number as written
	mostMarks      = 2_000_000 // operators, brackets, commas and line ends of a book
)

// source is the text of one file.
type source struct {
	name string
	text []byte
}

// readSources reads all files of a book in the order of their names.
func (l *loader) readSources(ctx context.Context, fsys fs.FS) []source {
	names := l.findFiles(ctx, fsys)
	var sources []source
	total := 0
	for _, name := range names {
		if l.stopped(ctx) {
			return nil
		}
		text, err := readFile(fsys, name)
		total += len(text)
		switch {
		case errors.Is(err, errTooBig):
			l.tear(fileTooBig(name))
		case err != nil:
			l.tear(fileUnreadable(name, err))
		case total > mostBookBytes:
			l.tear(bookTooBig(name))
			return nil
		case l.isText(name, text):
			sources = append(sources, source{name, text})
		}
	}
	return sources
}

func (l *loader) findFiles(ctx context.Context, fsys fs.FS) []string {
	var names []string
	err := fs.WalkDir(fsys, ".", func(name string, entry fs.DirEntry, err error) error {
		switch {
		case ctx.Err() != nil || len(names) > mostFiles:
			return fs.SkipAll
		case name == "." && err != nil:
			return err
		case err != nil:
			l.tear(fileUnreadable(name, err))
		case name != "." && strings.HasPrefix(path.Base(name), "."):
			if entry.IsDir() {
				return fs.SkipDir
			}
		case !entry.IsDir() && path.Ext(name) == ".hcl":
			names = append(names, name)
		}
		return nil
	})
	switch {
	case err != nil:
		l.add(noFolder(err))
	case len(names) > mostFiles:
		l.add(tooManyFiles())
		return nil
	case len(names) == 0 && ctx.Err() == nil && !l.failed():
		l.add(noFiles())
	}
	slices.Sort(names)
	return names
}

var (
	errTooBig = errors.New("too big")
	errNoFile = errors.New("it is not a plain file")
)

// readFile reads no more than a file may hold, however big the file is.
func readFile(fsys fs.FS, name string) ([]byte, error) {
	info, err := fs.Stat(fsys, name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, errNoFile // opening a pipe would wait for ever
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	text, err := io.ReadAll(io.LimitReader(f, mostFileBytes+1))
	if err == nil && len(text) > mostFileBytes {
		return nil, errTooBig
	}
	return text, err
}

// isText reports a file that is not UTF-8 text.
func (l *loader) isText(name string, text []byte) bool {
	bad := firstInvalid(text)
	if zero := bytes.IndexByte(text, 0); zero >= 0 {
		bad = min(bad, zero)
	}
	if bad == len(text) {
		return true
	}
	l.tear(notText(placeAt(name, text, bad)))
	return false
}

func firstInvalid(text []byte) int {
	if utf8.Valid(text) {
		return len(text)
	}
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return len(text)
}

// placeAt gives the place of one byte of a text. Its column counts bytes that
// begin a character, which is near enough for a text that cannot be read.
func placeAt(name string, text []byte, at int) Range {
	line := 1 + bytes.Count(text[:at], []byte("\n"))
	start := bytes.LastIndexByte(text[:at], '\n') + 1
	column := 1 + utf8.RuneCount(text[start:at])
	return Range{File: name, Line: line, Column: column, EndLine: line, EndCol: column + 1, Offset: at, EndOffset: min(at+1, len(text))}
}
