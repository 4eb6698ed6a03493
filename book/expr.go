package book

// Type of a value.
type Type uint8

// The three types of the language.
const (
	Unknown Type = iota
	YesNo
	Number
	Word
)

func (t Type) String() string { return [...]string{"unknown", "yes/no", "number", "word"}[t] }

// Op says what an Expr does.
type Op uint8

// Operations. The comment gives the arguments.
const (
	OpInvalid Op = iota

	OpYesNo  // literal: Num is 0 or 1
	OpNumber // literal: Num
	OpWord   // literal: Word

	OpRef   // ID: the main value of an item (see Main below)
	OpReal  // ID: name of a real.* quantity, without "real."
	OpFact  // ID: name of a number of the aircraft block, without "aircraft."
	OpFault // ID, Word: unit and fault, true while the unit has the fault
	OpPlan  // ID: name of a number of the flight, without "flight."; only in what a crew look at
	OpSeen  // ID: name of what can be seen without an instrument, see Sights

	OpCalledBy // called_by(alert): ID; only in what a crew look at

	OpNot     // a
	OpAnd     // a && b
	OpOr      // a || b
	OpAny     // any(a, ...)
	OpAll     // all(a, ...)
	OpAtLeast // at_least(k, a, ...): Num is k
	OpEq      // a == b
	OpNe      // a != b
	OpLt      // a < b
	OpLe      // a <= b
	OpGt      // a > b
	OpGe      // a >= b
	OpAdd     // a + b
	OpSub     // a - b
	OpMul     // a * b
	OpDiv     // a / b
	OpNeg     // -a
	OpIf      // a ? b : c
	OpMin     // least_of(a, ...)
	OpMax     // most_of(a, ...)
	OpAbs     // size(a)
	OpLaw     // a law of physics: Word is its name, see Laws, or between; a, or a and b

	OpFailed // failed(unit): ID
	OpHeld   // held(x, s): a; Num is s in seconds
	OpPulse  // pulse(x, s): a; Num is s in seconds
	OpBefore // before(x): a
	OpFrozen // frozen(x, when): a, b
	OpTotal  // total(x) or total(x, start, least, most): a; Bounds
	OpCount  // count(x): a

	OpLedger // a function of a claim: Word is its name, Args its arguments; see ClaimFunctions
)

// Expr is a checked expression. Type, Unit and Words are filled by the checker.
//
// The main value of an item, read by a bare id (OpRef): unit, function: works
// (yes/no). signal: its value. control: its position (word). phase: the flight
// is in it (yes/no). alert: is given (yes/no). indication: what it shows, lit or
// not; only in what a crew look at.
type Expr struct {
	Op    Op
	Args  []*Expr
	ID    string
	Word  string
	Num   float64
	Bound *Bounds   // OpTotal with four arguments
	Table []float64 // OpLaw between: x1, y1, x2, y2, …

	Type  Type
	Unit  string   // of a number: "ft", "kt", ...; "" for a bare or compound number
	Words []string // of a word: the words it can be, sorted; empty where not known
	Range Range

	fits bool // of a number without Unit: compound or not known, so that it goes with any unit
}

// Bounds of a total that starts somewhere and cannot leave a range, such as a tank.
type Bounds struct{ Start, Least, Most float64 }

// Walk calls visit for e and everything below it, parents first.
func (e *Expr) Walk(visit func(*Expr)) {
	if e == nil {
		return
	}
	visit(e)
	for _, a := range e.Args {
		a.Walk(visit)
	}
}

// sign gives an operator as written; "" for operations written as functions.
func (o Op) sign() string {
	switch o {
	case OpNot:
		return "!"
	case OpAnd:
		return "&&"
	case OpOr:
		return "||"
	case OpEq:
		return "=="
	case OpNe:
		return "!="
	case OpLt:
		return "<"
	case OpLe:
		return "<="
	case OpGt:
		return ">"
	case OpGe:
		return ">="
	case OpAdd:
		return "+"
	case OpSub, OpNeg:
		return "-"
	case OpMul:
		return "*"
	case OpDiv:
		return "/"
	}
	return ""
}
