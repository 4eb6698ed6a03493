package sight

import "knockon/book"

// known is the condition under which another can be seen; nil for always. What
// decides alone is enough: a no of an "and", a yes of an "or", whatever is dark
// beside it. In all else every part must be lit.
func known(b *book.Build, e *book.Expr) *book.Expr {
	if e.Op == book.OpRef {
		if item, _ := b.Item(e.ID); item != nil {
			if i, ok := item.(*book.Indication); ok {
				return i.LitBy
			}
		}
		return nil
	}
	parts, dark := make([]*book.Expr, len(e.Args)), false
	for i, a := range e.Args {
		parts[i] = known(b, a)
		dark = dark || parts[i] != nil
	}
	switch {
	case !dark:
		return nil
	case e.Op == book.OpAnd || e.Op == book.OpAll:
		return enough(e, parts, len(parts))
	case e.Op == book.OpOr || e.Op == book.OpAny:
		return enough(e, parts, 1)
	case e.Op == book.OpAtLeast:
		return enough(e, parts, int(e.Num))
	case e.Op == book.OpIf:
		return all(e, parts[0], choice(e, e.Args[0], parts[1], parts[2]))
	}
	return all(e, parts...)
}

// enough says that so many are seen to be yes, or so many to be no that the rest
// does not suffice.
func enough(e *book.Expr, parts []*book.Expr, want int) *book.Expr {
	var yes, no []*book.Expr
	for i, a := range e.Args {
		yes = append(yes, all(e, parts[i], a))
		no = append(no, all(e, parts[i], made(e, book.OpNot, a)))
	}
	return made(e, book.OpOr, atLeast(e, want, yes), atLeast(e, len(parts)-want+1, no))
}

func atLeast(e *book.Expr, want int, list []*book.Expr) *book.Expr {
	n := made(e, book.OpAtLeast, list...)
	n.Num = float64(want)
	return n
}

// all joins conditions; nil counts as yes, and of none nil comes.
func all(e *book.Expr, list ...*book.Expr) *book.Expr {
	var parts []*book.Expr
	for _, x := range list {
		if x != nil {
			parts = append(parts, x)
		}
	}
	switch len(parts) {
	case 0:
		return nil
	case 1:
		return parts[0]
	}
	return made(e, book.OpAll, parts...)
}

// choice is what holds of the way that is taken; nil counts as yes.
func choice(e, which, a, b *book.Expr) *book.Expr {
	if a == nil && b == nil {
		return nil
	}
	for _, p := range []**book.Expr{&a, &b} {
		if *p == nil {
			*p = yesNo(e, true)
		}
	}
	return made(e, book.OpIf, which, a, b)
}

// made makes a yes/no at the place of another.
func made(at *book.Expr, op book.Op, args ...*book.Expr) *book.Expr {
	return &book.Expr{Op: op, Args: args, Type: book.YesNo, Range: at.Range}
}

func yesNo(at *book.Expr, yes bool) *book.Expr {
	e := made(at, book.OpYesNo)
	if yes {
		e.Num = 1
	}
	return e
}
