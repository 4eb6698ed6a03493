package web

import (
	"context"
	"html/template"
	"io"
	"net/http"
	"runtime"
	"slices"

	"knockon/ask"
	"knockon/book"
	"knockon/figure/face"
	"knockon/handout"
	"knockon/ledger"
	"knockon/point/vary"
)

// handoutPage is a handout on a page, or in a file of its own.
type handoutPage struct {
	*handout.View
	Aircraft          string
	Picture           template.HTML
	Appendix          bool
	Style             template.CSS // of a file; "" on a page
	Back, File, Other string
}

// Breaking says that the flight of a phase breaks off.
func (p *handoutPage) Breaking() bool {
	return slices.ContainsFunc(p.Phases, func(c vary.Cell) bool { return c.Breaks })
}

func handoutOf(a *ask.Answer, v *handout.View, appendix bool) *handoutPage {
	return &handoutPage{View: v, Aircraft: a.Course.Build.Aircraft.Title, Appendix: appendix, Picture: template.HTML(v.Line.Printed())} // package figure escapes what it draws
}

// handout answers GET /handout: the answer as one sheet of paper.
func (s *Site) handout(r *http.Request) (reply, error) {
	p, err := s.sheet(r)
	if err != nil {
		return reply{}, err
	}
	return s.frame.Page("handout", p)
}

// handoutFile answers GET /handout.html: the same as a file that needs nothing else.
func (s *Site) handoutFile(r *http.Request) (reply, error) {
	p, err := s.sheet(r)
	if err != nil {
		return reply{}, err
	}
	if p.Style, err = alone(); err != nil {
		return reply{}, err
	}
	rep, err := s.frame.Page("handout", p)
	rep.Name = "handout.html"
	return rep, err
}

// sheet is the handout of the question of an address; "appendix=yes" adds the appendix.
func (s *Site) sheet(r *http.Request) (*handoutPage, error) {
	q, a, err := s.asked(r)
	if err != nil {
		return nil, err
	}
	b, err := s.besideSheet(r.Context(), q, a)
	if err != nil {
		return nil, err
	}
	appendix := r.URL.Query().Get("appendix") == "yes"
	p := handoutOf(a.Answer, handout.Of(a.Answer, a.view, b), appendix)
	query, more := q.Query(), "&appendix=yes"
	p.Back, p.Other = "/?"+query, "/handout?"+query+more
	if p.File = "/handout.html?" + query; appendix {
		p.File, p.Other = p.File+more, "/handout?"+query
	}
	return p, nil
}

// besideSheet is what other flights make of an answer, kept for the next who asks where
// all of it was flown.
func (s *Site) besideSheet(ctx context.Context, q *question, a *kept) (*handout.Beside, error) {
	b := &handout.Beside{Others: []ledger.Varied{}}
	for _, l := range s.varied(ctx, q, a) {
		b.Others = append(b.Others, l.Varied)
	}
	if x := s.saved(ctx, q, a); x != nil {
		b.Saves = &x.Varied
	}
	a.handing.Lock()
	defer a.handing.Unlock()
	if a.sheet == nil {
		a.sheet = &handout.Beside{Others: b.Others}
		if err := a.sheet.Fly(ctx, a.Answer, runtime.GOMAXPROCS(0)); err != nil {
			a.sheet = nil
			return nil, err
		}
	}
	b.Phases, b.Worths, b.NoWorths, b.Price = a.sheet.Phases, a.sheet.Worths, a.sheet.NoWorths, a.sheet.Price
	if !a.sheet.Whole() {
		a.sheet = nil
	}
	return b, nil
}

// alone is the style of a file that needs nothing else.
func alone() (template.CSS, error) {
	book, err := files.ReadFile("static/" + styleSheet)
	if err != nil {
		return "", err
	}
	own, err := files.ReadFile("static/handout.css")
	return template.CSS(face.Rules(face.Inside) + string(book) + string(own)), err
}

// WriteHandout writes the handout of an answer as a file that needs nothing else.
func WriteHandout(w io.Writer, b *book.Book, a *ask.Answer, v *handout.View, appendix bool) error {
	static, err := loadAssets()
	if err != nil {
		return err
	}
	f, err := newFrame(b, nil, static)
	if err != nil {
		return err
	}
	p := handoutOf(a, v, appendix)
	if p.Style, err = alone(); err != nil {
		return err
	}
	rep, err := f.Page("handout", p)
	if err != nil {
		return err
	}
	_, err = w.Write(rep.Body)
	return err
}
