# ATA 52, doors.
#
# Plug doors that cannot open against cabin pressure, and a cargo door that opens
# outward and is held by latches alone: that one is why there is a door warning.

unit "door_front" {
  title         = "Front cabin door"
  chapter       = 52
  rate_per_hour = 1e-6
  place         = "cabin, front left"
  fault "not_latched" {
    title         = "not fully latched"
    rate_per_hour = 2e-6
  }
}

unit "door_rear" {
  title         = "Rear cabin door"
  chapter       = 52
  rate_per_hour = 1e-6
  place         = "cabin, rear right"
  fault "not_latched" {
    title         = "not fully latched"
    rate_per_hour = 2e-6
  }
}

unit "cargo_door" {
  title         = "Cargo door"
  chapter       = 52
  rate_per_hour = 1e-6
  place         = "belly, rear right"
  fault "not_latched" {
    title         = "not fully latched"
    rate_per_hour = 4e-6
  }
}

unit "door_box" {
  title         = "Door sensing box"
  chapter       = 52
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "electronics bay, left rack"
}

unit "door_sensors" {
  title         = "Door latch sensors"
  chapter       = 52
  rate_per_hour = 1e-5
  place         = "door frames"
  fault "see_open" {
    title         = "see an open latch for good"
    rate_per_hour = 1e-5
  }
}

unit "deck_door_lock" {
  title         = "Flight deck door lock"
  chapter       = 52
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "flight deck door"
}

unit "slides" {
  title         = "Escape slides"
  chapter       = 52
  rate_per_hour = 5e-6
  place         = "cabin doors"
}

signal "doors_latched" {
  title   = "All doors are latched"
  chapter = 52
  value = (door_front && door_rear && cargo_door && !door_front.not_latched && !door_rear.not_latched
  && !cargo_door.not_latched)
}

# A dead box reports nothing, and no report reads "latched".
signal "doors_believed_open" {
  title   = "A door is believed open"
  chapter = 52
  value   = door_box && door_sensors && (!doors_latched || door_sensors.see_open)
}

function "door_watch" {
  title    = "Door latches watched"
  chapter  = 52
  works    = door_box && door_sensors && !door_sensors.see_open
  wanted   = taxi_out || take_off_roll || lift_off || first_climb || climb
  severity = "minor"
}

function "doors_shut" {
  title    = "All doors latched"
  chapter  = 52
  works    = doors_latched
  severity = "hazardous"
}

function "deck_door" {
  title    = "Flight deck door locked"
  chapter  = 52
  works    = deck_door_lock
  wanted   = !real.on_ground
  severity = "minor"
}

function "escape" {
  title    = "Escape slides that inflate and doors that open"
  chapter  = 52
  works    = slides && cabin_emptied
  wanted   = landing_roll || taxi_in
  severity = "hazardous"
}

alert "door_open" {
  title     = "Door not latched"
  chapter   = 52
  level     = "caution"
  message   = "A door is not latched"
  when      = doors_believed_open
  true_when = !doors_latched
  given_by  = news_left
  quiet_in  = [take_off_fast, lift_off, landing_roll]
  tells     = [doors_shut]
  procedure = door_list
}

alert "deck_door_unlocked" {
  title    = "Flight deck door unlocked"
  chapter  = 52
  level    = "advisory"
  message  = "Flight deck door is not locked"
  when     = !deck_door_lock
  given_by = news_right
  quiet_in = [take_off_fast, lift_off, final, landing_roll]
  tells    = [deck_door]
}

indication "doors_shown" {
  title   = "Doors picture"
  chapter = 52
  shows   = !doors_believed_open
  means   = doors_shut
  lit_by  = page_left
  tells   = [door_watch]
  place   = "doors page"
}

indication "deck_door_lamp" {
  title   = "Flight deck door lamp"
  chapter = 52
  shows   = deck_door_lock
  means   = deck_door
  lit_by  = lamp_power_right
  place   = "centre pedestal"
}

event "door_frame_crack" {
  title         = "Crack in the cargo door frame"
  chapter       = 52
  rate_per_hour = 1e-8
  fails         = [cargo_door.not_latched, cabin_wall.leaks]
}
