package assess

import (
	"fmt"
	"slices"
	"strings"

	"knockon/say"
	"knockon/sweep"
)

// says is what is said of a loss: its verdict, why, and what is not in it.
func (a *Assessment) says(l *Loss) (lines []string) {
	lines = append(lines, a.verdict(l))
	if l.Sum > 1.01*l.PerH {
		lines = append(lines, fmt.Sprintf("Its sets overlap: their sum is %s.", Figure(l.Sum)))
	}
	if l.grave() && !l.Alone && len(l.Singles()) > 0 {
		lines = append(lines, "A single failure reaches it: "+a.singles(l)+".")
	}
	if n := l.unrated(); n > 0 {
		lines = append(lines, fmt.Sprintf("%s %s a member without a rate, and %s for nothing here.", say.Counted(n, "set"), say.Plural(n, "has", "have"), say.Plural(n, "counts", "count")))
	}
	switch reason := l.Function.OverOnPurpose; {
	case reason != "" && l.Verdict.isOver():
		lines = append(lines, "Over on purpose, as the book says: "+say.Sentence(reason))
	case reason != "":
		lines = append(lines, "The book says that it is over on purpose, and by what is known here it is not.")
	}
	return append(lines, a.withCrew(l)...)
}

// withCrew says of single failures that reach a grave loss what the crew make of them:
// where they prevent it, that what takes their means away as well was not looked for,
// since no such set is a smallest one hands off; where they do not, that a reason for
// being over does not hold.
func (a *Assessment) withCrew(l *Loss) (lines []string) {
	var prevented, lost []string
	for _, c := range l.Singles() {
		switch {
		case !l.grave() || c.Crewed == nil:
		case c.Crewed.Lost(l):
			lost = append(lost, a.title(c.Set[0])+c.Crewed.lost[l.Function.ID].soon())
		default:
			prevented = append(prevented, a.title(c.Set[0]))
		}
	}
	if len(lost) > 0 && l.Function.OverOnPurpose != "" {
		lines = append(lines, "That reason does not hold for "+some(lost, mostNamed)+": with the crew by the book it is lost all the same.")
	}
	if len(prevented) > 0 {
		lines = append(lines, "With the crew by the book it is not lost by "+some(prevented, mostNamed)+" alone, in the phase in which that is likeliest.")
	}
	if len(prevented) > 0 && l.ByBook == nil {
		lines = append(lines, "Failures that take away what the crew do then, a valve or a warning, were not looked for with it: hands off no such set is a smallest one.")
	}
	return append(lines, a.byBook(l)...)
}

// byBook says what the crew by the book make of the loss, and on what that rests.
func (a *Assessment) byBook(l *Loss) (lines []string) {
	b := l.ByBook
	if b == nil {
		return nil
	}
	p, o := Figure(b.PerH), Figure(l.Objective.PerH)
	switch b.Verdict {
	case Single:
		lines = append(lines, fmt.Sprintf("With the crew by the book: a single failure still reaches it; %s per hour of flight, the objective is %s.", p, o))
	case Over, InSlack:
		lines = append(lines, fmt.Sprintf("With the crew by the book: %s per hour of flight, over the objective of %s.", p, o))
	case Met:
		lines = append(lines, fmt.Sprintf("With the crew by the book: %s per hour of flight, within the objective of %s.", p, o))
	case NotKnown:
		lines = append(lines, b.Open(p, l.Objective.PerH))
	}
	var pairs []string
	for _, c := range b.Pairs {
		pairs = append(pairs, a.refs(c.Set)+" "+Figure(c.PerH))
	}
	if len(pairs) > 0 {
		lines = append(lines, "With the crew by the book these pairs take it: "+some(pairs, 2*mostNamed)+".")
	} else {
		lines = append(lines, "With the crew by the book none of the pairs that were flown takes it.")
	}
	return append(lines, b.rests())
}

// Open says that it is not known whether the objective is met, and by how much what was
// not flown could miss it.
func (b *ByBook) Open(p string, objective float64) string {
	if b.PerH+b.LeftH > objective {
		return fmt.Sprintf("With the crew by the book: %s per hour of flight by what was flown. What was not flown could make it %s, over the objective of %s: whether it is met is not known.", p, Figure(b.PerH+b.LeftH), Figure(objective))
	}
	return fmt.Sprintf("With the crew by the book: %s per hour of flight by what is known, within the objective of %s; not all is known.", p, Figure(objective))
}

// rests says what was looked for, and what was not.
func (b *ByBook) rests() string {
	text := fmt.Sprintf("That rests on %s of a failure that the crew clear with one more that meets what they are called by, read and move, flown where the first is likeliest", say.Counted(b.Flown, "pair"))
	if b.Left > 0 {
		text += fmt.Sprintf("; %s, less likely, %s not flown: together at most %s", say.Counted(b.Left, "more", "more"), say.Plural(b.Left, "was", "were"), Figure(b.LeftH))
	}
	if b.Unrated > 0 {
		text += fmt.Sprintf("; %s without a rate %s not flown", say.Counted(b.Unrated, "failure"), say.Plural(b.Unrated, "was", "were"))
	}
	if b.Sets > 0 {
		text += fmt.Sprintf("; %s that take it hands off %s not flown and %s as lost: %s", say.Counted(b.Sets, "larger set"), say.Plural(b.Sets, "was", "were"), say.Plural(b.Sets, "counts", "count"), Figure(b.SetsH))
	}
	return text + ". Not looked for: what only gives the crew other lists to do, a third failure, and a hand that errs."
}

func (l *Loss) unrated() (n int) {
	for _, c := range l.Sets {
		if !c.Rated() {
			n++
		}
	}
	return n
}

func (a *Assessment) verdict(l *Loss) string {
	p, o := Figure(l.PerH), Figure(l.Objective.PerH)
	known := ""
	if !a.whole(*l) {
		known = " by what is known"
	}
	switch {
	case l.Verdict == Single:
		return fmt.Sprintf("A single failure reaches it, and none may: %s. %s per hour of flight%s; the objective is %s.", a.singles(l), p, known, o)
	case l.Verdict == Over:
		return fmt.Sprintf("%s per hour of flight%s: %s times the objective of %s.", p, known, say.Figures(l.PerH/l.Objective.PerH), o)
	case l.Verdict == InSlack:
		return fmt.Sprintf("%s per hour of flight%s: over the objective of %s, and within %s times it, which is still on the order of it.", p, known, o, say.Figures(l.Slack))
	case len(l.Sets) == 0 && l.Verdict == Met:
		return fmt.Sprintf("No set of up to %s takes it away.", say.Counted(a.Order, "failure"))
	case len(l.Sets) == 0:
		return "No set that is known takes it away, and not all is known."
	case l.Verdict == NotKnown:
		return fmt.Sprintf("%s per hour of flight by what is known, within the objective of %s; not all is known.", p, o)
	}
	return fmt.Sprintf("%s per hour of flight, within the objective of %s.", p, o)
}

// mostNamed is how many names a sentence has.
const mostNamed = 4

func (a *Assessment) singles(l *Loss) string {
	var names []string
	for _, c := range l.Singles() {
		names = append(names, a.title(c.Set[0]))
	}
	return some(names, mostNamed)
}

func some(names []string, most int) string {
	if len(names) > most {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	return say.And(names)
}

// b5 says what 25.1309(b)(5) asks of the pairs of a catastrophic loss that have
// a latent member, hands off; and what was not looked at.
func (a *Assessment) b5(l *Loss) []string {
	lines, unrated := a.over(l.Latents, "")
	if len(l.Latents) > 0 && len(lines) == 0 && !unrated {
		every := "Every pair with a latent member"
		if len(l.Singles()) > 0 {
			every += " and without a failure that reaches it alone"
		}
		lines = append(lines, every+limits)
	}
	if unrated {
		lines = append(lines, unratedPairs)
	}
	if l.Alone && l.ByBook == nil && slices.ContainsFunc(l.Singles(), func(c Cut) bool { return c.Crewed == nil || !c.counts(l) }) {
		lines = append(lines, "Latent failures that take it only where a crew would save it of the other alone were not looked for.")
	}
	return lines
}

var (
	limits       = fmt.Sprintf(" is within the limits: %s per hour of flight once the latent one has come, and %s for the latent ones that wait for one other.", Figure(MostResidual), Figure(MostLatent))
	unratedPairs = "Of some pairs with a latent member a rate is not given; these are not in it."
)

// over are the lines of what is over a limit, and whether some pair has no rate.
func (a *Assessment) over(list []Latent, crew string) (lines []string, unrated bool) {
	lines = []string{}
	for _, x := range list {
		residual, waiting := x.Over()
		unrated = unrated || x.Unrated
		if residual {
			lines = append(lines, say.Capital(fmt.Sprintf("%sonce %s has come, unseen, one more failure takes it, and that has %s per hour of flight: over the limit of %s.", crew, a.title(x.Part), Figure(x.Residual), Figure(MostResidual))))
		}
		if waiting {
			lines = append(lines, say.Capital(fmt.Sprintf("%sthe latent failures that wait for %s come to %s: over the limit of %s.", crew, a.title(x.Part), Figure(x.Waiting), Figure(MostLatent))))
		}
	}
	return lines, unrated
}

// crewB5 says the same of the pairs that take it with the crew, first as far as they
// were looked for.
func (a *Assessment) crewB5(l *Loss) []string {
	const by = "with the crew by the book "
	if l.ByBook == nil || !l.Alone {
		return []string{}
	}
	lines, unrated := a.over(l.ByBook.Latents, by)
	switch {
	case len(l.ByBook.Latents) == 0:
		lines = append(lines, "With the crew by the book no pair that was looked at and takes it has a latent member.")
	case len(lines) == 0 && !unrated:
		lines = append(lines, "With the crew by the book every pair that was looked at and takes it with a latent member"+limits)
	}
	if unrated {
		lines = append(lines, unratedPairs)
	}
	if open := l.ByBook.unseen(a.Order); open != "" {
		lines = slices.Insert(lines, 0, "Not looked at for latent failures with the crew: "+open+".")
	}
	return lines
}

// unseen names the pairs that may have a latent member and were not looked at.
func (b *ByBook) unseen(order int) string {
	var open []string
	if b.Dark > 0 {
		open = append(open, fmt.Sprintf("%s with a latent member that %s the crew's means and %s not flown", say.Counted(b.Dark, "pair"), say.Plural(b.Dark, "meets", "meet"), say.Plural(b.Dark, "was", "were")))
	}
	if b.Unrated > 0 {
		open = append(open, fmt.Sprintf("%s without a rate", say.Counted(b.Unrated, "failure")))
	}
	if order < 2 {
		open = append(open, "pairs that take it hands off")
	}
	return strings.Join(open, "; ")
}

// notAnswered says what is not known.
func (a *Assessment) notAnswered() []Note {
	notes := []Note{}
	if a.Order < 3 {
		notes = append(notes, Note{fmt.Sprintf("Sets of more than %s were not looked for, so nothing is met for certain.", say.Counted(a.Order, "failure")), []string{}})
	}
	about := func(names []string, format string, args ...any) {
		if len(names) > 0 {
			notes = append(notes, Note{fmt.Sprintf(format, args...), names})
		}
	}
	about(a.missing(), "PARTIAL: these phases were not swept")
	about(a.broken(), "The flight breaks off in a loop that never settles, and what comes after that is not known, with")
	names := a.partsWhere(func(p Part) bool { return p.Rate == 0 })
	about(names, "%s %s no rate, and every set with one of them counts for nothing", say.Counted(len(names), "failure"), say.Plural(len(names), "has", "have"))
	names = a.partsWhere(func(p Part) bool { return p.Latent && p.CheckedH == 0 })
	about(names, "%s: no alert or indication tells of %s, no check is known, and %s to stay for %s h", say.Counted(len(names), "latent failure"), say.Plural(len(names), "it", "them"), say.Plural(len(names), "it is taken", "they are taken"), say.Whole(LifeH))
	names = a.ungraded()
	about(names, "%s %s no severity, and %s not assessed", say.Counted(len(names), "function"), say.Plural(len(names), "has", "have"), say.Plural(len(names), "is", "are"))
	return notes
}

func (a *Assessment) missing() (ids []string) {
	for _, p := range a.Phases[len(a.Sheets):] {
		ids = append(ids, p.ID)
	}
	return ids
}

func (a *Assessment) partsWhere(so func(Part) bool) (names []string) {
	for n, p := range a.Parts {
		if so(p) {
			names = append(names, a.id(n))
		}
	}
	return names
}

func (a *Assessment) ungraded() (names []string) {
	for _, f := range a.Build.Functions {
		if f.Severity == "" && f.SeverityIfHidden == "" {
			names = append(names, f.ID)
		}
	}
	return names
}

// broken lists the sets whose runs break off, each once.
func (a *Assessment) broken() (names []string) {
	for _, sheet := range a.Sheets {
		for _, set := range sheet.Restless() {
			if name := a.refs(set); !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return names
}

func (a *Assessment) refs(set sweep.Set) string {
	var ids []string
	for _, n := range set {
		ids = append(ids, a.id(n))
	}
	return strings.Join(ids, " + ")
}
