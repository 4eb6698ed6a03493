package drilling

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/base32"
	"encoding/json"
	"net/http"
	"strings"

	"knockon/drill"
)

// seats are the parts of a drill, each with the word in its link that nobody
// guesses. Who has the link has the part: nothing else says who somebody is.
type seats map[drill.Role]string

// order is that of pages.
var order = []drill.Role{drill.Instructor, drill.PilotFlying, drill.PilotMonitoring, drill.Alone}

var people = map[drill.Role]string{drill.PilotFlying: "Pilot flying", drill.PilotMonitoring: "Pilot monitoring", drill.Alone: "Both pilots", drill.Instructor: "Instructor"}

// word is a word of 16 bytes of chance.
func word() string {
	var b [16]byte
	_, _ = rand.Read(b[:]) // never fails
	return strings.ToLower(base32.StdEncoding.WithPadding(base32.NoPadding).EncodeToString(b[:]))
}

func newSeats(roles ...drill.Role) seats {
	s := seats{}
	for _, r := range roles {
		s[r] = word()
	}
	return s
}

// of is whose word it is. It takes as long for a word that is nearly right.
func (s seats) of(word string) (who drill.Role, ok bool) {
	for role, w := range s {
		if subtle.ConstantTimeCompare([]byte(w), []byte(word)) == 1 {
			who, ok = role, true
		}
	}
	return who, ok
}

// alone says that a drill has no instructor: who is alone may end it, and then has
// all of it.
func (s seats) alone() bool { return s[drill.Instructor] == "" }

func (h *Hall) seatsKept(id string) (s seats, err error) {
	text, err := h.set.Shelf.Seats(id)
	if err != nil {
		return nil, err
	}
	return s, json.Unmarshal(text, &s)
}

// address of a seat.
func address(id, word string) string { return "/drill/of/" + id + "/" + word + "/" }

// handed is a seat as the instructor's page shows it.
type handed struct {
	Role  drill.Role
	Title string
	Link  string
}

// people is the page that gives each person their link. It is the instructor's.
func (h *Hall) people(w http.ResponseWriter, r *http.Request, l *live, _ drill.Role) error {
	p := page{Title: "Who is who", Back: "./", HereOnly: hereOnly(r.Host)}
	all := l.seated()
	for _, role := range order {
		if all[role] != "" {
			p.Seats = append(p.Seats, handed{role, people[role], "http://" + r.Host + address(l.id, all[role])})
		}
	}
	h.render(w, r, http.StatusOK, "people", p)
	return nil
}

// issue gives a seat a new link; the old one leads nowhere from then on.
func (h *Hall) issue(w http.ResponseWriter, r *http.Request, l *live, _ drill.Role) error {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	role := drill.Role(r.PostFormValue("role"))
	if !l.issue(role) {
		return &drill.Refusal{Why: drill.Garbage, Text: "this drill has no such seat"}
	}
	http.Redirect(w, r, address(l.id, l.seated()[drill.Instructor])+"people", http.StatusSeeOther)
	return nil
}
