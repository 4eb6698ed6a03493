package drilling

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"time"

	"knockon/drill"
)

// Streams look at the drill four times a second, and at once after an input.
const (
	every     = 250 * time.Millisecond
	heartbeat = 15 * time.Second
	patience  = 30 * time.Second // with a client that takes nothing more
)

// stream sends a person's screen as server-sent events whenever it changes.
func (h *Hall) stream(w http.ResponseWriter, r *http.Request) {
	l, who, err := h.looker(r)
	if err != nil {
		h.failed(w, err)
		return
	}
	out := http.NewResponseController(w)
	_ = out.SetReadDeadline(time.Time{}) // a stream has no end
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	l.watch(1)
	defer l.watch(-1)
	tick := time.NewTicker(every)
	defer tick.Stop()
	fmt.Fprint(w, "retry: 500\n\n")
	var last []byte
	for sent := time.Now(); ; {
		body, changed, err := l.screen(r.Context(), who)
		if err != nil {
			return
		}
		_ = out.SetWriteDeadline(time.Now().Add(patience))
		if !bytes.Equal(body, last) {
			last, sent = body, time.Now()
			fmt.Fprintf(w, "data: %s\n\n", body)
		} else if time.Since(sent) > heartbeat {
			sent = time.Now()
			fmt.Fprint(w, ": still here\n\n")
		}
		if out.Flush() != nil {
			return
		}
		select {
		case <-r.Context().Done():
			return
		case <-changed:
		case <-tick.C:
		}
	}
}

// looker is the drill that a request is about, and who looks.
func (h *Hall) looker(r *http.Request) (*live, drill.Role, error) {
	who := r.URL.Query().Get("who")
	if people[who] == "" {
		return nil, "", &drill.Refusal{Why: drill.Garbage, Text: "say who looks: PF, PM, both or instructor"}
	}
	l, err := h.find(r.Context(), r.PathValue("id"))
	return l, drill.Role(who), err
}

// now answers with a person's screen once.
func (h *Hall) now(w http.ResponseWriter, r *http.Request) {
	l, who, err := h.looker(r)
	if err != nil {
		h.failed(w, err)
		return
	}
	body, _, err := l.screen(r.Context(), who)
	if err != nil {
		h.failed(w, err)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(body)
}

const mostInput = 16 << 10

// refused is what a client is told of an input that was not taken.
type refused struct {
	Why  string `json:"why"`
	Text string `json:"text"`
}

// input takes one input and acknowledges it.
func (h *Hall) input(w http.ResponseWriter, r *http.Request) {
	line, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostInput))
	if err != nil {
		h.refuse(w, http.StatusRequestEntityTooLarge, refused{string(drill.Garbage), "the input is too long"})
		return
	}
	in, err := drill.ReadInput(line)
	var ack drill.Ack
	if err == nil && in.Client == house {
		err = &drill.Refusal{Why: drill.NotAllowed, Text: "only the server itself writes under that name"}
	}
	if err == nil {
		var l *live
		if l, err = h.find(r.Context(), r.PathValue("id")); err == nil {
			ack, err = l.take(r.Context(), in)
		}
	}
	if err != nil {
		var no *drill.Refusal
		status, text := h.wording(err)
		why := "trouble"
		if errors.As(err, &no) {
			why, text, status = string(no.Why), no.Text, http.StatusConflict
		}
		h.refuse(w, status, refused{why, text})
		return
	}
	w.Header().Set("Content-Type", "application/json")
	_ = json.NewEncoder(w).Encode(ack)
}

func (h *Hall) refuse(w http.ResponseWriter, status int, why refused) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(why)
}

// debrief works the debrief out from a copy of the log, so that the drill goes on.
func (h *Hall) debrief(w http.ResponseWriter, r *http.Request) {
	l, err := h.find(r.Context(), r.PathValue("id"))
	if err != nil {
		h.failed(w, err)
		return
	}
	var b bytes.Buffer
	at, err := l.copied(&b)
	if err != nil {
		h.failed(w, err)
		return
	}
	s, err := h.replay(r.Context(), &b)
	if err == nil {
		err = s.Advance(r.Context(), at)
	}
	if err != nil {
		h.failed(w, err)
		return
	}
	d, err := s.Debrief(r.Context(), nil)
	if err != nil {
		h.failed(w, err)
		return
	}
	h.render(w, http.StatusOK, "debrief", page{Title: "Debrief", ID: r.PathValue("id"), Debrief: d})
}

// log gives the log itself, to keep or to replay elsewhere.
func (h *Hall) log(w http.ResponseWriter, r *http.Request) {
	l, err := h.find(r.Context(), r.PathValue("id"))
	if err != nil {
		h.failed(w, err)
		return
	}
	var b bytes.Buffer
	if _, err := l.copied(&b); err != nil {
		h.failed(w, err)
		return
	}
	w.Header().Set("Content-Type", "application/x-ndjson")
	w.Header().Set("Content-Disposition", `attachment; filename="drill-`+l.id+`.log"`)
	_, _ = w.Write(b.Bytes())
}
