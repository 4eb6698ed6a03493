# ATA 31, displays, alerting and the data that feed them.
#
# Five screens stand side by side, 1 to 5 from left to right. The two outer ones are the pilots' flight displays, the
# two inner ones carry the route or a system picture, the middle one carries the engines and the list of alerts.
#
# A picture does not hang on its screen. When an outer screen or the middle one goes dark, an inner one takes its
# picture within three seconds, and the spare picture unit takes the place of either other one as fast. The left outer
# screen, the middle screen and the left picture unit are on the vital supply.
#
# Attention lights and sounds do not come from the screens at all: a warning unit of
# two lanes makes them. What must be heard whatever else is dark (fire, stall, take-off
# setting, gear, cabin altitude) is wired to it past the alerting computers.
#
# What the systems have to say reaches the alerting computers through two data units, one from each DC side. A system
# that reports through one data unit only goes silent when that unit dies, and its silence looks like health.

chapter = 31

unit "screen_1" {
  title         = "Left outer screen, left flight display"
  needs         = core_fed
  rate_per_hour = 4e-5
  place         = "left outer"
}

unit "screen_2" {
  title         = "Left inner screen"
  needs         = dc_left
  rate_per_hour = 4e-5
  place         = "left inner"
}

unit "screen_3" {
  title         = "Middle screen, engines and alerts"
  needs         = core_fed
  rate_per_hour = 4e-5
  place         = "centre"
}

unit "screen_4" {
  title         = "Right inner screen"
  needs         = dc_right
  rate_per_hour = 4e-5
  place         = "right inner"
}

unit "screen_5" {
  title         = "Right outer screen, right flight display"
  needs         = dc_right
  rate_per_hour = 4e-5
  place         = "right outer"
}

unit "picture_unit_left" {
  title         = "Left picture unit"
  needs         = core_fed
  rate_per_hour = 5e-5
  place         = "electronics bay, left rack"
}

unit "picture_unit_right" {
  title         = "Right picture unit"
  needs         = dc_right
  rate_per_hour = 5e-5
  place         = "electronics bay, right rack"
}

unit "picture_unit_spare" {
  title         = "Spare picture unit"
  needs         = dc_left
  rate_per_hour = 5e-5
  checked_every_h = 1.3
  place         = "electronics bay, left rack"
}

# Normal: the spare unit serves the side whose own unit has stopped, the left side
# first. The other positions hold it on one side.
control "picture_selector" {
  title     = "Picture selector"
  positions = ["normal", "spare_left", "spare_right"]
  initial   = "normal"
  place     = "centre pedestal"
}

signal "left_pictures" {
  title   = "Pictures for the left screens are made"
  value   = picture_unit_left || (picture_unit_spare && (picture_selector == "spare_left" || (picture_selector == "normal" && held(!picture_unit_left, 3))))
}

signal "right_pictures" {
  title   = "Pictures for the right screens are made"
  value   = picture_unit_right || (picture_unit_spare && (picture_selector == "spare_right" || (picture_selector == "normal" && picture_unit_left && held(!picture_unit_right, 3))))
}

signal "left_flight_picture" {
  title   = "The left flight display is shown"
  value   = left_pictures && (screen_1 || (screen_2 && held(!screen_1, 3)))
}

signal "right_flight_picture" {
  title   = "The right flight display is shown"
  value   = right_pictures && (screen_5 || (screen_4 && held(!screen_5, 3)))
}

# The middle screen takes its picture from whichever side still makes one, and gives
# it to an inner screen that carries no flight display.
signal "inner_screen_free" {
  title   = "An inner screen is free for the engine picture"
  value   = (screen_4 && screen_5) || (screen_2 && screen_1)
}

signal "engine_picture" {
  title   = "The engine picture and the alert list are shown"
  value   = (screen_3 || (inner_screen_free && held(!screen_3, 3))) && (left_pictures || right_pictures)
}

signal "left_inner_picture" {
  title   = "The left inner screen shows its own picture"
  value   = screen_2 && left_pictures && screen_1 && (screen_3 || (screen_4 && screen_5))
}

signal "right_inner_picture" {
  title   = "The right inner screen shows its own picture"
  value   = screen_4 && right_pictures && screen_5 && screen_3
}

# System pictures (electrics, hydraulics, doors ...) can be called on either inner screen.
signal "system_picture" {
  title   = "A system picture can be shown"
  value   = left_inner_picture || right_inner_picture
}

unit "data_unit_1" {
  title         = "Data unit 1"
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "data_unit_2" {
  title         = "Data unit 2"
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

unit "alert_computer_1" {
  title         = "Alerting computer 1"
  needs         = core_fed
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "alert_computer_2" {
  title         = "Alerting computer 2"
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

signal "alerting" {
  title   = "At least one alerting computer works"
  value   = alert_computer_1 || alert_computer_2
}

# The warning unit: in each lane a light in front of one pilot and a sounder of its own. It lights and sounds for what
# the alerting computers send, and by itself for what is wired straight to it.
unit "warning_lane_1" {
  title         = "Warning unit, lane 1: left light, left sounder"
  needs         = core_fed
  rate_per_hour = 1e-5
  place         = "glare shield, left"
}

unit "warning_lane_2" {
  title         = "Warning unit, lane 2: right light, right sounder"
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "glare shield, right"
}

signal "warning_unit" {
  title   = "Attention lights and sounds can be given"
  value   = warning_lane_1 || warning_lane_2
}

signal "warned_direct" {
  title   = "A warning that is wired straight to the warning unit can be given"
  value   = alerting || warning_unit
}

# Spoken height calls and words come from one box on one bus. Neither the words on the
# screen nor the sounds of the warning unit need it.
unit "voice" {
  title         = "Voice unit"
  needs         = dc_left
  rate_per_hour = 2e-5
  checked_every_h = 1.3
  place         = "electronics bay, left rack"
}

# The lamps in the buttons of the overhead panel: one supply for each half.
unit "lamp_power_left" {
  mirror        = true
  title         = "Lamp supply, left half of the overhead panel"
  needs         = dc_left
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "overhead panel"
}

unit "clock" {
  title         = "Clock"
  needs         = dc_direct
  rate_per_hour = 1e-5
  place         = "left panel"
}
