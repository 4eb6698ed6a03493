# how a loss is noticed is said in neither way
function "extra" {   ### "incomplete: How the loss of \"extra\" is noticed is not said in one way"
  works          = pump
  noticed_by     = "felt"
  noticed_source = "common practice"
}
---
# how a loss is noticed is said in both ways
function "extra" {   ### "incomplete: How the loss of \"extra\" is noticed is not said in one way"
  works           = pump
  noticed_at_once = true
  noticed_when    = !lamp
  noticed_by      = "seen"
  noticed_source  = "common practice"
}
---
# a loss is noticed, and nobody says by which sense
function "extra" {   ### "incomplete: By which sense the loss of \"extra\" is noticed"
  works           = pump
  noticed_at_once = true
  noticed_source  = "common practice"
}
---
# a sense that nobody has
function "extra" {   ### "incomplete: By which sense"
  works           = pump
  noticed_at_once = true
  noticed_by      = "guessed"   ### "guessed"
  noticed_source  = "common practice"
}
---
# noticed for an alert that calls
function "extra" {
  works          = pump
  noticed_when   = called_by(low)   ### "only-in-steps"
  noticed_by     = "seen"
  noticed_source = "common practice"
}
---
# a number cannot be down
alert "other" {
  level       = "advisory"
  message     = "OTHER"
  when        = !pressure
  claims_down = [height_ft]   ### "wrong-value: \"height_ft\" is not a yes/no"
}
---
# what an alert takes for down
alert "other" {
  level       = "advisory"
  message     = "OTHER"
  when        = !pressure
  claims_down = [pump, pump.leaks, brakes, pressure]
}
---
# a way of telling that needs itself
alert "other" {
  level   = "advisory"
  message = "OTHER"
  when    = !pressure
  sound   = !other   ### "loop: \"other\" depends on itself"
}
---
# ways of telling of a level, alone
aircraft "base" {
  title = "Base"
  telling "warning" {
    text  = true
    sound = true
  }
  telling "warning" {   ### "duplicate: There are two telling blocks for \"warning\""
    text = true
  }
  telling "shout" {   ### "shout"
    text = true
  }
  telling "caution" {   ### "incomplete: No way of telling a caution is given"
  }
}
unit "pump" {}
function "brakes" {
  works = pump
}
