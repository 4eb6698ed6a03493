package region

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"knockon/airfield"
	"knockon/flight/geo"
	"knockon/weather"
)

// New puts a region together. The reports are of the open aerodrome report
// code, one after another; the conditions are lines "ident,runway end,condition"
// with a condition as weather.ReadCondition reads it and an empty runway end for
// all; the winds are lines "altitude in feet or FL, degrees true/knots". What
// cannot be used is left out and told.
func New(list *airfield.List, reports, conditions, aloft string) (*Region, []string) {
	g := &Region{Airfields: list, Reports: map[string]weather.Report{}, Conditions: map[string]map[string]weather.RunwayCondition{}}
	var told []string
	told = append(told, g.readReports(reports)...)
	told = append(told, g.readConditions(conditions)...)
	return g, append(told, g.readAloft(aloft)...)
}

func (g *Region) readReports(text string) (told []string) {
	for i, r := range weather.ReadAll(text) {
		for _, p := range r.Problems {
			told = append(told, fmt.Sprintf("weather, report %d (%s): %s", i+1, r.Station, p))
		}
		if _, ok := g.Airfields.Find(r.Station); !ok {
			told = append(told, fmt.Sprintf("weather, report %d: no airfield %q in the list", i+1, r.Station))
			continue
		}
		if _, twice := g.Reports[r.Station]; twice {
			told = append(told, fmt.Sprintf("weather, report %d: a second report of %s; the later one counts", i+1, r.Station))
		}
		g.Reports[r.Station] = r
	}
	return told
}

// readConditions reads the table of the runways' conditions.
func (g *Region) readConditions(text string) (told []string) {
	c := csv.NewReader(strings.NewReader(strings.TrimPrefix(text, "\ufeff")))
	c.FieldsPerRecord, c.Comment, c.TrimLeadingSpace = -1, '#', true
	for {
		cells, err := c.Read()
		if errors.Is(err, io.EOF) {
			return told
		}
		row, _ := c.FieldPos(0)
		if err != nil {
			return append(told, fmt.Sprintf("runway conditions: %v", err))
		}
		if len(cells) > 0 && strings.EqualFold(cells[0], "ident") {
			continue
		}
		if err := g.addCondition(cells); err != nil {
			told = append(told, fmt.Sprintf("runway conditions, row %d: %v", row, err))
		}
	}
}

func (g *Region) addCondition(cells []string) error {
	if len(cells) != 3 {
		return fmt.Errorf("%d cells: write ident,runway end,condition such as QSVA,17,wet 2 mm", len(cells))
	}
	a, ok := g.Airfields.Find(strings.TrimSpace(cells[0]))
	if !ok {
		return fmt.Errorf("no airfield %q in the list", cells[0])
	}
	end := strings.TrimSpace(cells[1])
	if end != "" && !slices.Contains(ends(a), end) {
		return fmt.Errorf("%s has no runway end %q; it has %s", a.Ident, end, strings.Join(ends(a), ", "))
	}
	c, err := weather.ReadCondition(cells[2], g.Reports[a.Ident].TemperatureC)
	if err != nil {
		return err
	}
	if g.Conditions[a.Ident] == nil {
		g.Conditions[a.Ident] = map[string]weather.RunwayCondition{}
	}
	g.Conditions[a.Ident][end] = c
	return nil
}

func ends(a airfield.Airfield) (list []string) {
	for _, r := range a.Runways {
		for _, e := range r.Ends {
			list = append(list, e.Ident)
		}
	}
	return list
}

const mostWindKt = 300.0

// readAloft reads winds by level.
func (g *Region) readAloft(text string) (told []string) {
	for i, line := range strings.Split(text, "\n") {
		line, _, _ = strings.Cut(line, "#")
		if line = strings.TrimSpace(line); line == "" {
			continue
		}
		a, err := readLevel(line)
		if err != nil {
			told = append(told, fmt.Sprintf("winds aloft, line %d: %v", i+1, err))
			continue
		}
		g.Aloft = append(g.Aloft, a)
	}
	slices.SortStableFunc(g.Aloft, func(a, b Aloft) int {
		switch {
		case a.AltitudeFt < b.AltitudeFt:
			return -1
		case a.AltitudeFt > b.AltitudeFt:
			return 1
		}
		return 0
	})
	return told
}

func readLevel(line string) (a Aloft, err error) {
	parts := strings.Fields(line)
	bad := fmt.Errorf("%q: write a level and a wind, such as FL340 250/85 or 5000 230/25", line)
	if len(parts) != 2 {
		return a, bad
	}
	level, isFL := strings.CutPrefix(strings.ToUpper(parts[0]), "FL")
	from, kt, ok := strings.Cut(parts[1], "/")
	ft, err1 := strconv.ParseFloat(level, 64)
	d, err2 := strconv.ParseFloat(from, 64)
	v, err3 := strconv.ParseFloat(kt, 64)
	if !ok || errors.Join(err1, err2, err3) != nil {
		return a, bad
	}
	if isFL {
		ft *= 100
	}
	switch {
	case !(ft >= -1500 && ft <= 60000):
		return a, fmt.Errorf("%q: the level is %g ft: give -1,500 to 60,000", line, ft)
	case !(d >= 0 && d <= 360):
		return a, fmt.Errorf("%q: the direction is %g degrees: give 0 to 360", line, d)
	case !(v >= 0 && v <= mostWindKt):
		return a, fmt.Errorf("%q: the wind is %g kt: give 0 to %g", line, v, mostWindKt)
	}
	return Aloft{ft, geo.Wind{From: d, Kt: v}}, nil
}
