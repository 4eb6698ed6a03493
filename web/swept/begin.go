package swept

import (
	"knockon/web/frame"
	"net/http"
	"net/url"
	"time"
)

// offer puts the button that begins a sweep on its page, or what is in its way.
func (p *Pages) offer(page *sweepPage, a asked) {
	page.Begin = "It has not been worked out since the server was started."
	if a.order != heavy {
		return
	}
	page.Begin += " Three together take a minute or more."
	had := p.jobs.heavy()
	if had == nil {
		return
	}
	page.Begin = inMemory(had) + " " + whatNow(had)
	page.Instead = had.rests()
	page.Elsewhere = option{Title: "The page of that sweep", To: addressOf(had)}
}

// addressOf is the page of a job.
func addressOf(j *job) string {
	return asked{build: j.build, flight: j.flight, order: j.key.order}.with()
}

// begin answers POST /sweep/begin and /assess/begin, and leads back to that page.
func (p *Pages) begin(page string) frame.Handler {
	return func(r *http.Request) (reply, error) {
		a, v, err := posted(r, p.asked)
		if err != nil {
			return reply{}, err
		}
		return reply{To: a.on(page)}, p.jobs.begin(a.key(), a.build, a.flight, v.Get("instead") == "yes")
	}
}

// stop answers POST /sweep/stop and /assess/stop.
func (p *Pages) stop(page string) frame.Handler {
	return func(r *http.Request) (reply, error) {
		a, _, err := posted(r, p.asked)
		if err != nil {
			return reply{}, err
		}
		if j := p.jobs.look(a.key()); j != nil {
			run := j.work()
			run.Stop()
			run.Wait(r.Context(), 5*time.Second)
		}
		return reply{To: a.on(page)}, nil
	}
}

// mostForm bounds the bytes of a posted form.
const mostForm = 1 << 16

// posted reads what a posted form asks.
func posted[A any](r *http.Request, read func(url.Values) (A, error)) (a A, v url.Values, err error) {
	r.Body = http.MaxBytesReader(nil, r.Body, mostForm)
	if err := r.ParseForm(); err != nil {
		return a, nil, frame.Wrong("The form could not be read: it is broken, or longer than 64 kB.")
	}
	a, err = read(r.PostForm)
	return a, r.PostForm, err
}
