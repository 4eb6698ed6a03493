package dispatch_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"knockon/book"
	"knockon/dispatch"
	"knockon/known"
	"knockon/ledger"
	"knockon/run"
	"knockon/scenario"
)

// randomBook is one of few units, so that one or two failures take much away: each
// item that can be deferred is one of two that do the same.
func randomBook(r *rand.Rand) string {
	var s strings.Builder
	pick := func(words ...string) string { return words[r.IntN(len(words))] }
	units := []string{"u0", "u1", "u2", "u3", "u4", "u5"}
	for i, u := range units {
		needs := ""
		if i > 3 {
			needs = "needs = " + pick("u0", "u1 || u2", `lever == "on" || u3`)
		}
		fmt.Fprintf(&s, "unit %q {\n %s\n fault \"lies\" {}\n}\n", u, needs)
	}
	s.WriteString("control \"lever\" {\n positions = [\"on\", \"off\"]\n initial = \"on\"\n}\nevent \"burst\" { fails = [" + pick("u0, u4", "u3, u5.lies", "u1, u2") + "] }\n")
	expr := func() string {
		a, b, c := pick(units...), pick(units...), pick(units...)
		return pick(a+" || "+b, a+" || "+b+" || "+c, "u0 || u1 || "+c, a+" && ("+b+" || "+c+")", "at_least(2, "+a+", "+b+", "+c+")", "!"+a+".lies || "+b, "held("+a+" || "+b+", 20)", a+" && total(!"+b+") < 60", "("+a+" || "+b+") && (climb || lever == \"on\")")
	}
	for i, severity := range []string{"minor", "major", "hazardous", "catastrophic", "catastrophic", "minor\"\n severity_if_hidden = \"catastrophic"} {
		wanted := pick("", "wanted = climb || cruise", "wanted = landing", "noticed_when = cruise\n noticed_by = \"felt\"\n noticed_source = \"test\"")
		fmt.Fprintf(&s, "function \"f%d\" {\n works = %s\n severity = \"%s\"\n %s\n}\n", i, expr(), severity, wanted)
	}
	for i := range 4 {
		u := pick(units...)
		fmt.Fprintf(&s, "alert \"a%d\" {\n level = \"warning\"\n message = \"M\"\n when = %s\n tells = [f%d, f%d]\n %s\n procedure = list%d\n}\n", i, pick("!"+u, "held(!"+u+", 15)", "!f"+fmt.Sprint(i)), i, (i+1+r.IntN(5))%6, pick("", "given_by = "+pick(units...)), i%2)
	}
	for i := range 3 {
		fmt.Fprintf(&s, "indication \"i%d\" {\n shows = %s\n means = f%d\n %s\n}\n", i, pick(units...), r.IntN(6), pick("", "lit_by = "+pick(units...)))
	}
	s.WriteString("procedure \"list0\" {\n do {\n set = lever\n to = \"off\"\n }\n}\nprocedure \"list1\" {\n check {\n that = i0 || i1\n }\n}\n")
	for i, u := range units[:4] {
		fmt.Fprintf(&s, "deferral \"d%d\" {\n items = [%s]\n category = %q\n only_if = !failed(u5)\n %s\n %s\n}\n", i, u, pick("B", "C"),
			pick("", "no_icing = true", "most_altitude_ft = 9500"), pick("", "", "set_up \"S\" {\n set = lever\n to = \"off\"\n }"))
	}
	return s.String()
}

// TestOf_IsWhatPlainFlightsFind: on random small books, every failure is flown alone,
// with the deferral and without, in every phase, and what is found is compared with
// what the answer says: losses, how they are known, and each step of the check.
func TestOf_IsWhatPlainFlightsFind(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 9))
	counts := map[string]int{}
	for n := range 120 {
		text := randomBook(r)
		courses := scenario.NewCourses(bookOf(t, text))
		item := fmt.Sprintf("u%d", n%4)
		a, err := dispatch.Of(t.Context(), courses, dispatch.Question{Items: []string{item}, Thorough: n%2 == 0})
		if err != nil {
			t.Fatal(err)
		}
		p := newPlain(t, courses, a)
		compare(t, "away", away(a), p.away(counts))
		compare(t, "already", already(a), p.already())
		for _, step := range []int{1, 2, 5} {
			compare(t, fmt.Sprint("step ", step), breaks(a, step), p.breaks(step))
			counts[fmt.Sprint("step ", step)] += len(breaks(a, step))
		}
		if n%2 == 0 {
			for _, step := range []int{4, 6} {
				compare(t, fmt.Sprint("step ", step), breaks(a, step), p.pairs(step))
				counts[fmt.Sprint("step ", step)] += len(breaks(a, step))
			}
		}
		if t.Failed() {
			t.Fatalf("book %d, %s:\n%s", n, item, text)
		}
	}
	t.Log(counts)
	for _, what := range []string{"step 1", "step 2", "step 4", "step 5", "step 6", "hidden", "denied", "told", "follows"} {
		if counts[what] < 3 {
			t.Errorf("%s: only %d", what, counts[what])
		}
	}
}

func compare(t *testing.T, what string, got, want []string) {
	t.Helper()
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("%s:\n%s\nplain flights:\n%s", what, strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

func away(a *dispatch.Answer) (list []string) {
	for _, x := range a.Away {
		for _, by := range x.By {
			list = append(list, fmt.Sprint(x.Function.ID, " ", by.Failure, " ", by.In, " ", by.Known, " ", by.Severity))
		}
	}
	return list
}

func already(a *dispatch.Answer) (list []string) {
	for _, x := range a.Already {
		list = append(list, fmt.Sprint(x.Function.ID, " ", x.From))
	}
	return list
}

// breaks lists the findings of a step: function, failures, severity and moments.
func breaks(a *dispatch.Answer, step int) (list []string) {
	for _, b := range a.Breaks {
		switch {
		case b.Step != step:
		case b.Function == nil:
			list = append(list, b.Says)
		default:
			list = append(list, fmt.Sprint(b.Function.ID, " ", b.Failures, " ", b.Severity, " ", b.In))
		}
	}
	return list
}

// plain works all of it out the slow way.
type plain struct {
	t             *testing.T
	a             *dispatch.Answer
	course        *run.Course
	before, after run.Scenario
	kept          map[string]*ledger.Ledger
}

func newPlain(t *testing.T, courses *scenario.Courses, a *dispatch.Answer) *plain {
	c, err := courses.Of("", a.Flown.ID)
	if err != nil {
		t.Fatal(err)
	}
	p := &plain{t: t, a: a, course: c, kept: map[string]*ledger.Ledger{}}
	p.after = goes(a.Relief)
	return p
}

// goes is what is inoperative, and how the aircraft is set.
func goes(r *dispatch.Relief) run.Scenario {
	s := run.Scenario{Inoperative: r.Items}
	for _, x := range r.Conditions().SetUps {
		s.SetUp = append(s.SetUp, run.Action{Control: x.Set, Position: x.To, Held: true})
	}
	return s
}

// fly flies failures at a moment of the answer and judges them.
func (p *plain) fly(s run.Scenario, m int, fail ...book.FailureRef) *ledger.Ledger {
	key := fmt.Sprint(s.Inoperative, len(s.SetUp), m, fail)
	if p.kept[key] != nil {
		return p.kept[key]
	}
	s.Strikes, s.FliesOn = []run.Strike{{At: book.Moment{Offset: p.a.Moments[m].At}, Fail: fail}}, true
	l, err := ledger.Answer(p.t.Context(), p.course, s)
	if err == nil {
		err = known.Judge(p.t.Context(), l)
	}
	if err != nil {
		p.t.Fatal(err)
	}
	p.kept[key] = l
	return l
}

// lost gives the row of a function that is lost and mattered; nil if there is none.
func lost(l *ledger.Ledger, id string) *ledger.Loss {
	if x := l.Loss(id); x != nil && x.Mattered {
		return x
	}
	return nil
}

// rank is how much a word leaves to teach: 0 most.
func rank(w ledger.Word) int { return slices.Index(ledger.Words, w) }

func grade(f *book.Function, w ledger.Word) string {
	if f.SeverityIfHidden != "" && (w == ledger.Hidden || w == ledger.Denied) {
		return f.SeverityIfHidden
	}
	return f.Severity
}

// each calls visit for each function, failure and the moments at which one failure is
// enough only as the aircraft goes, with the word that counts.
func (p *plain) each(visit func(f *book.Function, ref book.FailureRef, in []int, w ledger.Word)) {
	for _, f := range p.a.Build.Functions {
		all := f.Severity == "hazardous" || f.Severity == "catastrophic" || f.SeverityIfHidden == "catastrophic"
		for _, ref := range p.a.Build.Failures() {
			var in []int
			var word ledger.Word
			for m := range p.a.Moments {
				x := lost(p.fly(p.after, m, ref), f.ID)
				if x == nil || lost(p.fly(p.before, m, ref), f.ID) != nil {
					continue
				}
				if len(in) == 0 || all && rank(x.Known) < rank(word) {
					word = x.Known
				}
				in = append(in, m)
			}
			if len(in) > 0 {
				visit(f, ref, in, word)
			}
		}
	}
}

func (p *plain) away(counts map[string]int) (list []string) {
	p.each(func(f *book.Function, ref book.FailureRef, in []int, w ledger.Word) {
		counts[string(w)]++
		list = append(list, fmt.Sprint(f.ID, " ", ref, " ", in, " ", w, " ", grade(f, w)))
	})
	return list
}

// still compares the flight with nothing failed with that of everything working.
func (p *plain) still() *ledger.Ledger {
	here, err := p.course.Healthy(p.t.Context(), p.after)
	if err != nil {
		p.t.Fatal(err)
	}
	there, err := p.course.Along(here.Path()).Healthy(p.t.Context(), run.Scenario{})
	if err != nil {
		p.t.Fatal(err)
	}
	return ledger.Of(here, there)
}

func (p *plain) already() (list []string) {
	for _, x := range p.still().Losses {
		for _, s := range x.Spans {
			if s.Mattered {
				list = append(list, fmt.Sprint(x.Function.ID, " ", s.From))
				break
			}
		}
	}
	return list
}

func (p *plain) breaks(step int) (list []string) {
	switch step {
	case 1:
		for _, x := range p.still().Losses {
			if x.Mattered && x.Function.Severity != "minor" {
				list = append(list, fmt.Sprint(x.Function.ID, " ", []book.FailureRef(nil), " ", x.Function.Severity, " ", []int(nil)))
			}
		}
	case 2:
		list = p.next()
	case 5:
		list = append(p.silenced(), p.lists()...)
	}
	return list
}

// next is step 2.
func (p *plain) next() (list []string) {
	type found struct {
		by []book.FailureRef
		in []int
	}
	all := map[[2]string]*found{}
	p.each(func(f *book.Function, ref book.FailureRef, in []int, w ledger.Word) {
		s := grade(f, w)
		if s != "catastrophic" && !(s == "hazardous" && p.a.Relief.Uses[0].Category == "C") {
			return
		}
		x := all[[2]string{f.ID, s}]
		if x == nil {
			x = &found{}
			all[[2]string{f.ID, s}] = x
		}
		x.by, x.in = append(x.by, ref), append(x.in, in...)
	})
	for key, x := range all {
		slices.Sort(x.in)
		var by []book.FailureRef // in the order in which the answer names them
		for _, a := range p.a.Away {
			for _, b := range a.By {
				if a.Function.ID == key[0] && b.Severity == key[1] && slices.Contains(x.by, b.Failure) {
					by = append(by, b.Failure)
				}
			}
		}
		if len(by) != len(x.by) {
			by = x.by
		}
		list = append(list, fmt.Sprint(key[0], " ", by, " ", key[1], " ", slices.Compact(x.in)))
	}
	return list
}

// silenced is step 5: hazardous or worse in any case, and unknown only as it goes.
// Classes come first: what no alert tells and nothing shows, or shows wrong.
func (p *plain) silenced() (list []string) {
	for _, f := range p.a.Build.Functions {
		if f.Severity == "major" || f.Severity == "minor" && f.SeverityIfHidden == "" {
			continue
		}
		for _, ref := range p.a.Build.Failures() {
			var in []int
			word := ledger.Word("")
			for m := range p.a.Moments {
				is, was := lost(p.fly(p.after, m, ref), f.ID), lost(p.fly(p.before, m, ref), f.ID)
				silent := func(l *ledger.Loss) bool { return l.Class == ledger.NotTold || l.Class == ledger.ToldWrong }
				if is == nil || was == nil || !silent(is) || silent(was) || rank(is.Known) > 1 || rank(was.Known) < 2 {
					continue
				}
				if in = append(in, m); word == "" {
					word = is.Known
				}
			}
			if len(in) > 0 {
				list = append(list, fmt.Sprint(f.ID, " ", []book.FailureRef{ref}, " ", grade(f, word), " ", in))
			}
		}
	}
	return list
}
