// Package knockon_test holds the whole tree to its own rules.
package knockon_test

import (
	"bytes"
	"encoding/json"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// mayImport lists, for each room, the rooms that it may import. A room that is
// not here is a room that nobody has placed: place it.
var mayImport = map[string][]string{
	"say":                      {},
	"book":                     {},
	"flight/air":               {},
	"flight":                   {"book"},
	"airfield":                 {"book", "flight"},
	"weather":                  {"book", "flight"},
	"circuit":                  {"book", "flight/air"},
	"span":                     {"book", "circuit"},
	"run":                      {"book", "circuit", "flight"},
	"why":                      {"book", "circuit", "run"},
	"scenario":                 {"book", "run"},
	"ledger":                   {"book", "circuit", "run", "span"},
	"known":                    {"book", "circuit", "run", "span", "ledger"},
	"wave":                     {"book", "circuit", "ledger", "why"},
	"point":                    {"book", "circuit", "span", "ledger", "known", "wave"},
	"point/vary":               {"book", "run", "scenario", "ledger", "point", "ask", "beside", "rescue"},
	"handout":                  {"book", "run", "ledger", "scenario", "crew", "point", "ask", "figure"},
	"crew":                     {"book", "circuit", "flight", "run", "span", "ledger", "known"},
	"crew/follow":              {"book", "circuit", "run", "ledger", "crew", "costs", "region"},
	"proof":                    {"book", "circuit", "run"},
	"rescue":                   {"book", "circuit", "run", "ledger", "span", "crew"},
	"drill":                    {"book", "circuit", "run", "scenario", "span", "ledger", "known", "crew", "point"},
	"logbook":                  {"drill"},
	"claim":                    {"book", "flight/air", "circuit", "run", "scenario", "ledger", "known", "why", "airfield", "region", "costs", "ask", "crew", "rescue"},
	"region":                   {"book", "flight", "airfield", "weather", "run"},
	"costs":                    {"book", "circuit", "flight", "run", "ledger", "airfield", "region", "why"},
	"dispatch":                 {"book", "circuit", "run", "scenario", "ledger", "known", "sweep"},
	"ask":                      {"book", "circuit", "flight", "run", "scenario", "ledger", "known", "crew", "region", "costs", "sweep", "ways", "why", "dispatch", "point"},
	"beside":                   {"book", "ledger", "scenario", "ask"},
	"snapshot":                 {"book", "circuit", "ledger", "ask"},
	"find":                     {"book", "scenario"},
	"first":                    {"book", "run", "scenario", "ledger", "sweep", "ask"},
	"ways":                     {"book", "circuit"},
	"ways/sets":                {"book", "circuit", "ledger", "sweep", "ways"},
	"sweep":                    {"book", "circuit", "flight", "run", "span", "ledger", "known"},
	"assess":                   {"book", "circuit", "run", "ledger", "crew", "sweep", "ask"},
	"figure/bill":              {"book", "costs", "figure/landing", "figure/price", "figure/region", "flight"},
	"figure":                   {"book", "circuit", "flight", "run", "ledger", "ask", "why"},
	"web/door":                 {},
	"web/frame":                {"book", "ask", "web/door"},
	"web":                      {"book", "circuit", "flight", "run", "scenario", "ledger", "point", "claim", "ask", "region", "costs", "figure", "figure/layout", "ways", "why", "crew", "proof", "rescue", "find", "first", "beside", "snapshot", "handout"},
	"web/swept":                {"book", "run", "scenario", "ask", "sweep", "assess", "ways", "dispatch", "web/door", "web/frame"},
	"web/drilling":             {"book", "run", "scenario", "drill", "logbook", "web/door", "web/frame"},
	"demo":                     {},
	"internal/corvane":         {"book", "demo"},
	"internal/corvane/islands": {"demo", "airfield", "region"},
	"internal/corvane/answers": {"ask", "scenario", "internal/corvane"},
	"internal/browser":         {},
	"internal/draw":            {"book", "scenario", "ask", "internal/corvane"},
	"internal/booktest":        {"book"},
	"internal/smallbook":       {"book", "run"},
	"internal/checks":          {"book"},
	"internal/figuretest":      {"figure"},
	"internal/tree":            {"ways"},
	"internal/oracle":          {"book", "flight"},
	"internal/performance":     {"flight"},
	"internal/mutate":          {"book", "flight", "run", "claim"},
	"cmd/knockon-layout":       {"figure/layout", "figure/layout/dot"},
	"cmd/checks":               {"internal/checks"},
	"cmd/mutants":              {},
	"cmd/shots":                {"internal/browser"},
	"cmd/pack":                 {"book", "figure/face"},
	"cmd/bench":                {"book", "circuit", "run", "scenario", "ask", "rescue", "web", "demo", "sweep", "airfield", "region", "crew/worth", "internal/booktest"},
	"cmd/knockon":              {"book", "circuit", "run", "scenario", "ledger", "point", "proof", "crew", "claim", "ask", "figure", "figure/layout", "web", "demo", "ways", "sweep", "airfield", "region", "costs", "logbook", "why", "rescue", "assess", "dispatch", "find", "beside", "snapshot", "handout"},
}

// voice is the house's voice, which every room but itself may use.
const voice = "say"

// core rooms compute: they touch no file, network, clock of the day or chance.
var core = []string{"say", "book", "flight", "airfield", "weather", "region", "circuit", "run", "scenario", "why", "ledger", "known", "wave", "point", "proof", "crew", "rescue", "drill", "claim", "ask", "costs", "ways", "sweep", "assess", "dispatch", "find", "first", "beside", "snapshot", "handout", "figure"}

// outside is what the core may not import.
var outside = []string{"os", "net", "net/http", "log", "log/slog", "flag", "math/rand", "math/rand/v2", "os/exec"}

type listed struct {
	ImportPath string
	Imports    []string
}

func packages(t *testing.T) (list []listed) {
	t.Helper()
	out, err := exec.Command("go", "list", "-json=ImportPath,Imports", "./...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	for d := json.NewDecoder(bytes.NewReader(out)); d.More(); {
		var p listed
		if err := d.Decode(&p); err != nil {
			t.Fatal(err)
		}
		list = append(list, p)
	}
	return list
}

func room(path string) (string, bool) { return strings.CutPrefix(path, "knockon/") }

// allowed finds the rule of a room: its own, or its parent's.
func allowed(name string) (rule []string, parent string, ok bool) {
	for parent = name; ; {
		if rule, ok = mayImport[parent]; ok {
			return rule, parent, true
		}
		i := strings.LastIndex(parent, "/")
		if i < 0 {
			return nil, "", false
		}
		parent = parent[:i]
	}
}

func TestImports_PointOneWay(t *testing.T) {
	for _, p := range packages(t) {
		name, ours := room(p.ImportPath)
		if !ours {
			continue
		}
		rule, parent, ok := allowed(name)
		if !ok {
			t.Errorf("%s has no place in the order of rooms", name)
		}
		for _, i := range p.Imports {
			other, ours := room(i)
			if ours && other != voice && other != parent && !strings.HasPrefix(other, parent+"/") && !slices.Contains(rule, other) && !slices.ContainsFunc(rule, func(r string) bool { return strings.HasPrefix(other, r+"/") }) {
				t.Errorf("%s imports %s, which is not below it", name, other)
			}
		}
	}
}

func TestImports_CoreDoesNoIO(t *testing.T) {
	for _, p := range packages(t) {
		name, ours := room(p.ImportPath)
		if !ours || !slices.Contains(core, strings.SplitN(name, "/", 2)[0]) || strings.HasPrefix(name, "figure/layout/") {
			continue
		}
		for _, i := range p.Imports {
			if slices.Contains(outside, i) {
				t.Errorf("%s imports %s: the core does no I/O", name, i)
			}
		}
	}
}

// TestImports_TheHousePageNamesEveryRoom, and no room that is not there.
func TestImports_TheHousePageNamesEveryRoom(t *testing.T) {
	page, err := os.ReadFile("docs/house.md")
	if err != nil {
		t.Fatal(err)
	}
	named := map[string]bool{}
	for _, m := range regexp.MustCompile("`([a-z]+(?:[/-][a-z]+)*)`").FindAllStringSubmatch(string(page), -1) {
		named[m[1]] = true
	}
	for _, p := range packages(t) {
		if name, ours := room(p.ImportPath); ours && !named[name] {
			t.Errorf("docs/house.md does not name %s", name)
		} else if ours {
			delete(named, name)
		}
	}
	for name := range named {
		t.Errorf("docs/house.md names %s, which is no room", name)
	}
}
