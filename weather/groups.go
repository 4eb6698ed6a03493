package weather

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"knockon/flight/geo"
)

// order is the place of a group in the code form FM 15 of WMO-No. 306.
type order int

const (
	timing order = iota
	modifier
	wind
	spread
	visibility
	sight // runway visual range
	present
	cloud
	temperature
	pressure
	further
	outlook
	remarks
	orders
)

func (o order) String() string {
	return [...]string{
		"time", "modifier", "wind", "variation of the wind", "visibility", "runway visual range", "weather", "cloud",
		"temperature and dew point", "QNH", "additional group", "trend", "remarks",
	}[o]
}

func (o order) repeats() bool {
	switch o {
	case modifier, visibility, sight, present, cloud, pressure, further:
		return true
	}
	return false
}

// group is a kind of group: how to know it, generously, and how to read it,
// strictly. read tells how many words it took and, if it could not read them,
// what it expected.
type group struct {
	order order
	looks *regexp.Regexp
	read  func(p *reader, word string) (took int, expected string)
}

func form(pattern string) *regexp.Regexp { return regexp.MustCompile(`^(?:` + pattern + `)$`) }

// groups in the order in which they are tried.
var groups = []group{
	{remarks, form(`RMK`), (*reader).remarks},
	{outlook, form(`NOSIG|BECMG|TEMPO|PROB[0-9]*`), (*reader).trend},
	{timing, form(`[0-9]{4,}Z`), (*reader).time},
	{modifier, form(`AUTO|COR|NIL`), (*reader).modifier},
	{wind, form(`[0-9A-Z/]+(KT|MPS|KMH)`), (*reader).wind},
	{spread, form(`[0-9]{2,3}V[0-9]{2,3}`), (*reader).spread},
	{visibility, form(`CAVOK|[0-9]{4}|////|.*NDV|.*SM|[0-9]{1,2}`), (*reader).visibility},
	{visibility, form(`[0-9]{4}(N|NE|E|SE|S|SW|W|NW)`), (*reader).keep},
	{sight, form(`R[0-9]{2}[LCR]?/([PM]?[0-9]{4}(V[PM]?[0-9]{4})?(FT)?/?[UDN]?|////)`), (*reader).keep},
	{further, form(`R[0-9]{2}[LCR]?/([0-9/]{6}|CLRD[0-9/]{2})|(R/)?SNOCLO|[0-9]{8}`), (*reader).runwayState},
	{further, form(`RE(` + phenomena + `)|RE//|W(M?[0-9]{2}|//)/[SH][0-9/]+`), (*reader).keep},
	{further, form(`WS`), (*reader).shear},
	{present, form(phenomena + `|//|NSW`), (*reader).weather},
	{cloud, form(`(FEW|SCT|BKN|OVC|VV).*|///([0-9]{3}|///).*|NSC|SKC|CLR|NCD`), (*reader).cloud},
	{temperature, form(`M?[0-9]+/.*|///?M?[0-9/]+`), (*reader).temperature},
	{pressure, form(`[QA][0-9/]+`), (*reader).pressure},
}

const phenomena = `(\+|-|VC)?((MI|BC|PR|DR|BL|SH|TS|FZ)(DZ|RA|SN|SG|IC|PL|GR|GS|UP|BR|FG|FU|VA|DU|SA|HZ|PO|SQ|FC|SS|DS){0,3}|(DZ|RA|SN|SG|IC|PL|GR|GS|UP|BR|FG|FU|VA|DU|SA|HZ|PO|SQ|FC|SS|DS){1,3})`

func (p *reader) remarks(string) (int, string) {
	p.Remarks = strings.Join(p.words[p.at+1:], " ")
	return len(p.words), ""
}

func (p *reader) trend(string) (int, string) {
	end := p.at
	for end < len(p.words) && p.words[end] != "RMK" {
		end++
	}
	p.Trend = strings.Join(p.words[p.at:end], " ")
	return end - p.at, ""
}

func (p *reader) keep(word string) (int, string) {
	p.Kept = append(p.Kept, word)
	return 1, ""
}

// shear is WS R24, WS RWY24 or WS ALL RWY.
func (p *reader) shear(string) (int, string) {
	took := 2
	if p.at+1 < len(p.words) && p.words[p.at+1] == "ALL" {
		took = 3
	}
	if p.at+took > len(p.words) {
		return 1, "a runway after WS, like WS R24 or WS ALL RWY"
	}
	return took, second(p.keep(strings.Join(p.words[p.at:p.at+took], " ")))
}

func second(_ int, expected string) string { return expected }

func (p *reader) runwayState(word string) (int, string) {
	p.RunwayStates = append(p.RunwayStates, word)
	return 1, ""
}

func (p *reader) weather(word string) (int, string) {
	if word != "//" {
		p.Weather = append(p.Weather, word)
	}
	return 1, ""
}

func (p *reader) modifier(word string) (int, string) {
	switch word {
	case "AUTO":
		p.Automatic = true
	case "COR":
		p.Corrected = true
	case "NIL":
		p.Missing = true
	}
	return 1, ""
}

func (p *reader) time(word string) (int, string) {
	const expected = "day, hour and minute with Z, like 221630Z"
	if !timeForm.MatchString(word) {
		return 1, expected
	}
	t := Time{number(word[:2]), number(word[2:4]), number(word[4:6])}
	if t.Day < 1 || t.Day > 31 || t.Hour > 23 || t.Minute > 59 {
		return 1, expected
	}
	p.Time = t
	return 1, ""
}

// number reads digits that a form has let through.
func number(digits string) int {
	n, _ := strconv.Atoi(digits)
	return n
}

var windForm = form(`(VRB|///|[0-9]{3})(//|P?[0-9]{2,3})(?:G(//|P?[0-9]{2,3}))?(KT|MPS|KMH)`)

// knots in a unit of wind speed; exact.
func knots(unit string) float64 {
	switch unit {
	case "MPS":
		return 3600 / geo.MetresPerNM
	case "KMH":
		return 1000 / geo.MetresPerNM
	}
	return 1
}

// strongest is the most that the code has room for, WMO-No. 306, 15.5: 199 kt.
const strongest = 199.5

func (p *reader) wind(word string) (int, string) {
	m := windForm.FindStringSubmatch(word)
	if m == nil {
		return 1, "three digits of direction or VRB, two of speed, perhaps G and two of gust, and KT, MPS or KMH, like 24015G27KT"
	}
	if m[2] == "//" {
		return 1, "" // not measured
	}
	w := Wind{Given: true, Variable: m[1] == "VRB" || m[1] == "///"}
	w.Kt, w.OrMore = speed(m[2], m[4])
	gust, more := speed(m[3], m[4])
	if w.Kt > strongest || gust > strongest {
		return 1, "a wind of at most 199 kt"
	}
	if !w.Variable {
		if number(m[1]) > 360 {
			return 1, "a direction of at most 360 degrees"
		}
		w.From = geo.Course(float64(number(m[1])))
	}
	w.GustKt, w.OrMore = p.gust(w, gust), w.OrMore || more
	p.Wind = w
	return 1, ""
}

// gust says if a gust is not one, and leaves it out.
func (p *reader) gust(w Wind, kt float64) float64 {
	if kt > 0 && kt <= w.Kt {
		p.say("the gust is not above the mean wind; it is left out")
		return 0
	}
	return kt
}

// speed in knots; P is more than the digits after it.
func speed(text, unit string) (kt float64, more bool) {
	if text == "" || text == "//" {
		return 0, false
	}
	text, more = strings.CutPrefix(text, "P")
	n := number(text)
	if more {
		n++
	}
	return float64(n) * knots(unit), more
}

func (p *reader) spread(word string) (int, string) {
	least, most, _ := strings.Cut(word, "V")
	if len(least) != 3 || len(most) != 3 || number(least) > 360 || number(most) > 360 {
		return 1, "two directions of three digits up to 360, like 180V260"
	}
	w := &p.Wind
	w.Spread, w.Least, w.Most = true, geo.Course(float64(number(least))), geo.Course(float64(number(most)))
	if w.Given && !w.Variable && !w.cameFrom(w.From) {
		p.say("the wind direction %03.0f is not between these", w.From)
	}
	return 1, ""
}

const (
	metresPerMile = 1609.344 // statute mile, exact
	farMetres     = 10000    // 9999 and CAVOK: this or more
	nearMetres    = 50       // 0000: less than this
)

var mileForm = form(`([PM])?(?:([0-9]{1,2})|(?:([0-9]) )?([0-9]{1,2})/([1-9][0-9]?))SM`)

func (p *reader) visibility(word string) (took int, expected string) {
	took = 1
	if len(word) <= 2 && p.at+1 < len(p.words) && strings.HasSuffix(p.words[p.at+1], "SM") {
		word, took = word+" "+p.words[p.at+1], 2
	}
	v := Visibility{Given: true}
	bare, noSides := strings.CutSuffix(word, "NDV")
	switch m := mileForm.FindStringSubmatch(word); {
	case word == "CAVOK":
		p.CAVOK, v.Metres, v.OrMore = true, farMetres, true
	case bare == "////":
		return took, ""
	case m != nil:
		v.Metres, v.OrMore, v.OrLess = miles(m)*metresPerMile, m[1] == "P", m[1] == "M"
	case len(bare) == 4 && strings.Trim(bare, "0123456789") == "":
		v = metric(float64(number(bare)))
		v.NoSides = noSides
	default:
		return took, "four digits of metres, CAVOK, or statute miles like 3/4SM or 1 1/2SM"
	}
	p.Visibility = v
	return took, ""
}

func metric(metres float64) Visibility {
	switch metres {
	case 9999:
		return Visibility{Metres: farMetres, Given: true, OrMore: true}
	case 0:
		return Visibility{Metres: nearMetres, Given: true, OrLess: true}
	}
	return Visibility{Metres: metres, Given: true}
}

func miles(m []string) float64 {
	if m[2] != "" {
		return float64(number(m[2]))
	}
	return float64(number(m[3])) + float64(number(m[4]))/float64(number(m[5]))
}

var cloudForm = form(`(FEW|SCT|BKN|OVC|VV|///)([0-9]{3}|///)(CB|TCU|///)?`)

func (p *reader) cloud(word string) (int, string) {
	if word == "NSC" || word == "SKC" || word == "CLR" || word == "NCD" {
		return 1, ""
	}
	m := cloudForm.FindStringSubmatch(word)
	if m == nil {
		return 1, "FEW, SCT, BKN, OVC or VV, three digits of hundreds of feet, perhaps CB or TCU, like BKN008"
	}
	c := Cloud{Amount: strings.Trim(m[1], "/"), Kind: strings.Trim(m[3], "/")}
	if m[2] != "///" {
		c.BaseFt = Reading{float64(number(m[2])) * 100, true}
	}
	p.Clouds = append(p.Clouds, c)
	return 1, ""
}

var temperatureForm = form(`(M?[0-9]{2}|//)/(M?[0-9]{2}|//)?`)

func (p *reader) temperature(word string) (int, string) {
	const expected = "two digits each, M for minus, like 17/M02"
	m := temperatureForm.FindStringSubmatch(word)
	if m == nil {
		return 1, expected
	}
	air, dew := degrees(m[1]), degrees(m[2])
	if air.Given && (air.Value < -80 || air.Value > 60) {
		return 1, "an air temperature of -80 to 60 degrees"
	}
	if air.Given && dew.Given && dew.Value > air.Value {
		p.say("the dew point is above the temperature")
	}
	p.TemperatureC, p.DewPointC = air, dew
	return 1, ""
}

func degrees(text string) Reading {
	if text == "" || text == "//" {
		return Reading{}
	}
	digits, minus := strings.CutPrefix(text, "M")
	if minus {
		return Reading{0 - float64(number(digits)), true}
	}
	return Reading{float64(number(digits)), true}
}

const (
	hPaPerInHg       = 33.86389 // conventional inch of mercury
	leastQNH, topQNH = 850, 1100
)

func (p *reader) pressure(word string) (int, string) {
	digits := word[1:]
	if strings.Trim(digits, "/") == "" {
		return 1, ""
	}
	hPa, err := strconv.ParseFloat(digits, 64)
	if word[0] == 'A' {
		hPa *= hPaPerInHg / 100
	}
	if err != nil || len(digits) != 4 || !(hPa >= leastQNH && hPa <= topQNH) {
		return 1, "Q and four digits of hectopascals (0850 to 1100), or A and four of hundredths of an inch, like Q1018 or A2992"
	}
	if p.QNHhPa.Given && math.Abs(p.QNHhPa.Value-hPa) > 1.5 {
		p.say("it differs from the %.0f hPa before it and takes their place", p.QNHhPa.Value)
	} else if p.QNHhPa.Given {
		return 1, ""
	}
	p.QNHhPa = Reading{hPa, true}
	return 1, ""
}
