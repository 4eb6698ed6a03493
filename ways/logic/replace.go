package logic

import "fmt"

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

// Assume returns t as it is when the given events have happened for certain:
// units that are already inoperative, for example.
func (l *Logic) Assume(t Term, happened ...Term) (Term, error) {
	with := map[int]Term{}
	for _, e := range happened {
		if l.Op(e) != Basic || e.Negated() {
			return t, fmt.Errorf("only an event can be assumed to have happened")
		}
		with[l.K(e)] = True
	}
	return l.Replace(t, with), nil
}

// Cause is one event that makes several others happen: an engine fire that
// takes a generator and a pump with it.
type Cause struct {
	Event   Term   // an event
	Members []Term // the events that it makes happen
}

// Spread returns t with each member of a cause made to happen by the cause as
// well as by itself, and by the causes of the cause. The causes then take part
// in t like any other event.
func (l *Logic) Spread(t Term, causes ...Cause) (Term, error) {
	by := map[Term][]Term{}
	for _, c := range causes {
		if err := l.checkCause(c); err != nil {
			return t, err
		}
		for _, m := range c.Members {
			by[m] = append(by[m], c.Event)
		}
	}
	with := map[int]Term{}
	for _, e := range l.basics {
		if len(by[e]) > 0 {
			with[l.K(e)] = l.Or(origins(e, by)...)
		}
	}
	return l.Replace(t, with), nil
}

func (l *Logic) checkCause(c Cause) error {
	if l.Op(c.Event) != Basic || c.Event.Negated() {
		return fmt.Errorf("a cause must be an event")
	}
	for _, m := range c.Members {
		if l.Op(m) != Basic || m.Negated() {
			return fmt.Errorf("a member of cause %s is no event", l.events[l.K(c.Event)].Name)
		}
	}
	return nil
}

// origins lists e and every cause that leads to it, near ones first.
func origins(e Term, by map[Term][]Term) []Term {
	list := []Term{e}
	seen := map[Term]bool{e: true}
	for i := 0; i < len(list); i++ {
		for _, c := range by[list[i]] {
			if !seen[c] {
				seen[c] = true
				list = append(list, c)
			}
		}
	}
	return list
}
