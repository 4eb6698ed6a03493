package fuel

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
