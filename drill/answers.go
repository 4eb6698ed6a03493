package drill

import (
	"knockon/book"
	"knockon/crew"
)

// answers holds each decision that was taken against what the flight deck showed
// then, by the rule that the crew go by.
func (t *teller) answers(d *Debrief) {
	for _, in := range t.done {
		if in.Do != Tick {
			continue
		}
		list := t.s.deck.lists[in.ID]
		crew.Walk(t.s.deck.team.Steps(list), func(x *book.Step, number string) {
			if number == in.Step && x.Kind == "decide" && x.That != nil {
				d.Answers = append(d.Answers, t.answer(list, x, in))
			}
		})
	}
}

func (t *teller) answer(list *book.Procedure, x *book.Step, in Input) Answer {
	saw := t.s.deck.team.Saw(t.record, x, in.At)
	a := Answer{Procedure: list.Title, Number: in.Step, Says: t.s.says(x), At: momentOf(in.At), Given: in.To, Shown: unseen, Misled: saw.Misled()}
	if saw.Answer != crew.Unseen {
		a.Shown = string(saw.Answer)
	}
	was := "it is " + a.Shown + " by what was shown"
	if a.Shown == unseen {
		was = "it could not be seen, since " + saw.String()
	}
	a.Text = "answered " + worded(in.To) + "; " + was
	if a.Given == a.Shown {
		a.Text = "answered " + worded(in.To) + ", as it was shown"
	}
	if a.Misled {
		a.Text += "; what was shown was wrong: " + saw.String()
	}
	return a
}

// worded is an answer in words.
func worded(way string) string {
	if way == unseen {
		return "that it cannot be seen"
	}
	return way
}
