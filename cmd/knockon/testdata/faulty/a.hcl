aircraft "test" { title = "Test aircraft" }
phase "only" {}
unit "pump" {}
function "lamp" { works = pomp }
