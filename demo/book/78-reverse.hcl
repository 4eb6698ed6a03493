# Thrust reversers: skeleton of the shared ids; the whole chapter follows.
control "reverse_left_lever" {
  title     = "Left reverse lever"
  chapter   = 78
  positions = ["stowed", "idle", "full"]
  initial   = "stowed"
}
control "reverse_right_lever" {
  title     = "Right reverse lever"
  chapter   = 78
  positions = ["stowed", "idle", "full"]
  initial   = "stowed"
}
