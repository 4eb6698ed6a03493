package web

import (
	"cmp"
	"slices"

	"knockon/figure"
	"knockon/ledger"
	"knockon/say"
)

// waveView is what goes at one time for one reason, in few words; its losses unfold to
// their rows.
type waveView struct {
	ID           string
	Clock, Cause string
	Lost         string // how many functions
	Rows         []example
}

// mostWaves is how many a page shows before it folds the rest away.
const mostWaves = 7

// wavesOf gives the waves with most losses, and the others; both in order of time.
func wavesOf(v *ledger.View, shown shownRows) (first, more []waveView) {
	if v.Worth == nil {
		return nil, nil
	}
	large := slices.Clone(v.Worth.Waves)
	slices.SortStableFunc(large, func(a, b ledger.Wave) int { return cmp.Compare(len(b.Losses), len(a.Losses)) })
	least := 0
	if len(large) > mostWaves {
		least = len(large[mostWaves-1].Losses)
	}
	for i, w := range v.Worth.Waves {
		if len(first) < mostWaves && len(w.Losses) >= least {
			first = append(first, waveOf(i, w, shown))
		} else {
			more = append(more, waveOf(i, w, shown))
		}
	}
	return first, more
}

func waveOf(i int, w ledger.Wave, shown shownRows) waveView {
	v := waveView{ID: figure.WaveID(i), Clock: w.Clock, Cause: say.Capital(w.Cause), Lost: say.Counted(len(w.Losses), "function")}
	for _, l := range w.Losses {
		v.Rows = append(v.Rows, example{l.Title, shown.at("#row-loss-" + l.ID)})
	}
	return v
}
