package assess

import (
	"math"
	"slices"

	"knockon/book"
	"knockon/ledger"
	"knockon/sweep"
)

// evident says whether people would know of each failure, coming alone in some
// phase of the flight: an alert is given only with it, an indication goes dark,
// or an alert or an indication says rightly that something is lost; or it takes, while
// that matters, what is noticed, at once or when it is used. One of which none of this is so in any
// phase is latent. (A wrong indication tells nobody.)
func evident(failures int, sheets []*sweep.Sheet) []bool {
	known := make([]bool, failures)
	for _, sheet := range sheets {
		for n := range known {
			o := sheet.Outcome(sweep.Set{n})
			known[n] = known[n] || says(o) || noticed(o)
		}
	}
	return known
}

func says(o sweep.Outcome) bool {
	if len(o.Given) > 0 || len(o.Dark) > 0 {
		return true
	}
	for _, l := range o.Lost {
		if l.Class == ledger.Told || l.Class == ledger.ToldLate || l.Class == ledger.OnlyShown || l.Shown {
			return true
		}
	}
	return false
}

// noticed says that a loss is noticed (docs/meaning.md, section 5a).
func noticed(o sweep.Outcome) bool {
	return slices.ContainsFunc(o.Lost, func(l sweep.Lost) bool {
		return l.Mattered && (l.Known == ledger.AtOnce || l.Known == ledger.InUse)
	})
}

// partsOf is the failures as an assessment counts them.
func partsOf(b *book.Build, failures []book.FailureRef, known []bool) (list []Part) {
	for n, ref := range failures {
		rate, checked := given(b, ref)
		list = append(list, Part{rate, !known[n], checked})
	}
	return list
}

// given is the rate of a failure, and how often it is checked. A common cause is
// found when the last of what it brings has been checked.
func given(b *book.Build, ref book.FailureRef) (rate, checkedH float64) {
	item, _ := b.Item(ref.Unit)
	switch x := item.(type) {
	case *book.Unit:
		if ref.Fault == "" {
			return x.RatePerHour, x.CheckedH
		}
		for _, f := range x.Faults {
			if f.ID == ref.Fault {
				return f.RatePerHour, f.CheckedH
			}
		}
	case *book.Event:
		return x.RatePerHour, checkedLast(b, x.Fails)
	}
	return 0, 0
}

func checkedLast(b *book.Build, fails []book.FailureRef) (last float64) {
	for _, ref := range fails {
		_, checked := given(b, ref)
		if checked == 0 {
			return 0
		}
		last = math.Max(last, checked)
	}
	return last
}
