// Package book turns a folder of text files that describe an aircraft type into
// a checked model of it, or into everything that is wrong with them. A Book that
// has been given out is frozen and consistent: every id in it is there on its
// build, every expression has its type, no value depends on itself but through a
// memory, and the same files make the same Book. It reads nothing but the fs.FS
// it is given.
//
// Begin with Load, then Build in model.go and Expr in expr.go; the language is
// described in docs/language.md, what it means in docs/meaning.md.
package book

// For maintainers, the way of a load: files.go reads the texts, guard.go keeps
// out what would make the parser go too deep, parse.go parses, declare.go takes
// in blocks by the tables in grammar.go, variants.go finds the builds, and for
// each of them assemble.go makes the items: infer.go finds the types of signals,
// check*.go check expressions, decode*.go the blocks, loops.go and continuous.go
// the whole. Diagnostics are made in say_*.go only, one constructor for each.

// Book is a whole book: all its blocks as written, and one Build for every
// build standard. It is frozen after Load.
type Book struct {
	Variants []*Variant
	builds   []*Build // in the order of Variants
}

// Build returns the build of a variant; "" means the first. ok is false for an
// id that is no variant.
func (b *Book) Build(variant string) (build *Build, ok bool) {
	for i, v := range b.Variants {
		if variant == "" || v.ID == variant {
			return b.builds[i], true
		}
	}
	return nil, false
}
