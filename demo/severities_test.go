package demo_test

import (
	"slices"
	"strings"
	"testing"

	"knockon/book"
)

// severities say how gravely the loss of a function may be graded, and by what
// rule. It is the loss itself that is graded, known of and with nothing else
// failed; what comes of it when nobody knows is severity_if_hidden (hidden, below).
var severities = []struct{ rule, least, most, ids string }{
	{"pitch, roll or the last attitude gone: AC 25-11B (all attitude with the standby); 14 CFR 25.671(c)", "catastrophic", "catastrophic", `
		pitch_control roll_control any_attitude surfaces_obey trim_in_reach attitudes_true level_kept altitudes_true`},
	{"all thrust gone: 14 CFR 25.671(d) wants it controllable to the stop, so that what is left is a field in reach", "hazardous", "catastrophic", `
		thrust_any`},
	{"multiple fatalities may follow and nothing is left to stop them: 14 CFR 25.4(b)", "hazardous", "catastrophic", `
		cabin_breath pilots_awake sound_wing sound_pylons reverse_shut doors_shut brakes`},
	{"large loss of margin, flown on with effort: 14 CFR 25.4(b)", "major", "hazardous", `
		yaw_control cabin_pressure clean_wing fuel_reserve gear_extension_any airspeed_by_majority thrust_fits
		thrust_for_flare any_heading
		thrust_obeys_left thrust_obeys_right`},
	{"all primary pictures, all texts of alerts: AC 25-11B", "major", "hazardous", `
		any_flight_display alert_messages engine_display`},
	{"what is found in time and answered with what the rule asks for: a fire that is told, with bottles that work; 14 CFR 25.1309(b)", "major", "hazardous", `
		no_fire_left no_fire_right no_smoke clear_deck_air`},
	{"a fire that is told and does not go out, while the firewall holds: 14 CFR 25.1191, 25.1195, from memory", "hazardous", "catastrophic", `
		fire_yields_left fire_yields_right`},
	{"a bus or a source is graded by what it takes, and each of that is a function of its own; 14 CFR 25.1310 leaves what is essential", "minor", "major", `
		vital_dc_power both_dc_sides backup_ac_power vital_ac_power both_ac_sides two_ac_sources battery_reserve
		emergency_source direct_dc_power third_dc_source engine_generator`},
	{"the same of pressure: what it takes is graded itself; 14 CFR 25.671(c)", "minor", "hazardous", `
		hydraulics_any`},
	{"a guard or a detector that harms only with a second failure: 14 CFR 25.1309(b)(4), (5)", "minor", "major", `
		fire_watch_left fire_watch_right fire_watch_apu smoke_watch fire_fighting hold_fire_fighting flap_symmetry
		leak_watch_left leak_watch_right gear_guard stall_guard crew_oxygen mask_drop terrain_warning traffic_warning
		transponder_reply rudder_limit fuel_low_watch take_off_guard`},
	{"the warning that stands between a slow crew and a stall: 14 CFR 25.207", "major", "hazardous", `
		stall_warning`},
	{"asked for only once the aircraft has already come to grief: 14 CFR 25.1309(b), exits excepted", "minor", "major", `
		evacuation_call evacuation_light escape cabin_emptied crash_location`},
	{"one side of two, or a lesser way, seen as lost: AC 25-11B", "minor", "major", `
		airspeed_left airspeed_right altitude_left altitude_right attitude_left attitude_right attitude_true_left attitude_true_right left_flight_display
		right_flight_display radio_height`},
	{"all navigation is major, without the radios; all of one kind is less: AC 25-11B", "minor", "major", `
		route_guidance approach_guidance approach_standard approach_basic beacon_navigation satellite_position
		radio_contact`},
	{"a significant loss of margin or of convenience: 14 CFR 25.4(b)", "minor", "major", `
		cabin_air bay_cooling cool_bay pitch_in_trim yaw_damping speed_hold shaped_control pitch_trim rudder_travel
		ground_spoilers flaps slats fuel_to_left fuel_to_right fuel_crossfeed hydraulics_left hydraulics_right
		wing_ice_protection engine_ice_left engine_ice_right pitot_heat_left pitot_heat_right window_any left_reports
		right_reports warning_sounds brakes_normal antiskid tyres cool_brakes ground_sensing_a ground_sensing_b
		gear_extension gear_retraction gear_position deck_lighting air_left air_right apu_power thrust_left
		thrust_right surfaces_whole trim_held free_wheels oil_left oil_right relight reverse_even`},
	{"a slight loss of margin, more work, a spare or a comfort: AC 25.1309-1B, minor, from memory", "minor", "minor", `
		cabin_auto cabin_temperature autopilot_flying second_autopilot guidance_left guidance_right approach_low
		second_radio both_pilots_hear far_contact data_messages cabin_call passenger_address ac_cross_feed
		second_dc_source battery_charging cabin_supply speed_brakes ground_spoilers_full flap_position
		fuel_pressure_left fuel_pressure_right fuel_balance fuel_quantity fuel_to_apu standby_pressure
		pressure_transfer pitot_heat_standby vane_heat window_left window_right wipers ice_detection system_pictures
		route_display height_calls attention lamps_left lamps_right autobrake parking_brake nose_steering
		brake_heat_watch landing_lighting seen_by_others airspeed_standby altitude_standby second_inertial second_route_computer
		distance_to_beacon weather_picture air_trim water lavatories drain_mast flight_recording voice_recording
		fault_recording apu_start door_watch deck_door spare_channel_left spare_channel_right reverse_left
		reverse_right`},
	{"overspeed warning: 14 CFR 25.1303(c)(1) asks for it in any phase where it can be passed", "minor", "major", `
		speed_limit_warning`},
}

// hidden are functions whose loss misleads: how gravely one must be graded, at the
// least, of which nobody knows.
var hidden = []struct{ rule, least, ids string }{
	{"misleading on one side: AC 25-11B", "hazardous", "altitude_left altitude_right attitude_left attitude_right attitude_true_left attitude_true_right"},
	{"the same of airspeed, and of a height that closes the thrust: judgement", "hazardous", "airspeed_left airspeed_right radio_height"},
	{"a fire that nobody knows of: 14 CFR 25.4(b)", "catastrophic", "no_fire_left no_fire_right fire_yields_left fire_yields_right no_smoke"},
	{"a cabin that climbs unseen: useful consciousness, AC 61-107B", "catastrophic", "cabin_pressure"},
	{"misleading on all sides: AC 25-11B", "catastrophic", "airspeed_by_majority"},
	{"ice that nobody knows of at the approach speed: 14 CFR 25.207", "catastrophic", "clean_wing"},
}

// severitiesNotYet are grades that are against the table today, with the reason why.
var severitiesNotYet = map[string]string{}

// hiddenNotYet are losses that are not graded higher when hidden today.
var hiddenNotYet = map[string]string{}

func rank(severity string) int { return slices.Index(book.Severities, severity) }

// functions calls for each function of each build.
func functions(t *testing.T, each func(f *book.Function)) {
	t.Helper()
	b := load(t)
	for _, v := range b.Variants {
		for _, f := range build(t, b, v.ID).Functions {
			each(f)
		}
	}
}

// TestSeverities_FollowTheirRule holds the grade of every function to the table.
func TestSeverities_FollowTheirRule(t *testing.T) {
	row := map[string]int{}
	for i, s := range severities {
		for _, id := range strings.Fields(s.ids) {
			if _, twice := row[id]; twice {
				t.Errorf("%s is in the table twice", id)
			}
			row[id] = i
		}
	}
	against, found := map[string]bool{}, map[string]bool{}
	functions(t, func(f *book.Function) {
		found[f.ID] = true
		i, ok := row[f.ID]
		if !ok {
			t.Errorf("the function %s has no rule: add it to severities", f.ID)
			return
		}
		s := severities[i]
		if rank(f.Severity) >= rank(s.least) && rank(f.Severity) <= rank(s.most) {
			return
		}
		if severitiesNotYet[f.ID] == "" && !against[f.ID] {
			t.Errorf("%s is %s, want %s to %s: %s", f.ID, f.Severity, s.least, s.most, s.rule)
		}
		against[f.ID] = true
	})
	noneMissing(t, row, found)
	noLonger(t, "severitiesNotYet", severitiesNotYet, against)
	t.Logf("%d of %d functions are graded against their rule", len(against), len(found))
}

func noneMissing[V any](t *testing.T, table map[string]V, found map[string]bool) {
	t.Helper()
	for id := range table {
		if !found[id] {
			t.Errorf("%s is in the table and not in the book", id)
		}
	}
}

// TestSeverities_OfWhatIsHiddenAreGraver: where a loss misleads, nobody knowing of
// it is worse than knowing.
func TestSeverities_OfWhatIsHiddenAreGraver(t *testing.T) {
	least := map[string]string{}
	for _, h := range hidden {
		for _, id := range strings.Fields(h.ids) {
			least[id] = h.least
		}
	}
	short, found := map[string]bool{}, map[string]bool{}
	functions(t, func(f *book.Function) {
		found[f.ID] = true
		want, ok := least[f.ID]
		if !ok || max(rank(f.Severity), rank(f.SeverityIfHidden)) >= rank(want) {
			return
		}
		if hiddenNotYet[f.ID] == "" && !short[f.ID] {
			t.Errorf("%s hidden is %q, want %s at least", f.ID, f.SeverityIfHidden, want)
		}
		short[f.ID] = true
	})
	noneMissing(t, least, found)
	noLonger(t, "hiddenNotYet", hiddenNotYet, short)
}
