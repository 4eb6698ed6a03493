package book

import "slices"

// SendTo lists the ids of a procedure and of those whose lines send to it, also by
// way of others.
func (b *Build) SendTo(p *Procedure) (ids []string) {
	ids = []string{p.ID}
	for i := 0; i < len(ids); i++ {
		for _, from := range b.Procedures {
			if !slices.Contains(ids, from.ID) && slices.ContainsFunc(b.sends(from), func(s *Step) bool { return s.GoTo == ids[i] }) {
				ids = append(ids, from.ID)
			}
		}
	}
	return ids
}

// sends lists the lines of a procedure, and of its bulletins, that send elsewhere.
func (b *Build) sends(p *Procedure) (lines []*Step) {
	sending := func(s *Step, _ string) {
		if s.GoTo != "" {
			lines = append(lines, s)
		}
	}
	WalkSteps(p.Steps, sending)
	for _, x := range b.Bulletins {
		if x.Procedure == p.ID {
			WalkSteps(x.Steps, sending)
		}
	}
	return lines
}

// checkSends refuses procedures that send to each other without end: a crew who
// follow them would never be done.
func (b *builder) checkSends() {
	clear := map[string]bool{}
	for _, p := range b.build.Procedures {
		b.followSends(p, nil, clear)
	}
}

// followSends reports the line that closes a ring; way are the procedures by which
// one came, and what is clear was followed already.
func (b *builder) followSends(p *Procedure, way []string, clear map[string]bool) {
	if clear[p.ID] {
		return
	}
	way = append(way, p.ID)
	for _, s := range b.build.sends(p) {
		to, ok := b.build.items[s.GoTo].(*Procedure)
		if !ok {
			continue
		}
		if i := slices.Index(way, to.ID); i >= 0 {
			b.add(listLoop(s.Range, append(slices.Clone(way[i:]), to.ID)))
			continue
		}
		b.followSends(to, way, clear)
	}
	clear[p.ID] = true
}
