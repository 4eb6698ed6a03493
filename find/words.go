package find

import (
	"regexp"
	"strconv"
	"strings"

	"knockon/book"
	"knockon/say"
)

// token is a word of the text.
type token struct {
	text, folded string
	taken        bool
	parts        bool // a comma or the like stands before it
}

var wordForm = regexp.MustCompile(`\d{1,3}(?:,\d{3})+|[\p{L}\p{N}_.:'’/-]+|[,;+&()]`)

func tokensOf(text string) (list []token) {
	parts := false
	for _, w := range wordForm.FindAllString(text, -1) {
		if strings.ContainsAny(w, ",;+&()") && !strings.ContainsAny(w, "0123456789") {
			if w == "+" { // of a moment: it is read with it
				list = append(list, token{text: w, folded: w, parts: true})
			}
			parts = true
			continue
		}
		w = strings.Trim(w, ".:'’")
		if w == "" {
			continue
		}
		list = append(list, token{text: w, folded: fold(w), parts: parts})
		parts = false
	}
	return list
}

// fold makes words equal that differ in case, dashes and underscores.
func fold(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == '_' || r == '-' || r == ' ' }), " ")
}

// reader reads one text.
type reader struct {
	index   *Index
	tokens  []token
	build   *book.Build
	names   *names
	parts   []Part
	strange []Strange
}

// span looks for the longest run of words that are not taken for which is says yes.
func (r *reader) span(is func(text string) bool) (from, to int, ok bool) {
	for n := min(len(r.tokens), mostSpan); n > 0; n-- {
		for i := 0; i+n <= len(r.tokens); i++ {
			if r.free(i, i+n) && is(r.text(i, i+n)) {
				return i, i + n, true
			}
		}
	}
	return 0, 0, false
}

// mostSpan is the most words of one name or moment.
const mostSpan = 12

func (r *reader) free(from, to int) bool {
	for _, t := range r.tokens[from:to] {
		if t.taken {
			return false
		}
	}
	return true
}

func (r *reader) text(from, to int) string {
	var words []string
	for _, t := range r.tokens[from:to] {
		words = append(words, t.text)
	}
	return strings.Join(words, " ")
}

func (r *reader) take(from, to int, p Part) {
	p.Words = r.text(from, to)
	if p.Others == nil {
		p.Others = []Choice{}
	}
	r.parts = append(r.parts, p)
	for i := range r.tokens[from:to] {
		r.tokens[from+i].taken = true
	}
	if to < len(r.tokens) {
		r.tokens[to].parts = true
	}
}

// aircraft takes the build and the flight that are named, by id or by title.
func (r *reader) aircraft() {
	r.build, _ = r.index.book.Build("")
	var builds, flights []named
	for _, v := range r.index.book.Variants {
		builds = append(builds, named{v.ID, v.Title, v.AlsoCalled})
	}
	if id, ok := r.one(Build, builds); ok {
		r.build, _ = r.index.book.BuildNamed(id)
	}
	for _, f := range r.build.Flights {
		flights = append(flights, named{f.ID, f.Title, f.AlsoCalled})
	}
	r.one(Flight, flights)
	r.names = r.index.byBuild[r.build.Variant]
}

// named is something with an id, of which one is chosen.
type named struct {
	id, title string
	also      []string
}

// called lists how it may be called, folded: by its id, its title, or that up to
// its first comma or colon.
func (n named) called() []string {
	short := n.title
	if i := strings.IndexAny(short, ",:"); i > 0 {
		short = short[:i]
	}
	list := []string{fold(n.id), fold(n.title), fold(short)}
	for _, a := range n.also {
		list = append(list, fold(a))
	}
	return list
}

func (r *reader) one(role string, list []named) (id string, ok bool) {
	var found named
	from, to, ok := r.span(func(text string) bool {
		for _, n := range list {
			for _, c := range n.called() {
				if c == strings.TrimPrefix(fold(text), "the ") {
					found = n
					return true
				}
			}
		}
		return false
	})
	if !ok {
		return "", false
	}
	p := Part{Role: role, Title: found.title, Refs: []string{found.id}}
	for _, n := range list {
		if n.id != found.id {
			p.Others = append(p.Others, Choice{Title: n.title, refs: []string{n.id}})
		}
	}
	p.cut()
	r.take(from, to, p)
	return found.id, true
}

// cut keeps the first of the other meanings.
func (p *Part) cut() {
	if n := len(p.Others); n > mostOthers {
		p.Others, p.More = p.Others[:mostOthers], n-mostOthers
	}
}

// moment takes the longest run of words that is a moment, unless they begin a longer
// name of something that can fail.
func (r *reader) moment() {
	var m book.Moment
	from, to, ok := r.span(func(text string) bool {
		read, err := book.ParseMoment(text, r.build)
		if err != nil || read == (book.Moment{}) || r.names.longer(r.tokens, text) {
			return false
		}
		m = read
		return true
	})
	if !ok {
		return
	}
	p := Part{Role: When, Title: say.Capital(m.Spoken(r.build)), Refs: []string{m.String()}}
	if m.Phase != "" && m.AtFt == 0 {
		for _, other := range r.build.Phases {
			if o := (book.Moment{Phase: other.ID, Offset: m.Offset}); other.ID != m.Phase && akin(other.Title, r.build.Title(m.Phase)) {
				p.Others = append(p.Others, Choice{Title: o.Spoken(r.build), refs: []string{o.String()}})
			}
		}
	}
	p.cut()
	r.take(from, to, p)
}

// akin says that two titles share a word that tells something.
func akin(a, b string) bool {
	for _, w := range strings.Fields(fold(a)) {
		if w = strings.Trim(w, ",:"); len(w) < 4 || empty[w] {
			continue
		}
		for _, v := range strings.Fields(fold(b)) {
			if strings.Trim(v, ",:") == w {
				return true
			}
		}
	}
	return false
}

// conduct takes who acts.
func (r *reader) conduct() {
	words := map[string]string{"hands off": "none", "nobody acts": "none", "by the book": "by_the_book", "with the crew": "by_the_book", "slow crew": "slowly", "slowly": "slowly"}
	titles := map[string]string{"none": "Hands off: nobody acts on it", "by_the_book": "A crew by the book act on it", "slowly": "A crew by the book act on it, and everything takes them twice as long"}
	var crew string
	from, to, ok := r.span(func(text string) bool { crew = words[fold(text)]; return crew != "" })
	if !ok {
		return
	}
	other := map[string]string{"none": "by_the_book", "by_the_book": "none", "slowly": "by_the_book"}[crew]
	r.take(from, to, Part{Role: Crew, Title: titles[crew], Refs: []string{crew}, Others: []Choice{{Title: titles[other], refs: []string{other}}}})
}

var chapterForm = regexp.MustCompile(`^(?:ata|chapter) ?(\d{2})$`)

// chapter takes "ATA 24"; what can fail in it is listed, and none of it chosen.
func (r *reader) chapter() {
	number := 0
	from, to, ok := r.span(func(text string) bool {
		f := chapterForm.FindStringSubmatch(fold(text))
		if f == nil {
			return false
		}
		number, _ = strconv.Atoi(f[1])
		return len(r.names.in(number)) > 0
	})
	if ok {
		r.take(from, to, r.chapterPart(number))
	}
}

func (r *reader) chapterPart(number int) Part {
	p := Part{Role: Chapter, Title: strings.TrimSpace(strconv.Itoa(number) + " " + book.ChapterTitle(number)), Refs: []string{}}
	for _, e := range r.names.in(number) {
		p.Others = append(p.Others, Choice{Title: e.title, refs: []string{e.ref}})
	}
	if n := len(p.Others); n > mostOfChapter {
		p.Others, p.More = p.Others[:mostOfChapter], n-mostOfChapter
	}
	return p
}

// mostOfChapter is how much of a chapter is listed.
const mostOfChapter = 40
