package book

// Build is one build standard of the aircraft: every item that exists on it,
// decoded and checked. It is frozen: nothing changes after Load has returned.
// Slices are in the order of the files (by name) and of the lines in them.
type Build struct {
	Book        *Book
	Variant     string // id of the variant
	Aircraft    *Aircraft
	Units       []*Unit
	Events      []*Event
	Signals     []*Signal
	Controls    []*Control
	Functions   []*Function
	Alerts      []*Alert
	Indications []*Indication
	Phases      []*Phase
	Procedures  []*Procedure
	Bulletins   []*Bulletin
	Limits      []*Limit
	Effects     []*Effect
	Deferrals   []*Deferral
	Performance *Performance // a manual's numbers; nil: the book gives none
	Flights     []*Flight
	Claims      []*Claim

	items map[string]Item
}

// Item looks an id up; ok is false if this build has no such item.
func (b *Build) Item(id string) (item Item, ok bool) { item, ok = b.items[id]; return item, ok }

// Item is anything with an id in the book's one namespace.
type Item interface{ Named() *Head }

// Head is what every item has.
type Head struct {
	ID          string
	Kind        string // the block's word: "unit", "alert", ...
	Title       string // what a person reads; the id with spaces where the book gives none
	Chapter     int    // ATA chapter, 0 where none is given
	Note        string
	Source      string   // document, section, revision and date that it is from; "" where none is given
	NotModelled string   // what the book does not work out about it; "" where it says nothing
	AlsoCalled  []string // other names by which people look for it
	Range       Range    // the block's first line
}

// Named returns the head itself, so that any item can be asked for it.
func (h *Head) Named() *Head { return h }

// Aircraft is the type: what all builds share.
type Aircraft struct {
	Head
	AlertsGivenBy *Expr            // yes/no; nil where the book says nothing
	Flyable       *Expr            // yes/no; nil: whatever fails, it can be flown
	CrewAble      *Expr            // yes/no: whether anybody can move a control; nil: always
	FlyableAgainS float64          // how long flyable may be no before the aircraft is lost; WrongAfterS where not given
	Hears         map[string]*Expr // yes/no: whether one of Told can hear what a crew tell; nil: always
	ToldWithinS   float64
	WrongAfterS   float64
	Numbers       []Named    // all numbers that the block gives, in their order
	Settings      []*Setting // of slats and flaps, the first is clean
	Telling       []*Telling // how alerts of a level reach the crew
}

// Telling is what each way of telling needs: yes/no; nil is no way.
type Telling struct {
	Level              string // "" of one alert
	Text, Light, Sound *Expr
	Range              Range
}

// Ways of telling, in their order.
var Ways = []string{"text", "light", "sound"}

// Any says that there is a way at all.
func (t Telling) Any() bool { return t.Text != nil || t.Light != nil || t.Sound != nil }

// Each lists what the ways need, in the order of Ways; nil is no way.
func (t Telling) Each() []*Expr { return []*Expr{t.Text, t.Light, t.Sound} }

// Reaches gives the ways in which an alert reaches the crew: its own, where it names
// any, else those of its level. Where there is none at all it reaches them whenever
// it is given.
func (b *Build) Reaches(a *Alert) Telling {
	if a.Telling.Any() || b.Aircraft == nil {
		return a.Telling
	}
	for _, t := range b.Aircraft.Telling {
		if t.Level == a.Level {
			return *t
		}
	}
	return Telling{}
}

// Number returns a number of the aircraft by name.
func (a *Aircraft) Number(name string) (float64, bool) {
	if v, ok := named(a.Numbers, name); ok {
		return v, true
	}
	for _, s := range a.Settings {
		if name == s.MostLiftName() {
			return s.MostLift, true
		}
	}
	return 0, false
}

// MostLiftName is the name under which expressions read the most lift of a setting.
func (s *Setting) MostLiftName() string { return "most_lift_" + s.Name + "_ratio" }

func named(numbers []Named, name string) (float64, bool) {
	for _, n := range numbers {
		if n.Name == name {
			return n.Value, true
		}
	}
	return 0, false
}

// Named is a number with its unit in its name, such as wing_area_m2.
type Named struct {
	Name  string
	Value float64
	Range Range
}

// Variant is a build standard.
type Variant struct{ Head }

// Unit is a component that can fail.
type Unit struct {
	Head
	Needs       *Expr // nil: needs nothing
	Faults      []*Fault
	RatePerHour float64 // 0 where not given
	CheckedH    float64 // hours of flight between checks that would find its plain loss; 0: none is known
	ResetBy     *Expr   // a yes/no whose rise clears a resettable failure; nil: no reset
	ResetTries  int     // how often that may be tried, which limits no run; 0: nothing is said
	Place       string
}

// Fault is a way to fail other than plain loss.
type Fault struct {
	ID          string // used as unit.fault
	Title       string
	AlsoCalled  []string
	Stops       bool // the unit also stops working
	RatePerHour float64
	CheckedH    float64 // as of a unit
	Range       Range
}

// FailureRef names one way in which one unit fails: Fault is "" for plain loss.
type FailureRef struct {
	Unit  string
	Fault string
	Range Range
}

func (f FailureRef) String() string {
	if f.Fault == "" {
		return f.Unit
	}
	return f.Unit + "." + f.Fault
}

// Event is one cause that fails several units at once.
type Event struct {
	Head
	Fails       []FailureRef
	RatePerHour float64
}

// Signal is a derived value. Either Value is set, or Set and Reset (a latch).
type Signal struct {
	Head
	Value   *Expr
	Set     *Expr
	Reset   *Expr
	Initial bool // of a latch
	Type    Type
	Unit    string   // of a number
	Words   []string // of a word: the words it can be, sorted
}

// Control is a switch, lever or selector.
type Control struct {
	Head
	Positions []string
	Initial   string
	Place     string
}

// Function is something that the crew relies on.
type Function struct {
	Head
	Works    *Expr
	Wanted   *Expr // nil: always
	Severity string

	SeverityIfHidden string  // where a loss that nobody knows of is graded otherwise; "" as Severity
	SurvivableS      float64 // a loss that is over after so long at most has been lived through; 0: none has
	OverOnPurpose    string  // why its loss may be likelier than its severity allows; "": it may not
	Noticed          *Noticed
}

// Graded is the class of a loss of it: where nobody knows of it, the one for that, if
// the book gives one.
func (f *Function) Graded(unknown bool) string {
	if unknown && f.SeverityIfHidden != "" {
		return f.SeverityIfHidden
	}
	return f.Severity
}

// Noticed is how people notice a loss that no alert tells: nil, they do not.
type Noticed struct {
	AtOnce bool
	When   *Expr  // yes/no; nil where AtOnce
	By     string // one of Senses
	Source string
}

// Senses by which a loss is noticed.
var Senses = []string{"seen", "heard", "felt", "tried"}

// Severities of a lost function, least first (14 CFR 25.4(b) and the class below it).
var Severities = []string{"minor", "major", "hazardous", "catastrophic"}

// Alert is what the aircraft announces.
type Alert struct {
	Head
	Level     string // one of Levels
	Message   string
	When      *Expr
	TrueWhen  *Expr    // nil: the same as When
	GivenBy   *Expr    // nil: always given
	QuietIn   []string // phase ids
	RepeatsS  float64  // 0: does not repeat
	Until     *Expr    // nil: until When ends
	Tells     []string // function ids
	Procedure string   // procedure id, "" for none

	QuietWhen *Expr   // yes/no; nil: in no other conditions
	Telling   Telling // its own ways of telling; see Build.Reaches

	ClaimsDown []FailureRef // what must be down for it to be true beside its condition: units, functions, signals, faults
}

// Levels of an alert, highest first (14 CFR 25.1322).
var Levels = []string{"warning", "caution", "advisory"}

// Indication is a lamp, readout or picture.
type Indication struct {
	Head
	Shows  *Expr
	Means  *Expr   // nil: stands for nothing that can be checked
	Within float64 // for numbers: how far Shows may be from Means and still be right
	LitBy  *Expr   // nil: always lit
	Place  string
	Tells  []string // function ids that it covers beside those named in Means
}

// Phase is a phase of flight. Phases follow each other in the order of the book.
type Phase struct {
	Head
	Begins *Expr    // nil for the first
	After  []string // what is flown that makes it current (Legs)
	NoGo   bool     // a caution or a warning that calls a list in it keeps the aircraft on the ground
}

// Procedure is a checklist.
type Procedure struct {
	Head
	Priority int  // 1 is first among those of one level of alert; DefaultPriority where nothing is said
	Last     bool // once it is begun everything else is dropped, and nothing is begun any more
	Steps    []*Step
}

// DefaultPriority is that of a procedure whose block says none.
const DefaultPriority = 50

// Step is one line of a procedure.
type Step struct {
	Kind       string // do, check, decide, note, tell, later
	If         *Expr  // while it is no, or cannot be seen, the line does not belong: it is passed over; nil: always belongs
	Says       string
	Set        string  // do: control id
	To         string  // do: position
	Leg        string  // do, note: what is flown from its end on: one of Legs, or long_enough
	LegFt      float64 // do, note: the level of a descent
	GoTo       string  // do, note: the procedure that is done after this one, "" for none
	Leave      bool    // with GoTo: at once, and the rest of this one is left
	Whom       string  // tell: one of Told
	That       *Expr   // check: what should be so; decide: the question
	Compares   bool    // check, decide: That holds gauges against what else is known; one that is wrong is found out
	In         string  // later: phase id, "" where When is given
	When       *Expr   // later: what is waited for
	By         string  // PF, PM, both
	FromMemory bool
	Sensed     bool
	WaitS      float64 // so long after the line before it
	WaitFor    *Expr   // while it is seen not to be so the line waits; nil: it does not
	Because    string
	Then, Else []*Step // decide; later uses Then; tell has Else, for where nobody hears it
	Unknown    []*Step // decide: where That cannot be seen; empty: as Else
	Range      Range
}

// Told are those whom a crew tell.
var Told = []string{"cabin", "control", "company"}

// Legs are the words for what a plan may have flown from a moment on
// (docs/meaning.md, section 12).
var Legs = []string{"go_on", "divert", "return", "land", "reject", "hold", "go_around", "descend"}

// Limit is an operating limit and when it applies.
type Limit struct {
	Head
	Quantity *Expr
	Most     *Expr // nil: no upper bound
	Least    *Expr // nil: no lower bound
	Applies  *Expr // nil: always
}

// Flight is a flight to fly.
type Flight struct {
	Head
	From, To string
	Numbers  []Named // the names in FlightNumbers
	Acts     []*Act
	Supposed string // what a question supposes of it, in words; "": it is as the book has it
}

// Number returns a number of the flight by name.
func (f *Flight) Number(name string) (float64, bool) { return named(f.Numbers, name) }

// Act sets a control when something becomes true.
type Act struct {
	Title string
	Set   string
	To    string
	At    string // of a set-up without When: a moment, "" for the start; see ParseMoment
	When  *Expr
	Range Range
}

// Claim is a sentence with a check attached.
type Claim struct {
	Head
	Says  string
	Given []*Given
}

// Given is one scenario of a claim with what is expected of it.
type Given struct {
	Title       string
	Strikes     []*Strike    // the first is written in the block itself, the others in also blocks
	Inoperative []FailureRef // at dispatch
	Variant     string       // "" for the first
	Flight      string       // "" for the first
	SetUps      []*Act       // how the aircraft is set, whether anything fails or not
	Acts        []*Act       // what the crew do because of what fails, or by mistake
	Crew        string       // conduct, one of Conducts; "" is nobody
	Plan        []PlanLeg    // where the flight goes
	Turn        string       // when the crew turn, for what an airfield costs: a moment; "" when the first failure comes
	Expect      []*Expr      // ledger functions are allowed here, see ClaimFunctions
	Range       Range
}

// Strike is a set of failures that come at one moment.
type Strike struct {
	Fail       []FailureRef // an event's id stands in Unit with Fault ""
	At         string       // "climb + 120 s", "1800 s", "" for the start; see ParseMoment
	When       *Expr        // the failures come when this becomes true; nil: at At
	ForS       float64      // 0: lasting
	Resettable bool
	Range      Range
}
