# Check ride 30, engine_shakes.
claim "ride_engine_put_off" {
  says   = "An engine that loses its oil and shakes: the sender is doubted first, the temperature decides, and the engine is put off before it seizes. A wire that only reads low costs no engine."
  source = "14 CFR 25.903(b), 25.1305(a), 25.1309(c); check ride 30"
  given "no oil" {
    fail = [oil_pump_left, engine_left.shakes]
    at   = "cruise + 60 s"
    crew = "by_the_book"
    expect = [given(left_oil_low), given(left_engine_shakes), in_order(done(oil_pressure_low, 1), engine_left_switch == "off"), by(180, engine_left_switch == "off"), always(!seized_left), always(engine_right_switch == "run"), kept(thrust_any), !hidden(air_left), flown("land"), arrives("QSTO")]
  }
  given "a chafed wire" {
    fail   = [oil_sender_left.reads_low]
    at     = "cruise + 60 s"
    crew   = "by_the_book"
    expect = [false_alarm(left_oil_low), done(oil_pressure_low, "1.then.1"), always(engine_left_switch == "run")]
  }
}
