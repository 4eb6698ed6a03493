package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"

	"knockon/book"
	"knockon/ledger"
	"knockon/sweep"
	"knockon/sweep/findings"
)

// sweepJSON is the findings for a machine.
type sweepJSON struct {
	Aircraft string           `json:"aircraft"`
	Flight   string           `json:"flight"`
	Order    int              `json:"order"`
	Builds   []sweepBuildJSON `json:"builds"`
	Differ   []differJSON     `json:"builds_differ"`
	Caution  string           `json:"caution"`
}

type sweepBuildJSON struct {
	Build     string         `json:"build"`
	Failures  int            `json:"failures"`
	Phases    []string       `json:"phases"`
	Missing   []string       `json:"phases_missing"`
	Traps     []trapJSON     `json:"traps"`
	Together  []togetherJSON `json:"worse_together"`
	Turning   []turningJSON  `json:"phase_matters"`
	Guardians []guardianJSON `json:"lone_guardians"`
	Faces     []faceJSON     `json:"same_face"`
}

type trapJSON struct {
	Fail     []string   `json:"fail"`
	At       string     `json:"at"`
	Score    float64    `json:"score"`
	Phases   int        `json:"in_phases"`
	Silent   int        `json:"silent"`
	LateS    int        `json:"late_s"`
	Strange  int        `json:"other_chapter"`
	Severity string     `json:"worst_severity"`
	Lost     []lossJSON `json:"lost"`
}

type lossJSON struct {
	Function string `json:"function"`
	Class    string `json:"class"`
	Mattered bool   `json:"mattered"`
	LateS    int    `json:"late_s,omitempty"`
	Shown    bool   `json:"shown_rightly,omitempty"` // told wrong, and an indication shows it rightly as well
}

type togetherJSON struct {
	Fail   []string   `json:"fail"`
	At     string     `json:"at"`
	Excess float64    `json:"excess"`
	Phases int        `json:"in_phases"`
	New    []lossJSON `json:"new"`
	Worse  []lossJSON `json:"worse"`
	Also   [][]string `json:"also"` // other sets that do the same
}

type turningJSON struct {
	Fail   string     `json:"fail"`
	Worst  string     `json:"worst"`
	Least  string     `json:"least"`
	Spread float64    `json:"spread"`
	Only   []lossJSON `json:"only_in_worst"`
}

type differJSON struct {
	Fail   string   `json:"fail"`
	Phase  string   `json:"phase"`
	Worst  string   `json:"worst"`
	Least  string   `json:"least"`
	Spread float64  `json:"spread"`
	Only   []string `json:"only_on_worst"`
}

type guardianJSON struct {
	ID        string   `json:"id"`
	Kind      string   `json:"kind"`
	Weight    float64  `json:"weight"`
	Losses    int      `json:"losses"`
	Functions []string `json:"functions"`
	Failures  []string `json:"failures"`
	Takers    []string `json:"taken_away_by"`
}

type faceJSON struct {
	At     string      `json:"at"`
	Alerts []string    `json:"alerts"`
	Spread float64     `json:"spread"`
	Causes []causeJSON `json:"causes"`
}

type causeJSON struct {
	Fail  []string `json:"fail"`
	Score float64  `json:"score"`
	Lost  []string `json:"lost"`
}

func (c *sweepCommand) asJSON(all []*swept) sweepJSON {
	j := sweepJSON{Aircraft: all[0].Build.Aircraft.Title, Flight: all[0].flight.ID, Order: c.Order, Caution: book.Caution}
	for _, s := range all {
		j.Builds = append(j.Builds, c.buildJSON(s))
	}
	for _, d := range findings.BuildMatters(plain(all), c.Most) {
		j.Differ = append(j.Differ, differJSON{d.Failure, d.Phase, all[d.Worst].Build.Variant, all[d.Best].Build.Variant, d.Spread, d.Only})
	}
	return j
}

func (c *sweepCommand) buildJSON(s *swept) sweepBuildJSON {
	j := sweepBuildJSON{Build: s.Build.Variant, Failures: len(s.Failures), Missing: s.missing()}
	for _, sheet := range s.Sheets {
		j.Phases = append(j.Phases, sheet.Phase.ID)
	}
	for _, t := range s.Traps(c.Most) {
		lost := s.Sheets[t.Phase].Outcome(t.Set).Lost
		j.Traps = append(j.Traps, trapJSON{s.list(t.Set), s.at(t.Phase), t.Score, t.In, t.Silent, t.LateS, t.Strange, t.Severity, s.lossesJSON(lost)})
	}
	for _, t := range s.Together(c.Most) {
		j.Together = append(j.Together, s.togetherJSON(t))
	}
	for _, t := range s.PhaseMatters(c.Most) {
		j.Turning = append(j.Turning, turningJSON{s.Failures[t.Failure].String(), s.at(t.Worst), s.at(t.Best), t.Spread, s.lossesJSON(t.Only)})
	}
	for _, g := range s.Guardians(c.Most) {
		j.Guardians = append(j.Guardians, s.guardianJSON(g))
	}
	for _, f := range s.Faces(1, c.Most) {
		j.Faces = append(j.Faces, s.faceJSON(f))
	}
	return j
}

func (s *swept) togetherJSON(t findings.Together) togetherJSON {
	j := togetherJSON{Fail: s.list(t.Set), At: s.at(t.Phase), Excess: t.Excess, Phases: t.In, New: s.lossesJSON(t.New), Worse: s.lossesJSON(t.Worse)}
	for _, set := range t.Also {
		j.Also = append(j.Also, s.list(set))
	}
	return j
}

func (s *swept) list(set sweep.Set) (ids []string) {
	for _, n := range set {
		ids = append(ids, s.Failures[n].String())
	}
	return ids
}

func (s *swept) lossesJSON(list []sweep.Lost) []lossJSON {
	j := []lossJSON{}
	for _, l := range list {
		j = append(j, lossJSON{s.Build.Functions[l.Function].ID, l.Class.String(), l.Mattered, int(l.LateS), l.Shown})
	}
	return j
}

func (s *swept) functions(list []int32) (ids []string) {
	for _, f := range list {
		ids = append(ids, s.Build.Functions[f].ID)
	}
	return ids
}

func (s *swept) guardianJSON(g findings.Guardian) guardianJSON {
	j := guardianJSON{ID: g.ID, Kind: "indication", Weight: g.Weight, Losses: g.Losses, Functions: s.functions(g.Functions), Failures: s.list(g.Failures)}
	if g.Alert {
		j.Kind = "alert"
	}
	for _, t := range g.Takers {
		j.Takers = append(j.Takers, s.Failures[t.Failure].String())
	}
	return j
}

func (s *swept) faceJSON(f findings.Face) faceJSON {
	j := faceJSON{At: s.at(f.Phase), Spread: f.Spread, Alerts: []string{}}
	for _, a := range f.Alerts {
		j.Alerts = append(j.Alerts, s.Build.Alerts[a].ID)
	}
	for _, c := range f.Causes {
		j.Causes = append(j.Causes, causeJSON{s.list(c.Set), c.Score, s.functions(c.Lost)})
	}
	return j
}

// csvHead names the columns. The counts of losses are of those that mattered.
var csvHead = []string{
	"build", "phase", "at", "fail_1", "fail_2", "fail_3", "score",
	"lost", "not_told", "told_wrong", "only_shown", "told_late", "told", "not_called_for", "wrong", "dark", "false_alarms", "alerts",
}

// writeCSV prints a line for each failure and for each set that is more than its parts,
// and the caution as a last one.
func writeCSV(w io.Writer, all []*swept) error {
	out := csv.NewWriter(w)
	out.Write(csvHead)
	for _, s := range all {
		for _, sheet := range s.Sheets {
			for n := range s.Failures {
				out.Write(s.csvLine(sheet, sweep.Set{n}, sheet.Outcome(sweep.Set{n})))
			}
			sheet.Met(func(set sweep.Set, o sweep.Outcome) { out.Write(s.csvLine(sheet, set, o)) })
		}
		if s.partial() {
			out.Write([]string{"PARTIAL: phases of " + s.Build.Variant + " are missing"})
		}
	}
	out.Write([]string{book.Caution})
	out.Flush()
	return out.Error()
}

func (s *swept) csvLine(sheet *sweep.Sheet, set sweep.Set, o sweep.Outcome) []string {
	line := []string{s.Build.Variant, sheet.Phase.ID, sheet.Phase.Moment.String(), "", "", "", fmt.Sprintf("%.2f", s.ScoreOf(set, o))}
	for i, n := range set {
		line[3+i] = s.Failures[n].String()
	}
	var of [ledger.NotTold + 1]int
	idle := 0
	for _, l := range o.Lost {
		if l.Mattered {
			of[l.Class]++
		} else {
			idle++
		}
	}
	for _, n := range []int{
		len(o.Lost) - idle, of[ledger.NotTold], of[ledger.ToldWrong], of[ledger.OnlyShown], of[ledger.ToldLate], of[ledger.Told], idle,
		len(o.Wrong), len(o.Dark), len(o.False), len(o.Given),
	} {
		line = append(line, strconv.Itoa(n))
	}
	return line
}
