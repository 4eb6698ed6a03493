package web

import (
	"fmt"
	"net/http"

	"knockon/book"
	"knockon/costs"
	"knockon/region"
	"knockon/say"
)

// untilPage is until when each airfield is good, if the flight goes on meanwhile.
type untilPage struct {
	Aircraft, Title, Caution, Address string

	Back     string // address of the price
	JSON     string
	Problems []problem
	Lead     string
	Rows     []untilRow
}

// untilRow is an airfield with the words for its last good moment.
type untilRow struct {
	costs.UntilRow
	Until string // how long after the turn
	Clock string // and from the start of the flight
	Phase string // of the flight then
}

// errBegun is said where there is nothing left to put off.
var errBegun = problem{"turn", costs.ErrBegun.Error()}

// costsUntil answers GET /costs/until, a page of its own: it takes seconds.
func (s *Site) costsUntil(r *http.Request) (reply, error) {
	p, err := s.price(r)
	if p == nil {
		return reply{}, err
	}
	page := &untilPage{
		Aircraft: p.q.shelf.title(), Title: "Until when: " + p.a.view.Asked, Caution: book.Caution,
		Address: site(r) + "/costs/until?" + p.query(), Back: "/costs?" + p.query(), JSON: "/costs/until.json?" + p.query(),
	}
	text, ours := theirs(err)
	switch {
	case ours:
		page.Problems = []problem{text}
	case err != nil:
		return reply{}, err
	case p.Landing:
		page.Problems = []problem{errBegun}
	default:
		if err := p.fillUntil(r, s.setting.Region, page); err != nil {
			return reply{}, err
		}
	}
	rep, err := s.frame.Page("until", page)
	if len(page.Problems) > 0 {
		rep.Status = http.StatusBadRequest
	}
	return rep, err
}

func (p *price) fillUntil(r *http.Request, region *region.Region, page *untilPage) error {
	list, err := p.until(r.Context(), p.a, region)
	if err != nil {
		return err
	}
	titles := map[string]string{}
	for _, phase := range p.q.build.Phases {
		titles[phase.ID] = phase.Title
	}
	v := p.UntilView(p.a.view.Asked, list)
	page.Lead = untilLead(v.Rows)
	for i, row := range v.Rows {
		u := untilRow{UntilRow: row}
		if row.Ever && !row.Always {
			at := list[i].At
			u.Until, u.Clock, u.Phase = say.Lasts(at-p.At), say.Clock(at), titles[p.a.Here.PhaseAt(at)]
		}
		page.Rows = append(page.Rows, u)
	}
	return nil
}

// untilLead counts the airfields by how long they are good.
func untilLead(rows []costs.UntilRow) string {
	var always, some, never int
	for _, r := range rows {
		switch {
		case r.Always:
			always++
		case r.Ever:
			some++
		default:
			never++
		}
	}
	var parts []string
	for _, p := range []struct {
		n         int
		one, more string
	}{{always, "one is good until the approach", "%d are good until the approach"}, {some, "one is good for a time", "%d are good for a time"}, {never, "one is never good", "%d are never good"}} {
		switch {
		case p.n == 1:
			parts = append(parts, p.one)
		case p.n > 1:
			parts = append(parts, fmt.Sprintf(p.more, p.n))
		}
	}
	if len(parts) == 0 {
		return "No airfield was looked at."
	}
	return fmt.Sprintf("Of %s %s.", say.Counted(len(rows), "airfield"), say.And(parts))
}

// costsUntilJSON answers GET /costs/until.json.
func (s *Site) costsUntilJSON(r *http.Request) (reply, error) {
	p, err := s.price(r)
	if err != nil {
		return reply{}, err
	}
	if p.Landing {
		return reply{}, &fault{Status: http.StatusBadRequest, Text: errBegun.Text}
	}
	list, err := p.until(r.Context(), p.a, s.setting.Region)
	if err != nil {
		return reply{}, err
	}
	return asJSON(struct {
		Question string           `json:"question"`
		Until    *costs.UntilView `json:"until"`
	}{"/costs/until?" + p.query(), p.UntilView(p.a.view.Asked, list)})
}
