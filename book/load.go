package book

import (
	"context"
	"io/fs"
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Load reads every .hcl file of fsys, sub-folders included, and gives the book
// they make with what is worth a second look, or, if anything is wrong, no book
// and everything that is wrong. It reads nothing but fsys, and the same files
// always give the same result. When ctx ends, so does Load, with an error.
func Load(ctx context.Context, fsys fs.FS) (*Book, Diagnostics) {
	l := newLoader()
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
	decls    []*declaration                        // in the order of the book
	acts     hclsyntax.Blocks                      // of every flight
	chapters map[string]*hclsyntax.Attribute       // by file: of the blocks in it that say none; nil where the file has begun without
	twins    map[*hclsyntax.Block]*hclsyntax.Block // of the other side, by the block that is mirrored
	byID     map[string]*declaration
	variants []*declaration
	builders []*builder
	cache    map[hclsyntax.Expression]checked
	near     map[string]string // suggestions made, by id and kinds
	marks    int               // read so far, see guard
	spoiled  map[string]bool   // ids of blocks that could not be taken in
	torn     map[string]bool   // files of which a part could not be read
}

func newLoader() *loader {
	return &loader{
		lines: lines{}, byID: map[string]*declaration{}, chapters: map[string]*hclsyntax.Attribute{}, twins: map[*hclsyntax.Block]*hclsyntax.Block{}, cache: map[hclsyntax.Expression]checked{},
		near: map[string]string{}, spoiled: map[string]bool{}, torn: map[string]bool{},
	}
}

// followUps are codes that are mostly consequences if part of the text could
// not be read.
var followUps = []string{
	"empty-book", "missing-attribute", "unknown-id", "unknown-fault", "unknown-fact", "absent", "incomplete", "no-aircraft", "variant",
}

// add takes a diagnostic, unless it only follows from text that could not be read.
func (l *loader) add(d Diagnostic) {
	if len(l.torn) > 0 && (d.Severity == Advice || slices.Contains(followUps, d.Code)) {
		return
	}
	if l.torn[d.Subject.File] && (d.Code == "unknown-block" || d.Code == "unknown-attribute") {
		return
	}
	l.collector.add(d)
}

// tear notes text that could not be read.
func (l *loader) tear(d Diagnostic) {
	l.torn[d.Subject.File] = true
	l.collector.add(d)
}

func (l *loader) load(ctx context.Context, fsys fs.FS) *Book {
	bodies := l.parse(ctx, l.readSources(ctx, fsys))
	for _, body := range bodies {
		if !l.declare(body) {
			return nil
		}
	}
	if len(l.decls) == 0 {
		if !l.failed() && ctx.Err() == nil {
			l.add(emptyBook())
		}
		return nil
	}
	book := &Book{}
	l.findVariants(book)
	if len(l.decls)*len(book.Variants) > mostInAll {
		l.add(tooManyInAll())
		return nil
	}
	for i, v := range book.Variants {
		if l.stopped(ctx) {
			return nil
		}
		book.builds = append(book.builds, l.assemble(book, i, v.ID))
	}
	l.claims(book)
	if !l.failed() {
		l.checkSeen(book)
	}
	if !l.failed() {
		l.advise(book)
	}
	return book
}

// stopped tells whether the load should go on no further.
func (l *loader) stopped(ctx context.Context) bool { return ctx.Err() != nil }

// failed tells whether there is an error so far.
func (l *loader) failed() bool { return l.of[Error] > 0 }
