package why

import (
	"context"

	"knockon/book"
	"knockon/circuit"
	"knockon/run"
)

// Compare explains a value of one record by another, there, which is flown again
// to prove the leaves; there may be nil. Records that begin at a later moment than
// the start, as on the way to another airfield, are not flown again.
func Compare(here, there *run.Record, v circuit.Value, at book.Time) (s *Step, ok bool) {
	if there == nil {
		return Explain(here.Trace, nil, v, at, nil)
	}
	if there.Instants()[0] > 0 {
		return Explain(here.Trace, there.Trace, v, at, nil)
	}
	return Explain(here.Trace, there.Trace, v, at, func(put []Input, until book.Time) (*circuit.Trace, error) {
		r, err := there.With(context.Background(), puts(there.Circuit(), put), until)
		if err != nil {
			return nil, err
		}
		return r.Trace, nil
	})
}

func puts(c *circuit.Circuit, list []Input) (puts []run.Put) {
	for _, l := range list {
		p := run.Put{From: l.From, To: l.To}
		if g := c.Gate(l.Node); g.Kind == circuit.GateWay {
			p.Way = &c.Ways()[int(g.Num)]
		} else {
			p.Control = circuit.Input{Strike: -1, End: -1, Control: int(g.Num), To: l.Value}
		}
		puts = append(puts, p)
	}
	return puts
}
