package book

// SeenWhen is the condition under which another can be seen; nil for always. What
// decides alone is enough: a no of an "and", a yes of an "or", whatever is dark
// beside it. In all else every part must be lit.
func (b *Build) SeenWhen(e *Expr) *Expr {
	if e.Op == OpRef {
		if item, _ := b.Item(e.ID); item != nil {
			if i, ok := item.(*Indication); ok {
				return i.LitBy
			}
		}
		return nil
	}
	parts, dark := make([]*Expr, len(e.Args)), false
	for i, a := range e.Args {
		parts[i] = b.SeenWhen(a)
		dark = dark || parts[i] != nil
	}
	switch {
	case !dark:
		return nil
	case e.Op == OpAnd || e.Op == OpAll:
		return enough(e, parts, len(parts))
	case e.Op == OpOr || e.Op == OpAny:
		return enough(e, parts, 1)
	case e.Op == OpAtLeast:
		return enough(e, parts, int(e.Num))
	case e.Op == OpIf:
		return all(e, parts[0], choice(e, e.Args[0], parts[1], parts[2]))
	}
	return all(e, parts...)
}

// enough says that so many are seen to be yes, or so many to be no that the rest
// does not suffice.
func enough(e *Expr, parts []*Expr, want int) *Expr {
	var yes, no []*Expr
	for i, a := range e.Args {
		yes = append(yes, all(e, parts[i], a))
		no = append(no, all(e, parts[i], made(e, OpNot, a)))
	}
	return made(e, OpOr, atLeast(e, want, yes), atLeast(e, len(parts)-want+1, no))
}

func atLeast(e *Expr, want int, list []*Expr) *Expr {
	n := made(e, OpAtLeast, list...)
	n.Num = float64(want)
	return n
}

// all joins conditions; nil counts as yes, and of none nil comes.
func all(e *Expr, list ...*Expr) *Expr {
	var parts []*Expr
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
	return made(e, OpAll, parts...)
}

// choice is what holds of the way that is taken; nil counts as yes.
func choice(e, which, a, b *Expr) *Expr {
	if a == nil && b == nil {
		return nil
	}
	for _, p := range []**Expr{&a, &b} {
		if *p == nil {
			*p = yesNo(e, true)
		}
	}
	return made(e, OpIf, which, a, b)
}

// made makes a yes/no at the place of another.
func made(at *Expr, op Op, args ...*Expr) *Expr {
	return &Expr{Op: op, Args: args, Type: YesNo, Range: at.Range}
}

func yesNo(at *Expr, yes bool) *Expr {
	e := made(at, OpYesNo)
	if yes {
		e.Num = 1
	}
	return e
}
