# a ring of three
signal "a" {
  value = b && pump   ### "loop: \"a\" depends on itself. The ring is \"a\" → \"b\" → \"c\" → \"a\"\\."
}
signal "b" {
  value = held(a, 5) || c
}
signal "c" {
  value = !a
}
---
# a signal reads itself
signal "a" {
  value = a || pump   ### "loop: .*\"a\" → \"a\"\\. "
}
---
# a ring through all kinds of items
unit "a" {
  needs = b   ### "loop: .*\"a\" → \"b\" → \"c\" → \"a\""
}
function "b" {
  works = c
}
alert "c" {
  level    = "advisory"
  message  = "c"
  when     = pump
  given_by = a
}
---
# a ring through the alerts' common supply, alone
aircraft "a" {
  title           = "A"
  alerts_given_by = supply
}
unit "supply" {
  needs = !low   ### "loop: .*\"supply\" → \"low\" → \"supply\""
}
alert "low" {
  level   = "advisory"
  message = "low"
  when    = real.on_ground
}
---
# a ring through the first argument of frozen
signal "a" {
  value = frozen(b, pump)   ### "loop: .*\"a\" → \"b\" → \"a\""
}
signal "b" {
  value = a || pressure
}
---
# memories part a ring
signal "a" {
  value = held(b, 1) || pulse(b, 2) || before(b) || frozen(pump, b) || total(b) > 3 || count(b) > 2 || latch
}
signal "b" {
  value = a
}
signal "latch" {
  set   = a
  reset = !a
}
unit "c" {
  needs = !failed(c) || c.stuck || a
  fault "stuck" {}
}
---
# a total may follow itself; two may not follow each other
signal "a_hpa" {
  value = 1000 - total(0.01 * a_hpa)
}
signal "b_hpa" {
  value = total(0.01 * c_hpa)   ### "loop: Two totals follow each other"
}
signal "c_hpa" {
  value = 2 * d_hpa
}
signal "d_hpa" {
  value = total(least_of(b_hpa, 20))
}
signal "e_hpa" {
  value = total(f_hpa > 20 ? 1 : 0)
}
signal "f_hpa" {
  value = total(e_hpa > 20 ? 1 : 0)
}
---
# two rings
signal "a" {
  value = b || pump   ### "loop: .*\"a\" → \"b\" → \"a\""
}
signal "b" {
  value = a
}
signal "c" {
  value = d || pump   ### "loop: .*\"c\" → \"d\" → \"c\""
}
signal "d" {
  value = c
}
---
# what an alert claims and its own quiet phases are no ring
alert "a" {
  level     = "advisory"
  message   = "a"
  when      = pump
  true_when = !a
}
---
# a variant takes away what another item needs
variant "old" {
  title = "Old"
}
variant "new" {
  title = "New"
}
unit "extra" {
  only = [new]
}
signal "a" {
  value = extra || pump   ### "absent: Unit \"extra\" does not exist on every build.*On build \"old\""
}
signal "b" {
  value = extra
  only  = [new]
}
signal "c" {
  value = extra
  variant "old" {
    value = pump
  }
}
event "d" {
  fails = [extra]   ### "absent: Unit \"extra\""
}
---
# a build that is not there
variant "old" {
  title = "Old"
}
unit "a" {
  only = [odl]   ### "variant: There is no build \"odl\". Did you mean \"old\""
}
---
# a variant block for a build that is not there
unit "a" {
  variant "new" {   ### "variant: There is no build \"new\""
    needs = pump
  }
}
---
# only and except
variant "old" {
  title = "Old"
}
variant "new" {
  title = "New"
}
unit "a" {
  only   = [old]
  except = [new]   ### "variant: Both only and except"
}
unit "b" {   ### "variant: \"b\" exists on no build"
  except = [old, new]
}
---
# what a variant block cannot change
variant "old" {
  title = "Old"
}
unit "a" {
  variant "old" {
    only = [old]   ### "variant: A variant block cannot change \"only\""
    fault "x" {}   ### "variant: A variant block cannot change \"fault\""
    neds = pump    ### "unknown-attribute: A unit has no attribute \"neds\". Did you mean \"needs\""
  }
  variant "old" {   ### "duplicate: There are two variant blocks for build \"old\""
    needs = pump
  }
}
---
# an attribute is missing on one build
variant "old" {
  title = "Old"
}
variant "new" {
  title = "New"
}
function "a" {   ### "missing-attribute: .*On build \"new\" nothing gives it"
  variant "old" {
    works = pump
  }
}
---
# a position that one build has not
variant "old" {
  title = "Old"
}
variant "new" {
  title = "New"
}
control "knob" {
  positions = ["off", "auto"]
  initial   = "off"
  variant "new" {
    positions = ["off", "arm"]
  }
}
signal "a" {
  value = knob == "auto"   ### "never-equal: \"knob\" is never \"auto\". It can be: \"arm\", \"off\""
}
---
# the first phase begins by itself, alone
aircraft "a" {
  title = "A"
}
phase "ground" {
  begins = real.on_ground   ### "contradiction: The first phase, \"ground\", begins with the flight"
}
---
# within needs a number and a meaning
indication "a" {
  shows  = pump
  means  = pump
  within = 5   ### "contradiction: There is nothing that within"
}
indication "b" {
  shows  = height_ft
  within = 5   ### "contradiction: There is nothing that within"
}
---
# tries of a reset that is not there
unit "a" {
  reset_tries = 1   ### "incomplete: Unit \"a\" has tries but no reset"
}
---
# bulletins that cannot be followed
procedure "a" {
  note {
    says = "one"
  }
  note {
    says = "two"
  }
}
bulletin "b" {   ### "out-of-range: Procedure \"a\" has no step 3. It has 2"
  procedure = a
  after     = 3
  note {
    says = "b"
  }
}
bulletin "c" {   ### "contradiction: Bulletin \"c\" has both replaces and after"
  procedure = a
  replaces  = 1
  after     = 1
  note {
    says = "c"
  }
}
bulletin "d" {   ### "contradiction: Bulletin \"d\" ends before it begins"
  procedure = a
  from      = "2027-01-01"
  until     = "2026-12-31"
  after     = 0
  note {
    says = "d"
  }
}
bulletin "e" {   ### "incomplete: The bulletin has no steps"
  procedure = a
  after     = 0
}
bulletin "f" {   ### "missing-attribute: .*procedure"
  after = 0
  from  = "2026-02-29"   ### "wrong-value: \"2026-02-29\" is not a day"
  until = "soon"   ### "wrong-value: \"soon\" is not a day"
  note {
    says = "f"
  }
}
bulletin "g" {
  procedure = list_b   ### "unknown-id: No procedure is called \"list_b\""
  replaces  = 0   ### "out-of-range: The number of \"replaces\""
  note {
    says = "g"
  }
}
---
# bulletins that disagree
procedure "a" {
  note {
    says = "one"
  }
}
bulletin "b" {
  procedure = a
  until     = "2026-12-31"
  replaces  = 1
  note {
    says = "b"
  }
}
bulletin "c" {   ### "bulletins: Bulletins \"b\" and \"c\" are in force at once and disagree"
  procedure = a
  from      = "2026-12-31"
  replaces  = 1
  note {
    says = "c"
  }
}
bulletin "d" {   ### "bulletins: Bulletins \"b\" and \"d\"" "bulletins: Bulletins \"c\" and \"d\""
  procedure = a
  note {
    says = "d"
  }
}
---
# procedures without steps
procedure "a" {}   ### "incomplete: The procedure has no steps"
procedure "b" {
  decide {   ### "incomplete: The decide has no steps"
    that = pump
  }
  do {   ### "incomplete: The step \"do\" says nothing. Give it set or says"
    by = "PF"
  }
  check {   ### "incomplete: The step \"check\" says nothing"
    by = "PM"
  }
  do {   ### "incomplete: A setting needs both set and to"
    set = lever
  }
  later {   ### "incomplete: The step \"later\" says nothing. Give it says or steps"
    in = climb
  }
}
---
# procedures that send to each other without end
procedure "a" {
  note {
    says  = "a"
    go_to = b
  }
}
procedure "b" {
  note {
    says = "b"
  }
}
bulletin "c" {
  procedure = b
  after     = 1
  do {   ### "list-loop: Procedures send to each other without end. The way is a → b → a"
    says  = "c"
    go_to = a
  }
}
procedure "d" {
  note {   ### "list-loop: .*The way is d → d"
    says  = "d"
    go_to = d
    leave = true
  }
}
procedure "e" {
  note {
    says  = "e"
    leave = true   ### "contradiction: The line leaves its list, and says for which not"
  }
  note {
    says  = "e"
    go_to = pump   ### "wrong-kind: "
  }
  tell {   ### "missing-attribute: A tell needs \"says\""
    whom = "tower"   ### "unknown-word: "
  }
}
---
# numbers of the flight stand in steps only, and must be there
signal "a_kt" {
  value = flight.decision_kt   ### "only-in-steps: .flight.decision_kt. is only for what a crew look at"
}
procedure "b" {
  check {
    that = 5 < flight.decison_kt   ### "unknown-fact: A flight has no number .decison_kt.*Did you mean \"flight.decision_kt\""
  }
}
---
# what a crew cannot know
indication "gauge" {
  shows = pressure
  means = pressure
}
procedure "a" {
  check {
    that = gauge && seen.on_ground && climb && lever == "on"
  }
  check {
    that = pressure && real.icing && gauge   ### "cannot-know: .that. asks for what is true, and a crew know only what is shown. Read an indication, an alert, a control, a phase or seen.. instead of: pressure, shown by gauge; real.icing, which no indication stands for"
  }
  note {
    if   = pressure || pump   ### "cannot-know: .if. asks.*pressure, shown by gauge; pump"
    says = "a"
  }
  note {
    says     = "a"
    wait_for = failed(pump)   ### "cannot-know: .wait_for. asks.*failed.pump."
  }
  later {
    when = failed(pump)   ### "cannot-know: .when. asks.*failed.pump."
    note {
      says = "a"
    }
  }
}
