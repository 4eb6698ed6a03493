package region

// Map is the places around a present position. Latitudes and longitudes are
// degrees, north and east positive; any longitude will do, 190 is -170.
type Map struct {
	ID        string  // unique in the page; ids inside begin with it
	Title     string  // "" for one made from the rest (Caption)
	Here      Place   // present position
	Track     float64 // true track, degrees
	Airfields []Airfield
	Healthy   []Place  // boundary of what can be reached healthy; it is closed by the picture
	Failed    []Place  // the same with the failure
	Foot      []string // lines under a picture that stands alone, after the caution: its address
}

// Place is a point on the globe.
type Place struct{ Lat, Lon float64 }

// Airfield is one place to land.
type Airfield struct {
	Ident   string // short name, which stands beside its mark
	Name    string
	At      Place
	NM      float64 // its distance; 0 for the one that the map measures on WGS84
	Healthy Verdict
	Failed  Verdict
	Reason  string // what binds when it is lost, in a word or two: "fuel", "runway 240 m short"
}

// Verdict says whether an airfield can be landed on.
type Verdict uint8

// Verdicts.
const (
	NotAsked Verdict = iota
	Can
	CanNot
)
