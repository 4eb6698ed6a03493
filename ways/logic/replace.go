package logic

// Replace returns t with each event that is a key of with replaced by its term.
func (l *Logic) Replace(t Term, with map[int]Term) Term {
	if len(with) == 0 {
		return t
	}
	image := map[Term]Term{}
	for _, n := range l.Reach(t) {
		image[n] = l.image(n, image, with)
	}
	return image[t.Plain()] ^ t&1
}

// image rebuilds the node of n from the images of its arguments.
func (l *Logic) image(n Term, image map[Term]Term, with map[int]Term) Term {
	if l.Op(n) == Basic {
		if t, ok := with[l.K(n)]; ok {
			return t
		}
		return n
	}
	old := l.Args(n)
	args := make([]Term, len(old))
	for i, a := range old {
		args[i] = image[a.Plain()] ^ a&1
	}
	switch l.Op(n) {
	case And:
		return l.And(args...)
	case Or:
		return l.Or(args...)
	case AtLeast:
		return l.AtLeast(l.K(n), args...)
	case Xor:
		return l.Xor(args...)
	}
	return n
}
