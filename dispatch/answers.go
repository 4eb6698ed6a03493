package dispatch

import "knockon/book"

// answersNot says that all units that read a control, directly or through signals,
// are inoperative, and that there are such units.
func (s *survey) answersNot(control string) bool {
	units := s.Build.UnitsBehind(control)
	for _, u := range units {
		if !(facts{out: s.Relief.Items}).broken(book.FailureRef{Unit: u}) {
			return false
		}
	}
	return len(units) > 0
}
