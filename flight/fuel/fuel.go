// Package fuel turns what a flight burns into what a rule says must be on
// board, and into the final reserve that must be left at touchdown. Every rule
// is a row of one table (rules.go); a rule never gives less than the trip.
// Start reading at Rule.
//
// Masses are kilograms. Rules for turbine engines only. Unusable fuel comes on
// top (14 CFR 121.647). The figures are for training and study, not for use in
// flight.
package fuel

import (
	"errors"
	"fmt"
)

// Burn is what a flight burns.
type Burn struct {
	TaxiKg       float64 // before take-off
	TripKg       float64 // take-off to touchdown at the destination
	TripHours    float64
	AlternateKg  float64 // missed approach to touchdown at the (most distant) alternate; 0: none
	CruiseKgPerH float64 // normal cruise
	HoldKgPerH   float64 // holding at 1,500 ft, standard conditions, at the mass on arrival
}

// Need is what a rule asks for, part by part.
type Need struct {
	TaxiKg, TripKg, ContingencyKg, AlternateKg, FinalReserveKg float64
}

// TakeOffKg is what must be on board at the start of the take-off.
func (n Need) TakeOffKg() float64 {
	return n.TripKg + n.ContingencyKg + n.AlternateKg + n.FinalReserveKg
}

// BlockKg is what must be on board before the taxi.
func (n Need) BlockKg() float64 { return n.TaxiKg + n.TakeOffKg() }

// Needed gives what the rule asks for. It fails for numbers that make no
// sense, naming each.
func (r Rule) Needed(b Burn) (Need, error) {
	if err := b.check(); err != nil {
		return Need{}, err
	}
	n := Need{TaxiKg: b.TaxiKg, TripKg: b.TripKg, ContingencyKg: r.contingency(b), FinalReserveKg: r.FinalReserveKg(b)}
	if !r.WithoutAlternate {
		n.AlternateKg = b.AlternateKg
	}
	return n, nil
}

// FinalReserveKg is what must be left at touchdown, wherever that is.
func (r Rule) FinalReserveKg(b Burn) float64 {
	return r.ReserveCruiseMin/60*b.CruiseKgPerH + r.ReserveHoldMin/60*b.HoldKgPerH
}

// contingency is the greatest of the parts that the rule puts side by side,
// and its share of the time on top.
func (r Rule) contingency(b Burn) float64 {
	kg := max(r.TripShare*b.TripKg, r.FloorHoldMin/60*b.HoldKgPerH)
	if r.TripMin > 0 && b.TripHours > 0 {
		kg = max(kg, r.TripMin/60*b.TripKg/b.TripHours)
	}
	return kg + r.TimeShare*b.TripHours*b.CruiseKgPerH
}

func (b Burn) check() error {
	var errs []error
	for _, n := range []struct {
		what string
		v    float64
		most float64
	}{
		{"taxi fuel", b.TaxiKg, 1e5}, {"trip fuel", b.TripKg, 1e6}, {"trip time", b.TripHours, 48}, {"fuel to the alternate", b.AlternateKg, 1e6},
		{"cruise fuel flow", b.CruiseKgPerH, 1e5}, {"holding fuel flow", b.HoldKgPerH, 1e5},
	} {
		if !(n.v >= 0 && n.v <= n.most) { // also catches NaN
			errs = append(errs, fmt.Errorf("fuel: %s is %g: give 0 to %g", n.what, n.v, n.most))
		}
	}
	return errors.Join(errs...)
}

// Rule is a set of fuel rules.
type Rule struct {
	Name, Title, Source string

	TripShare    float64 // contingency: of the trip fuel,
	TripMin      float64 // or so many minutes at the trip's burn,
	FloorHoldMin float64 // but at least so many minutes of holding
	TimeShare    float64 // and this share of the trip time, at the cruise flow

	ReserveCruiseMin float64 // final reserve: minutes of normal cruise
	ReserveHoldMin   float64 // or of holding
	WithoutAlternate bool    // the rule is for flights that name none
	Old              bool    // repealed: kept to compare with what was flown under it
}

// Rules lists the rules that are known, in the order to offer them.
func Rules() []Rule {
	european := Rule{FloorHoldMin: 5, ReserveHoldMin: 30}
	five, three, twenty := european, european, european
	five.Name, five.Title, five.TripShare = "european", "European, contingency 5 %", 0.05
	five.Source = "AMC6 CAT.OP.MPA.181, 5 % from memory; final reserve: CAT.OP.MPA.181(c), in force since 30 October 2022"
	three.Name, three.Title, three.TripShare = "european-3", "European, contingency 3 % with an en-route alternate", 0.03
	three.Source = "AMC6 CAT.OP.MPA.181"
	twenty.Name, twenty.Title, twenty.TripMin = "european-20-min", "European, contingency 20 minutes of trip fuel", 20
	twenty.Source = "AMC6 CAT.OP.MPA.181"
	old := five
	old.Name, old.Title, old.Old = "european-old", "European, the old figure: contingency 5 %", true
	old.Source = "AMC1 CAT.OP.MPA.150(b) (2014); final reserve: Appendix 1 to OPS 1.255; both repealed"
	icao := five
	icao.Name, icao.Title, icao.Source = "icao", "ICAO Annex 6 Part I", "ICAO Annex 6 Part I, 4.3.6.3, from memory"
	return []Rule{
		five, three, twenty, icao,
		{Name: "us-domestic", Title: "US, domestic airline", Source: "14 CFR 121.639", ReserveCruiseMin: 45},
		{Name: "us-flag", Title: "US, flag airline, turbojet", Source: "14 CFR 121.645(b)", TimeShare: 0.10, ReserveHoldMin: 30},
		{Name: "us-flag-no-alternate", Title: "US, flag airline, no alternate named", Source: "14 CFR 121.645(c)", ReserveCruiseMin: 120, WithoutAlternate: true},
		{Name: "us-ifr", Title: "US, instrument flight rules", Source: "14 CFR 91.167", ReserveCruiseMin: 45},
		old,
	}
}

// Named gives a rule by its name; "" is the first.
func Named(name string) (rule Rule, ok bool) {
	for _, r := range Rules() {
		if r.Name == name || name == "" {
			return r, true
		}
	}
	return Rule{}, false
}
