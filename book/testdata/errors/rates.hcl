# rates and checks that can be
unit "a" {
  rate_per_hour   = 1
  checked_every_h = 0.1
  fault "low" {
    rate_per_hour   = 1e-9
    checked_every_h = 1000000
  }
}
signal "b" {
  value = a
}
---
# rates that can hardly be meant
unit "a" {
  rate_per_hour = 0   ### "odd-rate: A rate of 0 says that this never fails"
  fault "low" {
    rate_per_hour = 1.5   ### "odd-rate: This fails more than once an hour"
  }
}
event "bang" {
  fails         = [a, pump]
  rate_per_hour = 2 - 2   ### "odd-rate: A rate of 0"
}
signal "b" {
  value = a
}
---
# rates that cannot be
unit "a" {
  rate_per_hour = -1   ### "out-of-range: The number of \"rate_per_hour\""
  fault "low" {
    rate_per_hour = pump   ### "wrong-value: \"rate_per_hour\" needs a plain number"
  }
}
signal "b" {
  value = a
}
---
# a check that never comes, and one without end
unit "a" {
  checked_every_h = 0   ### "out-of-range: The number of \"checked_every_h\" is out of range. It must be from 0.1 to 1000000"
  fault "low" {
    checked_every_h = 1e7   ### "out-of-range: The number of \"checked_every_h\""
  }
  fault "high" {
    checked_every_h = -5   ### "out-of-range: The number of \"checked_every_h\""
  }
}
signal "b" {
  value = a
}
---
# a check of what cannot be checked
event "bang" {
  fails           = [pump]
  checked_every_h = 500   ### "unknown-attribute"
}
signal "b" {
  value           = pump
  checked_every_h = 500   ### "unknown-attribute"
}
---
# over on purpose, over what
function "a" {
  works           = pump
  over_on_purpose = "a lesson"   ### "incomplete: Function \"a\" is over on purpose, and has no severity"
}
function "b" {
  works           = pump
  severity        = "major"
  over_on_purpose = "a lesson"
}
