package handout

import (
	"cmp"
	"slices"
	"strings"

	"knockon/ledger"
	"knockon/say"
)

// Row is a moment: what was told then, and what was true.
type Row struct{ Clock, Told, True string }

// None stands where a moment has nothing of a kind.
const None = "–"

// mostRows is how many moments the table has.
const mostRows = 8

// apart is how many seconds after the first of a moment something still belongs to it.
const apart = 10.0

// event is something told, or something that became true.
type event struct {
	at     float64
	clock  string
	told   string
	truth  string
	weight int // how much it says to who chooses among moments
}

// rowsOf lays what was told beside what was true, moment by moment, and counts those that
// there is no room for: the ones that take least.
func rowsOf(v *ledger.View, most int) (rows []Row, more int) {
	lots := moments(events(v))
	weigh := func(lot []event) (sum int) {
		for _, e := range lot {
			sum += e.weight
		}
		return sum
	}
	order := slices.Clone(lots)
	slices.SortStableFunc(order, func(a, b []event) int { return cmp.Compare(weigh(b), weigh(a)) })
	least := 0
	if len(order) > most {
		least = weigh(order[most-1])
	}
	for _, lot := range lots {
		if weigh(lot) >= least && len(rows) < most {
			rows = append(rows, rowOf(lot))
		}
	}
	return rows, len(lots) - len(rows)
}

// events are the alerts, what denies a loss, and the waves.
func events(v *ledger.View) (list []event) {
	isFalse := map[string]bool{}
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			if g.ID == ledger.GroupFalse {
				isFalse[r.ID] = true
			}
		}
	}
	for _, g := range v.Groups {
		for _, r := range g.Rows {
			switch {
			case len(r.Spans) == 0:
			case g.ID == ledger.GroupAlerts:
				list = append(list, told(r, isFalse[r.ID]))
			case g.ID == ledger.GroupDenied:
				list = append(list, denies(r)...)
			}
		}
	}
	for _, w := range v.Worth.Waves {
		list = append(list, event{at: w.AfterS, clock: w.Clock, truth: truth(w), weight: 4 + len(w.Losses)})
	}
	slices.SortStableFunc(list, func(a, b event) int { return cmp.Compare(a.at, b.at) })
	return list
}

func told(r ledger.Row, wrong bool) event {
	e := event{at: r.Spans[0].From.AfterS, clock: r.Spans[0].From.Clock, told: say.Quoted(r.Title), weight: 3}
	if wrong {
		e.told, e.weight = e.told+" (false)", 20
	}
	return e
}

// denies is what lies about a loss when that begins.
func denies(r ledger.Row) (list []event) {
	for _, s := range r.Spans {
		if s.Known != ledger.Denied || !s.Mattered || len(s.DeniedBy) == 0 {
			continue
		}
		var names []string
		for _, by := range s.DeniedBy {
			names = append(names, say.Quoted(by.Title))
		}
		names = fewer(names, 2, "indication")
		text := say.And(names) + " " + say.Plural(len(s.DeniedBy), "denies", "deny") + " it: " + say.Lower(r.Title)
		return []event{{at: s.From.AfterS, clock: s.From.Clock, told: text, weight: 30}}
	}
	return nil
}

// truth is a wave in few words.
func truth(w ledger.Wave) string {
	if len(w.Losses) == 1 {
		return say.Capital(w.Losses[0].Title) + " lost"
	}
	return say.Capital(w.Cause) + ": " + say.Counted(len(w.Losses), "function")
}

// moments puts together what comes within a few seconds.
func moments(list []event) (lots [][]event) {
	for _, e := range list {
		n := len(lots) - 1
		if n < 0 || e.at-lots[n][0].at > apart {
			lots = append(lots, []event{e})
			continue
		}
		lots[n] = append(lots[n], e)
	}
	return lots
}

// mostSaid is how many things of a kind a row says.
const mostSaid = 2

func rowOf(lot []event) Row {
	var toldOf, truths []string
	for _, e := range lot {
		late := ""
		if e.clock != lot[0].clock {
			late = " (" + e.clock + ")"
		}
		if e.told != "" {
			toldOf = append(toldOf, e.told+late)
		}
		if e.truth != "" {
			truths = append(truths, e.truth+late)
		}
	}
	return Row{lot[0].clock, several(toldOf, "message"), several(truths, "wave")}
}

func several(list []string, one string) string {
	if len(list) == 0 {
		return None
	}
	return strings.Join(fewer(list, mostSaid, one), "; ")
}

// fewer keeps the first of a list and counts the others.
func fewer(list []string, most int, one string) []string {
	if len(list) <= most+1 {
		return list
	}
	return append(slices.Clone(list[:most]), say.Counted(len(list)-most, "more "+one))
}
