package ask

import (
	"knockon/ledger"
	"knockon/point"
)

// View is an answer in words: its ledger with where what the crew saw led them astray,
// whom they did not reach, and what is worth teaching. Text, pages and the handout are
// all made from it.
func (a *Answer) View() *ledger.View {
	v := a.Ledger.View()
	v.Deceived, v.Unheard = a.Deceived(), a.Unheard()
	v.Worth = point.Of(a.Ledger).View(a.Ledger)
	return v
}
