package book

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Print writes a book as one file of the book language. Loading that file gives
// the same book, but for the places in the text; comments and the split into
// files are gone. The error is that of w.
func Print(w io.Writer, b *Book) error {
	p := &printer{book: b}
	for _, word := range topWords {
		for _, it := range p.items(word) {
			p.item(it)
		}
	}
	_, err := p.out.WriteTo(w)
	return err
}

// printer writes blocks.
type printer struct {
	out   bytes.Buffer
	book  *Book
	depth int
	begun bool
}

// across is one item on all builds; nil where it does not exist.
type across []Item

func (a across) first() Item {
	return a[slices.IndexFunc(a, func(it Item) bool { return it != nil })]
}

// items gives the items of one kind in the order of the book.
func (p *printer) items(kind string) []across {
	if kind == "variant" {
		var all []across
		for _, v := range p.book.Variants {
			all = append(all, across{v})
		}
		return all
	}
	byID := map[string]across{}
	var all []across
	for i, b := range p.book.builds {
		for id, it := range b.items {
			if it.Named().Kind != kind {
				continue
			}
			if byID[id] == nil {
				byID[id] = make(across, len(p.book.builds))
				all = append(all, byID[id])
			}
			byID[id][i] = it
		}
	}
	slices.SortFunc(all, func(a, b across) int { return comparePlaces(a.first().Named().Range, b.first().Named().Range) })
	return all
}

func (p *printer) item(it across) {
	head := it.first().Named()
	same, onBuild := p.merge(it)
	if slices.Contains(it, nil) {
		same.list("only", p.builds(it))
	}
	if p.begun {
		p.out.WriteString("\n")
	}
	p.begun = true
	p.block(head.Kind, strings.TrimPrefix(head.ID, EffectID("")), same, func() {
		for i, a := range onBuild {
			if len(a) > 0 {
				p.block("variant", p.book.Variants[i].ID, a, nil)
			}
		}
		p.inside(it.first())
	})
}

func (p *printer) builds(it across) []string {
	var ids []string
	for i := range it {
		if it[i] != nil {
			ids = append(ids, p.book.Variants[i].ID)
		}
	}
	return ids
}

// merge parts the attributes of an item into those of the block itself and those
// that its variant blocks say otherwise. A variant block cannot take an
// attribute away, so one that some build lacks goes into the variant blocks.
func (p *printer) merge(it across) (same attributes, onBuild []attributes) {
	onBuild = make([]attributes, len(it))
	lists := make([]attributes, len(it))
	exist := 0
	for i := range it {
		if it[i] != nil {
			lists[i] = attributesOf(it[i])
			exist++
		}
	}
	for _, name := range namesIn(lists) {
		base := ""
		if count, first := having(lists, name); count == exist {
			base = first
			same.add(name, base)
		}
		for i, list := range lists {
			if text, ok := list.find(name); ok && text != base {
				onBuild[i].add(name, text)
			}
		}
	}
	return same, onBuild
}

// namesIn gives all names of some lists, each after those that stand before it.
func namesIn(lists []attributes) []string {
	var names []string
	for _, list := range lists {
		at := 0
		for _, a := range list {
			if i := slices.Index(names, a.name); i >= 0 {
				at = i + 1
				continue
			}
			names = slices.Insert(names, at, a.name)
			at++
		}
	}
	return names
}

// having counts the lists that have a name, and gives its text in the first.
func having(lists []attributes, name string) (count int, first string) {
	for _, list := range lists {
		if text, ok := list.find(name); ok {
			if count == 0 {
				first = text
			}
			count++
		}
	}
	return count, first
}

func (a attributes) find(name string) (text string, ok bool) {
	for _, x := range a {
		if x.name == name {
			return x.text, true
		}
	}
	return "", false
}

// inside writes the sub-blocks of an item, which are the same on all builds.
func (p *printer) inside(item Item) {
	switch x := item.(type) {
	case *Aircraft:
		for _, s := range x.Settings {
			p.block("setting", s.Name, settingAttributes(s), nil)
		}
		for _, t := range x.Telling {
			var a attributes
			a.telling(*t)
			p.block("telling", t.Level, a, nil)
		}
	case *Unit:
		for _, f := range x.Faults {
			var a attributes
			if f.Title != spaced(f.ID) {
				a.text("title", f.Title)
			}
			a.truth("stops", f.Stops)
			a.number("rate_per_hour", f.RatePerHour)
			a.number("checked_every_h", f.CheckedH)
			p.block("fault", f.ID, a, nil)
		}
	case *Procedure:
		p.steps(x.Steps)
	case *Bulletin:
		p.steps(x.Steps)
	case *Performance:
		for _, t := range x.Tables {
			p.block(t.Kind, t.Setting, tableAttributes(t), nil)
		}
		for _, f := range x.Factors {
			p.block("factor", f.ID, factorAttributes(f), nil)
		}
	case *Deferral:
		p.acts("set_up", x.SetUps)
	case *Flight:
		p.acts("act", x.Acts)
	case *Claim:
		for _, g := range x.Given {
			p.given(g)
		}
	}
}

func (p *printer) steps(steps []*Step) {
	for _, s := range steps {
		p.block(s.Kind, "", stepAttributes(s), func() {
			if s.Kind != "decide" && s.Kind != "tell" {
				p.steps(s.Then)
				return
			}
			for _, branch := range []struct {
				word  string
				steps []*Step
			}{{"then", s.Then}, {"else", s.Else}, {"unknown", s.Unknown}} {
				if len(branch.steps) > 0 {
					p.block(branch.word, "", nil, func() { p.steps(branch.steps) })
				}
			}
		})
	}
}

func (p *printer) acts(word string, acts []*Act) {
	for _, a := range acts {
		p.block(word, a.Title, actAttributes(a), nil)
	}
}

func (p *printer) given(g *Given) {
	var a attributes
	a.id("variant", g.Variant)
	a.id("flight", g.Flight)
	a.failures("inoperative", g.Inoperative)
	a = append(a, strikeAttributes(g.Strikes[0])...)
	a.text("crew", g.Crew)
	var plan []string
	for _, l := range g.Plan {
		plan = append(plan, l.Text)
	}
	a.words("plan", plan)
	a.text("turn", g.Turn)
	var expect []string
	for _, e := range g.Expect {
		expect = append(expect, e.String())
	}
	a.list("expect", expect)
	p.block("given", g.Title, a, func() {
		p.acts("set_up", g.SetUps)
		p.acts("act", g.Acts)
		for _, s := range g.Strikes[1:] {
			p.block("also", "", strikeAttributes(s), nil)
		}
	})
}

// block writes one block, its equals signs below each other; inside writes what
// stands in it beside the attributes.
func (p *printer) block(word, label string, a attributes, inside func()) {
	margin := strings.Repeat("  ", p.depth)
	fmt.Fprintf(&p.out, "%s%s ", margin, word)
	if label != "" {
		fmt.Fprintf(&p.out, "%s ", quote(label))
	}
	p.out.WriteString("{\n")
	width := 0
	for _, x := range a {
		width = max(width, len(x.name))
	}
	for _, x := range a {
		fmt.Fprintf(&p.out, "%s  %-*s = %s\n", margin, width, x.name, x.text)
	}
	p.depth++
	if inside != nil {
		inside()
	}
	p.depth--
	if bytes.HasSuffix(p.out.Bytes(), []byte("{\n")) {
		p.out.Truncate(p.out.Len() - 1)
		margin = ""
	}
	fmt.Fprintf(&p.out, "%s}\n", margin)
}
