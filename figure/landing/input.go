package landing

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
	Manual     float64 // landing distance required by the factor of the book's own manual; 0 for none. It stands beside Factored and is never mixed with it
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
