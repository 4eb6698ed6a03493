package book

import (
	"context"
	"io/fs"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Load reads every .hcl file of fsys, sub-folders included, and gives the book
// they make with what is worth a second look, or, if anything is wrong, no book
// and everything that is wrong. It reads nothing but fsys, and the same files
// always give the same result. When ctx ends, so does Load, with an error.
func Load(ctx context.Context, fsys fs.FS) (*Book, Diagnostics) {
	l := &loader{lines: lines{}, byID: map[string]*declaration{}, cache: map[hclsyntax.Expression]checked{}}
	book := l.load(ctx, fsys)
	if ctx.Err() != nil {
		l.add(stoppedEarly(ctx.Err()))
	}
	all := l.sorted()
	for i := range all {
		all[i].Line = l.lines.of(all[i].Subject)
	}
	if all.HasErrors() {
		return nil, all
	}
	return book, all
}

// loader carries a load from the files to the book.
type loader struct {
	collector
	lines    lines
	decls    []*declaration // in the order of the book
	byID     map[string]*declaration
	names    []string // the ids of decls
	variants []*declaration
	builders []*builder
	cache    map[hclsyntax.Expression]checked
}

func (l *loader) load(ctx context.Context, fsys fs.FS) *Book {
	bodies := l.parse(ctx, l.readSources(ctx, fsys))
	for _, body := range bodies {
		l.declare(body)
	}
	if len(l.decls) == 0 {
		if !l.failed() {
			l.add(emptyBook())
		}
		return nil
	}
	book := &Book{}
	l.findVariants(book)
	for i, v := range book.Variants {
		if l.stopped(ctx) {
			return nil
		}
		book.builds = append(book.builds, l.assemble(book, i, v.ID))
	}
	l.claims(book)
	return book
}

// stopped tells whether the load should go on no further.
func (l *loader) stopped(ctx context.Context) bool { return ctx.Err() != nil }

// failed tells whether there is an error so far.
func (l *loader) failed() bool { return l.of[Error] > 0 }
