package price

// Fuel is the fuel on board during one diversion, healthy and failed.
type Fuel struct {
	ID      string
	Title   string
	To      string // where the diversion goes: "Foxtrot"
	Healthy Burn
	Failed  Burn
	Foot    []string
}

// Burn is the fuel on board on one flight. A burn without points is left out
// of the picture.
type Burn struct {
	Points  []Burned
	Reserve float64 // final reserve, kg; 0 for none
	Lands   bool    // it lands, at the last of Points; otherwise it runs dry there
	DryAt   float64 // minutes at which it would run dry flying on as at the end; 0 when not known
}

// Burned is the fuel on board at one moment.
type Burned struct{ Minutes, Kg float64 }

// Waterfall is how a total grows from healthy to failed, by what each lost
// function adds to it.
type Waterfall struct {
	ID      string
	Title   string
	What    string  // what is added up: "fuel to Foxtrot"
	Unit    string  // "kg", "min", "m"
	Healthy float64 // total with everything working
	Failed  float64 // total with everything lost that is lost
	Parts   []Part
	Foot    []string
}

// Part is what one lost function adds. What is left over when all parts are
// given back, Failed - Healthy - the sum of Back, is the interaction; the
// picture computes it.
type Part struct {
	Title string
	Back  float64 // how much less the failed total is when this alone is given back
	Alone float64 // how much more the healthy total is when this alone is taken
}
