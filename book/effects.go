package book

// EffectKind is one thing that the systems of an aircraft can do to its flight.
type EffectKind struct {
	Name    string
	Type    Type
	Unit    string  // of a number
	Default float64 // what holds where the book says nothing; of a word: the first setting
	Title   string
}

// NoLimit is the default of an effect that sets a limit.
const NoLimit = 1e6

// Effects lists what an effect block can say, in the order in which a flight
// takes them.
var Effects = []EffectKind{
	{"engine_left_ratio", Number, "ratio", 1, "share of the wanted thrust that the left engine gives; 0 when it stands"},
	{"engine_right_ratio", Number, "ratio", 1, "the same of the right engine"},
	{"thrust_frozen", YesNo, "", 0, "the thrust stays where it is, whatever is wanted"},
	{"thrust_closed", YesNo, "", 0, "the levers close in the air, whatever is wanted, as for a flare that is not there"},
	{"high_idle", YesNo, "", 0, "idle is the higher one of the approach"},
	{"gear_out", YesNo, "", 0, "the landing gear is in the airflow"},
	{"gear_locked", YesNo, "", 1, "all legs of the landing gear are down and locked, as a landing needs them"},
	{"flap_setting", Word, "", 0, "the setting in which slats and flaps stand, by its name"},
	{"landing_speed_adds_kt", Number, "kt", 0, "what crews add to the reference speed for landing, 60 at most"},
	{"speed_brakes_ratio", Number, "ratio", 0, "how far the speed brakes are out in the air"},
	{"ground_spoilers_ratio", Number, "ratio", 0, "share of the ground spoilers that is out"},
	{"brakes_ratio", Number, "ratio", 1, "share of full wheel braking that can be had"},
	{"anti_skid", YesNo, "", 1, "the anti-skid works"},
	{"autobrake", YesNo, "", 0, "the automatic brake is set and works"},
	{"reverse_left", YesNo, "", 0, "the left engine can be, or is, in reverse on the ground"},
	{"reverse_right", YesNo, "", 0, "the same of the right engine"},
	{"extra_drag_ratio", Number, "ratio", 0, "drag coefficient that doors and panels add"},
	{"most_airspeed_kt", Number, "kt", NoLimit, "greatest airspeed that is left"},
	{"most_altitude_ft", Number, "ft", NoLimit, "greatest altitude that is left"},
	{"most_crosswind_kt", Number, "kt", NoLimit, "greatest crosswind for a landing that is left"},
	{"most_tailwind_kt", Number, "kt", NoLimit, "greatest tailwind for a landing that is left"},
	{"least_ceiling_ft", Number, "ft", 0, "lowest cloud base above the aerodrome for which an approach is left"},
	{"manual_landing_ratio", Number, "ratio", 0, "the manual's own factor on the landing distance with nothing failed; 0 where it gives none"},
	{"least_visibility_m", Number, "m", 0, "least visibility for which an approach is left"},
	{"fuel_leak_kg_per_h", Number, "kg_per_h", 0, "fuel that is lost overboard"},
	{"wing_iced", YesNo, "", 0, "ice stands on the wing"},
	{"steering", YesNo, "", 1, "the nose wheel can be steered"},
}

// EffectNamed looks an effect up; ok is false if there is none of this name.
func EffectNamed(name string) (kind EffectKind, ok bool) {
	for _, k := range Effects {
		if k.Name == name {
			return k, true
		}
	}
	return EffectKind{}, false
}

// EffectID is the id under which a build and a circuit know an effect. No other
// item can have it, since ids have no spaces.
func EffectID(name string) string { return effectWord + " " + name }

const effectWord = "effect"

// Effect says what the systems do to the flight.
type Effect struct {
	Head        // its ID is EffectID(Name)
	Name string // one of Effects
	// Value changes at moments only: a yes/no, a word, or a number that does not
	// follow one that changes continuously.
	Value *Expr
}

// Setting is one setting of slats and flaps, as the flight feels it.
type Setting struct {
	Name         string
	ZeroLiftDrag float64 // drag coefficient without lift
	InducedDrag  float64 // times the square of the lift coefficient
	MostLift     float64 // lift coefficient at the stall
	GroundLift   float64 // lift coefficient on the wheels; 0 where not given
	Range        Range
}

// AircraftNumber is a number of the aircraft block that the flight reads. The
// block may give any others.
type AircraftNumber struct {
	Name, Unit, Title string
}

// AircraftNumbers lists them. Where an airspeed limit belongs to a flap setting
// it is named max_flap_…_kt with the name of the setting.
var AircraftNumbers = []AircraftNumber{
	{"wing_area_m2", "m2", "wing area"},
	{"engines_count", "count", "number of engines; 2 where not given"},
	{"takeoff_thrust_kn", "kn", "static take-off thrust of one engine at sea level"},
	{"thrust_density_ratio", "ratio", "exponent by which thrust falls with the density of the air"},
	{"thrust_mach_ratio", "ratio", "share of the static thrust that is lost for each unit of Mach number"},
	{"climb_thrust_ratio", "ratio", "climb thrust, of take-off thrust there"},
	{"cruise_thrust_ratio", "ratio", "most cruise thrust, of take-off thrust there"},
	{"idle_thrust_ratio", "ratio", "idle thrust, of take-off thrust there"},
	{"approach_idle_ratio", "ratio", "the higher idle of the approach, of take-off thrust there"},
	{"reverse_thrust_ratio", "ratio", "thrust in full reverse, of take-off thrust there"},
	{"specific_fuel_kg_per_kn_h", "kg_per_kn_h", "static specific fuel consumption at sea level"},
	{"specific_fuel_mach_ratio", "ratio", "share by which it grows for each unit of Mach number"},
	{"idle_fuel_kg_per_h", "kg_per_h", "fuel flow of one engine at idle at sea level, the least it burns"},
	{"apu_fuel_kg_per_h", "kg_per_h", "fuel flow of the auxiliary power unit"},
	{"gear_drag_ratio", "ratio", "drag coefficient that the gear adds"},
	{"speed_brake_drag_ratio", "ratio", "drag coefficient that the speed brakes add"},
	{"ground_spoiler_drag_ratio", "ratio", "drag coefficient that the ground spoilers add"},
	{"ground_spoiler_lift_ratio", "ratio", "lift coefficient that they take away"},
	{"engine_out_drag_ratio", "ratio", "drag coefficient that an engine that stands adds"},
	{"iced_drag_ratio", "ratio", "drag coefficient that ice on the wing adds"},
	{"iced_lift_ratio", "ratio", "share of the greatest lift that ice leaves to the wing"},
	{"empty_mass_kg", "kg", "mass without fuel and load"},
	{"max_takeoff_mass_kg", "kg", "greatest take-off mass"},
	{"max_landing_mass_kg", "kg", "greatest landing mass"},
	{"fuel_capacity_kg", "kg", "fuel that the tanks hold"},
	{"tyre_pressure_psi", "psi", "tyre pressure"},
	{"tyre_width_m", "m", "width of a tyre; standing water drags on it"},
	{"tyre_deflection_m", "m", "deflection of a tyre under load"},
	{"tyres_alike_count", "count", "how many single tyres' drag all of them together have in water: a pair counts 2, a bogie of four 4"},
	{"braked_load_ratio", "ratio", "share of the load on the wheels that the braked ones carry"},
	{"rolling_drag_ratio", "ratio", "resistance of unbraked rolling, of the load"},
	{"brake_force_kn", "kn", "most that all brakes together can hold"},
	{"max_brake_energy_mj", "mj", "most energy that all brakes together can take in one stop; how many of them work does not change it"},
	{"dry_grip_ratio", "ratio", "braking coefficient on a dry runway"},
	{"wheel_spin_up_s", "s", "time from touchdown until the wheels turn, on a dry runway"},
	{"reverse_out_kt", "kt", "ground speed at which reverse is taken out"},
	{"holding_kt", "kt", "airspeed of the holding, clean"},
	{"max_operating_kt", "kt", "greatest operating airspeed"},
	{"max_mach", "mach", "greatest operating Mach number"},
	{"max_altitude_ft", "ft", "greatest operating altitude"},
	{"max_gear_kt", "kt", "greatest airspeed with the gear out"},
	{"max_crosswind_kt", "kt", "greatest crosswind for a landing"},
	{"max_tailwind_kt", "kt", "greatest tailwind for a landing"},
}
