package price

// Roll is a landing on one runway with the aircraft healthy and failed.
// Distances are metres from the threshold that is landed over, speeds are
// knots over the ground.
type Roll struct {
	ID        string  // unique in the page; ids inside begin with it
	Title     string  // "" for one made from the rest (Caption)
	Runway    string  // its name: "27 of Foxtrot"
	Available float64 // landing distance available, metres; 0 when not known
	Margin    float64 // the margin that the factored distances hold: 0.15 for 15 %
	Healthy   Stop
	Failed    Stop
	Foot      []string // lines under a picture that stands alone, after the caution: its address
}

// Stop is one landing. A stop without a track is left out of the picture.
type Stop struct {
	Track      []Point // from the threshold on, in the order of time
	Events     []Event
	Metres     float64 // where it stops: the distance that the landing takes, without a margin
	Factored   float64 // landing distance required, with the margin; 0 for Metres*(1+Margin)
	NeverStops bool    // it does not stop on any length; Metres and Factored are not read
}

// Point is one moment of a track.
type Point struct{ Metres, Kt float64 }

// Event is something that happens on the way: touchdown, spoilers, brakes,
// reverse, wheels turn, tyres grip, reverse out, stop.
type Event struct {
	What   string
	Metres float64
	Kt     float64
}

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
