# ATA 23, communications.

unit "radio_1" {
  title        = "Radio 1"
  chapter      = 23
  needs        = dc_vital
  rate_per_hour = 3e-5
  place        = "electronics bay, left rack"
}

unit "radio_2" {
  title        = "Radio 2"
  chapter      = 23
  needs        = dc_left
  rate_per_hour = 3e-5
  place        = "electronics bay, left rack"
}
