package demo_test

import (
	"context"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"knockon/book"
	"knockon/claim"
	"knockon/demo"
	"knockon/internal/corvane"
	"knockon/internal/corvane/islands"
)

// causes are, for each claim of a whole flight, lines of the book that it rests on,
// each with one that says otherwise, and an expectation that is then untrue.
var causes = []struct{ claim, file, line, instead, untrue string }{
	{"cabin_seal_by_the_book", "procedures/21.hcl", "    leg         = \"descend\"\n    leg_ft      = 10000\n", "", `within(30, cabin_high, flown("descend"))`},
	{"cabin_seal_by_the_book", "procedures/21.hcl", `leg     = "land"`, "", `arrives("QSTO")`},
	{"cabin_seal_by_the_book", "35-oxygen.hcl", "cabin_altitude_ft > 14000)", "cabin_altitude_ft > 44000)", "by(60, masks_out)"},
	{"price_of_the_low_level", "07-effects.hcl", "((spoilers_inner ? 0.5 : 0) + (spoilers_outer ? 0.5 : 0))", "0", `extra_fuel("QSVA"), 862`},
	{"price_of_the_low_level", "procedures/21.hcl", "when = altitude_3_readout < 10500", "when = altitude_3_readout < 9500", "at(400"},
	{"engine_below_the_decision_speed", "06-flights.hcl", "decision_kt        = 126", "decision_kt        = 100", `flown("reject")`},
	{"engine_below_the_decision_speed", "06-flights.hcl", "decision_kt        = 126", "decision_kt        = 131", `!flown("reject")`},
	{"ride_01_all_engines", "27-controls-told.hcl", " || elevator_electric_servo)", ")", "kept(pitch_control)"},
	{"back_with_an_engine_out_and_too_heavy", "00-aircraft.hcl", "max_landing_mass_kg   = 36600", "max_landing_mass_kg   = 41000", "lands_overweight()"},
	{"back_with_an_engine_out_and_too_heavy", "00-aircraft.hcl", "max_landing_mass_kg   = 36600", "max_landing_mass_kg   = 35000", "!lands_overweight()"},
	{"altimeter_that_starts_the_apu", "34-air-data.hcl", "frozen(static_pressure(real.altitude_ft), static_left.blocked)", "static_pressure(real.altitude_ft)", `misled(left_generator_off, "3.else.2")`},
	{"altimeter_that_starts_the_apu", "00-aircraft.hcl", "apu_light_up_ft      = 25000", "apu_light_up_ft      = 35000", "read(apu_no_start_drill)"},
	{"levers_that_close_for_no_flare", "07-effects.hcl", "flare_believed && !real.on_ground", "false", `never_arrives("stalls")`},
	{"gear_that_cannot_be_raised", "07-effects.hcl", "!brakes_normal ? 1.95", "!brakes_normal ? 1.05", `closed("QSPR", "runway")`},
	{"gear_that_cannot_be_raised", "07-effects.hcl", "value = !gear_stowed", "value = gear_down && real.height_ft < 2000", `never_arrives("out_of_fuel")`},
	{"no_air_in_the_climb", "procedures/21.hcl", "when = altitude_1_readout < 10500", "when = altitude_1_readout < 500", `arrives("QSKE")`},
	{"flaps_come_apart_on_the_approach", "procedures/27.hcl", "    leg  = \"go_around\"\n", "", `flown("go_around")`},
	{"flaps_come_apart_on_the_approach", "27-flaps.hcl", "!flap_asymmetry_brakes && !flap_jacks", "true", "kept(roll_control)"},
	{"one_leg_stays_up", "procedures/32.hcl", "        leg     = \"go_around\"\n        if      = (final", "        if      = (final", `flown("go_around")`},
	{"one_leg_stays_up", "32-gear.hcl", "left_leg.stays_up && gear_freed", "left_leg.stays_up && false", "in_phase(landing_roll, gear_down)"},
	{"not_set_for_take_off", "27-flaps-told.hcl", "pitch_trim_wheel != \"take-off band\"", "pitch_trim_wheel == \"nose down\"", "take_off_roll, trim_not_set"},
	{"gear_valve_at_lift_off", "procedures/32.hcl", "15 * distance_readout", "1 * distance_readout", `by(60, flown("land"))`},
	{"reverser_that_takes_an_engine", "procedures/78.hcl", `leg     = "land"`, "", `by(60, flown("land"))`},
	{"brakes_too_hot_for_a_clean_wing", "00-aircraft.hcl", "max_brake_energy_mj = 75", "max_brake_energy_mj = 130", "brakes_overheat()"},
	{"brakes_too_hot_for_a_clean_wing", "00-aircraft.hcl", "max_brake_energy_mj = 75", "max_brake_energy_mj = 40", "!brakes_overheat()"},
	{"ride_engine_at_the_decision_speed", "procedures/73.hcl", "leg         = \"reject\"", "", `by(2, flown("reject"))`},
	{"ride_smoke_in_the_hold", "26-fire.hcl", "hold_slow_s < 5400", "hold_slow_s < 54", "at(1200, !hold_smoke)"},
	{"ride_smoke_in_the_bay", "26-fire.hcl", "bay.left_smokes && !held(!dc_left, 60)", "bay.left_smokes", "at(180, !bay_smoke)"},
	{"ride_engine_fire", "26-fire.hcl", "(left_b_sees_fire && !fire_loop_left_a)", "false", "told(no_fire_left)"},
	{"ride_leak_or_valve", "procedures/28.hcl", "go_to   = fuel_leak_list", "", "arrives(\"QSTO\")"},
	{"ride_gauge_that_stands_still", "28-fuel-told.hcl", "shows   = burnt_kg", "shows   = burnt_kg - 600", `always(crossfeed_switch == "shut")`},
	{"ride_reverser_unlocked", "78-reverse.hcl", "reverse_hook_left.stays_open && reverse_lock_left.stays_open", "true", "!lost(reverse_shut)"},
	{"ride_engine_put_off", "73-engines.hcl", "failed(oil_pump_left) && engine_left ? 1 : 0", "engine_left ? 1 : 0", `done(oil_pressure_low, "1.then.1")`},
	{"no_pump_at_all", "28-fuel-told.hcl", "held(!main_pressure_left, 2)", "held(!pressed_left, 2)", "given(fuel_pumps_left)"},
	{"relit_below_its_ceiling", "73-engines.hcl", "igniter_left && !failed(engine_left)", "igniter_left && false", "in_phase(final, engine_left)"},
	{"balancing_feeds_the_leak", "28-fuel.hcl", "crossfeed_open && tank_right_empty && !tank_left_empty ? 0.8", "false ? 0.8", `never_arrives("out_of_fuel")`},
	{"fire_that_nobody_fights", "26-fire.hcl", "total(left_burns && !feed_shut_left) > 900", "total(left_burns && !feed_shut_left) > 9", "!lost(sound_pylons)"},
	{"fire_that_nobody_fights", "procedures/26.hcl", "set         = fire_handle_left\n    to          = \"pulled\"", "set         = fire_handle_left\n    to          = \"in\"", "seconds(left_burns) < 120"},
	{"icing_forgotten", "30-ice-told.hcl", "procedure = ice_unseen_list", "procedure = ice_met_list", "read(ice_unseen_list)"},
	{"told_over_a_dead_bus", "00-aircraft.hcl", "cabin_hears   = passenger_address || cabin_call", "cabin_hears   = true", `not_heard(smoke_list, "4")`},
	{"stall_that_is_none_at_fifty_feet", "procedures/27-stall.hcl", "if          = !(seen.on_ground || lift_off || first_climb || final)", "if          = !seen.on_ground", `!done(stall_list, "2")`},
	{"stall_that_is_none_at_fifty_feet", "procedures/27-stall.hcl", "(!wing_heat_lost && !ice_met && landing_speed == \"reference\"", "(!wing_heat_lost && !ice_met && landing_speed != \"reference\"", `!flown("go_around")`},
	{"engines_that_come_back", "procedures/73.hcl", "says    = \"Run switches: leave them at run.\"\n    if      = altitude_1_readout >= aircraft.relight_ceiling_ft\n", "says    = \"Run switches: leave them at run.\"\n    if      = altitude_1_readout < aircraft.relight_ceiling_ft\n", `done(all_engines_out_list, "7")`},
	{"damp_is_not_smoke", "26-fire.hcl", "(smoke_seen_1 && (smoke_seen_2 || !smoke_sensor_2))", "smoke_seen_1", "never_given(smoke_in_hold)"},
	{"burst_duct_that_no_list_shuts", "36-bleed-told.hcl", "[duct_left.bursts, leak_wire_left, wing_heat_valve_left]", "[duct_left.bursts, wing_heat_valve_left]", "!listed(sound_wing"},
	{"burst_duct_that_no_list_shuts", "36-bleed.hcl", "> 600\n", "> 60000\n", "lost(sound_wing)"},
	{"ride_one_pack", "procedures/21.hcl", "          leg_ft  = 31000\n", "          leg_ft  = 33500\n", "always(real.altitude_ft < 31700)"},
	{"ride_one_pack", "21-air-told.hcl", "&& !pack_left, 8)", "&& !pack_left, 11)", "by(10, pack_left_lost)"},
	{"ride_both_packs", "procedures/21.hcl", "        leg     = \"descend\"\n        leg_ft  = 10000\n", "", `by(120, flown("descend"))`},
	{"ride_rapid_loss", "procedures/21.hcl", "set         = crew_masks\n    to          = \"on\"", "set         = crew_masks\n    to          = \"stowed\"", "in_order(cabin_high"},
	{"ride_slow_leak", "21-air-told.hcl", "cabin_set_ft + 300", "cabin_set_ft + 6000", "in_order(cabin_climbs"},
	{"door_sensor_cries", "procedures/52.hcl", "that    = door_lanes_differ", "that    = door_lane_lost", `arrives("QSVA")`},
	{"ride_door", "52-doors.hcl", "door_open_1 || door_open_2", "door_open_1 && door_open_2", "by(10, door_open)"},
	{"ride_wing_ice", "procedures/30.hcl", "    leg     = \"descend\"\n    leg_ft  = 5000\n", "", `flown("descend")`},
	{"ride_wing_ice", "30-ice-told.hcl", "!(left_wing_warm && right_wing_warm), 5)", "!(left_wing_warm && right_wing_warm), 15)", "within(10"},
	{"ride_burst_duct", "36-bleed.hcl", "left_duct_fed, 3)", "left_duct_fed, 30)", "by(10, leak_left)"},
	{"ride_01_all_engines", "24-electrical.hcl", "held(ram_out, 6)", "held(ram_out, 60)", "by(15, ram_gen)"},
	{"ride_03_one_generator", "24-electrical.hcl", "needs         = gen_left || (tie_left", "needs         = gen_left || (false && tie_left", "kept(both_ac_sides)"},
	{"ride_04_both_generators", "28-fuel-told.hcl", "  quiet_when = all_gens_off && pressed_left\n", "", "held_back(fuel_pumps_left)"},
	{"ride_04_both_generators", "24-electrical-told.hcl", "    route_guidance, second_route_computer,", "    second_route_computer,", "told(route_guidance)"},
	{"ride_19_both_computers", "27-controls.hcl", "!right_rack_burnt && control_computer_2_switch == \"on\"", "!right_rack_burnt && control_computer_1_switch == \"on\"", "kept(shaped_control)"},
	{"ride_gauge_that_stands_still", "procedures/28.hcl", "(fuel_low_left && fuel_low_right ? 1000 : 500 + (fuel_low_left ? fuel_right_shown : fuel_left_shown)) + fuel_used_shown", "fuel_left_shown + fuel_right_shown + fuel_used_shown", "fuel_low_list"},
	{"ride_04_battery", "24-electrical-dc.hcl", "(battery_main.weak ? 3 : 1)", "(battery_main.weak ? 1 : 1)", "first(!dc_vital) < 1200"},
	{"ride_05_second_dc_source", "24-electrical-told.hcl", "  when     = !vital_diode_left && !vital_diode_right\n", "  when     = held(!vital_diode_left && !vital_diode_right, 20)\n", "by(5, main_dc_lost)"},
	{"ride_06_essential_bus", "24-electrical-told.hcl", "held(!dc_vital, 2)", "held(!dc_vital, 20)", "by(5, vital_dc_off)"},
	{"ride_07_hydraulics", "27-controls-told.hcl", " || elevator_electric_servo)", ")", "kept(pitch_control)"},
	{"ride_10_brakes", "32-brakes-told.hcl", "held(!antiskid_ok, 2)", "(brake_channel_a || brake_channel_b) && !antiskid_ok", "by(5, antiskid_lost)"},
	{"ride_19_both_computers", "27-controls.hcl", "control_computer_2 || control_backup)", "control_computer_2)", "kept(pitch_control)"},
	{"ride_17", "34-air-data.hcl", "frozen(static_pressure(real.altitude_ft) + impact_pressure(real.airspeed_kt), pitot_1_closed)", "static_pressure(real.altitude_ft) + impact_pressure(real.airspeed_kt)", "by(60, airspeeds_differ)"},
	{"ride_18", "34-air-data.hcl", "frozen(static_pressure(real.altitude_ft), static_left.blocked)", "static_pressure(real.altitude_ft)", "always(altitude_1_ft < 100)"},
	{"ride_20", "22-automatic-flight.hcl", "(autopilot_1 || autopilot_2) && servo_pitch && servo_roll", "(autopilot_1 || autopilot_2) && servo_roll", "lost(autopilot_flying)"},
	{"ride_21", "procedures/31.hcl", "        leg     = \"land\"\n", "", `arrives("QSTO")`},
	{"ride_22", "07-effects.hcl", "flare_believed && !real.on_ground", "false", `never_arrives("stalls")`},
	{"ride_28", "27-stall.hcl", "procedure = stall_warning_off_list", "procedure = stall_lane_list", "done(stall_warning_off_list"},
	{"one_lane_shows_the_door", "52-doors.hcl", "when      = doors_believed_open\n", "when      = false\n", "given(door_open)"},
	{"frame_cracks", "52-doors.hcl", "tells     = [doors_shut, cabin_pressure]", "tells     = [cabin_pressure]", "told(doors_shut)"},
	{"slipping_lever_motor", "07-effects.hcl", "(autothrottle_on && lever_motor.slips && thrust_levers != \"moved by hand\")", "false", `never_arrives("cannot_slow")`},
	{"slipping_lever_motor", "34-air-data-told.hcl", "  procedure = too_fast_drill\n", "", "done(too_fast_drill"},
	{"what_jams_leaves_half", "27-jams.hcl", "held(!surfaces_whole, 1)", "held(!surfaces_whole, 100)", "told(surfaces_whole)"},
	{"what_moves_by_itself", "procedures/27.hcl", "    set         = trim_cut_switch\n    to          = \"stopped\"\n", "    set         = trim_cut_switch\n    to          = \"running\"\n", "trim_cut_switch == \"stopped\""},
	{"what_moves_by_itself", "27-jams.hcl", "held(trim_runs, 24)", "held(trim_runs, 24000)", `never_arrives("not_flyable", trim_in_reach)`},
	{"what_moves_by_itself", "procedures/27.hcl", "    set         = surfaces_left_switch\n    to          = \"cut\"\n", "    set         = surfaces_left_switch\n    to          = \"on\"\n", `surfaces_left_switch == "cut"`},
	{"what_moves_by_itself", "00-aircraft.hcl", "surfaces_obey && ", "", `never_arrives("not_flyable", surfaces_obey)`},
	{"brakes_that_press_by_themselves", "32-brakes-told.hcl", "!real.braking, 2)", "!real.braking, 200)", `flown("reject")`},
	{"too_fast_for_a_gear_that_is_up", "34-air-data-told.hcl", "  until     = overspeed_cancelled && airspeed_for_boxes_kt < aircraft.max_operating_kt + 5\n", "", "times(too_fast) < 20"},
	{"a_horizon_that_tilts", "34-air-data-told.hcl", "inertial_1.tilts != inertial_2.tilts, 1)", "inertial_1.tilts != inertial_2.tilts, 100)", "told(attitude_true_left)"},
	{"a_horizon_that_tilts", "34-air-data-told.hcl", "autopilot_1 ? inertial_1.tilts", "autopilot_1 ? false", `first(!level_kept)`},
	{"latch_that_lets_go_in_flight", "21-air.hcl", "!doors_latched && !pressure_kept_off ? 0.0034", "false ? 0.0034", "lost(cabin_pressure)"},
	{"rotor_burst", "procedures/73.hcl", "engine_left_switch == \"off\" && fan_left_readout < 5 &&", "false &&", "fire_handle_left == \"pulled\""},
	{"engine_that_runs_up", "73-engines.hcl", "held(engine_left.runs_up && engine_left, 1)", "held(engine_left.runs_up && engine_left, 100)", "told(thrust_obeys_left)"},
	{"battery_that_the_list_makes_last", "24-electrical-dc.hcl", "? -0.6 : -1)", "? -1 : -1)", `first(!dc_vital) > 3600`},
	{"the_last_source", "procedures/24.hcl", "leg     = \"land\"\n        if      = !seen.on_ground && gen_left_lamp", "if      = !seen.on_ground && gen_left_lamp", `flown("land")`},
	{"the_last_source", "procedures/24.hcl", "leg     = \"reject\"\n        if      = taxi_out && gen_left_lamp", "if      = taxi_out && gen_left_lamp", `flown("reject")`},
	{"the_cabin_hears_what_is_so", "procedures/24.hcl", " && !at_least(2, !gen_left_lamp, !gen_right_lamp, apu_gen_lamp)\n        because", "\n        because", `!done(left_generator_off, "3.else.3")`},
	{"tyre_burst_on_the_roll", "procedures/29.hcl", "leg     = \"land\"\n        if      = !seen.on_ground && antiskid_lost", "if      = !seen.on_ground && antiskid_lost", `flown("land")`},
	{"no_airspeed_in_the_roll", "34-air-data-told.hcl", "(take_off_roll || take_off_fast) && no_airspeed_seen", "false && no_airspeed_seen", `flown("reject")`},
	{"no_airspeed_in_the_roll", "procedures/34.hcl", "if          = take_off_roll || (take_off_fast && ground_speed_readout < 100)", "if          = take_off_roll", `flown("reject")`},
	{"no_airspeed_in_the_roll", "procedures/34.hcl", "airspeed_3_readout < (flap_lever == \"up\" ? 190 : flap_lever == \"full\" ? flight.approach_kt - 5 : flap_lever == \"middle\" ? flight.approach_kt + 5 : flight.rotate_kt + 8) && ", "", `!done(too_slow_drill, "2.then.1")`},
	{"brace_when_no_engine_runs", "procedures/73.hcl", "if          = lift_off || first_climb\n    by          = \"PM\"", "if          = seen.on_ground && lift_off\n    by          = \"PM\"", `done(all_engines_out_list, "5")`},
}

// TestClaims_OfWholeFlightsFailWithoutTheirCause: a claim that no change of the book
// could fail would check nothing.
func TestClaims_OfWholeFlightsFailWithoutTheirCause(t *testing.T) {
	tried := map[string]bool{}
	for _, c := range causes {
		tried[c.claim] = true
		t.Run(c.claim+"/"+c.instead, func(t *testing.T) {
			r := without(t, c.claim, c.file, c.line, c.instead)
			untrue := false
			for _, o := range r.Givens {
				if o.Trouble != "" {
					t.Errorf("this cannot be judged, and proves nothing: %s", o.Trouble)
				}
				for _, f := range o.Findings {
					untrue = untrue || !f.Holds && strings.Contains(f.Expect.String(), c.untrue)
				}
			}
			if !untrue {
				t.Errorf("%s still holds", c.untrue)
			}
		})
	}
	for _, c := range claim.All(corvane.Book(t)) {
		for _, g := range c.Given {
			if claim.Whole(g) && !tried[c.ID] {
				t.Errorf("no cause of claim %s is tried", c.ID)
				break
			}
		}
	}
}

// without flies a claim on the book with one line otherwise.
func without(t *testing.T, id, file, line, instead string) claim.Result {
	t.Helper()
	files := fstest.MapFS{}
	err := fs.WalkDir(demo.Book(), ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			data, _ := fs.ReadFile(demo.Book(), name)
			if name == file {
				if !strings.Contains(string(data), line) {
					t.Fatalf("%s has no line %q", file, line)
				}
				data = []byte(strings.Replace(string(data), line, instead, 1))
			}
			files[name] = &fstest.MapFile{Data: data}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	b, diags := book.Load(context.Background(), files)
	if diags.HasErrors() {
		t.Fatal(diags)
	}
	for _, c := range claim.All(b) {
		if c.ID == id {
			r, err := claim.Watch(t.Context(), b, islands.Region(t), []*book.Claim{c}, nil)
			if err != nil {
				t.Fatal(err)
			}
			return r.Results[0]
		}
	}
	t.Fatalf("no claim %s", id)
	return claim.Result{}
}
