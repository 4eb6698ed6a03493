package drilling

import (
	"bytes"
	"context"
	"net/http"
	"sync"

	"knockon/book"
	"knockon/drill"
	"knockon/say"
	"knockon/web/door"
)

// report is the debrief of a drill as it stood at a moment: under way, or there.
type report struct {
	at     book.Time
	inputs int

	mu        sync.Mutex
	begun     bool // it has had its turn
	done, all int  // flights
	ended     bool
	debrief   *drill.Debrief
	err       error
}

func (r *report) underWay() bool {
	if r == nil {
		return false
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	return !r.ended
}

func (r *report) progress(done, all int) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.begun, r.done, r.all = true, done, all
}

func (r *report) end(d *drill.Debrief, err error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.ended, r.debrief, r.err = true, d, err
}

// mayDebrief refuses pilots until the drill has ended.
func (l *live) mayDebrief(ctx context.Context, who drill.Role) error {
	over, err := l.over(ctx)
	if err == nil && !over && who != drill.Instructor {
		err = errNotYet
	}
	return err
}

// beginDebrief has a debrief worked out in the background, unless the one there
// is says all that there is to say. Who is alone ends the drill with it.
func (h *Hall) beginDebrief(w http.ResponseWriter, r *http.Request, l *live, who drill.Role) error {
	r.Body = http.MaxBytesReader(w, r.Body, mostForm)
	if r.PostFormValue("end") != "" {
		if err := l.finish(r.Context(), who); err != nil {
			return err
		}
	}
	if err := l.mayDebrief(r.Context(), who); err != nil {
		return err
	}
	if err := h.report(l); err != nil {
		return err
	}
	http.Redirect(w, r, "debrief", http.StatusSeeOther)
	return nil
}

// finish ends a drill, unless it has ended.
func (l *live) finish(ctx context.Context, who drill.Role) error {
	over, err := l.over(ctx)
	if err != nil || over {
		return err
	}
	_, err = l.take(ctx, drill.Input{Client: string(who) + " " + word(), Number: 1, Who: who, Do: drill.Finish})
	return err
}

// report begins a debrief where one is wanted. It works on a copy of the log, so
// that the drill goes on.
func (h *Hall) report(l *live) error {
	text, at := l.copied()
	l.mu.Lock()
	defer l.mu.Unlock()
	inputs := len(l.session.Log())
	if old := l.report; old.underWay() || old != nil && old.err == nil && old.at == at && old.inputs == inputs {
		return nil
	}
	place, err := h.debriefs.Enter()
	if err != nil {
		return err
	}
	one := &report{at: at, inputs: inputs}
	l.report = one
	h.group.Go(func() {
		defer place.Leave()
		d, err := h.work(one, place, text)
		if err != nil && h.ctx.Err() == nil {
			h.set.Log.Error("debrief", "drill", l.id, "error", err)
		}
		one.end(d, err)
	})
	return nil
}

func (h *Hall) work(one *report, place *door.Place, text []byte) (d *drill.Debrief, err error) {
	defer door.Slip(&err)
	if err := place.Turn(h.ctx); err != nil {
		return nil, err
	}
	one.progress(0, 0)
	s, err := h.replay(h.ctx, bytes.NewReader(text))
	if err != nil {
		return nil, err
	}
	if err := s.Advance(h.ctx, one.at); err != nil {
		return nil, err
	}
	return s.Debrief(h.ctx, one.progress)
}

// debrief shows how far it is, or what it says.
func (h *Hall) debrief(w http.ResponseWriter, r *http.Request, l *live, who drill.Role) error {
	if err := l.mayDebrief(r.Context(), who); err != nil {
		return err
	}
	l.mu.Lock()
	one, now, inputs, log := l.report, l.session.Now(), len(l.session.Log()), who == drill.Instructor || l.seats.alone()
	l.mu.Unlock()
	p := page{Title: "Debrief", Back: "./", Log: log, Notice: l.noticeNow(who)}
	if one == nil {
		h.render(w, r, http.StatusOK, "no-debrief", p)
		return nil
	}
	one.mu.Lock()
	defer one.mu.Unlock()
	p.Begun, p.Done, p.All, p.Debrief, p.UpTo = one.begun, one.done, one.all, one.debrief, say.Clock(one.at)
	p.Older = now > one.at || inputs > one.inputs
	switch {
	case !one.ended:
		h.render(w, r, http.StatusOK, "working", p)
	case one.err != nil:
		p.Text = "The debrief could not be worked out. The log of the server says why."
		h.render(w, r, http.StatusInternalServerError, "no-debrief", p)
	default:
		h.render(w, r, http.StatusOK, "debrief", p)
	}
	return nil
}

func (l *live) noticeNow(who drill.Role) string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.notice(who)
}
