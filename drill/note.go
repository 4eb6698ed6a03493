package drill

// notes lists what the instructor noted, in the order in which it was noted. A rewind
// takes none of them back: what went before it may be why it was made.
func (s *Session) notes() (list []Noted) {
	for _, in := range s.log {
		if in.Do == Note {
			list = append(list, Noted{momentOf(in.At), in.Says})
		}
	}
	return list
}
