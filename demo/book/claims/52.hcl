# Claims of chapters 38 and 52.

claim "one_lane_shows_the_door" {
  says   = "One lane of sensors that sees every latch closed does not show an open door latched: the other lane calls it. Both lanes dead say so themselves."
  source = "14 CFR 25.783(e)"
  given "one lane sees latches closed" {
    inoperative = [door_sensors_1.see_latched]
    fail        = [cargo_door.not_latched]
    at          = "taxi_out + 30 s"
    crew        = "by_the_book"
    expect      = [told(doors_shut), given(door_open)]
  }
  given "one lane dead" {
    inoperative = [door_lane_1]
    fail        = [cargo_door.not_latched]
    at          = "taxi_out + 30 s"
    crew        = "by_the_book"
    expect      = [told(doors_shut), given(door_open)]
  }
  given "both lanes dead" {
    fail   = [door_lane_1, door_lane_2]
    at     = "taxi_out + 30 s"
    expect = [given(door_lane_lost), told(door_watch), dark(doors_shown)]
  }
}

claim "door_sensor_cries" {
  says   = "A latch sensor that sees an open latch makes a door caution over a cabin that holds its pressure. That the lanes disagree is said as well; the crew stay in their seats and go on."
  source = "Corvane 71 systems manual 52-72 (fictional)"
  given {
    fail   = [door_sensors_1.see_open]
    at     = "cruise"
    crew   = "by_the_book"
    expect = [false_alarm(door_open), given(door_lanes_differ), never_given(cabin_high), !lost(doors_shut), arrives("QSVA")]
  }
}

claim "frame_cracks" {
  says   = "A cracked door frame shows as a door caution first and as a cabin warning a quarter of a minute later."
  source = "Corvane 71 safety summary 52-A (fictional)"
  given {
    fail = [door_frame_crack]
    at   = "cruise + 600 s"
    crew = "by_the_book"
  }
  expect = [first(door_open) < 1, first(cabin_high) > 10, first(cabin_high) < 20, told(doors_shut), lost(cabin_pressure)]
}

claim "cold_drain_mast" {
  says   = "Nobody watches the drain mast heater, on any build."
  source = "Corvane 71 systems manual 38-31 (fictional)"
  given "first series" {
    fail   = [drain_heat]
    at     = "climb"
    expect = [not_told(drain_mast)]
  }
}

claim "latch_that_lets_go_in_flight" {
  says   = "A latch that lets go in the cruise is told at once, and the cabin leaks as through a bad seal. Masks that are out are a caution, with a line to the cabin."
  source = "14 CFR 25.783(a), 25.1322(b)"
  given "hands off" {
    fail   = [cargo_door.not_latched]
    at     = "cruise + 60 s"
    expect = [by(2, door_open), lost(cabin_pressure), given(cabin_high), first(cabin_high) > 60]
  }
  given "masks" {
    fail   = [cabin_wall.leaks]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [given(masks_are_out), done(masks_out_list, 2)]
  }
}
