package mutate

import (
	"slices"

	"knockon/book"
)

// How many mutations of a subject, and of what lies under it, are tried before
// the subject is drawn into the failure by force.
const (
	mostFirst  = 8
	mostNear   = 6
	mostForced = 4
)

// candidates lists the mutations that may make an expectation untrue, the
// likely ones first: of the items that it names, then of what these depend on.
func candidates(b *book.Build, g *book.Given, e *book.Expr) []mutation {
	c := &collector{build: b, given: g, seen: map[string]bool{}}
	var subjects []string
	e.Walk(func(x *book.Expr) {
		if x.Op == book.OpLedger {
			c.subject(x)
		}
		if x.Op == book.OpRef || x.Op == book.OpFailed || x.Op == book.OpFault {
			subjects = append(subjects, x.ID)
		}
	})
	slices.SortStableFunc(subjects, func(a, b string) int { return c.late(a) - c.late(b) })
	c.under(subjects)
	if f, err := b.FlightNamed(g.Flight); err == nil {
		c.far = append(c.far, mutationsOf(b, f)...)
	}
	first, near, forced := min(len(c.first), mostFirst), min(len(c.far), mostNear), min(len(c.forced), mostForced)
	return slices.Concat(c.first[:first], c.far[:near], c.forced[:forced], c.first[first:], c.far[near:])
}

// late puts phases behind the other items that an expectation names: that a
// phase never comes says little about what was to happen in it.
func (c *collector) late(id string) int {
	if item, ok := c.build.Item(id); ok && item.Named().Kind == "phase" {
		return 1
	}
	return 0
}

type collector struct {
	build              *book.Build
	given              *book.Given
	seen               map[string]bool
	first, far, forced []mutation
}

// likely says, for each function of a claim, which kinds of mutation of its
// subject to try first.
var likely = map[string][]kind{
	"lost": {constYes, operand}, "not_told": {constYes, operand}, "kept": {operand},
	"told": {silence, constYes}, "told_late": {loud, silence, timer, constYes}, "only_shown": {silence, same, constYes},
	"told_wrong": {same, constNo, constYes}, "dark": {constYes}, "given": {constNo}, "held_back": {loud, constNo},
	"named": {silence, constYes}, "denied": {same, constYes}, "follows": {silence, constYes}, "known_late": {loud, silence, timer, constYes}, "hidden": {constYes, operand},
	"noticed": {constYes, constNo}, "false_conclusion": {silence, constYes},
	"false_alarm": {same, constNo}, "never_given": {constYes, loud},
}

// observed is the order for what an expectation merely depends on.
var observed = []kind{constYes, constNo, timer, operand, loud, negate, number}

// subject collects what a function of a claim asks about: the item itself,
// and for a function of the aircraft what tells of it.
func (c *collector) subject(x *book.Expr) {
	if len(x.Args) == 0 || x.Args[0].Op != book.OpRef || likely[x.Word] == nil {
		return
	}
	id := x.Args[0].ID
	var items []book.Item
	for _, a := range c.build.Alerts {
		if slices.Contains(a.Tells, id) && (x.Word == "told" || x.Word == "told_late") {
			items = append(items, a)
		}
	}
	for _, i := range c.build.Indications {
		if covers(i, id) && (x.Word == "told_wrong" || x.Word == "only_shown") {
			items = append(items, i)
		}
	}
	if item, ok := c.build.Item(id); ok {
		items = append(items, item)
	}
	var list []mutation
	for _, item := range items {
		c.take(item, &list)
	}
	list = slices.DeleteFunc(list, func(m mutation) bool { return m.kind == silence && m.about != id })
	c.first = append(c.first, sorted(list, likely[x.Word])...)
}

func covers(i *book.Indication, function string) bool {
	named := slices.Contains(i.Tells, function)
	i.Means.Walk(func(e *book.Expr) { named = named || e.Op == book.OpRef && e.ID == function })
	return named
}

// take collects an item's mutations.
func (c *collector) take(item book.Item, into *[]mutation) {
	id := item.Named().ID
	if c.seen[id] {
		return
	}
	c.seen[id] = true
	*into = append(*into, mutationsOf(c.build, item)...)
	if refs := c.failures(); len(refs) > 0 {
		c.forced = append(c.forced, drawnIn(item, refs[0])...)
	}
}

// sorted puts the preferred kinds first.
func sorted(list []mutation, prefer []kind) []mutation {
	rank := func(m mutation) int {
		if i := slices.Index(prefer, m.kind); i >= 0 {
			return i
		}
		return len(prefer)
	}
	slices.SortStableFunc(list, func(a, b mutation) int { return rank(a) - rank(b) })
	return list
}

// failures lists what the given fails, the members of events one by one.
func (c *collector) failures() (refs []book.FailureRef) {
	for _, k := range c.given.Strikes {
		for _, r := range k.Fail {
			item, _ := c.build.Item(r.Unit)
			if e, ok := item.(*book.Event); ok {
				refs = append(refs, e.Fails...)
			} else {
				refs = append(refs, r)
			}
		}
	}
	return refs
}

// under collects the items that an expectation names and all that they depend
// on, the nearest first.
func (c *collector) under(ids []string) {
	queue := ids
	for _, k := range c.given.Strikes {
		for _, r := range k.Fail {
			queue = append(queue, r.Unit)
		}
	}
	visited := map[string]bool{}
	for len(queue) > 0 {
		id := queue[0]
		queue = queue[1:]
		item, ok := c.build.Item(id)
		if !ok || visited[id] {
			continue
		}
		visited[id] = true
		var list []mutation
		c.take(item, &list)
		c.far = append(c.far, sorted(list, observed)...)
		queue = append(queue, c.below(item)...)
	}
}

// below lists the items that an item's expressions name.
func (c *collector) below(item book.Item) (ids []string) {
	all := lines(item)
	if a, ok := item.(*book.Alert); ok && a.GivenBy == nil {
		all = append(all, line{&a.Head, "alerts_given_by", &c.build.Aircraft.AlertsGivenBy})
	}
	for _, l := range all {
		(*l.at).Walk(func(e *book.Expr) {
			if e.Op == book.OpRef || e.Op == book.OpFailed || e.Op == book.OpFault {
				ids = append(ids, e.ID)
			}
		})
	}
	return ids
}
