package costs

import (
	"knockon/book"
	"knockon/circuit"
	"knockon/flight/manual"
	"knockon/flight/roll"
	"knockon/run"
)

// byManual puts the distance that the book's manual gives beside the one that was
// worked out from forces; the larger decides. It is read from its rows, at the mass
// and the setting of the touchdown, or where it has none it is the distance with
// nothing failed; then its factors count, and manual_landing_ratio as one of them.
func (d *desk) byManual(s, healthy *Side) {
	down, _, ok := s.Path().Touchdown()
	if !ok || s.record.Fault != nil {
		return
	}
	for i := range s.Landings {
		l := &s.Landings[i]
		switch base, err := d.manualM(s, healthy, l, down); {
		case l.Code == noLanding:
		case err != nil:
			l.Unsaid = err
		case base > 0:
			f := d.factors(s.record, down)
			l.ManualM = roll.AtArrival(base*f.Landing + f.AddsM)
		}
	}
}

// manualM is the manual's distance before factors; 0 where it says nothing of this
// landing.
func (d *desk) manualM(s, healthy *Side, l *Landing, down book.Time) (float64, error) {
	switch {
	case d.manual != nil && len(d.manual.From.LandingSettings()) > 0:
		return d.manual.LandingM(setting(s.record, down), manual.At{
			Code: float64(l.Code), AltitudeFt: l.Input.Runway.AltitudeFt, MassKg: s.MassKg, HeadwindKt: l.Input.Runway.HeadwindKt,
		})
	case s == healthy || !d.lengthens(s.record, down):
		return 0, nil
	}
	for k := range healthy.Landings {
		if h := &healthy.Landings[k]; h.End == l.End && h.Stops {
			return h.DistanceM, nil
		}
	}
	return 0, nil
}

// lengthens says that the manual gives a factor or metres for a landing.
func (d *desk) lengthens(r *run.Record, down book.Time) bool {
	f := d.factors(r, down)
	return f.Landing != 1 || f.AddsM != 0 || effect(r, ratioEffect, down) != 0
}

// ratioEffect is the effect that says a manual's own factor.
const ratioEffect = "manual_landing_ratio"

// factors are those of the manual that stand just before a moment.
func (d *desk) factors(r *run.Record, at book.Time) manual.Factors {
	var ratios []float64
	if ratio := effect(r, ratioEffect, at); ratio != 0 {
		ratios = append(ratios, ratio)
	}
	if d.manual == nil {
		return manual.Combine(book.Combines[0], nil, ratios...)
	}
	return manual.Combine(d.manual.From.Combine, standing(d.manual.From, r, at), ratios...)
}

// standing are the factors whose condition is yes just before a moment.
func standing(p *book.Performance, r *run.Record, at book.Time) (list []*book.Factor) {
	for _, f := range p.Factors {
		if n, ok := r.Circuit().Node(circuit.Value{Item: book.FactorID(f.ID)}); ok && r.Before(n, at) != 0 {
			list = append(list, f)
		}
	}
	return list
}

// setting is the one in which slats and flaps stand just before a moment; "" where
// the book does not say.
func setting(r *run.Record, at book.Time) string {
	c := r.Circuit()
	if n, ok := c.Node(circuit.Value{Item: book.EffectID("flap_setting")}); ok {
		return c.WordText(r.Before(n, at))
	}
	return ""
}
