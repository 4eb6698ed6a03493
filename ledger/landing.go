package ledger

import (
	"strings"

	"knockon/run"
	"knockon/say"
)

// Landing says what is wrong with it, the worst first: a flight that lands so has not
// arrived well, however much was told. "" where nothing is.
func (l *Ledger) Landing() string {
	var list []string
	x, _ := l.Here.Rolled()
	if x.Over() {
		list = append(list, "The landing runs off the end of the runway"+where(x)+": "+overrun(x)+".")
	}
	if mj, most, over := l.Here.BrakeEnergy(); over {
		list = append(list, "The brakes take up "+say.Quantity(mj, "mj")+" to the stop, more than the "+say.Quantity(most, "mj")+" that they can.")
	}
	if l.Here.LandsOnLess() {
		list = append(list, "It lands with the gear not all down and locked.")
	}
	if kg, most, over := l.Here.Overweight(); over {
		list = append(list, "It lands at "+say.Quantity(kg, "kg")+", above the greatest landing mass of "+say.Quantity(most, "kg")+".")
	}
	return strings.Join(list, " ")
}

// where names the runway.
func where(x run.Rolled) string {
	return say.Ahead(" at ", x.Field) + say.Ahead(", runway ", x.End)
}

// overrun says what a landing takes of a runway that is too short for it.
func overrun(x run.Rolled) string {
	if x.TookM > 0 {
		return "it takes " + say.Quantity(x.TookM, "m") + " without any margin, of " + say.Quantity(x.HasM, "m")
	}
	return "it does not stop on " + say.Quantity(x.HasM, "m")
}

// stops says what the landing takes of a runway whose length is not known.
func (s speaker) stops() string {
	x, ok := s.l.Here.Rolled()
	if !ok || x.HasM > 0 || x.TookM == 0 {
		return ""
	}
	return "; the landing takes " + say.Quantity(x.TookM, "m") + " without any margin, and the length of the runway is not known"
}
