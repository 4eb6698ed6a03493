# Temporary changes of procedures. They hold on the days that they name, and only where a day is given.

chapter = 49

bulletin "starter_winter" {
  title     = "The starter of the APU in the cold months"
  note      = "Two starters burnt out on cold-soaked units that were tried again at once."
  procedure = apu_no_start_drill
  from      = "2026-11-01"
  until     = "2027-03-31"
  except    = [island_kit]
  after     = 1
  check {
    says    = "Air outside: warmer than 40 degrees of frost? If not, wait for warmer air"
    by      = "PM"
    because = "The oil of a unit that has soaked for an hour is as thick as honey; the starter turns against it until it burns."
  }
}
