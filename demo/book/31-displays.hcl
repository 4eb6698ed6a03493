# ATA 31, displays, alerting and the data that feed them.
#
# Five screens stand side by side, 1 to 5 from left to right. The two outer ones are
# the pilots' flight pictures, the two inner ones carry the route or a system page,
# the middle one carries the engines and the list of alerts.
#
# What the systems have to say reaches the alerting computers through two data
# units, one from each DC side. A system that reports through one data unit only
# goes silent when that unit dies, and its silence looks like health.

# ------------------------------------------------------------------ screens

unit "screen_1" {
  title         = "Screen 1, left flight picture"
  chapter       = 31
  needs         = core_fed
  rate_per_hour = 4e-5
  place         = "left outer"
}

unit "screen_2" {
  title         = "Screen 2, left inner"
  chapter       = 31
  needs         = dc_left
  rate_per_hour = 4e-5
  place         = "left inner"
}

unit "screen_3" {
  title         = "Screen 3, engines and alerts"
  chapter       = 31
  needs         = core_fed
  rate_per_hour = 4e-5
  place         = "centre"
}

unit "screen_4" {
  title         = "Screen 4, right inner"
  chapter       = 31
  needs         = dc_left
  rate_per_hour = 4e-5
  place         = "right inner"
}

unit "screen_5" {
  title         = "Screen 5, right flight picture"
  chapter       = 31
  needs         = dc_right
  rate_per_hour = 4e-5
  place         = "right outer"
}

# ----------------------------------------------------------------- pictures

unit "picture_unit_left" {
  title         = "Left picture unit"
  chapter       = 31
  needs         = core_fed
  rate_per_hour = 5e-5
  place         = "electronics bay, left rack"
}

unit "picture_unit_right" {
  title         = "Right picture unit"
  chapter       = 31
  needs         = dc_right
  rate_per_hour = 5e-5
  place         = "electronics bay, right rack"
}

unit "picture_unit_spare" {
  title         = "Spare picture unit"
  chapter       = 31
  needs         = dc_left
  rate_per_hour = 5e-5
  place         = "electronics bay, left rack"
}

control "picture_selector" {
  title     = "Picture selector"
  chapter   = 31
  positions = ["normal", "spare_left", "spare_right"]
  initial   = "normal"
  place     = "centre pedestal"
}

signal "left_pictures" {
  title   = "Pictures for the left screens are made"
  chapter = 31
  value   = picture_selector == "spare_left" ? picture_unit_spare : picture_unit_left
}

signal "right_pictures" {
  title   = "Pictures for the right screens are made"
  chapter = 31
  value   = picture_selector == "spare_right" ? picture_unit_spare : picture_unit_right
}

signal "left_flight_picture" {
  title   = "The left flight picture is shown"
  chapter = 31
  value   = screen_1 && left_pictures
}

signal "right_flight_picture" {
  title   = "The right flight picture is shown"
  chapter = 31
  value   = screen_5 && right_pictures
}

# The middle screen takes its picture from whichever side still makes one.
signal "engine_picture" {
  title   = "The engine picture and the alert list are shown"
  chapter = 31
  value   = screen_3 && (left_pictures || right_pictures)
}

signal "left_inner_picture" {
  title   = "The left inner screen shows its picture"
  chapter = 31
  value   = screen_2 && left_pictures
}

signal "right_inner_picture" {
  title   = "The right inner screen shows its picture"
  chapter = 31
  value   = screen_4 && right_pictures
}

# System pages (electrics, hydraulics, doors ...) can be called on either inner
# screen. Both inner screens hang on the left DC bus.
signal "system_page" {
  title   = "A system page can be shown"
  chapter = 31
  value   = left_inner_picture || right_inner_picture
}

# ------------------------------------------------------- data and alerting

unit "data_unit_1" {
  title         = "Data unit 1"
  chapter       = 31
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "data_unit_2" {
  title         = "Data unit 2"
  chapter       = 31
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

unit "alert_computer_1" {
  title         = "Alerting computer 1"
  chapter       = 31
  needs         = core_fed
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "alert_computer_2" {
  title         = "Alerting computer 2"
  chapter       = 31
  needs         = dc_right
  rate_per_hour = 3e-5
  place         = "electronics bay, right rack"
}

signal "alerting" {
  title   = "At least one alerting computer works"
  chapter = 31
  value   = alert_computer_1 || alert_computer_2
}

unit "attention_lights" {
  title         = "Attention lights"
  chapter       = 31
  needs         = core_fed
  rate_per_hour = 5e-6
  place         = "glare shield"
}

# Spoken height calls and all warning sounds come from one box on one bus. The
# words on the screen do not need it.
unit "voice" {
  title         = "Voice and sound unit"
  chapter       = 31
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

# -------------------------------------------------------------------- lamps

# The lamps in the buttons of the overhead panel: one supply for each half.
unit "lamp_power_left" {
  title         = "Lamp supply, left half of the overhead panel"
  chapter       = 31
  needs         = dc_left
  rate_per_hour = 1e-5
  place         = "overhead panel"
}

unit "lamp_power_right" {
  title         = "Lamp supply, right half of the overhead panel"
  chapter       = 31
  needs         = dc_right
  rate_per_hour = 1e-5
  place         = "overhead panel"
}

unit "clock" {
  title         = "Clock"
  chapter       = 31
  needs         = dc_direct
  rate_per_hour = 1e-5
  place         = "left panel"
}
