package book

import "slices"

// Unmodelled is what the book does not work out about an item, in its own words.
type Unmodelled struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Text  string `json:"text"`
}

func (l Unmodelled) String() string { return l.Title + ": " + l.Text }

// NotModelled lists what the book does not work out that bears on some items: about the
// aircraft, about these, and about what a common cause among them brings. Each once.
func (b *Build) NotModelled(ids ...string) []Unmodelled {
	list := []Unmodelled{}
	add := func(h *Head, title string) {
		l := Unmodelled{h.ID, title, h.NotModelled}
		if l.Text != "" && !slices.Contains(list, l) {
			list = append(list, l)
		}
	}
	if a := b.Aircraft; a != nil {
		add(&a.Head, a.Title)
	}
	for _, id := range ids {
		item, ok := b.items[id]
		if !ok {
			continue
		}
		add(item.Named(), b.Title(id))
		if e, ok := item.(*Event); ok {
			for _, f := range e.Fails {
				add(b.items[f.Unit].Named(), b.Title(f.Unit))
			}
		}
	}
	return list
}
