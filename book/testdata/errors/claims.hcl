# a claim that says nothing of when
claim "a" {
  says   = "a"
  source = "a"
  given {
    fail = pump
  }
  expect = [brakes, lost(brakes) && real.height_ft > 5]   ### "no-moment: A claim must say when.*ever\\(x\\)" "no-moment"
}
---
# a claim that is given nothing
claim "a" {
  says   = "a"
  source = "a"
  expect = always(real.height_ft < 50000)
}
---
# a claim that expects nothing
claim "a" {
  says   = "a"
  source = "a"
  given {   ### "incomplete: The claim expects nothing"
    fail = pump
  }
  given {
    fail   = pump
    expect = [lost(brakes)]
  }
  given {
    fail   = pump
    expect = []   ### "incomplete: The list \"expect\" is empty"
  }
}
---
# a claim that expects a number
claim "a" {
  says   = "a"
  source = "a"
  given {
    fail = pump
  }
  expect = first(!brakes)   ### "wrong-type: \"expect\" needs a yes/no here, and this is a number"
}
---
# claims about items of the wrong kind
claim "a" {
  says   = "a"
  source = "a"
  given {
    fail = pump
  }
  expect = [
    lost(pump),           ### "wrong-kind: \"pump\" is a unit, not a function"
    told_wrong(low),      ### "wrong-kind: \"low\" is an alert, not a function or indication"
    told_wrong(lamp),
    told_wrong(brakes),
    dark(brakes),         ### "wrong-kind: \"brakes\" is a function, not an indication"
    given(brakes),        ### "wrong-kind: \"brakes\" is a function, not an alert"
    in_phase(low, pump),  ### "wrong-kind: \"low\" is an alert, not a phase"
    in_phase(climb, !brakes),
    lost(brake),          ### "unknown-id: No function is called \"brake\". Did you mean \"brakes\""
    lost("brakes"),       ### "wrong-value: The id of a function"
    ever(height_ft),      ### "wrong-type: \"ever\" needs a yes/no"
    ever(lost(brakes)),   ### "only-in-claims: "
    lost(),               ### "arguments: \"lost\" is called with 0 arguments. It is called as lost\\(function\\)"
    at(5),                ### "arguments: .*at\\(s, x\\)"
    lots(brakes),         ### "unknown-function: .*Did you mean \"lost\""
    ever(total(real.fuel_kg, 0, 0, 9) > 1),   ### "continuous"
    first(!brakes) < real.height_ft   ### "no-moment" "wrong-unit: A number in s meets one in ft"
  ]
}
---
# moments that cannot be read
claim "a" {
  says   = "a"
  source = "a"
  given {
    fail = pump
    at   = "clmb + 5 s"   ### "bad-moment: \"clmb \\+ 5 s\" is no moment of a flight. There is no phase called \"clmb\". Did you mean \"climb\""
  }
  given {
    fail = pump
    at   = "climb 5 s"   ### "bad-moment: .*Write \\+ or -"
  }
  given {
    fail = pump
    at   = "climb + 5"   ### "bad-moment: .*Say the unit"
  }
  given {
    fail = pump
    at   = "5 days"   ### "bad-moment: .*Use s, min or h"
  }
  given {
    fail = pump
    at   = "-5 s"   ### "bad-moment: .*cannot be negative"
  }
  given {
    fail = pump
    at   = "climb - 5 s"
    also {
      fail = pump.leaks
      at   = "climb + soon"   ### "bad-moment: \"climb \\+ soon\".*\"soon\" is no time"
    }
  }
  expect = lost(brakes)
}
---
# a failure at a moment and on a condition
claim "a" {
  says   = "a"
  source = "a"
  given {
    fail = pump
    at   = "climb"
    when = !real.on_ground   ### "contradiction: Both at and when"
  }
  expect = lost(brakes)
}
---
# failures that cannot be
claim "a" {
  says   = "a"
  source = "a"
  given {
    inoperative = [burst, pump.leaks]   ### "wrong-kind: \"burst\" is an event, not a unit"
    fail        = [lever, burst, pump.leak]   ### "wrong-kind: \"lever\" is a control, not an? unit or event" "unknown-fault"
    flight      = long   ### "unknown-id: No flight is called \"long\""
    when        = height_ft   ### "wrong-type: \"when\" needs a yes/no"
  }
  expect = lost(brakes)
}
---
# a claim about what its build has not
variant "old" {
  title = "Old"
}
variant "new" {
  title = "New"
}
function "extra" {
  works = pump
  only  = [new]
}
claim "a" {
  says   = "a"
  source = "a"
  given {
    fail = pump
  }
  given {
    fail    = pump
    variant = new
  }
  given {
    fail    = pump
    variant = nwe   ### "variant: There is no build \"nwe\". Did you mean \"new\""
  }
  expect = lost(extra)   ### "absent: Function \"extra\".*On build \"old\""
}
claim "b" {
  says   = "b"
  source = "b"
  only   = [new]
  given {
    fail = pump
  }
  given {
    fail    = pump
    variant = old   ### "variant: The claim \"b\" does not exist on build \"old\""
  }
  expect = lost(extra)
}
---
# a claim cannot differ between builds
variant "old" {
  title = "Old"
}
claim "a" {
  says   = "a"
  source = "a"
  expect = lost(brakes)
  variant "old" {   ### "unknown-block: There is no block \"variant\" in a claim"
    says = "b"
  }
}
---
# what the crew do and where the flight goes, said wrongly
claim "a" {
  says   = "a"
  source = "a"
  given {
    fail = pump
    crew = "two of them"         ### "unknown-word: .*by_the_book"
    plan = [
      "divert @ climb",          ### "wrong-value: \"divert @ climb\" is no leg of a plan. .*say where to: divert AIRFIELD@moment"
      "turn @ climb",            ### "wrong-value: \"turn @ climb\" is no leg.*did you mean \"return\""
      "return @ climbe",         ### "wrong-value: \"return @ climbe\" is no leg.*no phase called \"climbe\""
      "land @ when real.mass_kg",  ### "wrong-value: .*a yes/no is needed"
      "land @ when nobody",      ### "wrong-value: .*nobody"
      7,                         ### "wrong-value: .*plan.*text"
      "return",
    ]
    turn = "climbe"              ### "bad-moment: .*climbe"
  }
  given {
    fail = pump
    plan = []                    ### "incomplete: The list \"plan\" is empty"
  }
  expect = lost(brakes)
}
---
# order, deadlines, lines, endings and airfields, said wrongly
procedure "lines" {
  do {
    set    = lever
    to     = "on"
    sensed = true
  }
  decide {
    that = pump
    then {
      check {
        that   = pressure
        sensed = true
      }
    }
  }
  note {
    says = "Done."
  }
}
claim "a" {
  says   = "a"
  source = "a"
  given {
    fail = pump
  }
  expect = [
    in_order(low),               ### "arguments: .*in_order\\(x, x, …\\)"
    in_order(low, climb, !pump),
    in_order(low, lost(brakes)),  ### "only-in-claims"
    by("soon", low),             ### "wrong-value: .*plain number"
    by(-1, low),                 ### "out-of-range"
    by(60, done(lines, 1)), by(60, read(lines)), first(ticks(lines, "2.then.1")) < 60, within(60, low, flown("return")),
    done(lines, 4),              ### "out-of-range: .*line of lines.*\"4\""
    done(lines, "2.else.1"),     ### "out-of-range: .*2.else.1"
    ticks(lines, 3),             ### "contradiction: Line 3 of lines does not go out by itself"
    done(low, 1),                ### "wrong-kind: \"low\" is an alert, not a procedure"
    flown("home"),               ### "unknown-word: .*home"
    never_arrives("tired"),      ### "unknown-word: .*tired"
    arrives(), arrives("QSVA"), never_arrives("stalls"),
    arrives("QSVA", "17"),       ### "arguments: .*arrives\\(\\) or arrives\\(FIELD\\)"
    open(QSVA),                  ### "wrong-value: .*in quotes.*open\\(\"…\"\\)"
    open(""),                    ### "wrong-value"
    closed("QSVA", "cold"),      ### "unknown-word: .*cold"
    closed("QSVA"), closed("QSVA", "runway"), lands_on("QSVA", "17"),
    about(fuel_to("QSVA"), 1850, 20), about(extra_landing("QSVA") + 5, 100, 5),
    about(real.mass_kg, 1, 2),   ### "no-moment"
    about(open("QSVA"), 1, 2),   ### "wrong-type"
    minutes_to("QSVA") < fuel_to("QSVA"),   ### "units"
  ]
}
---
# a line that nobody could be misled about, since it is not there
claim "a" {
  says   = "a"
  source = "a"
  given {
    fail = pump
  }
  expect = [misled(list, 1), cannot_see(list, 2)]   ### "out-of-range: .*line of list.*\"2\""
}
---
# rescues, said wrongly
claim "a" {
  says   = "a"
  source = "a"
  given {
    fail = pump
  }
  expect = [
    rescued(brakes),                      ### "arguments: .*rescued\\(function, control=position, …\\)"
    rescued(brakes, "lever"),             ### "wrong-value: \"lever\" is no move"
    rescued(brakes, "pump=off"),          ### "wrong-kind: \"pump\" is a unit, not a control"
    rescued(brakes, "lever=down"),        ### "unknown-word: .*down"
    rescued(brakes, "lever = on"), rescue_until(brakes, "lever=on") > 60, !listed(brakes, "lever=on"),
    no_rescue(2, brakes),
    no_rescue(4, brakes),                 ### "out-of-range: .*1, 2 or 3"
    no_rescue(1, lever),                  ### "wrong-kind: \"lever\" is a control, not a function"
  ]
}
