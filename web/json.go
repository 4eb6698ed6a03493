package web

import (
	"encoding/json"
	"errors"
	"net/http"

	"knockon/ask"
)

// json answers GET /answer.json: the ledger's view, with the question.
func (s *Site) json(r *http.Request) (reply, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return reply{}, err
	}
	body, err := json.MarshalIndent(struct {
		Question string `json:"question"`
		Ledger   any    `json:"ledger"`
	}{"/?" + q.Query(), a.view}, "", "  ")
	return reply{Kind: kindJSON, Body: append(body, '\n')}, err
}

// theirs tells whether an error is the question's fault, and says it.
func theirs(err error) (problem, bool) {
	var t *ask.Trouble
	if !errors.As(err, &t) {
		return problem{}, false
	}
	return problem{t.Part, t.Text}, true
}
