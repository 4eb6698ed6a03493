package demo_test

import (
	"maps"
	"path"
	"slices"
	"testing"

	"knockon/book"
)

// A band is where the rate of one class of parts may lie, per flight hour.
type band struct{ least, most float64 }

// bands are judgement: an invented aircraft has no records. The first twelve are
// set around published rates of ground plant (pumps, generators, valves, breakers),
// wide enough that no one takes them for data. Those after the line are not even
// that: orders of magnitude from memory, to keep the book from saying 1e-9 of a
// tyre or 1e-4 of a wing.
var bands = map[string]band{
	"pump":      {2e-5, 2e-4},
	"generator": {5e-5, 3e-4},
	"converter": {5e-6, 5e-5},
	"valve":     {1e-6, 2e-5},
	"sensor":    {5e-6, 5e-5},
	"computer":  {1e-5, 1e-4},
	"display":   {1e-5, 1e-4},
	"battery":   {1e-6, 3e-5},
	"bus":       {1e-8, 1e-6},
	"wire":      {3e-7, 3e-6}, // breakers, relays, contactors, diodes, wires
	"fan":       {1e-5, 5e-5},
	"duct":      {1e-7, 1e-6}, // pipes as well

	// ---- from memory
	"fluid":     {1e-6, 5e-5}, // a tank of fluid with all the pipes and seals of its system
	"engine":    {1e-6, 2e-5},
	"apu":       {5e-5, 1e-3},
	"motor":     {5e-6, 5e-5}, // motors, actuators, servos, heaters, machines that turn
	"mechanism": {1e-7, 1e-5}, // shafts, locks, legs, cables, masks, bottles, slides
	"wheel":     {1e-6, 3e-5}, // tyres and brakes
	"lamp":      {1e-6, 1e-4},
	"structure": {1e-9, 1e-6}, // walls, doors and their frames
	"fire":      {1e-8, 1e-6},
	"mishap":    {1e-9, 1e-5}, // weather, birds, ground crews: what events hold
}

// classes say of what class a unit, unit.fault or event is: the first pattern that
// fits. A fault without one of its own has the class of its unit.
var classes = []struct {
	class    string
	patterns []string
}{
	{"fire", []string{"nacelle_*.burns", "apu_bay.burns", "hold.smoulders", "bay.*_smokes"}},
	{"mishap", []string{"door_front.not_latched", "door_rear.not_latched", "cargo_door.not_latched"}},
	{"structure", []string{"cabin_wall*", "door_front", "door_rear", "cargo_door", "nose_leg", "left_leg", "right_leg"}}, // a leg that stays up is a lock's
	{"duct", []string{"duct_left*", "duct_right*", "feed_line_*", "static_*"}},
	{"fluid", []string{"reservoir_*"}},
	{"pump", []string{"pump_*", "boost_*", "emergency_pump_*", "apu_fuel_pump", "water_pump"}},
	{"generator", []string{"apu_gen"}},
	{"converter", []string{"tr_*", "inverter", "charger_main", "lamp_power_*"}},
	{"battery", []string{"battery_*", "standby_cell", "emergency_light_packs"}},
	{"bus", []string{"ac_*", "dc_left", "dc_right", "dc_vital", "dc_direct"}},
	{"wire", []string{"dc_tie", "tie_*", "vital_relay", "ram_contactor", "vital_diode_*", "bay_fan_relay", "galley_feed"}},
	{"fan", []string{"bay_fan", "waste_blower"}},
	{"display", []string{"screen_?", "picture_unit_*"}},
	{"valve", []string{
		"outflow_valve*", "outflow_limiter", "feed_valve_*", "crossfeed_valve", "suction_valve_*", "filling_valve*", "shutoff_*", "wing_heat_valve_*", "engine_ice_valve_*",
		"brake_valve_*", "gear_valve", "bleed_valve_*", "cross_bleed_valve", "apu_bleed_valve", "crew_oxygen_valve",
	}},
	{"sensor", []string{
		"cabin_sender_?", "bay_flow_sensor", "bus_sense_*", "charge_counter*", "fire_loop_*", "leak_wire_*", "pitot_?*", "smoke_sensor_*", "bay_smoke_sensor",
		"stick_sensors_*", "lever_switch_*", "spoiler_lever_switch", "brake_lever_switch", "trim_sender", "rate_gyros_?", "stall_vane_*", "flap_sender_?", "fuel_gauge_*", "low_float_*",
		"pressure_sender_*", "level_sender_*", "heat_watch_*", "ice_detector_?", "wheel_sender_*", "weight_switch_*",
		"lock_sensors_*", "fan_sensor_*", "gas_sensor_*", "flow_meter_*", "oil_sender_*", "shake_sensor_*",
		"oxygen_sender", "door_sensors_?*", "reverse_sender_*", "area_microphone",
	}},
	{"computer", []string{
		"pack_controller_*", "cabin_controller_?", "autopilot_?", "guidance_?", "autopilot_panel", "yaw_damper_?",
		"autothrottle_box", "radio_?*", "far_radio", "data_link", "audio_*", "cabin_phone", "cabin_amplifier",
		"gen_control_*", "ram_release", "control_computer_?", "control_backup", "flap_computer_?", "data_unit_?",
		"alert_computer_?", "stall_lane_*", "warning_lane_?", "voice", "clock", "brake_channel_?", "autobrake_box", "brake_heat_box", "tyre_pressure_box",
		"steering_box", "gear_sense_?", "air_data_?", "inertial_?", "standby_instrument", "satnav_?",
		"route_computer_?", "landing_receiver_?", "beacon_receiver_?", "distance_unit", "transponder_?", "traffic_computer",
		"terrain_computer", "weather_radar", "mask_release_auto", "bleed_controller_*", "flight_recorder", "voice_recorder",
		"fault_memory", "surface_monitor", "thrust_guard_*", "apu_control", "door_lane_?", "channel_*",
	}},
	{"engine", []string{"engine_left*", "engine_right*", "oil_pump_*"}}, // an oil pump is built in and turns with it
	{"apu", []string{"apu", "apu_starter"}},
	{"motor", []string{
		"drive_*", "gen_left", "gen_right", "pack_left", "pack_right", "outflow_motor", "servo_*", "trim_motor*", "lever_motor*", "elevator_*", "aileron_*",
		"rudder_*", "spoilers_*", "flap_motor_*", "slat_motor_?", "transfer_unit", "probe_heat_?", "vane_heat_*",
		"window_heat_*", "wiper_*", "steering_motor", "drain_heat", "apu_inlet", "alternator_*", "igniter_*", "fresh_air_inlet",
		"brake_accumulator*", "ram_turbine", "ram_gen", "reverser_*",
	}},
	{"mechanism", []string{
		"flap_shaft*", "flap_asymmetry_brakes", "flap_jacks", "slat_shaft", "nose_leg.*", "left_leg.*", "right_leg.*", "alternate_release",
		"crew_oxygen_bottle", "door_flaps", "crew_mask_*", "mask_release_hand", "bottle_?", "hold_bottle", "hold_slow_bottle", "deck_door_lock",
		"slides", "reverse_lock_*", "reverse_hook_*", "standby_compass", "evacuation_signal", "locator_beacon", "cabin_speakers", "stick_left*", "stick_right*",
	}},
	{"wheel", []string{"brake_left*", "brake_right*", "tyre_left", "tyre_right"}},
	{"lamp", []string{"deck_lights", "panel_lights", "landing_light_*", "position_lights", "beacon_lights"}},
	{"mishap", []string{
		"rotor_burst_*", "galley_leak", "lightning_strike", "bird_on_nose", "taped_after_wash", "covers_left_on", "wrong_oil", "hail",
		"line_chafe", "frozen_slush", "sensors_misset", "duct_burst", "door_frame_crack", "tyre_burst",
	}},
}

// channels are parts that the band of one class counts together: what a generator
// channel loses is its machine, its drive or its control.
var channels = []struct {
	class string
	parts []string
}{
	{"generator", []string{"gen_left", "drive_left", "gen_control_left"}},
	{"generator", []string{"gen_right", "drive_right", "gen_control_right"}},
	{"generator", []string{"ram_gen", "ram_turbine", "ram_release"}},
}

// ratesNotYet are rates that lie outside their band today, each with the reason why
// it may for the moment. One that has come to fit, and one that is not here, fail.
var ratesNotYet = map[string]string{
	"bay_fan_relay": "a relay that is rated like the box that it serves",
}

// classOf is the class of a failure, "" where no pattern fits. A unit and a fault
// are tried in turn.
func classOf(names ...string) string {
	for _, name := range names {
		for _, c := range classes {
			for _, p := range c.patterns {
				if ok, err := path.Match(p, name); ok && err == nil {
					return c.class
				}
			}
		}
	}
	return ""
}

// fits tells whether the rate of a whole part lies in its band; one of several ways
// to fail may be a hundred times rarer than the part.
func (b band) fits(rate float64, share bool) bool {
	least := b.least
	if share {
		least /= 100
	}
	return least <= rate && rate <= b.most
}

// rated calls for each rated failure of a build: the names to class it by, the
// first of which is its own, and its rate.
func rated(k *book.Build, each func(rate float64, names ...string)) {
	for _, u := range k.Units {
		each(u.RatePerHour, u.ID)
		for _, f := range u.Faults {
			each(f.RatePerHour, u.ID+"."+f.ID, u.ID)
		}
	}
	for _, e := range k.Events {
		each(e.RatePerHour, e.ID)
	}
}

// TestRates_LieInTheBandOfTheirClass holds every rate of the book to its class, on
// all builds.
func TestRates_LieInTheBandOfTheirClass(t *testing.T) {
	b := load(t)
	outside := map[string]bool{}
	for _, v := range b.Variants {
		rated(build(t, b, v.ID), func(rate float64, names ...string) {
			if rate == 0 {
				return
			}
			class := classOf(names...)
			if class == "" {
				t.Errorf("%s is rated and of no class: add it to classes", names[0])
			} else if !bands[class].fits(rate, len(names) > 1) {
				if ratesNotYet[names[0]] == "" && !outside[names[0]] {
					t.Errorf("%s: %g an hour, a %s has %g to %g", names[0], rate, class, bands[class].least, bands[class].most)
				}
				outside[names[0]] = true
			}
		})
	}
	noLonger(t, "ratesNotYet", ratesNotYet, outside)
	t.Logf("%d rates lie outside their bands", len(outside))
}

// TestChannels_LieInTheirBandTogether holds the sum of the rates of a channel.
func TestChannels_LieInTheirBandTogether(t *testing.T) {
	b := load(t)
	for _, v := range b.Variants {
		k := build(t, b, v.ID)
		for _, c := range channels {
			sum := 0.0
			for _, id := range c.parts {
				sum += unit(t, k, id).RatePerHour
			}
			if !bands[c.class].fits(sum, false) {
				t.Errorf("%s: %v fail at %g an hour together, a %s has %g to %g", v.ID, c.parts, sum, c.class, bands[c.class].least, bands[c.class].most)
			}
		}
	}
}

func unit(t *testing.T, k *book.Build, id string) *book.Unit {
	t.Helper()
	item, _ := k.Item(id)
	u, ok := item.(*book.Unit)
	if !ok {
		t.Fatalf("%s: no unit %q", k.Variant, id)
	}
	return u
}

// noLonger complains about exceptions that have become needless.
func noLonger(t *testing.T, list string, notYet map[string]string, still map[string]bool) {
	t.Helper()
	for _, id := range slices.Sorted(maps.Keys(notYet)) {
		if !still[id] {
			t.Errorf("%s: %s fits now, or is not in the book: take it off the list", list, id)
		}
		if notYet[id] == "" {
			t.Errorf("%s: %s has no reason", list, id)
		}
	}
}

// TestClasses_NameSomething: a pattern that fits nothing in the book is a line that
// was left behind.
func TestClasses_NameSomething(t *testing.T) {
	b := load(t)
	used := map[string]bool{}
	for _, v := range b.Variants {
		rated(build(t, b, v.ID), func(_ float64, names ...string) {
			for _, c := range classes {
				for _, p := range c.patterns {
					ok, err := path.Match(p, names[0])
					used[p] = used[p] || ok
					if err != nil {
						t.Fatalf("%q: %v", p, err)
					}
				}
			}
		})
	}
	for _, c := range classes {
		if _, ok := bands[c.class]; !ok {
			t.Errorf("the class %q has no band", c.class)
		}
		for _, p := range c.patterns {
			if !used[p] {
				t.Errorf("%s: %q fits nothing in the book", c.class, p)
			}
		}
	}
}
