package web

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"knockon/book"
)

// catalogue is all that can fail on one build, by chapter.
type catalogue struct {
	Chapters []chapter
}

// chapter is one ATA chapter of it.
type chapter struct {
	Title   string
	Entries []entry
	Open    bool
	Hidden  bool
}

// entry is one thing that can fail.
type entry struct {
	Ref    string // as in an address: unit, unit.fault, or event
	Title  string
	Is     string // "" for a unit, "fault" or "common cause"
	Search string // lower case: what it is found by
	Hidden bool
}

// catalogues keeps the catalogue of each build.
type catalogues struct {
	mu      sync.Mutex
	byBuild map[string]*catalogue
}

func newCatalogues() *catalogues { return &catalogues{byBuild: map[string]*catalogue{}} }

func (c *catalogues) of(b *book.Build) *catalogue {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.byBuild[b.Variant] == nil {
		c.byBuild[b.Variant] = newCatalogue(b)
	}
	return c.byBuild[b.Variant]
}

func newCatalogue(b *book.Build) *catalogue {
	c := &catalogue{}
	byChapter := map[int][]entry{}
	add := func(ref string, chapter int, is string) {
		title := b.FailureTitle(ref)
		unit, _, _ := strings.Cut(ref, ".")
		item, _ := b.Item(unit)
		text := strings.ToLower(strings.Join([]string{title, ref, strings.ReplaceAll(ref, "_", " "), chapterTitle(chapter), is, strings.Join(item.Named().AlsoCalled, " ")}, " "))
		byChapter[chapter] = append(byChapter[chapter], entry{Ref: ref, Title: title, Is: is, Search: text})
	}
	for _, f := range b.Failures() {
		item, _ := b.Item(f.Unit)
		is := map[string]string{"event": "common cause"}[item.Named().Kind]
		if f.Fault != "" {
			is = "fault"
		}
		add(f.String(), item.Named().Chapter, is)
	}
	for n, entries := range byChapter {
		c.Chapters = append(c.Chapters, chapter{Title: chapterTitle(n), Entries: entries})
	}
	slices.SortFunc(c.Chapters, func(a, b chapter) int { return strings.Compare(a.Title, b.Title) })
	return c
}

// matching opens what has every word of a search in it and hides the rest,
// which a script may show again.
func (c *catalogue) matching(search string) (chapters []chapter, found int) {
	words := strings.Fields(strings.ToLower(search))
	if len(words) == 0 {
		return c.Chapters, 0
	}
	for _, ch := range c.Chapters {
		looked, hits := chapter{Title: ch.Title}, 0
		for _, e := range ch.Entries {
			e.Hidden = slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(e.Search, w) })
			if !e.Hidden {
				hits++
			}
			looked.Entries = append(looked.Entries, e)
		}
		looked.Open, looked.Hidden = hits > 0, hits == 0
		chapters = append(chapters, looked)
		found += hits
	}
	return chapters, found
}

// chapterTitle names a chapter; titles sort in the order of the numbers.
func chapterTitle(n int) string {
	if n == 0 {
		return "Other"
	}
	return strings.TrimSpace(fmt.Sprintf("%02d %s", n, book.ChapterTitle(n)))
}
