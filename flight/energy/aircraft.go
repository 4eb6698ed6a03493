package energy

import (
	"errors"
	"fmt"

	"knockon/book"
	"knockon/say"
)

// Aircraft are the coefficients of an aircraft. All coefficients are of the
// wing area.
type Aircraft struct {
	WingAreaM2       float64
	Engines          float64 // how many
	ThrustN          float64 // static take-off thrust of one engine at sea level
	DensityExponent  float64 // thrust falls with the density to this power,
	MachLoss         float64 // and by this share for each unit of Mach number
	Climb, Cruise    float64 // thrust, of take-off thrust there
	Idle, HighIdle   float64
	Reverse          float64
	FuelKgPerNS      float64 // static, at sea level
	FuelMachGain     float64 // share by which it grows for each unit of Mach number
	IdleFuelKgPerS   float64 // of one engine, at sea level
	APUFuelKgPerS    float64
	GearDrag         float64
	SpeedBrakeDrag   float64
	EngineOutDrag    float64 // of one engine
	IceDrag          float64
	IceLift          float64 // share of the lift at the stall that ice leaves
	Settings         []Polar // the first is clean
	MaxKt, MaxMach   float64
	MaxGearKt        float64
	MaxAltitudeFt    float64
	HoldingKt        float64 // 0: at the least drag
	EmptyKg          float64
	MaxTakeoffMassKg float64
	MaxLandingMassKg float64
	SpoilerDrag      float64 // of all ground spoilers
	SpoilerLift      float64 // lift coefficient that they take away
	RollingMu        float64 // resistance of unbraked rolling
	BrakedShare      float64 // of the load on the wheels that the braked ones carry
	Grip             float64 // braking coefficient on a dry runway
	MostBrakeN       float64 // 0: no limit but the tyres
	TyrePSI          float64
	TyreWidthM       float64 // 0: standing water does not drag
	TyreDeflectionM  float64
	TyresAlike       float64 // how many single tyres' drag all of them have in water
	SpinUpS          float64 // time that the wheels take to come up to speed
	ReverseOutKt     float64 // over the ground
}

// Polar is the drag of one setting of slats and flaps.
type Polar struct {
	Name              string
	ZeroLift, Induced float64
	MostLift          float64
	GroundLift        float64
	MaxKt             float64 // book.NoLimit: none
}

// Missing says which coefficients an aircraft block does not give.
type Missing struct {
	Names []string
	Range book.Range
}

func (m *Missing) Error() string {
	return fmt.Sprintf("the aircraft block lacks %s, which a flight with drag and thrust needs", say.And(m.Names))
}

// decoder reads numbers of an aircraft block.
type decoder struct {
	from    *book.Aircraft
	missing []string
	errs    []error
}

// need reads a number that must be there, between least and most.
func (d *decoder) need(name string, least, most float64) float64 {
	if _, ok := d.from.Number(name); !ok {
		d.missing = append(d.missing, name)
		return least
	}
	return d.may(name, least, least, most)
}

// may reads a number that may be left out.
func (d *decoder) may(name string, otherwise, least, most float64) float64 {
	v, ok := d.from.Number(name)
	if !ok {
		return otherwise
	}
	if !(v >= least && v <= most) { // also catches NaN
		d.errs = append(d.errs, fmt.Errorf("aircraft number %s is %g: give %g to %g", name, v, least, most))
	}
	return v
}

const hour = 3600

// Decode reads the coefficients of an aircraft block. A *Missing names what it
// lacks; other errors name numbers that make no sense.
func Decode(b *book.Aircraft) (*Aircraft, error) {
	if b == nil {
		return nil, errors.New("there is no aircraft block")
	}
	d := &decoder{from: b}
	a := d.aircraft()
	a.Settings = d.settings()
	if len(a.Settings) == 0 {
		d.missing = append(d.missing, "a setting with a drag polar")
	}
	if len(d.missing) > 0 {
		d.errs = append(d.errs, &Missing{d.missing, b.Range})
	}
	return a, errors.Join(d.errs...)
}

func (d *decoder) aircraft() *Aircraft {
	return &Aircraft{
		WingAreaM2: d.need("wing_area_m2", 1, 2000), Engines: d.may("engines_count", 2, 1, 8), ThrustN: 1000 * d.need("takeoff_thrust_kn", 0.1, 1000),
		DensityExponent: d.may("thrust_density_ratio", 0.8, 0, 2), MachLoss: d.may("thrust_mach_ratio", 0.3, 0, 1),
		Climb: d.may("climb_thrust_ratio", 0.9, 0.1, 1), Cruise: d.may("cruise_thrust_ratio", 0.82, 0.1, 1),
		Idle: d.may("idle_thrust_ratio", 0.05, 0, 0.5), HighIdle: d.may("approach_idle_ratio", 0.09, 0, 0.5), Reverse: d.may("reverse_thrust_ratio", 0, 0, 1),
		FuelKgPerNS: d.need("specific_fuel_kg_per_kn_h", 1, 500) / 1000 / hour, FuelMachGain: d.may("specific_fuel_mach_ratio", 0.9, 0, 3),
		IdleFuelKgPerS: d.may("idle_fuel_kg_per_h", 0, 0, 5000) / hour, APUFuelKgPerS: d.may("apu_fuel_kg_per_h", 0, 0, 1000) / hour,
		GearDrag: d.may("gear_drag_ratio", 0, 0, 1), SpeedBrakeDrag: d.may("speed_brake_drag_ratio", 0, 0, 1),
		EngineOutDrag: d.may("engine_out_drag_ratio", 0, 0, 1), IceDrag: d.may("iced_drag_ratio", 0, 0, 1), IceLift: d.may("iced_lift_ratio", 1, 0.3, 1),
		MaxKt: d.may("max_operating_kt", book.NoLimit, 40, 500), MaxMach: d.may("max_mach", 0.95, 0.1, 0.95), MaxGearKt: d.may("max_gear_kt", book.NoLimit, 40, 500),
		MaxAltitudeFt: d.may("max_altitude_ft", 60000, 1000, 60000), HoldingKt: d.may("holding_kt", 0, 40, 400),
		EmptyKg: d.may("empty_mass_kg", 0, 0, 1e6), MaxTakeoffMassKg: d.may("max_takeoff_mass_kg", book.NoLimit, 1, 1e6),
		MaxLandingMassKg: d.may("max_landing_mass_kg", book.NoLimit, 1, 1e6),
		SpoilerDrag:      d.may("ground_spoiler_drag_ratio", 0, 0, 1), SpoilerLift: d.may("ground_spoiler_lift_ratio", 0, 0, 3),
		RollingMu: d.may("rolling_drag_ratio", 0.015, 0, 0.2), BrakedShare: d.may("braked_load_ratio", 0.9, 0, 1),
		Grip: d.may("dry_grip_ratio", 0.4, 0, 1), MostBrakeN: 1000 * d.may("brake_force_kn", 0, 0, 1e4),
		TyrePSI: d.may("tyre_pressure_psi", 150, 20, 500), TyreWidthM: d.may("tyre_width_m", 0, 0, 2), TyreDeflectionM: d.may("tyre_deflection_m", 0, 0, 1),
		TyresAlike: d.may("tyres_alike_count", 0, 0, 64), SpinUpS: d.may("wheel_spin_up_s", 0.8, 0.1, 10), ReverseOutKt: d.may("reverse_out_kt", 60, 0, 200),
	}
}

func (d *decoder) settings() []Polar {
	var list []Polar
	for _, s := range d.from.Settings {
		list = append(list, Polar{
			Name: s.Name, ZeroLift: s.ZeroLiftDrag, Induced: s.InducedDrag, MostLift: s.MostLift, GroundLift: s.GroundLift,
			MaxKt: d.may("max_flap_"+s.Name+"_kt", book.NoLimit, 40, 500),
		})
	}
	return list
}

// SettingNamed gives the place of a setting; ok is false if there is none.
func (a *Aircraft) SettingNamed(name string) (place int, ok bool) {
	for i, p := range a.Settings {
		if p.Name == name {
			return i, true
		}
	}
	return 0, false
}
