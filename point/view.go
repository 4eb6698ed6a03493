package point

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"

	"knockon/book"
	"knockon/ledger"
	"knockon/say"
	"knockon/wave"
)

// speaker puts the points of one ledger into words.
type speaker struct {
	l    *ledger.Ledger
	seen *seen
}

// View puts points into words.
func (p *Points) View(l *ledger.Ledger) *ledger.Worth {
	s, v := speaker{l, newSeen(l)}, &ledger.Worth{Share: p.Share, Points: []ledger.Point{}, Waves: []ledger.Wave{}}
	for _, x := range p.List {
		v.Points = append(v.Points, ledger.Point{Kind: string(x.Kind), AfterS: (x.At - l.Strike).Seconds(), Clock: s.clock(x.At), Text: s.say(x), Covers: refs(x.Covers)})
	}
	for _, w := range p.Waves {
		v.Waves = append(v.Waves, ledger.Wave{AfterS: (w.At - l.Strike).Seconds(), Clock: s.clock(w.At), Cause: s.cause(w), Later: w.Later, Text: s.wave(w), Losses: refs(w.Losses)})
	}
	v.Nothing = s.nothing(p)
	return v
}

// nothing says why there is nothing to teach. Where the question has no full answer
// nobody knows that there is nothing.
func (s speaker) nothing(p *Points) string {
	switch {
	case len(p.List) > 0:
		return ""
	case s.l.Unanswered() != "":
		return "What there is to teach cannot be said: the question has no full answer."
	case p.Grave == nil:
		return "Nothing is lost that is called for meanwhile." + s.given()
	}
	return "All that is lost is told, or noticed at once. The gravest of it: " + say.Lower(s.single(p.Grave))
}

// given says which alerts tell of a failure that takes nothing away, and what goes dark.
func (s speaker) given() string {
	var alerts, dark []string
	for _, a := range s.l.Alerts {
		alerts = append(alerts, say.Quoted(a.Alert.Message))
	}
	for _, r := range s.l.Dark {
		dark = append(dark, say.Quoted(r.Indication.Title))
	}
	text := ""
	if len(alerts) > 0 {
		text = " What tells of the failure: " + some(alerts) + "."
	}
	if len(dark) > 0 {
		text += " Dark: " + some(dark) + "."
	}
	return text
}

// some names the first of a list and counts the rest.
func some(list []string) string {
	if more := len(list) - mostNamed; more > 0 {
		list = append(slices.Clone(list[:mostNamed]), fmt.Sprintf("%d more", more))
	}
	return say.And(list)
}

func refs(list []*ledger.Loss) []ledger.Ref {
	out := []ledger.Ref{}
	for _, x := range list {
		out = append(out, ledger.Ref{ID: x.Function.ID, Title: x.Function.Title, Rank: x.Function.Severity})
	}
	return out
}

func (s speaker) clock(t book.Time) string { return say.After(t - s.l.Strike) }

// say is a point's sentence.
func (s speaker) say(p Point) string {
	switch p.Kind {
	case Wave:
		return s.wave(*p.Wave)
	case Single:
		return s.single(p.Covers[0])
	case False:
		return s.untrue(p)
	case Differ:
		return s.differ(p)
	case Wrong:
		return s.wrong(p)
	case Unseen:
		return s.unseen(p)
	}
	lost := s.named(p.Covers)
	switch by := p.By.(type) {
	case *book.Indication:
		return fmt.Sprintf("From %s %s denies a loss: %s.", s.clock(p.At), say.Quoted(by.Title), lost)
	case *book.Alert:
		return s.alert(p, say.Quoted(by.Message), lost)
	}
	return ""
}

func (s speaker) alert(p Point, message, lost string) string {
	switch p.Kind {
	case Late:
		return fmt.Sprintf("%s comes at %s, late. Lost until then without a word: %s.", message, s.clock(p.At), lost)
	case TooSoon:
		return fmt.Sprintf("%s goes out at %s, %s, though what it told is still so: %s.", message, s.clock(p.At), because[p.Why], lost)
	case Standing:
		return fmt.Sprintf("%s stands already because of what is inoperative, and says nothing new at %s. Lost then: %s.", message, s.clock(p.At), lost)
	}
	return fmt.Sprintf("%s would tell and is not given at %s, %s. Lost: %s.", message, s.clock(p.At), because[p.Why], lost)
}

// because says why an alert is silent.
var because = map[Reason]string{Held: "held back by the phase or the conditions", Dead: "since what would give it is dead"}

// mostNamed is how many losses a point's sentence names before it counts.
const mostNamed = 3

// named names losses, the heaviest first, and counts the rest. What is hazardous or worse
// is not left to the count because people know of it.
func (s speaker) named(list []*ledger.Loss) string {
	var names []string
	for _, x := range heaviestFirst(list)[:min(mostNamed, len(list))] {
		text := say.Lower(x.Function.Title)
		if dire(x) > 0 {
			text += " (" + x.Severity() + ")"
		}
		names = append(names, text)
	}
	if more := len(list) - mostNamed; more > 0 {
		names = append(names, fmt.Sprintf("%d more", more))
	}
	return say.And(names)
}

// heaviestFirst is the order in which a sentence names losses.
func heaviestFirst(list []*ledger.Loss) []*ledger.Loss {
	list = slices.Clone(list)
	slices.SortStableFunc(list, func(a, b *ledger.Loss) int {
		return cmp.Or(cmp.Compare(mattered(b), mattered(a)), cmp.Compare(dire(b), dire(a)), cmp.Compare(Heft(b), Heft(a)))
	})
	return list
}

func mattered(x *ledger.Loss) int {
	if x.Mattered {
		return 1
	}
	return 0
}

// Heft orders losses: how grave one is, and how little people know of it.
func Heft(x *ledger.Loss) float64 { return graveness(x) * knowing(x) }

// wave says what goes at one time for one reason, and how it is known.
func (s speaker) wave(w wave.Wave) string {
	if len(w.Losses) == 1 {
		return fmt.Sprintf("%s %s: lost with it is %s (%s).", s.from(w), say.Lower(s.cause(w)), say.Lower(w.Losses[0].Function.Title), counts(w.Losses))
	}
	them := ". Among them: "
	if len(w.Losses) <= mostNamed {
		them = ": "
	}
	return fmt.Sprintf("%s %s%s: %d functions are lost with it, %s%s%s.%s", s.from(w), say.Lower(s.cause(w)), byHand(w), len(w.Losses), counts(w.Losses), them, s.named(w.Losses), s.over(w.Losses))
}

// over says until when, of losses none of which lasts to the end.
func (s speaker) over(list []*ledger.Loss) string {
	var last book.Time
	for _, x := range list {
		for _, p := range x.Spans {
			if p.ToEnd {
				return ""
			}
			last = max(last, p.To)
		}
	}
	return " None of it is lost any more from " + s.clock(last) + " on."
}

// from says when a wave comes, and since when its cause has been so where that is longer.
func (s speaker) from(w wave.Wave) string {
	if w.Cause != nil {
		if since := s.since(w); since < w.At-book.Second {
			return fmt.Sprintf("At %s, since from %s on", s.clock(w.At), s.clock(since))
		}
	}
	return "At " + s.clock(w.At)
}

// since is since when a wave's cause has been as it is when it counts: a bus may be dead
// for an hour before somebody calls for what it feeds. Of a number or a word, and of what
// was so before anything failed, it is that moment itself.
func (s speaker) since(w wave.Wave) book.Time {
	c := w.Cause
	if s.l.Here.Circuit().Type(c.Node) != book.YesNo {
		return c.At
	}
	from := book.Time(0)
	for _, p := range s.l.Here.Spans(c.Node) {
		switch {
		case p.From <= c.At && c.At < p.To:
			from = p.From
		case p.To <= c.At:
			from = p.To
		}
	}
	if from < s.l.Strike {
		return c.At
	}
	return from
}

// cause is what a wave hangs on, as a clause.
func (s speaker) cause(w wave.Wave) string {
	if w.Cause == nil {
		return "straight from " + say.And(s.straight(w))
	}
	title := w.Cause.Label
	switch {
	case w.Cause.Says == "no" && clause.MatchString(title):
		return denied(title)
	case w.Cause.Says == "no":
		return "no " + say.Lower(title)
	case w.Cause.Says == "yes":
		return title
	}
	return title + " " + w.Cause.Says
}

// straight names what fails, where a wave has no other cause: the event or the failure
// asked for, of several the only one that can stand behind a loss of the wave.
func (s speaker) straight(w wave.Wave) []string {
	b, strikes := s.l.Here.Course.Build, s.l.Here.Scenario.Strikes
	if len(strikes) == 1 && len(strikes[0].Fail) == 1 {
		if item, ok := b.Item(strikes[0].Fail[0].Unit); ok && item.Named().Kind == "event" {
			return []string{say.Lower(item.Named().Title)}
		}
	}
	var all []book.FailureRef
	for _, x := range w.Losses {
		for _, r := range s.seen.of(x.Function.ID) {
			if !contains(all, r) {
				all = append(all, r)
			}
		}
	}
	if len(all) != 1 {
		return []string{"what failed"}
	}
	return s.failures(all)
}

// clause fits a title that says something, and not only names it.
var clause = regexp.MustCompile(`\b(is|are|has|have|can|could|sees|shows|works|reads)\b`)

// verbs are how what a title says is denied.
var verbs = map[string]string{
	"is": "is not", "are": "are not", "has": "has not", "have": "have not", "can": "cannot", "could": "could not",
	"sees": "does not see", "shows": "does not show", "works": "does not work", "reads": "does not read",
}

// denied is a title that says something, and is not so.
func denied(title string) string {
	at := clause.FindStringIndex(title)
	return title[:at[0]] + verbs[title[at[0]:at[1]]] + title[at[1]:]
}

// byHand says that what a wave hangs on was moved by hand.
func byHand(w wave.Wave) string {
	if w.Hand == nil {
		return ""
	}
	return ", by the crew's own hand (" + say.Lower(w.Hand.Label) + ")"
}

// counted says of each word of knowing how many there are.
var counted = map[ledger.Word]string{
	ledger.Hidden: "hidden", ledger.Denied: "denied", ledger.InUse: "found when used", ledger.Late: "told late",
	ledger.Follows: "to be worked out from what is told", ledger.AtOnce: "noticed at once", ledger.IsTold: "told",
}

func counts(list []*ledger.Loss) string {
	n, idle := map[ledger.Word]int{}, []*ledger.Loss(nil)
	for _, x := range list {
		if x.Mattered {
			n[x.Word()]++
		} else {
			idle = append(idle, x)
		}
	}
	var parts []string
	for _, w := range ledger.Words {
		if n[w] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n[w], counted[w]))
		}
	}
	if len(idle) > 0 {
		parts = append(parts, fmt.Sprintf("%d %s", len(idle), ledger.Idle(idle)))
	}
	return say.And(parts)
}

// single says one loss and how it is known.
func (s speaker) single(x *ledger.Loss) string {
	span := heaviest(x)[0]
	text := fmt.Sprintf("%s: lost from %s", x.Function.Title, s.l.Stretches(*x))
	if grade := x.Severity(); grade != "" {
		text += " (" + grade + ")"
	}
	return text + s.how(x, span) + "."
}

func (s speaker) how(x *ledger.Loss, p ledger.LossSpan) string {
	switch x.Word() {
	case ledger.Hidden:
		return s.untold(x, p)
	case ledger.Denied:
		return ", and what is shown denies it: " + s.liars(p)
	case ledger.InUse:
		return fmt.Sprintf(", and %s only at %s", p.Known.Noticed.By, s.clock(p.Known.Noticed.At))
	case ledger.Late:
		return ", and known only " + say.Lasts(p.Known.LateBy) + " after it is called for"
	case ledger.Follows:
		return s.follows(p.Known.Follows)
	case ledger.AtOnce:
		return ", and " + p.Known.Noticed.By + " at once"
	}
	if p.By != nil {
		return ", and told by " + say.Quoted(p.By.Message)
	}
	return ", and told"
}

func (s speaker) liars(p ledger.LossSpan) string {
	var names []string
	for _, i := range p.Lies {
		names = append(names, say.Quoted(i.Title))
	}
	return say.And(names)
}

func (s speaker) follows(f *ledger.Following) string {
	if f.Alert == nil {
		return ", and follows from what was moved, " + say.Lower(f.Title)
	}
	text := ", and follows from " + say.Quoted(f.Alert.Message)
	if f.Steps > 1 {
		text += " by way of " + say.Lower(f.Title)
	}
	return text
}
