# ATA 52, doors.
#
# Plug doors that cannot open against cabin pressure, and a cargo door that opens outward and is held by latches alone:
# that one is why there is a door warning. Two lanes of sensors see every latch, and a flap in each door that the latch
# itself shuts keeps pressure off a cabin that was not shut (14 CFR 25.783(c), (e)).

chapter = 52

unit "door_front" {
  title         = "Front cabin door"
  rate_per_hour = 1e-8
  place         = "cabin, front left"
  fault "not_latched" {
    title         = "not fully latched"
    rate_per_hour = 2e-6
  }
}

unit "door_rear" {
  title         = "Rear cabin door"
  rate_per_hour = 1e-8
  place         = "cabin, rear right"
  fault "not_latched" {
    title         = "not fully latched"
    rate_per_hour = 2e-6
  }
}

unit "cargo_door" {
  title         = "Cargo door"
  rate_per_hour = 1e-8
  place         = "belly, rear right"
  fault "not_latched" {
    title         = "not fully latched"
    rate_per_hour = 4e-6
  }
}

# Two lanes, each with sensors at every latch and a box of its own.
unit "door_lane_1" {
  title         = "Door sensing lane 1"
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "electronics bay, left rack"
}

unit "door_lane_2" {
  title         = "Door sensing lane 2"
  needs         = dc_vital
  rate_per_hour = 1e-5
  place         = "electronics bay, right rack"
}

unit "door_sensors_1" {
  title         = "Door latch sensors, lane 1"
  rate_per_hour = 1e-5
  place         = "door frames"
  fault "see_open" {
    title         = "see an open latch for good"
    rate_per_hour = 1e-5
  }
  fault "see_latched" {
    title           = "see every latch closed for good"
    stops           = true
    rate_per_hour   = 1e-6
    checked_every_h = 10
  }
}

unit "door_sensors_2" {
  title         = "Door latch sensors, lane 2"
  rate_per_hour = 1e-5
  place         = "door frames"
  fault "see_open" {
    title         = "see an open latch for good"
    rate_per_hour = 1e-5
  }
  fault "see_latched" {
    title           = "see every latch closed for good"
    stops           = true
    rate_per_hour   = 1e-6
    checked_every_h = 10
  }
}

# A flap in each door that its latch alone can shut. What holds it in flight is the pressure itself.
unit "door_flaps" {
  title           = "Pressure flaps of the doors"
  rate_per_hour   = 1e-6
  checked_every_h = 500
  place           = "cabin and cargo doors"
}

unit "deck_door_lock" {
  title         = "Flight deck door lock"
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "flight deck door"
}

unit "slides" {
  title         = "Escape slides"
  rate_per_hour = 5e-6
  checked_every_h = 500
  place         = "cabin doors"
}

signal "doors_latched" {
  title   = "All doors are latched"
  value = (door_front && door_rear && cargo_door && !door_front.not_latched && !door_rear.not_latched
  && !cargo_door.not_latched)
}

# A lane that is dead, or whose sensors are, says so; it does not say "latched".
signal "door_lane_1_sees" {
  title   = "Lane 1 sees the latches"
  value   = door_lane_1 && (door_sensors_1 || door_sensors_1.see_latched)
}

signal "door_lane_2_sees" {
  title   = "Lane 2 sees the latches"
  value   = door_lane_2 && (door_sensors_2 || door_sensors_2.see_latched)
}

signal "door_open_1" {
  title   = "Lane 1 sees a door open"
  value   = door_lane_1_sees && !door_sensors_1.see_latched && (!doors_latched || door_sensors_1.see_open)
}

signal "door_open_2" {
  title   = "Lane 2 sees a door open"
  value   = door_lane_2_sees && !door_sensors_2.see_latched && (!doors_latched || door_sensors_2.see_open)
}

# One lane is enough to call a door open: no single failure shows it latched.
signal "doors_believed_open" {
  title   = "A door is believed open"
  value   = door_open_1 || door_open_2
}

signal "pressure_kept_off" {
  title   = "A door's flap keeps the cabin free of pressure"
  set     = door_flaps && !doors_latched && real.on_ground
  reset   = doors_latched
}

function "door_watch" {
  title    = "Door latches watched"
  works    = door_lane_1_sees && !door_sensors_1.see_latched && !door_sensors_1.see_open || door_lane_2_sees && !door_sensors_2.see_latched && !door_sensors_2.see_open
  wanted   = taxi_out || take_off_roll || lift_off || first_climb || climb
  severity = "minor"
}

function "doors_shut" {
  title    = "All doors latched"
  works    = doors_latched
  severity = "hazardous"
  over_on_purpose = "A loader's slip is likelier than that; on the ground it is told, and the flight does not leave."
}

function "deck_door" {
  title    = "Flight deck door locked"
  works    = deck_door_lock
  wanted   = !real.on_ground
  severity = "minor"
}

function "escape" {
  title    = "Escape slides that inflate and doors that open"
  works    = slides && cabin_emptied
  wanted   = landing_roll || taxi_in
  severity = "major"
}

alert "door_open" {
  title     = "Door not latched"
  level     = "caution"
  message   = "A door is not latched"
  when      = doors_believed_open
  true_when = !doors_latched
  given_by  = news_either
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [doors_shut, cabin_pressure]
  procedure = door_list
}

alert "door_lanes_differ" {
  title    = "Door sensors differ"
  level    = "advisory"
  message  = "Door sensors differ"
  when     = door_open_1 != door_open_2
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
}

alert "door_lane_lost" {
  title    = "A lane of door sensing lost"
  level    = "advisory"
  message  = "A lane of door sensors is lost"
  when     = !door_lane_1_sees || !door_lane_2_sees
  given_by = news_either
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [door_watch]
}

alert "deck_door_unlocked" {
  title    = "Flight deck door unlocked"
  level    = "advisory"
  message  = "Flight deck door is not locked"
  when     = !deck_door_lock
  given_by = news_right
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [deck_door]
}
indication "doors_shown" {
  title   = "Doors line"
  shows   = !doors_believed_open
  means   = doors_shut
  lit_by  = systems_either_drawn && (door_lane_1_sees || door_lane_2_sees)
  tells   = [door_watch]
  place   = "cabin picture"
}
indication "deck_door_lamp" {
  title   = "Flight deck door lamp"
  shows   = deck_door_lock
  means   = deck_door
  lit_by  = lamp_power_right
  place   = "centre pedestal"
}

event "door_frame_crack" {
  title         = "Crack in the cargo door frame"
  rate_per_hour = 1e-8
  fails         = [cargo_door.not_latched, cabin_wall.leaks]
}
