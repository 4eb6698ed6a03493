package oracle_test

import (
	"testing"

	"knockon/book"
	"knockon/internal/oracle"
)

func fails(refs ...string) (all []oracle.Failure) {
	for _, r := range refs {
		all = append(all, oracle.Failure{Ref: book.FailureRef{Unit: r}})
	}
	return all
}

func at(seconds float64, f oracle.Failure) oracle.Failure {
	f.At = book.AtSeconds(seconds)
	return f
}

func lasts(seconds float64, f oracle.Failure) oracle.Failure {
	f.Lasts = book.AtSeconds(seconds)
	return f
}

func resettable(f oracle.Failure) oracle.Failure {
	f.Resettable = true
	return f
}

func on(t *testing.T, when string, f oracle.Failure) oracle.Failure {
	f.When = expr(t, when)
	return f
}

func TestUnits(t *testing.T) {
	const chain = `
unit "source" {
  fault "stuck" { stops = true }
  fault "leaks" { stops = false }
  reset_by = real.braking
}
unit "bus" { needs = source }
unit "box" { needs = bus && !source.leaks }
event "fire" { fails = [bus, source.stuck, box] }
signal "out" { value = failed(bus) }`
	bus, source := fails("bus")[0], fails("source")[0]
	stuck := oracle.Failure{Ref: book.FailureRef{Unit: "source", Fault: "stuck"}}
	leaks := oracle.Failure{Ref: book.FailureRef{Unit: "source", Fault: "leaks"}}
	fire := fails("fire")[0]
	check(t, []example{
		{
			name: "a unit needs what it needs", book: chain, end: 9,
			scenario: oracle.Scenario{Failures: []oracle.Failure{at(3, source)}},
			want: map[string]string{
				"source works": "yes 3:no", "bus works": "yes 3:no", "box works": "yes 3:no",
				"source failed": "no 3:yes", "bus failed": "no", "out value": "no",
			},
		},
		{
			name: "a fault stops its unit only where it says so", book: chain, end: 9,
			scenario: oracle.Scenario{Failures: []oracle.Failure{at(3, leaks), at(5, stuck)}},
			want: map[string]string{
				"source works": "yes 5:no", "source fault leaks": "no 3:yes", "source fault stuck": "no 5:yes",
				"box works": "yes 3:no", "source failed": "no",
			},
		},
		{
			name: "an event fails all its units", book: chain, end: 9,
			scenario: oracle.Scenario{Failures: []oracle.Failure{at(3, fire)}},
			want:     map[string]string{"bus failed": "no 3:yes", "source fault stuck": "no 3:yes", "box failed": "no 3:yes", "source works": "yes 3:no"},
		},
		{
			name: "a passing failure passes, unless another cause stays", book: chain, end: 12,
			scenario: oracle.Scenario{Failures: []oracle.Failure{lasts(2, at(3, bus)), lasts(4, at(4, bus)), lasts(1, at(10, fire))}},
			want:     map[string]string{"bus failed": "no 3:yes 8:no 10:yes 11:no", "source works": "yes 10:no 11:yes"},
		},
		{
			name: "inoperative is failed from before the start, and no reset helps", book: chain, end: 9, path: "braking 2-3",
			scenario: oracle.Scenario{Inoperative: []book.FailureRef{{Unit: "source"}}},
			want:     map[string]string{"source failed": "yes", "bus works": "no"},
		},
		{
			name: "a failure on a condition strikes at every rise", book: chain, end: 20, path: "icing 2-3 8-9 10-11",
			scenario: oracle.Scenario{Failures: []oracle.Failure{lasts(4, on(t, "real.icing", bus))}},
			want:     map[string]string{"bus failed": "no 2:yes 6:no 8:yes 14:no"},
		},
		{
			name: "a condition that is yes at the start strikes there", book: chain, end: 5, path: "icing 0-3",
			scenario: oracle.Scenario{Failures: []oracle.Failure{on(t, "real.icing", bus)}},
			want:     map[string]string{"bus failed": "yes"},
		},
		{
			name: "a reset ends resettable failures and faults of its unit only", book: chain, end: 20, path: "braking 6-7",
			scenario: oracle.Scenario{Failures: []oracle.Failure{resettable(at(2, fire)), at(3, leaks), resettable(at(4, source))}},
			want: map[string]string{
				"source fault stuck": "no 2:yes 6:no", "source failed": "no 4:yes 6:no",
				"source fault leaks": "no 3:yes", "bus failed": "no 2:yes",
			},
		},
		{
			name: "a reset that is yes at the start has not risen", book: chain, end: 9, path: "braking 0-3 6-7",
			scenario: oracle.Scenario{Failures: []oracle.Failure{resettable(source)}},
			want:     map[string]string{"source failed": "yes 6:no"},
		},
		{
			name: "a failure that strikes with the reset stays", book: chain, end: 9, path: "braking 3-4 6-7",
			scenario: oracle.Scenario{Failures: []oracle.Failure{resettable(on(t, "real.braking", source))}},
			want:     map[string]string{"source failed": "no 3:yes"},
		},
	})
}

const lever = `
aircraft "test" { title = "Test" }
control "lever" {
  positions = ["up", "middle", "down"]
  initial   = "up"
}
`

// flightNumbers are the numbers that a flight must give; these tests fly paths
// of their own.
const flightNumbers = `  takeoff_mass_kg    = 20000
  fuel_kg            = 3000
  cruise_altitude_ft = 4000
  distance_nm        = 30
  rotate_kt          = 110
  climb_kt           = 200
  climb_mach         = 0.5
  descent_kt         = 200
  approach_kt        = 120
`

// flown adds the flight block that carries acts.
func flown(acts string) string {
	return lever + `
flight "hop" {
` + flightNumbers + acts + "\n}\n"
}

func TestControls(t *testing.T) {
	move := func(seconds float64, to string) oracle.Action {
		return oracle.Action{At: book.AtSeconds(seconds), Control: "lever", Position: to}
	}
	check(t, []example{
		{
			name: "of two actions at a moment the later in order wins", book: lever, end: 9,
			scenario: oracle.Scenario{Actions: []oracle.Action{move(5, "up"), move(3, "down"), move(3, "middle"), move(7.02, "middle"), move(7.01, "down")}},
			want:     map[string]string{"lever position": "up 3:middle 5:up 7.05:middle"},
		},
		{
			name: "an act fires at each rise, not while its condition stays", end: 12, path: "icing 2-8 10-11",
			book: flown(`
  act "Lever down" {
    set  = lever
    to   = "down"
    when = real.icing
  }`),
			scenario: oracle.Scenario{Actions: []oracle.Action{move(4, "up")}},
			want:     map[string]string{"lever position": "up 2:down 4:up 10:down"},
		},
		{
			name: "no act moves a lever that is held, until another hand does", end: 16, path: "icing 2-4 5-6 9-10 14-15",
			book: flown(`
  act "Lever down" {
    set  = lever
    to   = "down"
    when = real.icing
  }`),
			scenario: oracle.Scenario{Actions: []oracle.Action{
				{At: book.AtSeconds(3), Control: "lever", Position: "middle", Held: true}, {At: book.AtSeconds(9), Control: "lever", Position: "up", Held: true}, move(12, "up")}},
			want: map[string]string{"lever position": "up 2:down 3:middle 9:up 14:down"},
		},
		{
			name: "an act fires at the start", end: 5, path: "icing 0-3",
			book: flown(`
  act "Lever down" {
    set  = lever
    to   = "down"
    when = real.icing
  }`),
			want: map[string]string{"lever position": "down"},
		},
		{
			name: "the later act wins, and those of the scenario come after those of the flight", end: 9, path: "icing 2-4; braking 6-7",
			book: flown(`
  act "Lever down" {
    set  = lever
    to   = "down"
    when = real.icing || real.braking
  }
  act "Lever to the middle" {
    set  = lever
    to   = "middle"
    when = real.icing
  }`),
			scenario: oracle.Scenario{Actions: []oracle.Action{{Control: "lever", Position: "up", When: expr(t, "real.braking")}}},
			want:     map[string]string{"lever position": "up 2:middle 6:up"},
		},
		{
			name: "an act fires once in an instant", end: 5, path: "icing 2-4",
			book: flown(`
  act "Lever down" {
    set  = lever
    to   = "down"
    when = real.icing && lever == "up"
  }
  act "Lever up" {
    set  = lever
    to   = "up"
    when = lever == "down"
  }`),
			want: map[string]string{"lever position": "up"},
		},
		{
			name: "an act that follows another wins in the end", end: 5, path: "icing 2-4",
			book: flown(`
  act "Lever up again" {
    set  = lever
    to   = "middle"
    when = lever == "down"
  }
  act "Lever down" {
    set  = lever
    to   = "down"
    when = real.icing
  }`),
			want: map[string]string{"lever position": "up 2:middle"},
		},
	})
}

func TestAlerts(t *testing.T) {
	const quiet = `
aircraft "test" {
  title           = "Test"
  alerts_given_by = computer
}
unit "computer" {}
unit "own" {}
phase "one" {}
phase "fast" { begins = real.on_ground }
phase "three" { begins = !real.on_ground }
alert "late" {
  level     = "caution"
  message   = "Late"
  when      = real.icing
  true_when = real.braking
  quiet_in  = [fast]
  repeats_s = 4
}
alert "own_way" {
  level    = "caution"
  message  = "Own way"
  when     = real.icing
  given_by = own
  until    = real.braking
}`
	check(t, []example{
		{
			name: "held back in a quiet phase, and released", book: quiet, end: 20,
			path: "on_ground 3-8; icing 5-10",
			want: map[string]string{
				"late believed": "no 5:yes 10:no", "late given": "no 8:yes 10:no", "late held back": "no 5:yes 8:no",
				"late sounds": "0 8:1", "late false": "no 8:yes 10:no",
			},
		},
		{
			name: "what stood before the quiet phase is let stand, but not what comes again", book: quiet, end: 20,
			path: "on_ground 3-12; icing 2-5 6-14",
			want: map[string]string{
				"late given": "no 2:yes 5:no 12:yes 14:no", "late held back": "no 6:yes 12:no", "late sounds": "0 2:1 12:2",
			},
		},
		{
			name: "what begins with the quiet phase is held back", book: quiet, end: 9,
			path: "on_ground 3-8; icing 3-5",
			want: map[string]string{"late given": "no", "late held back": "no 3:yes 5:no"},
		},
		{
			name: "it sounds again every so often", book: quiet, end: 20,
			path: "icing 1-10 15-16",
			want: map[string]string{"late sounds": "0 1:1 5:2 9:3 15:4"},
		},
		{
			name: "at one moment it sounds once",
			book: `
signal "rise" { value = real.icing && !before(real.icing) }
alert "again" {
  level     = "caution"
  message   = "Again"
  when      = real.braking && !before(rise)
  repeats_s = 4
}
alert "brief" {
  level     = "caution"
  message   = "Brief"
  when      = !real.on_ground || rise
  repeats_s = 4
}`,
			// At 4 s there are three instants. The first and the third give again;
			// brief is due, but given in the first only.
			path: "icing 4-6; braking 4-9; on_ground 4-20", end: 20,
			want: map[string]string{
				"again given": "no 4:yes 4:no 4:yes 9:no", "again sounds": "0 4:1 8:2",
				"brief given": "yes 4:no 20:yes", "brief sounds": "1 20:2",
			},
		},
		{
			name: "given at the start it sounds there", book: quiet, end: 6,
			path: "icing 0-3",
			want: map[string]string{"late given": "yes 3:no", "late sounds": "1"},
		},
		{
			name: "false while given and not true", book: quiet, end: 9,
			path: "icing 2-8; braking 4-5",
			want: map[string]string{"late false": "no 2:yes 4:no 5:yes 8:no", "own_way false": "no"},
		},
		{
			name: "silenced while until is yes", book: quiet, end: 9,
			path: "icing 2-8; braking 4-5",
			want: map[string]string{"own_way given": "no 2:yes 4:no 5:yes 8:no", "own_way held back": "no", "own_way sounds": "0 2:1 5:2"},
		},
		{
			name: "given by what must work for it", book: quiet, end: 9,
			path:     "icing 2-8",
			scenario: oracle.Scenario{Failures: []oracle.Failure{at(3, fails("computer")[0]), at(5, fails("own")[0])}},
			want:     map[string]string{"late given": "no 2:yes 3:no", "own_way given": "no 2:yes 5:no", "late believed": "no 2:yes 8:no"},
		},
	})
}

func TestIndications(t *testing.T) {
	check(t, []example{
		{
			name: "wrong while lit and off by more than it may be",
			book: `
indication "height" {
  shows  = frozen(real.height_ft, real.icing)
  means  = real.height_ft
  within = 20
  lit_by = !real.braking
}
indication "lamp" {
  shows = real.icing ? "on" : "off"
  means = real.braking ? "on" : "off"
}
indication "plain" { shows = real.icing }`,
			path: "height_ft 0:0 10:100; icing 2-8; braking 5-6", end: 10,
			want: map[string]string{
				"height lit": "yes 5:no 6:yes", "height wrong": "no 4.05:yes 5:no 6:yes 8:no",
				"lamp shows": "off 2:on 8:off", "lamp means": "off 5:on 6:off", "lamp wrong": "no 2:yes 5:no 6:yes 8:no",
				"plain wrong": "no", "plain lit": "yes",
			},
		},
		{
			name: "a function is wanted always where it does not say",
			book: `
unit "box" {}
function "braking" {
  works  = box
  wanted = real.on_ground
}
function "steering" { works = box }`,
			path: "on_ground 2-3", end: 9,
			scenario: oracle.Scenario{Failures: []oracle.Failure{at(4, fails("box")[0])}},
			want: map[string]string{
				"braking wanted": "no 2:yes 3:no", "braking works": "yes 4:no", "steering wanted": "yes", "steering works": "yes 4:no",
			},
		},
	})
}
