package book

// Code is one kind of diagnostic.
type Code struct {
	Name     string // stable; tools may rely on it
	Severity Severity
	Meaning  string
}

// Codes lists every kind of diagnostic, errors before advice.
var Codes = []Code{
	// files
	{"no-folder", Error, "the folder of the book cannot be read"},
	{"no-files", Error, "the folder holds no .hcl file"},
	{"empty-book", Error, "no file holds a block"},
	{"unreadable", Error, "a file cannot be read"},
	{"not-text", Error, "a file is not UTF-8 text"},
	{"too-big", Error, "a file, or the book, is bigger than the limits"},
	{"too-deep", Error, "brackets are nested too deeply"},
	{"too-long", Error, "an expression or a number is too long"},
	{"stopped", Error, "reading was broken off"},
	// text
	{"syntax", Error, "the text is not HCL"},
	{"line-break", Error, "an expression breaks across lines outside parentheses"},
	{"attribute-twice", Error, "an attribute is given twice"},
	{"template", Error, "a text has ${ or %{ in it"},
	{"unknown-block", Error, "a block of this kind does not belong here"},
	{"unknown-attribute", Error, "an attribute does not belong here"},
	{"missing-attribute", Error, "an attribute that must be there is not"},
	{"label", Error, "the name between a block's word and its brace is missing or too much"},
	{"bad-id", Error, "an id has letters that an id cannot have"},
	{"bad-mirror", Error, "a block that is to be read for both sides has no other side"},
	{"duplicate", Error, "an id, a fault, a build or a list entry is there twice"},
	{"variant", Error, "something is wrong with builds: only, except, variant"},
	// values
	{"wrong-value", Error, "an attribute needs a value of another form"},
	{"out-of-range", Error, "a number is outside what makes sense"},
	{"quoted-id", Error, "an id is written in quotes"},
	{"unknown-word", Error, "a word is none of those that are possible"},
	{"bad-moment", Error, "a moment cannot be read"},
	{"unknown-id", Error, "no item has this id"},
	{"unknown-fault", Error, "the unit has no such fault"},
	{"unknown-real", Error, "there is no such real.* value"},
	{"unknown-fact", Error, "the aircraft block gives no such number"},
	{"unknown-function", Error, "the language has no such function"},
	{"absent", Error, "an item does not exist on this build"},
	{"wrong-kind", Error, "an item is of another kind than is needed here"},
	// expressions
	{"not-in-language", Error, "HCL has this, the book language does not"},
	{"arguments", Error, "a function is called with the wrong number of arguments, or with arguments that it cannot take"},
	{"wrong-type", Error, "a value has another type than is needed here"},
	{"wrong-unit", Error, "numbers with different units meet"},
	{"never-equal", Error, "a word is compared with one that it can never be"},
	{"chained", Error, "comparisons are chained"},
	{"zero-division", Error, "a number is divided by zero"},
	{"continuous", Error, "a total with bounds, or an effect, takes a value that changes continuously"},
	{"no-moment", Error, "a claim reads a value without saying when"},
	{"only-in-claims", Error, "a function of claims is called elsewhere"},
	{"only-in-steps", Error, "what a crew look at is read outside the steps of a procedure"},
	{"not-beforehand", Error, "only_if of a deferral reads what is not known before the flight"},
	{"untyped", Error, "the type of a signal cannot be told"},
	{"loop", Error, "a value depends on itself with no memory between, or two totals follow each other"},
	// the whole
	{"cannot-know", Error, "a step asks for what is true and not for what is shown"},
	{"list-loop", Error, "procedures send to each other without end"},
	{"incomplete", Error, "a block says too little"},
	{"contradiction", Error, "attributes exclude each other"},
	{"bulletins", Error, "two bulletins are in force at once and disagree"},
	{"no-aircraft", Error, "the book has no aircraft block, or two"},
	{"polar", Error, "a drag polar is none that an aircraft can have"},
	{"no-setting", Error, "an effect names slats and flaps, and the aircraft block has no setting"},
	// advice
	{"no-flight", Advice, "the book has no flight"},
	{"no-phase", Advice, "the book has no phase"},
	{"unused-unit", Advice, "nothing uses a unit"},
	{"unused-control", Advice, "nothing reads a control"},
	{"untold", Advice, "no alert or indication tells of a function"},
	{"no-procedure", Advice, "an alert that calls for action names no procedure"},
	{"one-answer", Advice, "a decision moves something for one answer and says nothing for the other"},
	{"never-called", Advice, "called_by names an alert that does not call for the list"},
	{"no-meaning", Advice, "an indication stands for nothing"},
	{"no-unit", Advice, "a number signal does not carry its unit in its id"},
	{"flyable", Advice, "what the aircraft cannot be flown without is no function whose loss is catastrophic"},
	{"constant", Advice, "a condition never changes"},
	{"no-number", Advice, "an effect or a price needs a number that the book does not give"},
	{"odd-rate", Advice, "a rate is 0, or above one an hour"},
	{"row-order", Advice, "a row of a table is out of order"},
	// the list itself
	{"more", Advice, "further diagnostics are left out"},
}

var severities = func() map[string]Severity {
	m := map[string]Severity{}
	for _, c := range Codes {
		m[c.Name] = c.Severity
	}
	return m
}()

func problem(code string, at Range, summary, detail string) Diagnostic {
	s, ok := severities[code]
	if !ok {
		panic("book: no diagnostic has the code " + code)
	}
	return Diagnostic{Severity: s, Code: code, Summary: summary, Detail: detail, Subject: at}
}

// with adds a second place.
func (d Diagnostic) with(note string, at Range) Diagnostic {
	d.Others = append(d.Others, Place{note, at})
	return d
}

// within adds the wider place.
func (d Diagnostic) within(r Range) Diagnostic { d.Context = &r; return d }
