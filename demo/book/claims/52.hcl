# Claims of chapters 38 and 52.

claim "door_box_reads_latched" {
  says   = "A dead door box reports nothing, and no report reads \"latched\". A cargo door that is not latched goes unmentioned."
  source = "Corvane 76 systems manual 52-71 (fictional)"
  given "box alive" {
    fail   = [cargo_door.not_latched]
    at     = "taxi_out + 30 s"
    expect = [told(doors_shut), given(door_open)]
  }
  given "box dead" {
    inoperative = [door_box]
    fail        = [cargo_door.not_latched]
    at          = "taxi_out + 30 s"
    expect      = [never_given(door_open), told_wrong(doors_shut), told_wrong(doors_shown)]
  }
}

claim "door_sensor_cries" {
  says   = "A latch sensor that sees an open latch makes a door caution over a cabin that holds its pressure: false, and not to be told apart from the flight deck."
  source = "Corvane 76 systems manual 52-72 (fictional)"
  given {
    fail = [door_sensors.see_open]
    at   = "cruise"
  }
  expect = [false_alarm(door_open), told_wrong(doors_shown), never_given(cabin_high), !lost(doors_shut)]
}

claim "frame_cracks" {
  says   = "A cracked door frame shows as a door caution first and as a cabin warning a quarter of a minute later."
  source = "Corvane 76 safety summary 52-A (fictional)"
  given {
    fail = [door_frame_crack]
    at   = "cruise + 600 s"
  }
  expect = [first(door_open) < 1, first(cabin_high) > 10, first(cabin_high) < 20, told(doors_shut), lost(cabin_pressure)]
}

claim "cold_drain_mast" {
  says   = "Nobody watches the drain mast heater, on any build."
  source = "Corvane 76 systems manual 38-31 (fictional)"
  given "first series" {
    fail   = [drain_heat]
    at     = "climb"
    expect = [not_told(drain_mast)]
  }
  given "island kit" {
    variant = island_kit
    fail    = [drain_heat]
    at      = "climb"
    expect  = [not_told(drain_mast)]
  }
}
