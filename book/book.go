package book

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
