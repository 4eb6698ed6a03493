package weather

import (
	"math"
	"testing"

	"knockon/internal/checks"
)

// reported gives something of the report that a value is of; a value that is
// not given is no number.
func reported(of func(Report) float64) checks.How {
	return func(v checks.Value) any { return of(Read(v.Given)) }
}

func ifGiven(x float64, given bool) float64 {
	if !given {
		return math.NaN()
	}
	return x
}

func reading(of func(Report) Reading) checks.How {
	return reported(func(r Report) float64 {
		x := of(r)
		return ifGiven(x.Value, x.Given)
	})
}

func blowing(of func(Wind) float64) checks.How {
	return reported(func(r Report) float64 { return ifGiven(of(r.Wind), r.Wind.Given) })
}

// The values and their sources stand in internal/checks/tables/reports.tsv.
func TestRead_AgreesWithTheTables(t *testing.T) {
	checks.Run(t, "reports", map[string]checks.How{
		"day of the month":          reported(func(r Report) float64 { return float64(r.Time.Day) }),
		"hour, UTC":                 reported(func(r Report) float64 { return float64(r.Time.Hour) }),
		"minute":                    reported(func(r Report) float64 { return float64(r.Time.Minute) }),
		"wind from, degrees":        blowing(func(w Wind) float64 { return w.From }),
		"wind, kt":                  blowing(func(w Wind) float64 { return w.Kt }),
		"gust, kt":                  blowing(func(w Wind) float64 { return w.GustKt }),
		"wind varies from, degrees": blowing(func(w Wind) float64 { return ifGiven(w.Least, w.Spread) }),
		"wind varies to, degrees":   blowing(func(w Wind) float64 { return ifGiven(w.Most, w.Spread) }),
		"visibility, m":             reported(func(r Report) float64 { return ifGiven(r.Visibility.Metres, r.Visibility.Given) }),
		"visibility, statute miles": reported(func(r Report) float64 { return ifGiven(r.Visibility.Metres/1609.344, r.Visibility.Given) }),
		"ceiling, ft":               reading(Report.CeilingFt),
		"lowest layer, ft":          reading(func(r Report) Reading { return r.Clouds[0].BaseFt }),
		"temperature, C":            reading(func(r Report) Reading { return r.TemperatureC }),
		"dew point, C":              reading(func(r Report) Reading { return r.DewPointC }),
		"QNH, hPa":                  reading(func(r Report) Reading { return r.QNHhPa }),
		"altimeter setting, inHg": reported(func(r Report) float64 {
			return ifGiven(r.QNHhPa.Value/33.863886, r.QNHhPa.Given) // hPa in an inch of mercury, as in the standard atmosphere
		}),
	})
}
