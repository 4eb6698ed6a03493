// Package book turns a folder of text files that describe an aircraft type into
// a checked model of it, or into everything that is wrong with them. A Book that
// has been given out is frozen and consistent: every id in it is there on its
// build, every expression has its type, no value depends on itself but through a
// memory, and the same files make the same Book. It reads nothing but the fs.FS
// it is given.
//
// Begin with Load, then Build in model.go and Expr in expr.go; the language is
// described in docs/language.md, what it means in docs/meaning.md.
package book

import (
	"fmt"
	"math"
)

// For maintainers, the way of a load: files.go reads the texts, guard.go keeps
// out what would make the parser go too deep, parse.go parses, declare.go takes
// in blocks by the tables in grammar.go, variants.go finds the builds, and for
// each of them assemble.go makes the items: infer.go finds the types of signals,
// check*.go check expressions, decode*.go the blocks, loops.go and continuous.go
// the whole. Diagnostics are made in say_*.go only, one constructor for each.

// Book is a whole book: all its blocks as written, and one Build for every
// build standard. It is frozen after Load.
type Book struct {
	Variants []*Variant
	builds   []*Build // in the order of Variants
}

// Build returns the build of a variant; "" means the first. ok is false for an
// id that is no variant.
func (b *Book) Build(variant string) (build *Build, ok bool) {
	for i, v := range b.Variants {
		if variant == "" || v.ID == variant {
			return b.builds[i], true
		}
	}
	return nil, false
}

// Caution stands on everything that shows a number or a procedure.
const Caution = "For training and study only, not for use in flight. The operator's approved manuals and licensed judgement prevail."

// chapters of ATA Specification 100 that systems of an aircraft fall into, by
// their usual titles; FAA "Joint Aircraft System/Component Code Table and
// Definitions" (2008) has the same list. From memory.
var chapters = map[int]string{
	21: "Air conditioning", 22: "Auto flight", 23: "Communications", 24: "Electrical power", 25: "Equipment and furnishings",
	26: "Fire protection", 27: "Flight controls", 28: "Fuel", 29: "Hydraulic power", 30: "Ice and rain protection",
	31: "Indicating and recording", 32: "Landing gear", 33: "Lights", 34: "Navigation", 35: "Oxygen", 36: "Pneumatic",
	38: "Water and waste", 45: "Central maintenance", 46: "Information systems", 49: "Auxiliary power", 51: "Structures",
	52: "Doors", 53: "Fuselage", 54: "Nacelles and pylons", 55: "Stabilizers", 56: "Windows", 57: "Wings", 61: "Propellers",
	70: "Engine practices", 71: "Power plant", 72: "Engine", 73: "Engine fuel and control", 74: "Ignition", 75: "Engine air",
	76: "Engine controls", 77: "Engine indicating", 78: "Exhaust", 79: "Engine oil", 80: "Starting",
}

// ChapterTitle is the usual title of an ATA chapter; "" of one that has none.
func ChapterTitle(n int) string { return chapters[n] }

// Time is a moment of a flight in whole microseconds from its start. Counting
// whole microseconds keeps sums of timers exact and makes the located moment
// of a crossing the same whatever step the search used.
type Time int64

// Second is one second.
const Second Time = 1_000_000

// Never is later than every moment of any flight.
const Never Time = math.MaxInt64

// Seconds returns the moment in seconds.
func (t Time) Seconds() float64 { return float64(t) / 1e6 }

// AtSeconds returns the microsecond nearest to s seconds.
func AtSeconds(s float64) Time { return Time(math.Round(s * 1e6)) }

// Range is a place in a book's text. Lines and columns count from 1; columns
// count characters as a person sees them (grapheme clusters).
type Range struct {
	File              string
	Line, Column      int
	EndLine, EndCol   int
	Offset, EndOffset int // bytes from the start of the file
}

// String gives file:line:column.
func (r Range) String() string { return fmt.Sprintf("%s:%d:%d", r.File, r.Line, r.Column) }
