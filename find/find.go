// Package find turns what a person types into a search, in plain words, into a
// question, and says how it took each part of it.
//
// Invariant: every word is either part of something that the answer says it
// understood, with what else it could have meant, or a word that carries nothing, or
// it stands among those that were not understood. Nothing is guessed in silence, and
// the same text on the same book means the same.
//
// Start reading at Index.Read; a part is Part, and how names are found is names.go.
package find

import (
	"slices"
	"strings"

	"knockon/book"
	"knockon/say"
	"knockon/scenario"
)

// Roles of a part, in the order in which a person thinks: what, when, which aircraft.
const (
	Fails   = "fails"
	Out     = "inoperative at dispatch"
	Chapter = "chapter"
	When    = "when"
	Build   = "build"
	Flight  = "flight"
	Crew    = "crew"
)

var roles = []string{Fails, Out, Chapter, When, Build, Flight, Crew}

// MostText bounds what is read, in bytes.
const MostText = 200

// mostOthers is how many other meanings of a part are listed.
const mostOthers = 6

// View is a text as it was understood. Text, JSON and page are made from it.
type View struct {
	Text     string         `json:"text"`
	Parts    []Part         `json:"parts"`
	Strange  []Strange      `json:"not_understood"`
	Says     string         `json:"says"` // what was made of it, in a sentence
	Question scenario.Typed `json:"question"`
	Asks     bool           `json:"asks"` // something fails: the question has an answer
	Command  string         `json:"command,omitempty"`
	Caution  string         `json:"caution"`
}

// Part is what some of the words were taken for.
type Part struct {
	Words  string   `json:"words"`
	Role   string   `json:"role"`
	Title  string   `json:"title"`
	Refs   []string `json:"refs"` // as a question has them
	Others []Choice `json:"others"`
	More   int      `json:"more,omitempty"` // so many further meanings are not listed
}

// Choice is another meaning of a part, with the whole question in which it stands.
type Choice struct {
	Title    string         `json:"title"`
	Question scenario.Typed `json:"question"`

	refs []string
}

// Question is what a text asks.
type Question = scenario.Typed

// Strange is a word that was not understood, and what may have been meant.
type Strange struct {
	Word string `json:"word"`
	Near string `json:"near,omitempty"`
}

// Index finds names in a book.
type Index struct {
	book    *book.Book
	byBuild map[string]*names
}

// New makes the index of a book. It is frozen and may be used from many goroutines.
func New(b *book.Book) *Index {
	x := &Index{book: b, byBuild: map[string]*names{}}
	for _, v := range b.Variants {
		build, _ := b.BuildNamed(v.ID)
		x.byBuild[v.ID] = namesOf(build)
	}
	return x
}

// Read says how a text is understood.
func (x *Index) Read(text string) *View {
	text = strings.TrimSpace(strings.ToValidUTF8(text[:min(len(text), MostText)], ""))
	r := &reader{index: x, tokens: tokensOf(text)}
	r.aircraft()
	r.moment()
	r.conduct()
	r.chapter()
	r.things()
	v := &View{Text: text, Parts: r.sorted(), Strange: r.strange, Caution: book.Caution}
	v.Question = question(v.Parts)
	v.Asks = len(v.Question.Fail) > 0 && len(v.Question.Fail[0].What) > 0
	for i := range v.Parts {
		for j := range v.Parts[i].Others {
			c := &v.Parts[i].Others[j]
			c.Question = question(replaced(v.Parts, i, *c))
		}
	}
	v.Says = v.says()
	if v.Asks {
		v.Command = command(v.Question)
	}
	return v
}

func (r *reader) sorted() []Part {
	slices.SortStableFunc(r.parts, func(a, b Part) int { return slices.Index(roles, a.Role) - slices.Index(roles, b.Role) })
	if r.parts == nil {
		return []Part{}
	}
	return r.parts
}

// replaced is the parts with another meaning of one of them. A thing of a chapter
// that is chosen fails.
func replaced(parts []Part, i int, c Choice) []Part {
	list := slices.Clone(parts)
	list[i].Refs = c.refs
	if list[i].Role == Chapter {
		list[i].Role = Fails
	}
	return list
}

// question puts parts together.
func question(parts []Part) (q scenario.Typed) {
	var k scenario.Strike
	for _, p := range parts {
		switch p.Role {
		case Fails:
			k.What = append(k.What, missing(k.What, p.Refs)...)
		case Out:
			q.Out = append(q.Out, missing(q.Out, p.Refs)...)
		case When:
			k.At = p.Refs[0]
		case Build:
			q.Build = p.Refs[0]
		case Flight:
			q.Flight = p.Refs[0]
		case Crew:
			q.Crew = p.Refs[0]
		}
	}
	if len(k.What) > 0 || k.At != "" {
		q.Fail = []scenario.Strike{k}
	}
	return q
}

func missing(have, more []string) []string {
	return slices.DeleteFunc(slices.Clone(more), func(s string) bool { return slices.Contains(have, s) })
}

// says tells in a sentence what was made of a text.
func (v *View) says() string {
	strange := ""
	if n := len(v.Strange); n > 0 {
		var words []string
		for _, s := range v.Strange {
			words = append(words, say.Quoted(s.Word))
		}
		strange = say.And(words) + say.Plural(n, " was", " were") + " not understood"
	}
	switch {
	case v.Text == "":
		return "Nothing was typed. " + wayOut
	case len(v.Parts) == 0 && strange == "":
		return "There is nothing in it to look for. " + wayOut
	case len(v.Parts) == 0:
		return "Nothing of this was understood. " + wayOut
	case strange != "" && v.Asks:
		return strange + ": the question leaves " + say.Plural(len(v.Strange), "it", "them") + " out."
	case strange != "":
		return strange + ". " + wayOut
	case !v.Asks && len(v.Question.Out) > 0:
		return "All of it was understood; say what fails beside what is inoperative."
	case !v.Asks:
		return "All of it was understood; say what fails."
	}
	return "All of it was understood."
}

// wayOut is what to do where words mean nothing.
const wayOut = "The names are English, as the book gives them: try the beginning of one (gen), a chapter (ATA 24), a moment (in the climb), or choose from the list of all that can fail."

// command is the question as one types it.
func command(q scenario.Typed) string {
	words := []string{"knockon", "fail"}
	add := func(name, value string) {
		if value != "" {
			words = append(words, "--"+name, shell(value))
		}
	}
	words = append(words, q.Fail[0].What...)
	for _, o := range q.Out {
		add("out", o)
	}
	add("at", q.Fail[0].At)
	add("build", q.Build)
	add("flight", q.Flight)
	add("crew", q.Crew)
	return strings.Join(words, " ")
}

func shell(s string) string {
	if strings.ContainsAny(s, " ,") {
		return `"` + s + `"`
	}
	return s
}
