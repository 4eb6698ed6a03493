# ATA 23, communications: three radios, the cabin, the long-range radio and the data link.
#
# Communications fail quietly. No computer watches a radio: the crew find out when nobody answers.

chapter = 23

unit "radio_1" {
  title         = "VHF radio 1"
  needs         = core_fed
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
  fault "keeps_sending" {
    title         = "transmits without a break: blocks its frequency"
    rate_per_hour = 2e-6
  }
}

unit "radio_2" {
  title         = "VHF radio 2"
  needs         = dc_left
  rate_per_hour = 3e-5
  place         = "electronics bay, left rack"
}

unit "radio_3" {
  title         = "VHF radio 3"
  needs         = dc_right
  rate_per_hour = 3e-5
  checked_every_h = 10
  place         = "electronics bay, right rack"
}

unit "far_radio" {
  title         = "Long-range (HF) radio"
  needs         = ac_left && dc_left
  rate_per_hour = 8e-5
  checked_every_h = 10
  place         = "tail"
}

unit "data_link" {
  title         = "Data link"
  needs         = dc_right && (radio_3 || satnav_2)
  rate_per_hour = 5e-5
  place         = "electronics bay, right rack"
}

# Between the pilots and the radios stand two audio unites. A pilot whose box is dead
# hears nothing through it; the spare path gives that pilot radio 1, or 2, alone.
unit "audio_left" {
  title         = "Left audio unit"
  needs         = core_fed
  rate_per_hour = 2e-5
  place         = "electronics bay, left rack"
}

unit "audio_right" {
  title         = "Right audio unit"
  needs         = dc_right
  rate_per_hour = 2e-5
  place         = "electronics bay, right rack"
}

control "audio_selector" {
  title     = "Audio selector"
  positions = ["normal", "right_on_left"]
  initial   = "normal"
  place     = "centre pedestal"
}

control "send_selector" {
  title     = "Transmitter selector"
  positions = ["radio_1", "radio_2", "radio_3"]
  initial   = "radio_1"
  place     = "centre pedestal"
}

unit "cabin_phone" {
  title         = "Cabin interphone"
  needs         = dc_left
  rate_per_hour = 2e-5
  place         = "forward galley"
}

# Amplifier and loudspeakers hang on the vital bus, which lasts on the battery when all engines have stopped (14 CFR
# 25.1423(a): ten minutes). The lamp on the handset only knows the amplifier.
unit "cabin_amplifier" {
  title         = "Passenger address amplifier"
  needs         = dc_vital
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "electronics bay, left rack"
}

unit "cabin_speakers" {
  title         = "Cabin loudspeakers"
  needs         = dc_vital
  rate_per_hour = 1e-5
  checked_every_h = 10
  place         = "cabin ceiling"
}

unit "evacuation_signal" {
  title         = "Evacuation signal"
  needs         = dc_direct
  rate_per_hour = 5e-6
  checked_every_h = 10
  place         = "cabin, both doors"
}

unit "locator_beacon" {
  title         = "Emergency locator transmitter"
  rate_per_hour = 5e-6
  checked_every_h = 600
  place         = "tail"
}

signal "left_pilot_hears" {
  title   = "The left pilot is connected to the radios"
  value   = audio_left
}

signal "right_pilot_hears" {
  title   = "The right pilot is connected to the radios"
  value   = audio_selector == "right_on_left" ? audio_left : audio_right
}

signal "frequency_blocked" {
  title   = "Our own radio blocks the frequency"
  value   = radio_1.keeps_sending && radio_1 && send_selector == "radio_1"
}

signal "sending_radio" {
  title   = "The selected radio works"
  value   = send_selector == "radio_1" ? radio_1 : send_selector == "radio_2" ? radio_2 : radio_3
}

function "radio_contact" {
  title    = "Contact by radio"
  works    = any(radio_1, radio_2, radio_3) && (left_pilot_hears || right_pilot_hears) && !frequency_blocked
  severity = "major"
  noticed_when   = held(!cruise && !radio_contact, 60) || held(!radio_contact, 300) # calls go by
  noticed_by     = "tried"
  noticed_source = "common practice"
}

function "second_radio" {
  title    = "A second radio"
  works    = at_least(2, radio_1, radio_2, radio_3)
  severity = "minor"
}

function "both_pilots_hear" {
  title    = "Both pilots on the radio"
  works    = left_pilot_hears && right_pilot_hears
  severity = "minor"
  noticed_when   = held(!cruise && !both_pilots_hear, 60) || held(!both_pilots_hear, 300) # one answers what the other has not heard
  noticed_by     = "heard"
  noticed_source = "common practice"
}

function "far_contact" {
  title    = "Contact over the sea"
  works    = far_radio || data_link
  wanted   = cruise
  severity = "minor"
  noticed_when   = cruise && held(!far_contact, 1200) # a call that nobody answers
  noticed_by     = "tried"
  noticed_source = "common practice"
}

function "data_messages" {
  title    = "Data messages"
  works    = data_link
  wanted   = climb || cruise || descent
  severity = "minor"
  noticed_when   = (climb || cruise || descent) && held(!data_messages, 600) # the next message that does not leave
  noticed_by     = "tried"
  noticed_source = "common practice"
}

function "cabin_call" {
  title    = "Call between flight deck and cabin"
  works    = cabin_phone
  severity = "minor"
  noticed_when   = held((taxi_out || approach) && !cabin_phone, 20) || held(!cabin_phone, 1200) # the cabin is ready, and says so; in flight it calls every twenty minutes
  noticed_by     = "tried"
  noticed_source = "common practice"
}

function "passenger_address" {
  title    = "Announcements in the cabin"
  works    = cabin_amplifier && cabin_speakers
  severity = "minor"
  noticed_when   = held((taxi_out || approach) && !passenger_address, 20) || held(!passenger_address, 1200) # somebody speaks
  noticed_by     = "tried"
  noticed_source = "common practice"
}

function "evacuation_call" {
  title    = "A way to order an evacuation"
  works    = evacuation_signal || passenger_address
  wanted   = take_off_roll || take_off_fast || landing_roll || taxi_in || taxi_out
  severity = "major"
}

# Never needed and never missed, until the one day.
function "crash_location" {
  title    = "A beacon that calls for help after an accident"
  works    = locator_beacon
  severity = "minor"
}

alert "keeps_sending" {
  title     = "Radio transmits without a break"
  except    = [first_series]
  level     = "caution"
  message   = "Radio 1 stuck transmitting"
  when      = held(radio_1.keeps_sending && radio_1, 35)
  quiet_in  = [take_off_roll, take_off_fast, lift_off, landing_roll]
  tells     = [radio_contact]
  procedure = radio_sends_drill
}

# The radio in use tests itself, and its panel says so through the audio unit.
alert "sending_radio_off" {
  title     = "Selected radio off"
  level     = "caution"
  message   = "The selected radio is off"
  when      = held(!sending_radio, 5)
  quiet_in  = [take_off_roll, take_off_fast, lift_off, landing_roll]
  tells     = [radio_contact, second_radio]
  procedure = radio_lost_drill
}

alert "data_link_off" {
  title      = "Data link off"
  level      = "advisory"
  message    = "No data messages"
  when       = held(!data_link, 60)
  quiet_in   = [take_off_roll, take_off_fast, lift_off, first_climb, approach, final, landing_roll]
  quiet_when = main_dc_lost
  tells      = [data_messages]
}

alert "cabin_phone_off" {
  title    = "Cabin interphone off"
  except   = [first_series]
  level    = "advisory"
  message  = "Cabin interphone off"
  when     = !cabin_phone
  given_by = alerting && data_unit_1
  quiet_in = [take_off_roll, take_off_fast, lift_off, final, landing_roll]
  tells    = [cabin_call]
}

# Each radio's frequency is shown by the radio's own panel: a dead radio is a dark
# panel, and a dark panel at the edge of the pedestal is easily overlooked.
indication "radio_1_panel" {
  title   = "VHF radio 1 panel"
  shows   = radio_1
  means   = radio_1
  lit_by  = radio_1
  place   = "centre pedestal"
  tells   = [radio_contact]
}
indication "radio_2_panel" {
  title   = "VHF radio 2 panel"
  shows   = radio_2
  means   = radio_2
  lit_by  = radio_2
  place   = "centre pedestal"
  tells   = [second_radio]
}
indication "radio_3_panel" {
  title   = "VHF radio 3 panel"
  shows   = radio_3
  means   = radio_3
  lit_by  = radio_3
  place   = "centre pedestal"
  tells   = [second_radio]
}
indication "far_radio_panel" {
  title   = "Long-range (HF) radio panel"
  shows   = far_radio
  means   = far_radio
  lit_by  = dc_left
  place   = "centre pedestal"
  tells   = [far_contact]
}
indication "evacuation_lamp" {
  title   = "Evacuation signal: ready lamp"
  shows   = evacuation_signal
  means   = evacuation_signal
  lit_by  = lamp_power_right
  place   = "overhead panel, right half"
  tells   = [evacuation_call]
}
indication "sending_lamp" {
  title   = "Transmitting lamp"
  shows   = frequency_blocked
  means   = frequency_blocked
  lit_by  = audio_left
  place   = "centre pedestal"
  tells   = [radio_contact]
}
indication "left_audio_lamp" {
  mirror  = true
  title   = "Left audio panel lamps"
  shows   = audio_left
  means   = left_pilot_hears
  lit_by  = audio_left
  place   = "centre pedestal"
  tells   = [both_pilots_hear]
}
indication "address_lamp" {
  title   = "Passenger address: in-use lamp on the handset"
  shows   = cabin_amplifier
  means   = passenger_address
  lit_by  = dc_vital
  place   = "centre pedestal"
}
indication "cabin_phone_lamp" {
  title   = "Cabin interphone lamp"
  shows   = cabin_phone
  means   = cabin_call
  lit_by  = lamp_power_left
  place   = "overhead panel, left half"
}
indication "data_link_label" {
  title   = "Data link label"
  shows   = data_link
  means   = data_messages
  lit_by  = right_inner_picture
  place   = "right inner screen"
}
