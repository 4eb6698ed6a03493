package main

import (
	"context"
	"fmt"
	"io"
	"io/fs"
	"os"

	"knockon/ask"
	"knockon/book"
	"knockon/demo"
)

// bookFlag chooses the book.
type bookFlag struct {
	Book string `help:"Folder of the book. Default: the built-in demonstration." placeholder:"DIR" type:"path"`
}

// files returns the book's file system.
func (b bookFlag) files() (fs.FS, error) {
	if b.Book == "" {
		return demo.Book(), nil
	}
	info, err := os.Stat(b.Book)
	if err != nil {
		return nil, fmt.Errorf("no book at %s: give the folder that holds its .hcl files", b.Book)
	}
	if !info.IsDir() {
		return nil, fmt.Errorf("%s is a file: give the folder that holds the book's .hcl files", b.Book)
	}
	return os.DirFS(b.Book), nil
}

// load reads the book and prints its errors; advice is check's business.
func (b bookFlag) load(ctx context.Context, stderr io.Writer) (*book.Book, error) {
	files, err := b.files()
	if err != nil {
		return nil, err
	}
	loaded, diags := book.Load(ctx, files)
	if !diags.HasErrors() {
		return loaded, nil
	}
	for _, d := range diags {
		if d.Severity == book.Error {
			d.Write(stderr, files)
		}
	}
	return nil, errFinding
}

func (b bookFlag) desk(o *out) (*ask.Desk, error) {
	loaded, err := b.load(o, o.stderr)
	if err != nil {
		return nil, err
	}
	return ask.NewDesk(loaded), nil
}
