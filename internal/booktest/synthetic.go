// Package booktest makes books for tests and benchmarks: big ones, regular, with
// no sense in them but with the shape of a real one. The same numbers always
// make the same book, and every book it makes loads without errors.
package booktest

import (
	"fmt"
	"io/fs"
	"strings"
	"testing/fstest"
)

// perFile is how many items stand in one file.
const perFile = 1000

// Synthetic gives the files of a book with so many units and so many other
// items (signals, controls, functions, alerts, indications), beside the few
// that every book has. Units hang on each other like a supply tree with a
// second source here and there; signals read units and earlier signals, some
// through memories; functions read signals, alerts and indications tell of them.
func Synthetic(units, items int) fs.FS {
	files := fstest.MapFS{"00-book.hcl": {Data: []byte(frame)}}
	write(files, "10-units", units, unit)
	s := &shape{units: units}
	write(files, "20-items", items, s.item)
	return files
}

// write makes items 0 to n-1 in files of perFile.
func write(files fstest.MapFS, name string, n int, item func(*strings.Builder, int)) {
	for from := 0; from < n; from += perFile {
		var text strings.Builder
		for i := from; i < min(n, from+perFile); i++ {
			item(&text, i)
		}
		files[fmt.Sprintf("%s-%03d.hcl", name, from/perFile)] = &fstest.MapFile{Data: []byte(text.String())}
	}
}

func unit(w *strings.Builder, i int) {
	fmt.Fprintf(w, "unit \"unit_%d\" {\n  title   = \"Unit %d\"\n  chapter = %d\n", i, i, 20+i%60)
	switch {
	case i == 0:
	case i%3 == 0 && i > 8:
		fmt.Fprintf(w, "  needs   = unit_%d || unit_%d\n", i/2, i/4)
	case i%7 == 0 && i > 8:
		fmt.Fprintf(w, "  needs   = unit_%d && !unit_%d.stuck\n", i/2, i/4)
	default:
		fmt.Fprintf(w, "  needs   = unit_%d\n", i/2)
	}
	w.WriteString("  rate_per_hour = 1e-5\n  fault \"stuck\" {\n    stops = true\n  }\n}\n\n")
}

// shape counts what has been made so far, so that items read only earlier ones.
type shape struct{ units, signals, numbers, functions, controls int }

// cycle is the order in which kinds of items follow each other.
var cycle = []func(*shape, *strings.Builder, int){
	(*shape).signal, (*shape).signal, (*shape).function, (*shape).number, (*shape).signal,
	(*shape).alert, (*shape).signal, (*shape).latch, (*shape).indication, (*shape).signal,
	(*shape).control, (*shape).signal, (*shape).function, (*shape).number, (*shape).signal,
	(*shape).alert, (*shape).memory, (*shape).signal, (*shape).indication, (*shape).alert,
}

func (s *shape) item(w *strings.Builder, i int) { cycle[i%len(cycle)](s, w, i) }

// unitFor spreads items over the units; true where there are none.
func (s *shape) unitFor(i int) string {
	if s.units == 0 {
		return "real.on_ground"
	}
	return fmt.Sprintf("unit_%d", i*7%s.units)
}

// earlier gives a signal made before, or a unit.
func (s *shape) earlier(i int) string {
	if s.signals == 0 {
		return s.unitFor(i)
	}
	return fmt.Sprintf("signal_%d", s.signals-1-i%min(s.signals, 50))
}

func (s *shape) signal(w *strings.Builder, i int) {
	fmt.Fprintf(w, "signal \"signal_%d\" {\n  value = (%s && %s) || (%s && !%s)\n}\n\n",
		s.signals, s.unitFor(i), s.earlier(i), s.unitFor(i+3), s.unitFor(i+5))
	s.signals++
}

func (s *shape) latch(w *strings.Builder, i int) {
	fmt.Fprintf(w, "signal \"signal_%d\" {\n  set   = !%s\n  reset = %s && climb\n}\n\n", s.signals, s.earlier(i), s.unitFor(i))
	s.signals++
}

func (s *shape) memory(w *strings.Builder, i int) {
	fmt.Fprintf(w, "signal \"signal_%d\" {\n  value = held(%s, %d) || pulse(!%s, %d)\n}\n\n", s.signals, s.earlier(i), 1+i%30, s.unitFor(i), 1+i%10)
	s.signals++
}

func (s *shape) number(w *strings.Builder, i int) {
	fmt.Fprintf(w, "signal \"number_%d_ft\" {\n  value = %s ? real.height_ft + %d : most_of(real.altitude_ft, 0)\n}\n\n", s.numbers, s.earlier(i), i%100)
	s.numbers++
}

func (s *shape) control(w *strings.Builder, i int) {
	fmt.Fprintf(w, "control \"control_%d\" {\n  positions = [\"off\", \"auto\", \"on\"]\n  initial   = \"auto\"\n}\n\n", s.controls)
	s.controls++
	fmt.Fprintf(w, "signal \"signal_%d\" {\n  value = control_%d == \"on\" || (control_%d == \"auto\" && %s)\n}\n\n",
		s.signals, s.controls-1, s.controls-1, s.earlier(i))
	s.signals++
}

func (s *shape) function(w *strings.Builder, i int) {
	fmt.Fprintf(w, "function \"function_%d\" {\n  title    = \"Function %d\"\n  works    = any(%s, %s)\n  severity = \"major\"\n}\n\n",
		s.functions, s.functions, s.earlier(i), s.unitFor(i))
	s.functions++
}

// told is the function that an alert or an indication tells of.
func (s *shape) told(i int) string { return fmt.Sprintf("function_%d", i%s.functions) }

func (s *shape) alert(w *strings.Builder, i int) {
	fmt.Fprintf(w, "alert \"alert_%d\" {\n  level     = \"caution\"\n  message   = \"Message %d\"\n  when      = held(!%s, 2)\n  quiet_in  = [take_off]\n  tells     = [%s]\n  procedure = checklist\n}\n\n",
		i, i, s.earlier(i), s.told(i))
}

func (s *shape) indication(w *strings.Builder, i int) {
	fmt.Fprintf(w, "indication \"indication_%d\" {\n  shows  = number_%d_ft\n  means  = real.height_ft\n  within = 50\n  lit_by = %s\n  tells  = [%s]\n}\n\n",
		i, i%s.numbers, s.unitFor(i), s.told(i))
}

const frame = `aircraft "synthetic" {
  title = "Synthetic"
}
phase "ground" {}
phase "take_off" {
  begins = real.airspeed_kt > 60
}
phase "climb" {
  begins = !real.on_ground && real.height_ft > 400
}
phase "descent" {
  begins = real.height_ft > 5000 && real.vertical_speed_ft_per_min < -500
}
phase "landing_roll" {
  begins = real.on_ground
}
procedure "checklist" {
  note {
    says = "Nothing to do."
  }
}
flight "short" {
  from               = "North"
  to                 = "South"
  takeoff_mass_kg    = 60000
  fuel_kg            = 8000
  cruise_altitude_ft = 30000
  distance_nm        = 300
  rotate_kt          = 140
  climb_kt           = 290
  climb_mach         = 0.76
  descent_kt         = 290
  approach_kt        = 135
}
`
