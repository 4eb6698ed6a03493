# Check ride 14, cargo_smoke. One sensor that lies: claims/26, damp_is_not_smoke.
claim "ride_smoke_in_the_hold" {
  says   = "Smoke in the hold is told within a minute, the bottles go within another, and they hold it down to the landing at the nearest field within an hour. Without the slow bottle it comes back after a quarter of an hour."
  source = "14 CFR 25.857(c), 25.858; check ride 14"
  given "both bottles" {
    fail   = [hold.smoulders]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [told(no_smoke), by(10, hold_bottle_fired), at(120, !hold_smoke), at(1200, !hold_smoke), done(smoke_list, 3), done(smoke_list, 4), arrives("QSTO"), by(3600, landing_roll), !lost(smoke_watch)]
  }
  given "without the slow one" {
    inoperative = [hold_slow_bottle]
    fail        = [hold.smoulders]
    at          = "cruise + 60 s"
    crew        = "by_the_book"
    expect      = [at(120, !hold_smoke), at(1000, hold_smoke)]
  }
}
