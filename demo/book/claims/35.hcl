claim "masks_do_not_fall" {
  says   = "With the left bus dead the cabin masks do not fall by themselves, and nothing says so. Dropped by hand they do."
  source = "Corvane 71 systems manual 35-21 (fictional)"
  given "nothing done" {
    inoperative = [dc_left]
    fail        = [cabin_wall.leaks]
    at          = "cruise + 600 s"
    expect      = [lost(cabin_breath), at(300, !masks_out)]
  }
  given "by hand" {
    inoperative = [dc_left]
    fail        = [cabin_wall.leaks]
    at          = "cruise + 600 s"
    act "Drop" {
      set  = mask_switch
      to   = "drop"
      when = held(cabin_high, 15)
    }
    expect = [at(60, masks_out), first(!cabin_breath) > 700]
  }
  given "the bus itself" {
    fail   = [dc_left]
    at     = "cruise"
    expect = [not_told(mask_drop)]
  }
}

claim "thirteen_minutes" {
  says   = "The masks give thirteen minutes, counted from when they fall. A crew that stays high has used them up."
  source = "Corvane 71 systems manual 35-22 (fictional)"
  given {
    fail = [cabin_wall.leaks]
    at   = "cruise + 600 s"
  }
  expect = [first(!cabin_breath) - first(masks_out) > 779, first(!cabin_breath) - first(masks_out) < 781]
}
