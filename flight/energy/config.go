package energy

import "knockon/book"

// Config is what the systems do to the flight: the effects of a book as plain
// numbers (see book.Effects).
type Config struct {
	Engines             [2]float64 // share of the wanted thrust, left and right half
	Frozen              bool       // the thrust stays at State.Lever
	Closed              bool       // in the air the thrust is idle, whatever is wanted; Frozen goes before it
	HighIdle            bool
	GearOut             bool
	Setting             int // of Aircraft.Settings
	SpeedBrakes         float64
	GroundSpoilers      float64
	Brakes              float64
	AntiSkid, Autobrake bool
	Reverse             [2]bool
	ExtraDrag           float64
	MostKt, MostFt      float64
	LeakKgPerS          float64
	Iced                bool
	AddsKt              float64 // to the reference speed for landing
	Steering            bool
}

// Clean is the configuration of a book that says nothing: all works, gear and
// flaps are in.
func Clean() Config {
	return Config{Engines: [2]float64{1, 1}, Brakes: 1, AntiSkid: true, MostKt: book.NoLimit, MostFt: book.NoLimit, Steering: true}
}

// mostAddedKt is more than anybody adds to a reference speed.
const mostAddedKt = 60

// Values gives the value of an effect: a number, 0 or 1 for no and yes, or a
// word; ok is false where the book says nothing of it.
type Values func(effect string) (number float64, word string, ok bool)

// Configure turns the effects of a book into a configuration. Ratios are cut to
// what they can be.
func (a *Aircraft) Configure(of Values) Config {
	get := func(name string) float64 {
		kind, _ := book.EffectNamed(name)
		if v, _, ok := of(name); ok {
			return v
		}
		return kind.Default
	}
	ratio := func(name string) float64 { return min(max(get(name), 0), 1) }
	yes := func(name string) bool { return get(name) != 0 }
	c := Config{
		Engines: [2]float64{ratio("engine_left_ratio"), ratio("engine_right_ratio")},
		Frozen:  yes("thrust_frozen"), Closed: yes("thrust_closed"), HighIdle: yes("high_idle"), GearOut: yes("gear_out"),
		SpeedBrakes: ratio("speed_brakes_ratio"), GroundSpoilers: ratio("ground_spoilers_ratio"), Brakes: ratio("brakes_ratio"),
		AntiSkid: yes("anti_skid"), Autobrake: yes("autobrake"), Reverse: [2]bool{yes("reverse_left"), yes("reverse_right")},
		ExtraDrag: min(max(get("extra_drag_ratio"), 0), 1), MostKt: max(get("most_airspeed_kt"), 0), MostFt: get("most_altitude_ft"),
		LeakKgPerS: max(get("fuel_leak_kg_per_h"), 0) / hour, Iced: yes("wing_iced"), AddsKt: min(max(get("landing_speed_adds_kt"), 0), mostAddedKt), Steering: yes("steering"),
	}
	if _, word, ok := of("flap_setting"); ok {
		c.Setting, _ = a.SettingNamed(word)
	}
	return c
}
