# Phases of flight, in order. They follow what physically happens (real.*), not what a sensor believes, and never go
# back. The alerting computers work with phases of their own that follow these closely; where a sensor can fool them,
# the alert says so in its own `when`.

phase "taxi_out" {
  title = "Taxi out"
  no_go = true
}

phase "take_off_roll" {
  title  = "Take-off roll, up to 75 kt"
  no_go  = true
  begins = real.on_ground && real.thrust_pct > 60
}

# From 75 kt on the crew stop only for what matters most, so cautions wait.
phase "take_off_fast" {
  title  = "Take-off roll, from 75 kt"
  begins = real.on_ground && real.airspeed_kt > 75
}

phase "lift_off" {
  title  = "Lift-off, up to 600 ft"
  begins = !real.on_ground
}

phase "first_climb" {
  title     = "First climb, from 600 ft"
  begins    = real.height_ft > 600
  after_leg = ["go_around"]
}

phase "climb" {
  title  = "Climb"
  begins = real.height_ft > 2000
}

# Level for twenty seconds: the cruise has begun. A flight that turns back from the
# climb comes down without one; for it the cruise is over at once.
phase "cruise" {
  title  = "Cruise"
  begins = held(size(real.vertical_speed_ft_per_min) < 100, 20) || held(real.vertical_speed_ft_per_min < -200, 5)
}

phase "descent" {
  title  = "Descent"
  begins = real.vertical_speed_ft_per_min < -200
}

phase "approach" {
  title  = "Approach"
  begins = real.height_ft < 3500
}

# A glide without engines meets no glide path.
phase "final" {
  title  = "Final, below 1,200 ft"
  begins = real.height_ft < 1200 && (real.on_glide_path || real.on_ground || !thrust_any)
}

phase "landing_roll" {
  title  = "Landing roll"
  begins = real.on_ground
}

phase "taxi_in" {
  title  = "Taxi in"
  begins = real.ground_speed_kt < 25
}
