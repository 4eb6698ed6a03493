package book

import "slices"

// Bulletin is a temporary change of a procedure.
type Bulletin struct {
	Head
	Procedure   string // id
	From, Until string // first and last day, as 2026-11-25; "": none
	Replaces    int    // the number of the step that its own stand for; 0: none
	After       int    // the number of the step that they follow, 0 for the start; -1: none
	Steps       []*Step
}

// Whole says that a bulletin stands for all steps of its procedure.
func (x *Bulletin) Whole() bool { return x.Replaces == 0 && x.After < 0 }

// InForce says whether a bulletin holds on a day. One with dates holds on no day
// that is not given.
func (x *Bulletin) InForce(day string) bool {
	if day == "" {
		return x.From == "" && x.Until == ""
	}
	return (x.From == "" || x.From <= day) && (x.Until == "" || day <= x.Until)
}

// StepsOn gives the steps of a procedure on a day, "" for any day, with what the
// bulletins in force change.
func (b *Build) StepsOn(p *Procedure, day string) []*Step {
	var in []*Bulletin
	for _, x := range b.Bulletins {
		if x.Procedure == p.ID && x.InForce(day) {
			in = append(in, x)
		}
	}
	if i := slices.IndexFunc(in, (*Bulletin).Whole); i >= 0 {
		return in[i].Steps
	}
	steps := behind(nil, in, 0)
	for i, s := range p.Steps {
		if at := slices.IndexFunc(in, func(x *Bulletin) bool { return x.Replaces == i+1 }); at >= 0 {
			steps = append(steps, in[at].Steps...)
		} else {
			steps = append(steps, s)
		}
		steps = behind(steps, in, i+1)
	}
	return steps
}

func behind(steps []*Step, in []*Bulletin, number int) []*Step {
	for _, x := range in {
		if x.After == number {
			steps = append(steps, x.Steps...)
		}
	}
	return steps
}

// ValidDay says whether a text is a day of the calendar, as 2026-11-25.
func ValidDay(text string) bool {
	if len(text) != len("2026-11-25") || text[4] != '-' || text[7] != '-' {
		return false
	}
	number := func(digits string) (n int) {
		for _, c := range []byte(digits) {
			if !isDigit(c) {
				return -1
			}
			n = 10*n + int(c-'0')
		}
		return n
	}
	year, month, day := number(text[:4]), number(text[5:7]), number(text[8:])
	if year < 0 || month < 1 || month > 12 || day < 1 {
		return false
	}
	days := [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[month-1]
	if month == 2 && year%4 == 0 && (year%100 != 0 || year%400 == 0) {
		days = 29
	}
	return day <= days
}

func (n node) bulletin(d *declaration) *Bulletin {
	x := &Bulletin{Head: n.head(d.id), Procedure: n.id("procedure", "procedure"), From: n.day("from"), Until: n.day("until"), After: -1, Steps: n.steps()}
	x.Replaces = int(n.whole("replaces", 1, mostSteps))
	if n.attr("after") != nil {
		x.After = int(n.whole("after", 0, mostSteps))
	}
	switch {
	case x.Replaces > 0 && x.After >= 0:
		n.l.add(replacesAndAfter(n.at, d.id))
	case x.From != "" && x.Until != "" && x.From > x.Until:
		n.l.add(endsBeforeItBegins(n.at, d.id, x.From, x.Until))
	case len(x.Steps) == 0:
		n.l.add(noSteps(n.at, "bulletin"))
	}
	return x
}

// mostSteps is the highest number that a step can be called by.
const mostSteps = 999

func (n node) day(name string) string {
	text := n.text(name)
	if text != "" && !ValidDay(text) {
		n.l.add(badDay(rangeOf(n.attr(name).Expr.Range()), text))
		return ""
	}
	return text
}

// checkBulletins checks what needs the procedures, and each pair.
func (b *builder) checkBulletins() {
	for i, x := range b.build.Bulletins {
		p, ok := b.build.items[x.Procedure].(*Procedure)
		if !ok {
			continue
		}
		if last := max(x.Replaces, x.After); last > len(p.Steps) {
			b.add(noSuchStep(x.Range, last, p))
		}
		for _, y := range b.build.Bulletins[:i] {
			if x.Procedure == y.Procedure && disagree(x, y) {
				b.add(bulletinsDisagree(x, y))
			}
		}
	}
}

// disagree says that two bulletins of one procedure cannot both be followed on
// some day.
func disagree(x, y *Bulletin) bool {
	from, until := max(x.From, y.From), x.Until
	if until == "" || y.Until != "" && y.Until < until {
		until = y.Until
	}
	together := until == "" || from <= until
	return together && (x.Whole() || y.Whole() || x.Replaces > 0 && x.Replaces == y.Replaces)
}
