# an id with a letter wrong
signal "a" {
  value = pmup || pressur   ### "unknown-id: Nothing is called \"pmup\". Did you mean \"pump\"" "unknown-id: Nothing is called \"pressur\". Did you mean \"pressure\""
}
---
# an id like no other
signal "a" {
  value = generator_9   ### "unknown-id: Nothing is called \"generator_9\". Check the spelling"
}
---
# an id with a dash
signal "a" {
  value = engine-1   ### "unknown-id: .*put spaces around the minus: engine - 1\\."
}
---
# a capital in a reference
signal "a" {
  value = Pump   ### "unknown-id: Nothing is called \"Pump\". Did you mean \"pump\""
}
---
# a word without quotes
signal "a" {
  value = lever == on || off != lever   ### "unknown-id: Nothing is called \"on\". As a word it goes in quotes" "unknown-id: Nothing is called \"off\". As a word"
}
---
# a real value that is not there
signal "a_ft" {
  value = real.heigth_ft   ### "unknown-real: There is no real.heigth_ft. Did you mean \"real.height_ft\""
}
signal "b" {
  value = real   ### "unknown-real: A name must follow"
}
---
# a number of the aircraft that is not there
signal "a_m2" {
  value = aircraft.wing_aera_m2   ### "unknown-fact: .*Did you mean \"aircraft.wing_area_m2\""
}
signal "b" {
  value = aircraft   ### "unknown-fact: A name must follow"
}
---
# a fault that is not there
signal "a" {
  value = pump.leak   ### "unknown-fault: Unit \"pump\" has no fault \"leak\". Did you mean \"leaks\""
}
---
# a fault of what has none
signal "a" {
  value = pressure.leaks   ### "wrong-kind: \"pressure\" is a signal, not a unit. Only units have faults"
}
---
# items without a value
signal "a" {
  value = lamp && list && burst && short   ### "\"lamp\" is an indication; it has no value. Use the signal that it shows" "\"list\" is a procedure; it has no value" "\"burst\" is an event" "\"short\" is a flight"
}
---
# what HCL has and the language does not
signal "a" {
  value = null   ### "not-in-language"
}
signal "b" {
  value = pump[0]   ### "not-in-language"
}
signal "c" {
  value = { x = 1 }   ### "not-in-language"
}
signal "d" {
  value = any([pump]...)   ### "not-in-language"
}
signal "e" {
  value = [pump, pressure]   ### "not-in-language: A list cannot stand here"
}
signal "f" {
  value = 5 % 2 == 1   ### "not-in-language: The language has no such operator"
}
signal "g" {
  value = real.on_ground.x   ### "not-in-language"
}
signal "h" {
  value = [for x in pump : x]   ### "not-in-language"
}
signal "i" {
  value = held(pump, 5).x   ### "not-in-language"
}
---
# a function that is not there
signal "a" {
  value = hold(pump, 5)   ### "unknown-function: There is no function \"hold\". Did you mean \"held\""
}
signal "b" {
  value = pump()   ### "unknown-function: .*A plain id takes no parentheses"
}
---
# a function of claims elsewhere
signal "a" {
  value = lost(brakes)   ### "only-in-claims: \"lost\" is only for what a claim expects"
}
---
# the number of arguments
signal "a" {
  value = held(pump) || pulse(pump, 1, 2) || any() || failed(pump, pump) || at_least(2)   ### "arguments: \"held\" is called with 1 argument. It is called as held\\(x, s\\)" "arguments: \"pulse\" is called with 3 arguments" "arguments: \"any\" is called with 0" "arguments: \"failed\"" "arguments: \"at_least\""
}
signal "b_ft" {
  value = size(height_ft, 1) + total(height_ft, 1) + count() + 3   ### "arguments: \"size\"" "arguments: \"total\" is called with 2 arguments. It is called as total\\(x\\) or total\\(x, start, least, most\\)" "arguments: \"count\""
}
signal "c" {
  value = before() || frozen(pump)   ### "arguments: \"before\"" "arguments: \"frozen\""
}
---
# a number where a yes/no is needed
signal "a" {
  value = height_ft && pump   ### "wrong-type: \"&&\" needs a yes/no here, and this is a number. Compare the number"
}
signal "b" {
  value = !height_ft   ### "wrong-type: \"!\" needs a yes/no"
}
function "c" {
  works = height_ft   ### "wrong-type: \"works\" needs a yes/no"
}
signal "d" {
  value = held(height_ft, 5) || all(pump, 3)   ### "wrong-type: \"held\"" "wrong-type: \"all\""
}
signal "e_ft" {
  value = height_ft ? 1 : 2   ### "wrong-type: \"\\?\" needs a yes/no"
}
---
# a yes/no where a number is needed
signal "a_ft" {
  value = pump + 1   ### "wrong-type: \"\\+\" needs a number here, and this is a yes/no. Choose a number"
}
signal "b" {
  value = pump > 1   ### "wrong-type: \">\" needs a number"
}
limit "c" {
  quantity = pump   ### "wrong-type: \"quantity\" needs a number"
  most     = 5
}
signal "d_ft" {
  value = -pump   ### "wrong-type: \"-\" needs a number"
}
signal "e_ft" {
  value = most_of(pump, 1)   ### "wrong-type: \"most_of\""
}
---
# a word where something else is needed
signal "a" {
  value = lever || "pump"   ### "wrong-type: .*this is a word. Compare it with a word" "wrong-type: .*Write ids without quotes"
}
signal "b" {
  value = lever > "off"   ### "wrong-type: \">\" needs a number"
}
signal "c_s" {
  value = total(lever)   ### "wrong-type: \"total\" needs a number"
}
---
# types that do not go together
signal "a" {
  value = lever == 5   ### "wrong-type: A word and a number do not go together"
}
signal "b" {
  value = pump ? 1 : "x"   ### "wrong-type: A number and a word do not go together"
}
indication "c" {
  shows = height_ft
  means = pump   ### "wrong-type: A number and a yes/no"
}
---
# comparisons that chain
signal "a" {
  value = 1 < height_ft < 3   ### "chained: Comparisons do not chain. Write both"
}
signal "b" {
  value = pump == pressure == brakes   ### "chained"
}
signal "c" {
  value = (height_ft > 3) == pump
}
---
# units that differ
signal "a" {
  value = real.height_ft > real.airspeed_kt   ### "wrong-unit: A number in ft meets one in kt"
}
signal "b_ft" {
  value = real.height_ft + real.distance_nm   ### "wrong-unit: A number in ft meets one in nm"
}
signal "c_ft" {
  value = pump ? real.height_ft : real.mass_kg   ### "wrong-unit"
}
signal "d_ft" {
  value = least_of(height_ft, 5, real.fuel_kg)   ### "wrong-unit"
}
signal "e" {
  value = aircraft.wing_area_m2 == real.height_ft   ### "wrong-unit"
}
signal "f" {
  value = total(pump) > real.height_ft   ### "wrong-unit: A number in s meets one in ft"
}
signal "g" {
  value = count(pump) > real.height_ft   ### "wrong-unit: A number in count meets one in ft"
}
limit "h" {
  quantity = height_ft
  most     = real.airspeed_kt   ### "wrong-unit"
  least    = before(real.airspeed_kt)   ### "wrong-unit"
}
indication "i" {
  shows = height_ft
  means = real.airspeed_kt   ### "wrong-unit"
}
---
# a name says another unit
signal "a_kt" {
  value = real.height_ft   ### "wrong-unit: \"a_kt\" should be in kt by its name, and is in ft. Let the id end in _ft"
}
signal "b_kt" {
  value = frozen(-size(real.height_ft), pump)   ### "wrong-unit: \"b_kt\" should be in kt"
}
---
# units that go together
signal "a_m" {
  value = real.height_ft * 0.3048
}
signal "b_kg" {
  value = total(pump ? 2 : 0) / 60
}
signal "c" {
  value = real.height_ft > 50 && a_m < height_ft * 2 && b_kg > -3
}
signal "d_min" {
  value = total(pump) / 60
}
---
# a word that can never be
signal "a" {
  value = lever == "onn"   ### "never-equal: \"lever\" is never \"onn\". Did you mean \"on\""
}
signal "b" {
  value = "half" != lever   ### "never-equal: \"lever\" is never \"half\". It can be: \"off\", \"on\""
}
signal "word" {
  value = pump ? "high" : "low"
}
signal "c" {
  value = lever == word   ### "never-equal: These two have no word in common"
}
signal "d" {
  value = word == "hihg"   ### "never-equal: \"word\" is never \"hihg\". Did you mean \"high\""
}
indication "e" {
  shows = word
  means = lever   ### "never-equal"
}
---
# a division by zero
signal "a_ft" {
  value = height_ft / 0   ### "zero-division"
}
---
# a time that is not plain
signal "a" {
  value = held(pump, height_ft)   ### "wrong-value: \"held\" needs a plain number"
}
signal "b" {
  value = held(pump, 2 * 60)
}
---
# at_least asks for too many
signal "a" {
  value = at_least(3, pump, pressure)   ### "out-of-range: at_least cannot ask for so many.*here 2"
}
signal "b" {
  value = at_least(1.5, pump, pressure)   ### "out-of-range: at_least"
}
signal "c" {
  value = at_least(height_ft, pump)   ### "wrong-value: \"at_least\" needs a plain number"
}
---
# bounds that exclude the start
signal "a_kg" {
  value = total(pump ? 1 : 0, 50, 0, 20)   ### "out-of-range: The bounds of the total exclude its start"
}
---
# a total with bounds of what changes continuously
signal "speed_kt" {
  value = pump ? real.airspeed_kt : 0
}
signal "a_kg" {
  value = total(real.fuel_kg, 0, 0, 9)   ### "continuous: .*It follows real.fuel_kg"
}
signal "b_kg" {
  value = total(speed_kt * 2, 0, 0, 9)   ### "continuous: .*It follows speed_kt"
}
signal "c_kg" {
  value = total(total(pump), 0, 0, 9)   ### "continuous: .*It follows total\\(pump\\)"
}
signal "d_kg" {
  value = total(speed_kt > 5 ? 3 : -count(pump), 0, 0, 9)
}
signal "e_kg" {
  value = total(speed_kt * real.height_ft)
}
---
# failed wants a unit
signal "a" {
  value = failed(pressure) || failed("pump") || failed(pump.leaks) || failed(pumpp)   ### "wrong-kind: \"pressure\" is a signal, not a unit" "wrong-value: The id of a unit" "wrong-value: The id of a unit" "unknown-id: No unit is called \"pumpp\""
}
---
# signals that only depend on themselves
signal "a" {
  value = before(a)   ### "untyped: Nothing says what type \"a\" has"
}
signal "b_count" {
  value = before(b_count) + 1
}
signal "c" {
  value = pump ? before(d) : "high"
}
signal "d" {
  value = frozen(c == "high" ? "low" : before(c), pressure)
}
signal "e" {
  value = d == "middle"   ### "never-equal: \"d\" is never \"middle\""
}
---
# a signal that is value and latch
signal "a" {   ### "contradiction: Signal \"a\" is both a value and a latch"
  value = pump
  reset = pressure
}
signal "b" {   ### "incomplete: Latch \"b\" lacks set or reset"
  set = pump
}
signal "c" {   ### "contradiction"
  value   = pump
  initial = true
}
---
# what a crew look at stands in steps only
alert "a" {
  level   = "advisory"
  message = "A"
  when    = seen.icing   ### "only-in-steps: .seen.icing. is only for what a crew look at"
  until   = called_by(a)   ### "only-in-steps: .called_by. is only for what a crew look at"
}
---
# what can be seen
procedure "a" {
  check {
    that = seen.iceing   ### "unknown-real: There is no seen.iceing. Did you mean .seen.icing."
  }
  check {
    that = seen   ### "unknown-real: A name must follow after seen"
  }
  check {
    that = called_by(climb)   ### "wrong-kind: .climb. is a phase, not an alert"
  }
  check {
    that = called_by()   ### "arguments: .called_by. is called with 0 arguments"
  }
}
---
# what is shown has a type and a unit
indication "gauge" {
  shows = real.altitude_ft
}
procedure "a" {
  check {
    that = gauge   ### "wrong-type: .that. needs a yes/no here, and this is a number"
  }
  check {
    that = gauge > real.airspeed_kt   ### "wrong-unit"
  }
  check {
    that = total(gauge, 0, 0, 5) > 3   ### "continuous"
  }
}
---
# a table that is read between its rows
signal "a_ft" {
  value = between(height_ft, 0, 1)   ### "arguments: \"between\" is called with 3 arguments. It is called as between\\(x, x1, y1, x2, y2, …\\)"
}
signal "b_ft" {
  value = between(height_ft, 0, 1, 2, 3, 4)   ### "arguments: \"between\" is called with 6 arguments"
}
signal "c_ft" {
  value = between(height_ft, 0, 1, 2, 3, 2, 4)   ### "arguments: The rows of between do not rise: 2 follows 2"
}
signal "d_ft" {
  value = between(pump, 0, 1, 2, height_ft)   ### "wrong-type: \"between\" needs a number here, and this is a yes/no" "wrong-value: .*"
}
signal "e" {
  value = air_through(height_ft, 900) > 0   ### "wrong-unit"
}
