package sweep

import (
	"slices"

	"knockon/book"
	"knockon/ledger"
)

// rowsOf gives the rows of a ledger in the order of the items.
func (p *program) rowsOf(l *ledger.Ledger) []row {
	code := make([]uint64, len(p.bundles))
	b := p.course.Build
	functions, alerts := 0, len(b.Functions)
	indications := alerts + len(b.Alerts)
	for _, x := range l.Losses {
		code[functions+slices.Index(b.Functions, x.Function)] |= lossCode(x)
	}
	for _, x := range l.Alerts {
		code[alerts+slices.Index(b.Alerts, x.Alert)] |= codeGiven
	}
	for _, x := range l.False {
		code[alerts+slices.Index(b.Alerts, x.Alert)] |= codeFalse
	}
	for _, x := range l.Wrong {
		code[indications+slices.Index(b.Indications, x.Indication)] |= codeWrong
	}
	for _, x := range l.Dark {
		code[indications+slices.Index(b.Indications, x.Indication)] |= codeDark
	}
	var rows []row
	for i, c := range code {
		if c != 0 {
			rows = append(rows, row(uint64(i)<<rowItem|c))
		}
	}
	return rows
}

func lossCode(x ledger.Loss) uint64 {
	l := rowOf(x)
	code := codeLost | codeOf(x.Class, book.Time(l.LateS)*book.Second, l.Shown)
	if x.Mattered {
		code |= codeMattered
	}
	return code | codeOfWord(Heaviest(x))
}

// outcome puts rows into the form that others read.
func (p *program) outcome(rows []row, lists *shared) Outcome {
	o := &lists.scratch
	*o = Outcome{o.Lost[:0], o.Wrong[:0], o.Dark[:0], o.False[:0], o.Given[:0]}
	for _, r := range rows {
		x, code := p.bundles[r.item()], uint64(r)
		i := int32(x.index)
		if code&codeLost != 0 {
			l := Lost{Function: i, Class: ledger.Class(code >> codeClass & 7), Mattered: code&codeMattered != 0, LateS: uint16(code)}
			l.Shown = l.Class == ledger.ToldWrong && code&codeHidden == 0
			l.knowing(code)
			o.Lost = append(o.Lost, l)
		}
		if code&codeGiven != 0 {
			o.Given = append(o.Given, i)
		}
		if code&codeFalse != 0 {
			o.False = append(o.False, i)
		}
		if code&codeWrong != 0 {
			o.Wrong = append(o.Wrong, i)
		}
		if code&codeDark != 0 {
			o.Dark = append(o.Dark, i)
		}
	}
	return Outcome{lists.lost(o.Lost), lists.list(o.Wrong), lists.list(o.Dark), lists.list(o.False), lists.list(o.Given)}
}

// mergeRows is what two lists of rows come to if neither changes the other: see
// Merge.
func mergeRows(a, b, into []row) []row {
	for len(a) > 0 && len(b) > 0 {
		switch {
		case a[0].item() < b[0].item():
			into, a = append(into, a[0]), a[1:]
		case a[0].item() > b[0].item():
			into, b = append(into, b[0]), b[1:]
		default:
			into, a, b = append(into, mergeRow(a[0], b[0])), a[1:], b[1:]
		}
	}
	return append(append(into, a...), b...)
}

// mergeRow is the worse of two rows of a function, and all that two rows of
// another item say.
func mergeRow(a, b row) row {
	if a&codeLost == 0 {
		return a | b
	}
	if badness(a) >= badness(b) {
		return a
	}
	return b
}

// badness orders the rows of a function: see Lost.worse.
func badness(r row) uint64 {
	x := uint64(r)
	how := x&codeMattered<<1 | x&(7<<codeClass) | x&codeHidden>>9 | x&0xFFFF
	return how<<24 | (x>>codeWord&7)<<18 | x&codeDistant>>12 | x&codeByAlert>>14 | x>>codeKnownS&0xFFFF
}
