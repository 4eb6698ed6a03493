package book

import (
	"strings"
	"testing"

	"github.com/hashicorp/hcl/v2/hclsyntax"
	"pgregory.net/rapid"
)

// one build to read expressions on.
func oneBuild(t testing.TB, text string) *Build {
	t.Helper()
	b, problems := Load(t.Context(), filesOf(text))
	if problems.HasErrors() {
		t.Fatal(problems[0])
	}
	build, _ := b.Build("")
	return build
}

func TestParseExpr_WritesBackWithFewParentheses(t *testing.T) {
	b := oneBuild(t, smallBook)
	for text, want := range map[string]string{
		"pump_1":                               "pump_1",
		"((pump_1))":                           "pump_1",
		"pump_1 && (engine_1 && pressure_1)":   "pump_1 && (engine_1 && pressure_1)",
		"(pump_1 && engine_1) && pressure_1":   "pump_1 && engine_1 && pressure_1",
		"(pump_1 && engine_1) || pressure_1":   "pump_1 && engine_1 || pressure_1",
		"pump_1 && (engine_1 || pressure_1)":   "pump_1 && (engine_1 || pressure_1)",
		"!(pump_1 || engine_1)":                "!(pump_1 || engine_1)",
		"!(!pump_1)":                           "!(!pump_1)",
		"!(pump_1) == (engine_1 == climb)":     "!pump_1 == (engine_1 == climb)",
		"(real.mach > 0.5) == (real.mach < 1)": "(real.mach > 0.5) == (real.mach < 1)",
		"real.mach - (real.mach - 1)":          "real.mach - (real.mach - 1)",
		"(real.mach * 2) / 3 - 4":              "real.mach * 2 / 3 - 4",
		"-(real.mach + 1)":                     "-(real.mach + 1)",
		"-(-real.mach)":                        "-(-real.mach)",
		"real.mach - -3":                       "real.mach - -3",
		"(pump_1 ? 1 : 2) + 3":                 "(pump_1 ? 1 : 2) + 3",
		"pump_1 ? 1 : (engine_1 ? 2 : 3)":      "pump_1 ? 1 : engine_1 ? 2 : 3",
		"(pump_1 ? climb : engine_1) ? 1 : 2":  "(pump_1 ? climb : engine_1) ? 1 : 2",
		"held(pump_1,2*60)":                    "held(pump_1, 120)",
		"at_least( 2 , pump_1,engine_1,climb)": "at_least(2, pump_1, engine_1, climb)",
		"total(pump_1, 5, -1, 1e3)":            "total(pump_1, 5, -1, 1000)",
		"failed(pump_1) || pump_1.leaks":       "failed(pump_1) || pump_1.leaks",
		"ground_cart == \"on\"":                "ground_cart == \"on\"",
		"aircraft.wing_area_m2 > 0.00001":      "aircraft.wing_area_m2 > 1e-5",
		"pump_1 &&\n  engine_1 # both":         "pump_1 && engine_1",
	} {
		e, problems := ParseExpr(text, b)
		if problems.HasErrors() {
			t.Errorf("%s: %s", text, problems[0])
			continue
		}
		if got := e.String(); got != want {
			t.Errorf("%q is written back as %q, want %q", text, got, want)
		}
	}
}

func TestParseExpr_FillsTypesAndUnits(t *testing.T) {
	b := oneBuild(t, smallBook)
	for text, want := range map[string]string{
		"pump_1":                        "yes/no",
		"real.height_ft":                "number ft",
		"real.height_ft + 5":            "number ft",
		"5 + 6":                         "number",
		"real.height_ft * 2":            "number",
		"total(pump_1)":                 "number s",
		"total(real.height_ft)":         "number",
		"count(pump_1)":                 "number count",
		"before(pressure_1_psi)":        "number psi",
		"aircraft.wing_area_m2":         "number m2",
		"ground_cart":                   "word off on",
		"pump_1 ? ground_cart : \"up\"": "word off on up",
		"level_word":                    "word high low",
	} {
		e, problems := ParseExpr(text, b)
		if problems.HasErrors() {
			t.Errorf("%s: %s", text, problems[0])
			continue
		}
		got := strings.Join(append([]string{e.Type.String()}, append(strings.Fields(e.Unit), e.Words...)...), " ")
		if got != want {
			t.Errorf("%q is a %s, want %s", text, got, want)
		}
	}
}

func TestParseExpr_GivesLiteralsTheUnitNeeded(t *testing.T) {
	b := oneBuild(t, smallBook)
	e, _ := ParseExpr("real.height_ft > 14000", b)
	if e == nil || e.Args[1].Unit != "ft" {
		t.Errorf("the literal has no unit: %+v", e)
	}
}

func TestParseExpr_SaysWhatIsWrong(t *testing.T) {
	b := oneBuild(t, smallBook)
	for text, want := range map[string]string{
		"":                                 "1:1: error: Nothing is written",
		"pump_9":                           `1:1: error: Nothing is called "pump_9". Did you mean "pump_1"?`,
		"pump_1 && lost(main_brakes)":      `1:11: error: "lost" is only for what a claim expects`,
		"pump_1 engine_1":                  "1:8: error: The expression ends before this. Join conditions",
		"pump_1 && ":                       "1:11: error: Missing expression",
		"ground_cart == on":                `1:16: error: Nothing is called "on". As a word it goes in quotes: "on"`,
		"\xff":                             "1:1: error: The file is not UTF-8 text",
		strings.Repeat("!", 2000):          "The expression is too long",
		strings.Repeat("(", 200):           "Brackets are nested too deeply",
		strings.Repeat("a &&\n", 2000):     "The expression is too long",
		"aircraft.wing_aera_m2 > 5":        `Did you mean "aircraft.wing_area_m2"?`,
		"bird_strike":                      `"bird_strike" is an event; it has no value`,
		"real.heigt_ft > 5 && pump_1.x":    `Did you mean "real.height_ft"?`,
		"pump_1 || real.height_ft":         `"||" needs a yes/no here`,
		"\"${pump_1}\" == ground_cart":     "A text may not hold ${",
		"pressure_1_psi + real.mass_kg":    "A number in psi meets one in kg",
		"pressure_1_psi > 3000 > 2000":     "Comparisons do not chain",
		"frozen(pump_1)":                   "It is called as frozen(x, when)",
		"total(real.fuel_kg, 0, 0, 9) > 5": "It follows real.fuel_kg",
		"total(real.height_ft, 0, 5, 9)":   "The bounds of the total exclude its start",
	} {
		e, problems := ParseExpr(text, b)
		if e != nil || !problems.HasErrors() {
			t.Errorf("%q is accepted", text)
			continue
		}
		if got := problems[0].String(); !strings.Contains(got, want) {
			t.Errorf("%q gives %q, want %q", text[:min(len(text), 40)], got, want)
		}
	}
}

func TestParseExpr_NamesTheBuildThatLacksAnItem(t *testing.T) {
	book := bookOf(t, variedBook)
	early, _ := book.Build("early")
	if _, problems := ParseExpr("extra", early); !problems.HasErrors() || !strings.Contains(problems[0].String(), `On build "early"`) {
		t.Errorf("got %v", problems)
	}
	late, _ := book.Build("late")
	if _, problems := ParseExpr("extra", late); problems.HasErrors() {
		t.Errorf("got %v", problems)
	}
}

func TestParseExpect(t *testing.T) {
	b := oneBuild(t, smallBook)
	e, problems := ParseExpect("lost(main_brakes) && first(!pressure_1)<5", b)
	if problems.HasErrors() || e.String() != "lost(main_brakes) && first(!pressure_1) < 5" {
		t.Errorf("got %v, %v", e, problems)
	}
	if _, problems := ParseExpect("main_brakes", b); !problems.HasErrors() || problems[0].Code != "no-moment" {
		t.Errorf("got %v", problems)
	}
}

// Whatever expression there is, its text reads back as the same expression.
func TestExpr_StringReadsBack(t *testing.T) {
	b := oneBuild(t, smallBook)
	rapid.Check(t, func(t *rapid.T) {
		e := anyExpr(t, rapid.SampledFrom([]Type{YesNo, Number, Word}).Draw(t, "type"), 5)
		text := e.String()
		again, problems := ParseExpr(text, b)
		if problems.HasErrors() {
			t.Fatalf("%s: %s", text, problems[0])
		}
		if !sameShape(e, again) {
			t.Fatalf("%s reads back as %s", text, again)
		}
	})
}

func sameShape(a, b *Expr) bool {
	if a.Op != b.Op || a.ID != b.ID || a.Word != b.Word || a.Num != b.Num || len(a.Args) != len(b.Args) || (a.Bound == nil) != (b.Bound == nil) {
		return false
	}
	if a.Bound != nil && *a.Bound != *b.Bound {
		return false
	}
	for i := range a.Args {
		if !sameShape(a.Args[i], b.Args[i]) {
			return false
		}
	}
	return true
}

// anyExpr makes an expression of smallBook. Its numbers have no units, and its
// words can all be each other, so that every one of them is right.
func anyExpr(t *rapid.T, typ Type, depth int) *Expr {
	if depth == 0 {
		return anyLeaf(t, typ)
	}
	yesNo := func() *Expr { return anyExpr(t, YesNo, depth-1) }
	number := func() *Expr { return anyExpr(t, Number, depth-1) }
	same := func() *Expr { return anyExpr(t, typ, depth-1) }
	seconds := float64(rapid.IntRange(0, 1000).Draw(t, "seconds")) / 8
	ops := map[Type][]Op{
		YesNo:  {OpNot, OpAnd, OpOr, OpAny, OpAll, OpAtLeast, OpEq, OpNe, OpLt, OpGe, OpHeld, OpPulse, OpBefore, OpFrozen, OpIf, OpYesNo},
		Number: {OpAdd, OpSub, OpMul, OpDiv, OpNeg, OpIf, OpMin, OpMax, OpAbs, OpLaw, OpBefore, OpFrozen, OpTotal, OpNumber},
		Word:   {OpIf, OpBefore, OpFrozen, OpWord},
	}
	op := rapid.SampledFrom(ops[typ]).Draw(t, "op")
	e := &Expr{Op: op, Type: typ}
	switch op {
	case OpYesNo, OpNumber, OpWord:
		return anyLeaf(t, typ)
	case OpNot, OpBefore, OpAbs:
		e.Args = []*Expr{same()}
	case OpNeg:
		if e.Args = []*Expr{number()}; e.Args[0].Op == OpNumber {
			return e.Args[0] // -5 is a number, not an operation
		}
	case OpAnd, OpOr, OpAdd, OpSub, OpMul, OpMin, OpMax, OpAny, OpAll:
		e.Args = []*Expr{same(), same()}
	case OpDiv:
		e.Args = []*Expr{number(), {Op: OpReal, ID: "time_s", Type: Number}}
	case OpLaw:
		e.Word, e.Args = "root_of", []*Expr{number()}
		if rapid.Bool().Draw(t, "table") {
			e.Word, e.Table = "between", []float64{-seconds - 1, 3, seconds, -2.5, seconds + 1, 0}
		}
	case OpAtLeast:
		e.Num, e.Args = 2, []*Expr{yesNo(), yesNo(), yesNo()}
	case OpEq, OpNe:
		e.Args = []*Expr{number(), number()}
		if rapid.Bool().Draw(t, "yes/no") {
			e.Args = []*Expr{yesNo(), yesNo()}
		}
	case OpLt, OpGe:
		e.Args = []*Expr{number(), number()}
	case OpHeld, OpPulse:
		e.Num, e.Args = seconds, []*Expr{yesNo()}
	case OpFrozen:
		e.Args = []*Expr{same(), yesNo()}
	case OpIf:
		e.Args = []*Expr{yesNo(), same(), same()}
	case OpTotal:
		e.Args = []*Expr{yesNo()}
		if rapid.Bool().Draw(t, "bounds") {
			e.Bound = &Bounds{Start: seconds, Least: -seconds, Most: seconds * 2}
		}
	}
	return e
}

func anyLeaf(t *rapid.T, typ Type) *Expr {
	switch typ {
	case Number:
		if rapid.Bool().Draw(t, "real") {
			return &Expr{Op: OpReal, ID: "time_s", Type: typ}
		}
		return &Expr{Op: OpNumber, Num: rapid.Float64Range(-1e12, 1e12).Draw(t, "number"), Type: typ}
	case Word:
		return &Expr{Op: OpRef, ID: "level_word", Type: typ}
	}
	return rapid.SampledFrom([]*Expr{
		{Op: OpRef, ID: "pump_1", Type: typ}, {Op: OpRef, ID: "climb", Type: typ}, {Op: OpReal, ID: "on_ground", Type: typ},
		{Op: OpFault, ID: "pump_1", Word: "leaks", Type: typ}, {Op: OpFailed, ID: "engine_1", Type: typ}, {Op: OpYesNo, Num: 1, Type: typ},
	}).Draw(t, "yes/no")
}

// ParseExpect reads one thing that a claim expects, such as "lost(brakes)".
func ParseExpect(text string, b *Build) (*Expr, Diagnostics) {
	return parseText(text, func(l *loader, n hclsyntax.Expression) *Expr {
		c := checker{scope: buildScope{b}, report: l.add, claims: true}
		e := c.check(n)
		c.want(e, YesNo, "expect")
		if bad := needsMoment(e); bad != nil {
			l.add(noMoment(bad.Range))
		}
		(&continuity{signals: b.Signals}).checkBounds(e, l.add)
		return e
	})
}
