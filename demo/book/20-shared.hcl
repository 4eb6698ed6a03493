# What chapters 21 to 38, 52 and 78 share: by which way the news of a system reaches the crew. Left systems report
# through data unit 1, right systems through data unit 2. A few report through both. What is wired straight to the
# alerting computers needs none of these.

chapter = 31

signal "news_left" {
  title   = "News of the left systems reaches an alerting computer"
  value   = alerting && data_unit_1
}

signal "news_right" {
  title   = "News of the right systems reaches an alerting computer"
  value   = alerting && data_unit_2
}

signal "news_either" {
  title   = "News that travels both ways reaches an alerting computer"
  value   = alerting && (data_unit_1 || data_unit_2)
}

signal "systems_left_drawn" {
  title   = "A system picture shows the left systems"
  value   = system_picture && data_unit_1
}

signal "systems_right_drawn" {
  title   = "A system picture shows the right systems"
  value   = system_picture && data_unit_2
}

signal "systems_either_drawn" {
  title   = "A system picture shows what both data units carry"
  value   = system_picture && (data_unit_1 || data_unit_2)
}
