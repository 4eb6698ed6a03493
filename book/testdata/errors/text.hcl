# an expression breaks after its operator
signal "a" {
  value = pump &&   ### "line-break: .*only in parentheses.*value = \\("
    pressure
}
---
# an expression breaks before its operator
signal "a" {
  value = pump
    && pressure   ### "line-break: "
}
---
# a value stands in the next line
signal "a" {
  value =   ### "line-break: "
    pump
}
---
# a choice breaks before its colon
signal "a_ft" {
  value = pump ? 1   ### "line-break: "
    : 2
}
---
# in parentheses an expression may break
signal "a" {
  value = (
    pump &&
    pressure
  )
}
---
# an attribute is given twice
unit "a" {
  needs = pump
  needs = pressure   ### "attribute-twice: \"needs\" is given twice. Leave one of the two out. The first is in line 3\\."
}
---
# a brace is not closed
unit "a" {   ### "syntax: Unclosed block"
  needs = pump
---
# a brace too many
signal "a" {
  value = pump
}
}   ### "syntax: Attribute or block"
---
# a parenthesis is not closed
signal "a" {
  value = (pump   ### "syntax: Unbalanced parentheses"
}
---
# single quotes
alert "a" {
  level   = "caution"
  message = 'Low'   ### "syntax: Invalid character.*Use double quotes" "syntax: "
  when    = pump
}
---
# a single ampersand
signal "a" {
  value = pump & pressure   ### "syntax: Unsupported operator.*&&" "syntax: "
}
---
# the word and
signal "a" {
  value = pump and pressure   ### "syntax: The expression ends before this. For and write &&\\."
}
---
# an equals sign for a comparison
signal "a" {
  value = lever = "on"   ### "syntax: The expression ends before this. To compare write =="
}
---
# a unit after a number
signal "a" {
  value = height_ft > 50 ft   ### "syntax: The expression ends before this. Join conditions.*units into names"
}
---
# two attributes in a one-line block
signal "a" { value = pump, title = "A" }   ### "syntax: "
---
# a text has a template in it
unit "a" {
  title = "pump ${b}"   ### "template: A text may not hold"
}
---
# a text of several lines has a template in it
unit "a" {
  note = <<END
pump %{ if b }   ### "template: "
END
}
---
# a text of several lines
signal "a" {
  value = pump
  note  = <<END
one
two
END
}
---
# brackets are nested too deeply
signal "a" {
  value = ((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((pump))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))))   ### "too-deep: "
}
---
# a number is too long
limit "a" {
  quantity = real.height_ft
  most     = 1234567890123456789012345678901234567890123456789012345678901234567890   ### "too-long: The number"
}
---
# text after an error is not blamed for what it can no longer find
unit "a" {
  needs = (pump   ### "syntax: "
}
signal "b" {
  value = a && held(c, 5)
}
---
# a call that is not closed
signal "a" {
  value = pump || frozen(pump   ### "syntax: Missing comma or closing parenthesis.*each function argument"
}
