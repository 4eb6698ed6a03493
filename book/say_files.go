package book

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
)

// The constructors of diagnostics about files and their text.

func wholeFile(name string) Range {
	return Range{File: name, Line: 1, Column: 1, EndLine: 1, EndCol: 1}
}

func noFolder(err error) Diagnostic {
	detail := "Check the name of the folder; it must exist and be readable."
	if errors.Is(err, fs.ErrNotExist) {
		detail = "There is no such folder. Check its name."
	}
	return problem("no-folder", Range{}, "The folder of the book cannot be read", detail)
}

func noFiles() Diagnostic {
	return problem("no-files", Range{}, "The folder holds no .hcl file",
		"A book is a folder of text files whose names end in .hcl. Check that this is the right folder.")
}

func tooManyFiles() Diagnostic {
	return problem("too-big", Range{}, "The folder holds too many files",
		fmt.Sprintf("A book may have at most %d .hcl files. Check that this is the right folder.", mostFiles))
}

func emptyBook() Diagnostic {
	return problem("empty-book", Range{}, "The book is empty",
		`No file holds a block. Begin with aircraft "name" { title = "…" } and add units, functions and alerts.`)
}

func fileUnreadable(name string, err error) Diagnostic {
	var pe *fs.PathError
	reason := err.Error()
	if errors.As(err, &pe) {
		reason = pe.Err.Error()
	}
	return problem("unreadable", wholeFile(name), "The file cannot be read",
		fmt.Sprintf("The system says: %s. Mend that, or move the file out of the folder.", strings.TrimSuffix(reason, ".")))
}

func fileTooBig(name string) Diagnostic {
	return problem("too-big", wholeFile(name), "The file is too big",
		fmt.Sprintf("A file may have at most %d MB. Split it.", mostFileBytes>>20))
}

func bookTooBig(name string) Diagnostic {
	return problem("too-big", wholeFile(name), "The book is too big",
		fmt.Sprintf("All files together may have at most %d MB; this file goes beyond that. Check that this is the right folder.", mostBookBytes>>20))
}

func tooManyItems(at Range) Diagnostic {
	return problem("too-big", at, "The book has too many items", fmt.Sprintf("A book may have at most %d items.", mostItems))
}

func tooManyInAll() Diagnostic {
	return problem("too-big", Range{}, "The book has too many items on too many builds",
		fmt.Sprintf("Counted on every build, a book may have at most %d items.", mostInAll))
}

func tooManyVariants(at Range) Diagnostic {
	return problem("too-big", at, "The book has too many builds", fmt.Sprintf("A book may have at most %d variant blocks.", mostVariants))
}

func notText(at Range) Diagnostic {
	return problem("not-text", at, "The file is not UTF-8 text",
		"Save it as plain text in UTF-8. If it is no text at all, give it another ending than .hcl.")
}

func nothingWritten(at Range) Diagnostic {
	return problem("syntax", at, "Nothing is written", "Write an expression, such as an id or a comparison.")
}

func stoppedEarly(err error) Diagnostic {
	return problem("stopped", Range{}, "Reading was broken off", "The book was not read to its end: "+err.Error()+".")
}

func troubled(t trouble, at Range) Diagnostic {
	switch t {
	case tooDeep:
		return problem("too-deep", at, "Brackets are nested too deeply",
			fmt.Sprintf("At most %d brackets may stand inside each other. Give parts of the expression names of their own, as signals. The rest of the file was not read.", mostNesting-1))
	case numberTooLong:
		return problem("too-long", at, "The number is too long",
			fmt.Sprintf("A number or a word that begins with a digit may have at most %d characters. The rest of the file was not read.", mostNumberSize))
	case tooManyMarks:
		return problem("too-big", at, "The book holds too much", "It has more operators, brackets and lines than a book may have. Check that this is the right folder. The rest of the file was not read.")
	case templateInText:
		return problem("template", at, "A text may not hold ${ or %{",
			"Texts are plain in a book; nothing is filled in. Leave the brace or the sign away. The rest of the file was not read.")
	case oddMarker:
		return problem("syntax", at, "The word after << must be plain letters",
			"Write a text of several lines as <<TEXT, then the lines, then TEXT alone on a line. The rest of the file was not read.")
	}
	return problem("too-long", at, "The expression is too long",
		fmt.Sprintf("An expression may have at most %d operators. Give parts of it names of their own, as signals. The rest of the file was not read.", mostOperators))
}
