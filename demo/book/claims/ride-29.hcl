# Check ride 29, reverser. What two broken locks bring: claims/78.
claim "ride_reverser_unlocked" {
  says   = "A reverser whose first lock lets go in the climb is told at once; two locks hold; that engine is brought to idle, and the aircraft lands at the nearest field."
  source = "14 CFR 25.933(a)(1), 25.1305(d)(2); check ride 29"
  given {
    fail   = [reverser_left.creeps]
    at     = "climb + 240 s"
    crew   = "by_the_book"
    expect = [first(reverser_left_unlocked) < 5, done(reverser_list, 1), !done(reverser_list, "2.then.2"), flown("land"), !lost(reverse_shut), kept(thrust_left), arrives("QSKE")]
  }
}
