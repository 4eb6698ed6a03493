# Bleed air: skeleton of the shared ids; the whole chapter follows.
signal "bleed_left" {
  title   = "Air from the left bleed"
  chapter = 36
  value   = engine_left
}
signal "bleed_right" {
  title   = "Air from the right bleed"
  chapter = 36
  value   = engine_right
}
