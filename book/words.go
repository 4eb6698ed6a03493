package book

// Quantity describes one real.* value: what is physically true, whatever any
// sensor believes.
type Quantity struct {
	Name  string
	Type  Type   // YesNo or Number
	Unit  string // of a number
	Title string
}

// Quantities lists every real.* value, in the order in which a flight gives them.
var Quantities = []Quantity{
	{"time_s", Number, "s", "time since the start of the flight"},
	{"on_ground", YesNo, "", "the weight is on the wheels"},
	{"height_ft", Number, "ft", "height of the wheels above the ground below"},
	{"altitude_ft", Number, "ft", "pressure altitude"},
	{"airspeed_kt", Number, "kt", "calibrated airspeed"},
	{"true_airspeed_kt", Number, "kt", "true airspeed"},
	{"mach", Number, "mach", "Mach number"},
	{"ground_speed_kt", Number, "kt", "speed over the ground"},
	{"wheel_speed_kt", Number, "kt", "speed of the braked wheels' rims; runs down after take-off, spins up after touchdown"},
	{"vertical_speed_ft_per_min", Number, "ft_per_min", "rate of change of altitude"},
	{"air_temperature_c", Number, "c", "static air temperature"},
	{"total_temperature_c", Number, "c", "total air temperature"},
	{"icing", YesNo, "", "the aircraft is in cloud or rain cold enough to ice it"},
	{"thrust_pct", Number, "pct", "thrust that the flight needs, of take-off thrust"},
	{"mass_kg", Number, "kg", "mass of the aircraft"},
	{"fuel_kg", Number, "kg", "fuel on board"},
	{"distance_nm", Number, "nm", "distance flown over the ground"},
	{"to_go_nm", Number, "nm", "distance left to the landing threshold"},
	{"on_glide_path", YesNo, "", "established on the final approach path, down to touchdown"},
	{"braking", YesNo, "", "the flight wants the wheel brakes"},
	{"headwind_kt", Number, "kt", "wind component from ahead"},
	{"runway_wet", YesNo, "", "the landing runway is wet"},
}

// FlightNumbers lists the numbers that a flight block may give; the bool says
// that it must.
var FlightNumbers = []struct {
	Name     string
	Unit     string
	Required bool
	Title    string
}{
	{"takeoff_mass_kg", "kg", true, "mass at brake release"},
	{"fuel_kg", "kg", true, "fuel at brake release"},
	{"cruise_altitude_ft", "ft", true, "pressure altitude of the cruise"},
	{"distance_nm", "nm", true, "from lift-off to touchdown over the ground"},
	{"from_elevation_ft", "ft", false, "elevation of the departure runway"},
	{"to_elevation_ft", "ft", false, "elevation of the landing runway"},
	{"rotate_kt", "kt", true, "airspeed at rotation"},
	{"decision_kt", "kt", false, "decision speed: below it a take-off can be rejected; rotate_kt, which it may not exceed (14 CFR 25.107(e)), where not given"},
	{"climb_kt", "kt", true, "airspeed of the climb above 10,000 ft"},
	{"climb_mach", "mach", true, "Mach number of the high climb and of the cruise"},
	{"descent_kt", "kt", true, "airspeed of the descent above 10,000 ft"},
	{"approach_kt", "kt", true, "final approach airspeed"},
	{"climb_ft_per_min", "ft_per_min", false, "climb rate near the ground"},
	{"descent_ft_per_min", "ft_per_min", false, "descent rate"},
	{"headwind_kt", "kt", false, "wind aloft from ahead, from 2,000 ft above either field up"},
	{"from_headwind_kt", "kt", false, "wind from ahead on the runway of departure; calm where not given"},
	{"to_headwind_kt", "kt", false, "wind from ahead on the landing runway; calm where not given"},
	{"isa_deviation_c", "c", false, "air temperature above the standard atmosphere"},
	{"icing_from_ft", "ft", false, "foot of the icing layer"},
	{"icing_to_ft", "ft", false, "top of the icing layer"},
	{"taxi_out_min", "min", false, "taxi time before take-off"},
	{"taxi_in_min", "min", false, "taxi time after landing"},
	{"runway_wet", "", false, "1 when the landing runway is wet"},
	{"from_runway_code", "", false, "runway condition code of the runway of departure, 1 to 6: 6 dry, which holds where none is given, 5 wet"},
	{"to_runway_code", "", false, "the same of the landing runway; where none is given, 5 if runway_wet and 6 if not"},
}

// Units lists the unit endings that a name may carry.
var Units = []string{
	"ft_per_min", "kg_per_kn_h", "kg_per_h", "kg_per_s", "ft", "m2", "m", "nm", "kt", "s", "min", "h", "kg", "c", "psi", "pct", "v",
	"a", "ah", "hpa", "kw", "kn", "mj", "deg", "mach", "ratio", "count", "g", "hz", "l", "mm",
}
