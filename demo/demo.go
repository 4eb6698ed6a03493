// Package demo holds the demonstration book: the invented Corvane 71, a 88-seat
// jet with two engines, as text files in the language of docs/language.md. It
// turns nothing into anything; its one invariant is that the book loads without
// errors on every build and that every claim in it holds. Start reading at
// book/00-aircraft.hcl.
//
// Nothing in the book describes a real aircraft, and nothing in it may be used
// in flight.
package demo

import (
	"embed"
	"io/fs"
)

//go:embed book region
var files embed.FS

// Book is the folder of the demonstration book, ready for book.Load.
func Book() fs.FS { return folder("book") }

// Region is the folder of the invented airfields that the book's flights go
// between: airports.csv and runways.csv.
func Region() fs.FS { return folder("region") }

func folder(name string) fs.FS {
	f, err := fs.Sub(files, name)
	if err != nil {
		panic("demo: " + err.Error()) // the folder is embedded, so this cannot be
	}
	return f
}
