package manual

import (
	"slices"

	"knockon/book"
)

// Factors are what a manual makes of its numbers.
type Factors struct{ Landing, Fuel, AddsM float64 }

// Combine puts factors together as the manual says: their product, the greatest,
// or one and the sum of what each is above one; metres are added up, or the
// greatest counts. Further ratios count like landing ratios.
func Combine(how string, standing []*book.Factor, landing ...float64) Factors {
	fuel := []float64{}
	metres := 0.0
	for _, f := range standing {
		landing, fuel = append(slices.Clip(landing), f.LandingRatio), append(fuel, f.FuelRatio)
		if metres += f.AddsM; how == "greatest" {
			metres = max(metres-f.AddsM, f.AddsM)
		}
	}
	return Factors{Landing: ratios(how, landing), Fuel: ratios(how, fuel), AddsM: metres}
}

func ratios(how string, list []float64) float64 {
	all := 1.0
	for _, r := range list {
		switch how {
		case "greatest":
			all = max(all, r)
		case "sum":
			all += r - 1
		default:
			all *= r
		}
	}
	return all
}
