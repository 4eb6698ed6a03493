package book

import "strings"

// labelRule says what stands between a block's word and its brace.
type labelRule uint8

const (
	labelNone labelRule = iota
	labelID             // one id
	labelText           // one text
	labelFree           // one text or nothing
)

// blockKind says what a kind of block may hold. The values of the attributes
// are checked where they are decoded.
type blockKind struct {
	word    string
	label   labelRule
	must    []string // attributes that must be there
	may     []string // all attributes, must among them
	numbers []string // further attributes
	blocks  []string // words of the sub-blocks, steps among them
	endings bool     // takes any number whose name ends in a unit
}

const stepWords = "do check decide note tell later"

// topKinds are the blocks of a book, subKinds those inside them. A star marks
// an attribute that must be there.
var (
	topKinds = kindsByWord(
		item("aircraft", "title* alerts_given_by cabin_hears control_hears company_hears flyable flyable_again_s crew_able told_within_s wrong_after_s", "setting telling").withEndings(),
		kind("variant", labelID, "title* also_called chapter note source", ""),
		item("unit", "needs rate_per_hour checked_every_h place reset_by reset_tries", "fault"),
		item("event", "fails* rate_per_hour", ""),
		item("signal", "value set reset initial", ""),
		item("control", "positions* initial* place", ""),
		item("function", "works* wanted severity severity_if_hidden survivable_s over_on_purpose noticed_at_once noticed_when noticed_by noticed_source", ""),
		item("alert", "level* message* when* true_when given_by quiet_in quiet_when repeats_s until text light sound tells claims_down procedure", ""),
		item("indication", "shows* means within lit_by place tells", ""),
		item("phase", "begins after_leg no_go", ""),
		item("procedure", "priority last", stepWords),
		item("bulletin", "procedure* from until replaces after", stepWords),
		item("limit", "quantity* most least applies", ""),
		item(effectWord, "value*", ""),
		item("deferral", "items* category* days words_crew words_maintenance only_if most_altitude_ft no_icing not_with", "set_up"),
		item("performance", "source* combine", tableWords()+" factor"),
		item("flight", "from to", "act").withFlightNumbers(),
		kind("claim", labelID, "title chapter note only except mirror says* source* expect", "given"),
	)
	subKinds = kindsByWord(append(tableBlocks(),
		kind("setting", labelText, "zero_lift_drag_ratio* induced_drag_ratio* most_lift_ratio* ground_lift_ratio", ""),
		kind("telling", labelText, "text light sound", ""),
		kind("fault", labelID, "title also_called stops rate_per_hour checked_every_h", ""),
		kind("act", labelText, "set* to* when*", ""),
		kind("set_up", labelText, "set* to* at when", ""),
		kind("given", labelFree, "inoperative fail at when for_s resettable variant flight crew plan turn expect", "set_up act also"),
		kind("also", labelNone, "fail* at when for_s resettable", ""),
		kind("do", labelNone, "set to leg leg_ft go_to leave says by from_memory sensed wait_s wait_for if because", ""),
		kind("check", labelNone, "that compares says by from_memory sensed wait_s wait_for if because", ""),
		kind("decide", labelNone, "that compares says by from_memory wait_s wait_for if because", "then else unknown"),
		kind("then", labelNone, "", stepWords),
		kind("else", labelNone, "", stepWords),
		kind("unknown", labelNone, "", stepWords),
		kind("note", labelNone, "says* leg leg_ft go_to leave by from_memory wait_s wait_for if because", ""),
		kind("tell", labelNone, "whom* says* by wait_s wait_for if because", "else"),
		kind("later", labelNone, "in when says if because", stepWords),
		kind("factor", labelID, "title when* covers landing_ratio fuel_ratio adds_m", ""),
	)...)
	topWords = wordsOf(topKinds, "aircraft variant unit event signal control function alert indication phase procedure bulletin limit effect deferral performance flight claim")
)

// topAct is an act that stands by itself; unlike one of a flight it may be mirrored.
var topAct = kind(actWord, labelText, "set* to* when* mirror", "")

// tableBlocks are the sub-blocks of a performance block that hold rows. A landing
// is that of a setting of slats and flaps, an approach may be.
func tableBlocks() (list []*blockKind) {
	labels := map[string]labelRule{"landing": labelText, "approach": labelFree}
	for _, k := range TableKinds {
		list = append(list, kind(k.Word, labels[k.Word], "columns* rows*", ""))
	}
	return list
}

func tableWords() string {
	var words []string
	for _, k := range TableKinds {
		words = append(words, k.Word)
	}
	return strings.Join(words, " ")
}

// item is a block with an id, the common attributes and variant sub-blocks.
func item(word, attrs, blocks string) *blockKind {
	common := ""
	for _, name := range strings.Fields("title also_called chapter note source not_modelled only except mirror") {
		if !strings.Contains(" "+attrs, " "+name+"*") {
			common += name + " "
		}
	}
	return kind(word, labelID, common+attrs, blocks+" variant")
}

func kind(word string, label labelRule, attrs, blocks string) *blockKind {
	k := &blockKind{word: word, label: label, blocks: strings.Fields(blocks)}
	for _, name := range strings.Fields(attrs) {
		plain := strings.TrimSuffix(name, "*")
		if plain != name {
			k.must = append(k.must, plain)
		}
		k.may = append(k.may, plain)
	}
	return k
}

func (k *blockKind) withEndings() *blockKind { k.endings = true; return k }

func (k *blockKind) withFlightNumbers() *blockKind {
	for _, n := range FlightNumbers {
		k.numbers = append(k.numbers, n.Name)
		if n.Required {
			k.must = append(k.must, n.Name)
		}
	}
	k.may = append(k.may, k.numbers...)
	return k
}

func kindsByWord(kinds ...*blockKind) map[string]*blockKind {
	m := make(map[string]*blockKind, len(kinds))
	for _, k := range kinds {
		m[k.word] = k
	}
	return m
}

func wordsOf(kinds map[string]*blockKind, words string) []string {
	list := strings.Fields(words)
	if len(list) != len(kinds) {
		panic("book: the list of block words is not complete")
	}
	return list
}

// UnitOf gives the unit at the end of a name: "ft" for "cabin_altitude_ft", ""
// where the name ends in none. Of two endings that fit the longer counts.
func UnitOf(name string) string {
	best := ""
	for _, u := range Units {
		if len(u) > len(best) && len(name) > len(u)+1 && strings.HasSuffix(name, u) && name[len(name)-len(u)-1] == '_' {
			best = u
		}
	}
	return best
}
