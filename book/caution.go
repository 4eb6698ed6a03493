package book

// Caution stands on everything that shows a number or a procedure.
const Caution = "For training and study only, not for use in flight. The operator's approved manuals and licensed judgement prevail."
