# nothing that is worth a word
unit "a" {}
signal "b" {
  value = a
}
---
# a unit that nothing uses
unit "a" {}   ### "unused-unit: Nothing uses unit \"a\""
unit "b" {}
signal "c" {
  value = failed(b)
}
---
# a unit that is used on one build only
variant "old" {
  title = "Old"
}
variant "new" {
  title = "New"
}
unit "a" {}
signal "b" {
  value = pump
  variant "new" {
    value = a
  }
}
---
# a control that nothing reads
control "a" {   ### "unused-control: Nothing reads control \"a\""
  positions = ["off", "on"]
  initial   = "off"
}
---
# a function that nothing tells of
function "a" {   ### "untold: No alert or indication tells of function \"a\""
  works = pump
}
function "b" {
  works = pump
}
function "c" {
  works = pump
}
indication "d" {
  shows = pump
  means = b && pump
  tells = [c]
}
---
# a caution without a procedure
alert "a" {   ### "no-procedure: Alert \"a\" has no procedure. A caution calls for action"
  level   = "caution"
  message = "a"
  when    = pump
}
alert "b" {
  level     = "warning"
  message   = "b"
  when      = pump
  procedure = list
}
---
# an indication without a meaning
indication "a" {   ### "no-meaning: Indication \"a\" has no meaning"
  shows = pump
}
---
# a number without a unit
signal "a" {   ### "no-unit: Number signal \"a\" does not say its unit"
  value = real.height_ft * 2
}
---
# conditions that never change
phase "never" {
  begins = 1 > 2   ### "constant: This begins never changes"
}
alert "a" {
  level   = "advisory"
  message = "a"
  when    = aircraft.wing_area_m2 > 5   ### "constant: This when never changes"
}
---
# a book without flights and phases, alone
aircraft "a" {
  title = "A"
}
### whole "no-flight: The book has no flight" "no-phase: The book has no phase"
---
# decisions with one answer
procedure "a" {
  decide {   ### "one-answer: This decision says nothing for the answer no. The other answer moves a control. Say in else"
    that = climb
    then {
      do {
        set = lever
        to  = "on"
      }
    }
  }
  decide {
    that = climb
    then {
      note {
        says = "a"
      }
    }
  }
  later {
    in = climb
    decide {   ### "one-answer: This decision says nothing for the answer yes"
      that = climb
      else {
        later {
          in = climb
          do {
            set = lever
            to  = "off"
          }
        }
      }
    }
  }
}
---
# what it is flown by is not catastrophic, alone
aircraft "a" {
  title   = "A"
  flyable = steered || u   ### "flyable: The aircraft cannot be flown without \"steered\", whose loss is not catastrophic here. Say severity"
}
unit "u" {}
function "steered" {   ### "untold: No alert"
  works = u
}
### whole "no-flight: The book has no flight" "no-phase: The book has no phase"
---
# what it is flown by is no function, alone
aircraft "a" {
  title   = "A"
  flyable = u   ### "flyable: What the aircraft cannot be flown without is not a function. Name functions"
}
unit "u" {}
### whole "no-flight: The book has no flight" "no-phase: The book has no phase"
---
# an alert that does not call
alert "calls" {
  level     = "caution"
  message   = "CALLS"
  when      = pressure
  procedure = a
}
alert "silent" {
  level   = "advisory"
  message = "SILENT"
  when    = pressure
}
procedure "a" {
  check {
    that = called_by(calls)
  }
  check {
    that = called_by(silent)   ### "never-called: .silent. does not call for .a., so this is never yes. Give the alert procedure = a"
  }
}
