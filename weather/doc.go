// Package weather turns weather in the open aerodrome report code (METAR and
// SPECI: FM 15 and FM 16 of the WMO Manual on Codes, WMO-No. 306, ICAO Annex 3)
// into numbers, and a runway's condition as a person types it into condition
// codes. Nothing in a report is ever fatal: what cannot be read is kept as it
// stands and told, with what was expected.
//
// Start reading at ReadAll (read.go); the groups of a report are rows of a table
// in groups.go. Wind on a runway is Wind.On, conditions are ReadCondition.
//
// What comes out is for training and study, not for use in flight.
package weather
