package worth

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"knockon/book"
	"knockon/circuit"
	"knockon/crew"
	"knockon/say"
)

// mostSaid is how many harms a sentence names.
const mostSaid = 3

// because gives each step its reason, computed.
func (w *Worth) because() {
	for _, s := range w.Steps {
		s.Because, s.Nothing = w.reason(s)
	}
}

// reason says what leaving a step out does, or why nothing can be said.
func (w *Worth) reason(s *Step) (text string, nothing bool) {
	if !s.Reached {
		text, known := w.notReached(s)
		if s.Step.If != nil && known {
			return "Not said with this failure: it belongs only under this condition: " + w.words(s.Step.If) + ".", true
		}
		return "Not reached with this failure: " + text + ".", known
	}
	left := s.Left()
	bad, good := parted(left.Harms)
	switch {
	case len(bad) > 0 && len(good) > 0:
		return w.without(bad) + " It costs: " + w.list(good) + ".", false
	case len(bad) > 0:
		return w.without(bad), false
	case len(good) > 0:
		return "Leaving it out makes nothing worse in this model" + w.upTo(left) + "; it costs: " + w.list(good) + ".", false
	}
	if end := w.upTo(left); end != "" && w.hangs(s) {
		return "Nothing in this model" + end + ".", false
	}
	return w.nothing(s), true
}

// upTo limits what is said of the flight with a step and without it where one of
// them breaks off.
func (w *Worth) upTo(left *Trial) string {
	at := min(broken(w.Right), broken(left.Flown))
	if at == book.Never {
		return ""
	}
	return " up to " + w.clock(at) + ", where the flight breaks off; what would come after is not known"
}

// hangs says that what a step does may come at any time behind it: it is no word, no
// check and no move to where the control stands.
func (w *Worth) hangs(s *Step) bool {
	switch s.Step.Kind {
	case "do":
		return s.Step.Set != "" && !w.already(s)
	case "decide":
		return moves(s.Step)
	}
	return s.Step.Kind == "later"
}

// already says that the control of a step stands where the step puts it.
func (w *Worth) already(s *Step) bool {
	r := w.Right.Plan.Record
	n, ok := r.Circuit().Node(circuit.Value{Item: s.Step.Set})
	return ok && r.Circuit().WordText(r.Before(n, s.At)) == s.Step.To
}

func parted(harms []Harm) (bad, good []Harm) {
	for _, h := range harms {
		if h.Better {
			good = append(good, h)
		} else {
			bad = append(bad, h)
		}
	}
	return bad, good
}

// without says what comes of leaving a step out.
func (w *Worth) without(bad []Harm) string {
	verbs := []string{"It prevents: ", "It brings back: ", "It ends: "}
	groups := make([][]Harm, len(verbs))
	for _, h := range bad {
		switch {
		case !h.Already:
			groups[0] = append(groups[0], h)
		case h.Kind == Loss:
			groups[1] = append(groups[1], h)
		default:
			groups[2] = append(groups[2], h)
		}
	}
	var sentences []string
	for i, g := range groups {
		if len(g) > 0 {
			sentences = append(sentences, verbs[i]+w.list(g)+".")
		}
	}
	return strings.Join(sentences, " ")
}

func (w *Worth) list(harms []Harm) string {
	var words []string
	for i, h := range harms {
		if i == mostSaid {
			words = append(words, fmt.Sprintf("%d more", len(harms)-mostSaid))
			break
		}
		words = append(words, w.Say(h))
	}
	return strings.Join(words, "; ")
}

// Say describes a harm in words.
func (w *Worth) Say(h Harm) string {
	title := w.said(h.Item)
	when := w.when(h)
	switch h.Kind {
	case Loss:
		if !h.Mattered {
			return fmt.Sprintf("%s lost%s, while nobody needs it (%s)", title, when, h.Class)
		}
		return fmt.Sprintf("%s lost%s (%s)", title, when, h.Class)
	case Worse:
		return fmt.Sprintf("the loss of %s told worse (%s)", say.Lower(title), h.Class)
	case False:
		return fmt.Sprintf("false %s %s%s", w.levelOf(h.Item), say.Quoted(title), when)
	case Repeats:
		until := "the landing"
		if h.Why != "" {
			until = "the flight breaks off"
		}
		return fmt.Sprintf("%s %s sounds %s more, until %s", w.levelOf(h.Item), say.Quoted(title), say.Counted(h.Count, "time"), until)
	case Announce:
		return fmt.Sprintf("%s %s%s", w.levelOf(h.Item), say.Quoted(title), when)
	case Misleads:
		return fmt.Sprintf("%s shows what is not so%s", title, when)
	case Dark:
		return fmt.Sprintf("%s dark%s", title, when)
	case Breaks:
		return "the flight breaks off" + strings.Replace(when, " from ", " at ", 1) + ": " + h.Why
	}
	return w.sayBurden(h)
}

// burdenWords say what is less, or more, in words.
var burdenWords = map[string]string{
	"gear_out": "gear out", "flap_setting": "slats or flaps out", "speed_brakes_ratio": "speed brakes out", "landing_speed_adds_kt": "speed added for the landing", "extra_drag_ratio": "drag of doors and panels",
	"wing_iced": "ice on the wing", "fuel_leak_kg_per_h": "fuel overboard", "engine_left_ratio": "thrust of the left engine", "engine_right_ratio": "thrust of the right engine",
	"ground_spoilers_ratio": "ground spoilers", "brakes_ratio": "wheel brakes", "anti_skid": "anti-skid", "autobrake": "automatic brake",
	"reverse_left": "left reverse", "reverse_right": "right reverse",
}

func (w *Worth) sayBurden(h Harm) string {
	name := strings.TrimPrefix(h.Item, book.EffectID(""))
	words := burdenWords[name]
	switch {
	case h.Kind == Stop:
		return fmt.Sprintf("a longer stop: %s %s instead of %s", words, share(h.Here), share(h.Right))
	case name == "fuel_leak_kg_per_h":
		return fmt.Sprintf("less range: %.0f kg of fuel overboard instead of %.0f", h.Here, h.Right)
	case strings.HasPrefix(name, "engine_"):
		return fmt.Sprintf("less range: %s for %s less%s", words, say.Lasts(book.AtSeconds(math.Abs(h.Right-h.Here))), w.when(h))
	}
	return fmt.Sprintf("less range: %s%s", words, w.when(h))
}

func share(x float64) string { return fmt.Sprintf("%.0f%%", 100*x) }

// when places a harm in the flight: from when it bites, in which phase.
func (w *Worth) when(h Harm) string {
	phase := w.Right.Plan.Record.PhaseAt(h.Bites)
	if phase == "" {
		return " from " + w.clock(h.Bites)
	}
	return fmt.Sprintf(" from %s (%s)", w.clock(h.Bites), say.Lower(w.build().Title(phase)))
}

func (w *Worth) build() *book.Build { return w.Right.Plan.Record.Course.Build }

// said is an alert's message, as the crew read it, or an item's title.
func (w *Worth) said(id string) string {
	if item, ok := w.build().Item(id); ok {
		if a, ok := item.(*book.Alert); ok {
			return a.Message
		}
	}
	return w.build().Title(id)
}

func (w *Worth) levelOf(id string) string {
	if item, ok := w.build().Item(id); ok {
		if a, ok := item.(*book.Alert); ok {
			return a.Level
		}
	}
	return "alert"
}

// nothing says why leaving a step out changes nothing.
func (w *Worth) nothing(s *Step) string {
	const nothing = "Nothing in this model: "
	switch step := s.Step; {
	case step.GoTo != "" && step.Set == "":
		return nothing + "what the list does to which it sends changes nothing with this failure."
	case step.Leg != "" && step.Set == "":
		return "Not judged here: it says where the flight goes, and what that is worth is a matter of the airfields."
	case step.Kind == "note", step.Kind == "tell":
		return nothing + "it is a word to people and moves nothing."
	case step.Kind == "check" && step.That == nil, step.Kind == "do" && step.Set == "":
		return nothing + "it names nothing that the book knows."
	case step.Kind == "check" && s.Answer == crew.No:
		return nothing + "it moves nothing. It finds that it is not so, " + w.finds(s) + "."
	case step.Kind == "check" && s.Answer == crew.Unseen:
		return nothing + "it moves nothing, and what it asks cannot be seen."
	case step.Kind == "check":
		return nothing + "it moves nothing, and finds that all is as it should be."
	case step.Kind == "later":
		return nothing + "what is left for then changes nothing."
	case step.Kind == "decide" && !moves(step):
		return nothing + "both ways lead to words and checks alone."
	case step.Kind == "decide":
		return nothing + "what hangs on the answer changes nothing with this failure."
	}
	return nothing + w.unmoved(s) + "."
}

// finds says whether an alert tells what a check finds.
func (w *Worth) finds(s *Step) string {
	for _, l := range w.Right.Ledger.Losses {
		if w.asks(s.Step.That, l.Function.ID) {
			return fmt.Sprintf("and %s is %s otherwise", say.Lower(l.Function.Title), l.Class)
		}
	}
	return "and asks the crew to act on it"
}

// asks says that a question reads a function, or an indication that covers it.
func (w *Worth) asks(e *book.Expr, function string) (found bool) {
	e.Walk(func(e *book.Expr) {
		if e.Op != book.OpRef {
			return
		}
		item, _ := w.build().Item(e.ID)
		i, shown := item.(*book.Indication)
		found = found || e.ID == function || shown && slices.Contains(w.build().Covers(i), function)
	})
	return found
}

// unmoved says why a control that is moved changes nothing.
func (w *Worth) unmoved(s *Step) string {
	if w.already(s) {
		return fmt.Sprintf("%s is at %s already", say.Lower(w.build().Title(s.Step.Set)), say.Quoted(s.Step.To))
	}
	if w.followed(s) {
		return fmt.Sprintf("%s moves things, but nothing that is lost, told or shown", say.Lower(w.build().Title(s.Step.Set)))
	}
	return fmt.Sprintf("nothing follows %s with this failure", say.Lower(w.build().Title(s.Step.Set)))
}

// followed says that something beside the control is other without the step.
func (w *Worth) followed(s *Step) bool {
	a, b := w.Right.Plan.Record, s.Left().Flown.Plan.Record
	for _, v := range a.Circuit().Values() {
		if v.Value.Item == s.Step.Set || !a.Steady(v.Node) {
			continue
		}
		if !sameHistory(a.History(v.Node), b.History(v.Node)) {
			return true
		}
	}
	return false
}

func sameHistory(a, b []circuit.Change) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i].At != b[i].At || a[i].To != b[i].To {
			return false
		}
	}
	return true
}

// notReached says which answer led past a step; known is false where the flight
// breaks off before it, and might have come to it.
func (w *Worth) notReached(s *Step) (text string, known bool) {
	if text, known = "the flight ends before it", broken(w.Right) == book.Never; !known {
		text = "the flight breaks off before it, and whether it would have come to it is not known"
	}
	for _, other := range w.Steps {
		inner := strings.HasPrefix(s.Number, other.Number+".")
		if inner && other.Reached && other.Step.Kind == "decide" {
			text, known = fmt.Sprintf("the answer at %s is %s", other.Number, other.Answer), true
		}
	}
	return text, known
}
