package ledger

import (
	"encoding/json"
	"math"
	"strings"

	"knockon/book"
	"knockon/say"
)

// View is a ledger in words. Text, JSON and the web page are all made from it,
// so that they say the same.
type View struct {
	Heading string `json:"heading"` // what was asked: failures, moment, phase, what was inoperative
	Setting string `json:"setting"` // on which aircraft, build and flight, and what the crew did
	Asked   string `json:"-"`       // the heading with how it is set up and who acts, for what shows no setting
	Summary string `json:"summary"` // what is wrong with the landing, what is not answered, and how much of what was found
	Ended   Ended  `json:"ended"`   // how the flight ended

	Hidden []Spoken `json:"hidden"` // what matters, is lost, and of which nobody can know; the worst first
	Denied []Spoken `json:"denied"` // of which an indication says the contrary
	Grave  []Spoken `json:"grave"`  // hazardous or worse, the gravest of what is told or can be known
	False  []Spoken `json:"false_warnings"`
	Lead   string   `json:"lead"` // these in sentences; that nothing is hidden or denied

	Unanswered string   `json:"unanswered,omitempty"` // why the question has no full answer; every view opens with it
	Forbidden  string   `json:"forbidden,omitempty"`  // why the deferrals of the book do not let it go so
	Landing    string   `json:"landing,omitempty"`    // what is wrong with the landing, whatever else is told; "" nothing is
	Ends       string   `json:"ends,omitempty"`       // where and when the flight is over; "" where that is not answered
	Stop       *Stop    `json:"stop,omitempty"`       // how the landing, or a rejected take-off, comes out on its runway, where the flight feels the systems
	Fuel       *Fuel    `json:"fuel_at_touchdown,omitempty"`
	Turns      []string `json:"turns,omitempty"`            // what each leg of the plan made of the flight, in order
	Silent     string   `json:"silent,omitempty"`           // that nothing tells of the failure itself
	Otherwise  string   `json:"otherwise,omitempty"`        // what differs with another conduct, where that was asked for
	Unheard    []string `json:"unheard,omitempty"`          // whom the crew told something and did not reach; a sentence each
	Deceived   []string `json:"deceived,omitempty"`         // where what the crew saw led them astray, or was dark; a sentence each
	Left       string   `json:"left_to_fly_with,omitempty"` // limits that are narrower than with nothing failed
	Found      string   `json:"-"`                          // the summary without it

	Worth *Worth `json:"worth_teaching,omitempty"` // where somebody asked for it

	NotModelled []book.Unmodelled `json:"not_modelled"` // what the book does not work out about the aircraft, what fails and what is lost

	Strike  Moment  `json:"strike"`
	Shown   *Shown  `json:"only,omitempty"` // where not all rows were wanted: which the groups have
	Groups  []Group `json:"groups"`
	Caution string  `json:"caution"`

	phases []Ref // that the flight went through
}

// Stop is a landing, or a rejected take-off, on its runway.
type Stop struct {
	TookM     float64 `json:"took_m,omitempty"` // from the threshold to the stop, without any margin; 0: it does not stop
	HasM      float64 `json:"has_m,omitempty"`  // landing distance available; 0: not known
	Field     string  `json:"field,omitempty"`
	Runway    string  `json:"runway,omitempty"` // its end
	OffTheEnd bool    `json:"off_the_end"`
	HeadKt    float64 `json:"headwind_kt"`        // on it; negative: from behind
	Rejected  bool    `json:"rejected,omitempty"` // a take-off: took_m is from where its roll began
}

// Group is what was found of one kind. Every view has all groups, in the same
// order, the worst first.
type Group struct {
	ID    string `json:"id"` // one of the Group constants
	Title string `json:"title"`
	None  string `json:"none"` // what to say when it is empty
	Rows  []Row  `json:"rows"`
}

// Spoken is a loss as a sentence names it.
type Spoken struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Clock string `json:"clock"` // when it began, or was first called for
}

// Ids of the groups, in their order. The first seven have one word of knowing each.
const (
	GroupHidden    = "hidden"
	GroupDenied    = "denied"
	GroupInUse     = "found_when_used"
	GroupLate      = "late"
	GroupFollows   = "follows"
	GroupNoticed   = "noticed"
	GroupTold      = "told"
	GroupIdle      = "not_wanted" // lost when it was not called for
	GroupConcluded = "false_conclusion"
	GroupWrong     = "shows_wrong"
	GroupDark      = "dark"
	GroupFalse     = "false_alarm"
	GroupHeld      = "held_back"
	GroupAlerts    = "announced"
	GroupKept      = "kept"
)

// GroupOf is the group of a word; "" for none.
func GroupOf(w Word) string {
	return map[Word]string{Hidden: GroupHidden, Denied: GroupDenied, InUse: GroupInUse, Late: GroupLate, Follows: GroupFollows, AtOnce: GroupNoticed, IsTold: GroupTold}[w]
}

// Row is one finding.
type Row struct {
	Kind     string    `json:"kind"` // function, indication, alert
	ID       string    `json:"id"`
	Title    string    `json:"title"`
	Chapter  int       `json:"chapter,omitempty"`
	Source   string    `json:"source,omitempty"` // what the book gives as the item's
	Rank     string    `json:"rank,omitempty"`   // severity of a function, level of an alert
	Class    string    `json:"class,omitempty"`  // of a loss: told, told late, ...
	Known    Word      `json:"known,omitempty"`  // of a loss: how people can know of it
	Mattered bool      `json:"mattered"`         // of a loss: it was called for
	Text     string    `json:"text,omitempty"`   // what holds for the row as a whole
	Spans    []RowSpan `json:"spans"`
	Phases   []string  `json:"-"` // ids of those in which it is so at some time
}

// RowSpan is one stretch of a finding.
type RowSpan struct {
	From        Moment      `json:"from"`
	Until       Moment      `json:"until"`
	ToEnd       bool        `json:"to_end"`
	Class       string      `json:"class,omitempty"`
	Known       Word        `json:"known,omitempty"`
	Also        []Word      `json:"also"` // the other words that fit
	Mattered    bool        `json:"mattered"`
	By          *Ref        `json:"by,omitempty"`       // the alert that tells
	Via         *Ref        `json:"via,omitempty"`      // the indication that shows or lies
	DeniedBy    []Ref       `json:"denied_by"`          // all indications that lie about it, whatever the class
	ShownBy     *Ref        `json:"shown_by,omitempty"` // where any lies: the one that shows it rightly
	At          *Moment     `json:"at,omitempty"`       // when it told, showed, lied or was given
	LateS       float64     `json:"late_s,omitempty"`   // how late it was told
	FollowsFrom *RowFollows `json:"follows_from,omitempty"`
	Noticed     *RowNoticed `json:"noticed,omitempty"`
	KnownFrom   *Moment     `json:"known_from,omitempty"` // of what is known late or found when used: when it is
	HeldIn      []string    `json:"held_in"`
	ByWays      []string    `json:"by_ways,omitempty"` // of an alert: text, light, sound, as far as it has ways of telling and they worked
	Sounds      int         `json:"sounds,omitempty"`
	Lasts       string      `json:"lasts"`          // to the end, until +5:10 (Descent), for 7.4 s
	Text        string      `json:"text,omitempty"` // the rest of what there is to say
}

// RowFollows is from what a loss follows.
type RowFollows struct {
	From   Ref     `json:"from"`
	Alert  *Ref    `json:"alert,omitempty"` // that claims it; none: a control that was moved by hand
	At     Moment  `json:"at"`
	Steps  int     `json:"steps"`
	AfterS float64 `json:"after_s"` // from the claim to when it follows
}

// RowNoticed is how a loss is noticed.
type RowNoticed struct {
	At     Moment `json:"at"`
	By     string `json:"by"`
	Source string `json:"source"`
}

// Ref points at an item of the book.
type Ref struct {
	ID    string `json:"id"`
	Title string `json:"title"` // of an alert: its message
	Rank  string `json:"rank,omitempty"`
}

// Moment is a moment of the flight in words.
type Moment struct {
	Time    book.Time `json:"-"`
	TimeS   float64   `json:"time_s"`  // from the start of the flight
	AfterS  float64   `json:"after_s"` // from the first failure
	Clock   string    `json:"clock"`   // minutes and seconds from the first failure: +0:42
	Phase   string    `json:"phase"`   // id
	PhaseIs string    `json:"phase_title"`
}

// MarshalJSON writes the ledger's view. Times are in seconds; names are stable.
func (l *Ledger) MarshalJSON() ([]byte, error) { return json.Marshal(l.View()) }

func (l *Ledger) speaker() speaker { return speaker{l, l.Here.Course.Build, l.Here.Phases()} }

// View puts the ledger into words.
func (l *Ledger) View() *View {
	s := l.speaker()
	v := &View{
		Heading: say.Sentence(s.question()), Asked: say.Sentence(s.question() + s.given() + s.planned() + s.who()), Setting: s.setting(), Ended: s.ended(), Unanswered: l.Unanswered(), Landing: l.Landing(), Forbidden: l.Forbidden, Ends: s.ends(), Silent: s.silent(),
		Strike: s.moment(l.Strike), Groups: s.groups(), NotModelled: s.lacks(), Caution: book.Caution, phases: s.titled(),
	}
	switch {
	case !v.Ended.Arrived:
		v.Found = "Up to there: " + l.lost() + "; shown and said: " + l.shown() + "."
	case l.comes():
		v.Left = say.Sentence(l.Left())
		v.Found = strings.TrimSpace(say.Sentence(l.lost()) + " " + say.Sentence(l.shown()) + " " + v.Left)
	}
	v.Summary = strings.TrimSpace(join(v.Forbidden, v.Landing, v.Unanswered) + " " + v.Found)
	for _, t := range l.Here.Turns {
		v.Turns = append(v.Turns, say.Sentence(Turned(t)))
	}
	if x, ok := l.Here.Rolled(); ok {
		v.Stop = &Stop{TookM: x.TookM, HasM: x.HasM, Field: x.Field, Runway: x.End, OffTheEnd: x.Over(), HeadKt: math.Round(x.HeadKt)}
	} else if x, ok := l.Here.Rejected(); ok {
		v.Stop = &Stop{TookM: x.TookM, HasM: x.HasM, Field: x.Field, Runway: x.End, OffTheEnd: x.Over(), Rejected: true, HeadKt: math.Round(x.HeadKt)}
	}
	if x, ok := l.fuelLeft(); ok {
		v.Fuel = &x
	}
	put := func(id string, r Row) {
		for i := range v.Groups {
			if v.Groups[i].ID == id {
				r.Phases = s.during(r)
				v.Groups[i].Rows = append(v.Groups[i].Rows, r)
			}
		}
	}
	for _, loss := range l.Losses {
		put(groupOf(loss), s.loss(loss))
	}
	for _, c := range l.Concluded {
		put(GroupConcluded, s.concluded(c))
	}
	v.Hidden, v.Denied, v.Grave, v.False = s.spoken(Hidden), s.spoken(Denied), s.grave(), s.falseWarnings()
	v.Lead = v.lead()
	for _, r := range l.Wrong {
		put(GroupWrong, s.wrong(r))
	}
	for _, r := range l.Dark {
		put(GroupDark, s.dark(r))
	}
	for _, a := range l.False {
		put(GroupFalse, s.falseAlarm(a))
	}
	for _, a := range l.Held {
		put(GroupHeld, s.heldBack(a))
	}
	for _, a := range l.Alerts {
		put(GroupAlerts, s.announced(a))
	}
	for _, k := range l.Kept {
		put(GroupKept, s.kept(k))
	}
	return v
}

func (s speaker) groups() []Group {
	list := []Group{
		{ID: GroupHidden, Title: "Lost, and hidden", None: s.noneLost()},
		{ID: GroupDenied, Title: "Lost, and denied by an indication", None: "No indication hides a loss."},
		{ID: GroupInUse, Title: "Lost, and found when used", None: "None."},
		{ID: GroupLate, Title: "Known late", None: "None."},
		{ID: GroupFollows, Title: "Follows from what is told", None: "None."},
		{ID: GroupNoticed, Title: "Noticed at once", None: "None."},
		{ID: GroupTold, Title: "Told", None: "None."},
		{ID: GroupIdle, Title: "Lost, but not called for meanwhile, or for a moment only", None: "None."},
		{ID: GroupConcluded, Title: "Works, although what is told says otherwise", None: "None."},
		{ID: GroupWrong, Title: "Shows wrong", None: "No indication lies."},
		{ID: GroupDark, Title: "Dark", None: "No indication goes dark."},
		{ID: GroupFalse, Title: "False alarms", None: "None."},
		{ID: GroupHeld, Title: "Held back", None: "No alert is held back."},
		{ID: GroupAlerts, Title: "Announced only with the failure, in order", None: "No alert is given only with the failure."},
		{ID: GroupKept, Title: "Still works", None: "Nothing of note: no function that is still there has lost half of what it uses."},
	}
	for i := range list {
		list[i].Rows = []Row{} // not null in JSON
		list[i].None = s.none(list[i].None)
	}
	if silent := s.silent(); silent != "" {
		list[0].None = silent + " " + list[0].None
	}
	return list
}

func groupOf(l Loss) string {
	if !l.Mattered {
		return GroupIdle
	}
	return GroupOf(l.Word())
}
