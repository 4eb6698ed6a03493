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
func (h *Hall) stream(w http.ResponseWriter, r *http.Request, l *live, who drill.Role) error {
	if !l.watch(who) {
		return errStreams
	}
	defer l.unwatch(who)
	out := http.NewResponseController(w)
	_ = out.SetReadDeadline(time.Time{}) // a stream has no end
	w.Header().Set("Content-Type", "text/event-stream")
	w.Header().Set("Cache-Control", "no-store")
	if r.Method == http.MethodHead {
		return nil // or it would wait for ever
	}
	tick := time.NewTicker(every)
	defer tick.Stop()
	fmt.Fprint(w, "retry: 500\n\n")
	var last []byte
	for sent := time.Now(); ; {
		body, changed, err := l.screen(r.Context(), r.PathValue("word"))
		if err != nil {
			return nil
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
			return nil
		}
		select {
		case <-r.Context().Done():
			return nil
		case <-changed:
		case <-tick.C:
		}
	}
}

// now answers with a person's screen once.
func (h *Hall) now(w http.ResponseWriter, r *http.Request, l *live, _ drill.Role) error {
	body, _, err := l.screen(r.Context(), r.PathValue("word"))
	if err != nil {
		return err
	}
	w.Header().Set("Content-Type", "application/json")
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(body)
	return nil
}

const mostInput = 16 << 10

// refused is what a client is told of an input that was not taken.
type refused struct {
	Why  string `json:"why"`
	Text string `json:"text"`
}

// input takes one input and acknowledges it. Who does it is said by the link.
func (h *Hall) input(w http.ResponseWriter, r *http.Request, l *live, who drill.Role) error {
	line, err := io.ReadAll(http.MaxBytesReader(w, r.Body, mostInput))
	var long *http.MaxBytesError
	switch {
	case errors.As(err, &long):
		h.refuse(w, http.StatusRequestEntityTooLarge, refused{string(drill.Garbage), "the input is too long"})
		return nil
	case err != nil:
		h.refuse(w, http.StatusRequestTimeout, refused{string(drill.Garbage), "the input did not come to its end: send it again"})
		return nil
	}
	in, err := drill.ReadInput(line)
	if err == nil && in.Who != "" && in.Who != who {
		err = &drill.Refusal{Why: drill.NotAllowed, Text: "who does something is said by the link, not by the input"}
	}
	var ack taken
	if err == nil {
		if in.Who = who; in.Client != "" {
			in.Client = string(who) + " " + in.Client // two seats never share a name
		}
		ack, err = l.take(r.Context(), in)
	}
	if err != nil {
		h.refuseFor(w, err)
		return nil
	}
	w.Header().Set("Content-Type", "application/json")
	_ = json.NewEncoder(w).Encode(ack)
	return nil
}

func (h *Hall) refuseFor(w http.ResponseWriter, err error) {
	var no *drill.Refusal
	status, text := h.wording(err)
	why := "trouble"
	if errors.As(err, &no) {
		why, text, status = string(no.Why), no.Text, http.StatusConflict
	}
	h.refuse(w, status, refused{why, text})
}

func (h *Hall) refuse(w http.ResponseWriter, status int, why refused) {
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	_ = json.NewEncoder(w).Encode(why)
}

// log gives the log itself, from memory, to keep or to replay elsewhere. It is the
// instructor's, and after the end that of who was alone.
func (h *Hall) log(w http.ResponseWriter, r *http.Request, l *live, who drill.Role) error {
	if who != drill.Instructor {
		over, err := l.over(r.Context())
		if err != nil {
			return err
		}
		if !over || !l.seated().alone() {
			return errNotYours
		}
	}
	text, _ := l.copied()
	w.Header().Set("Content-Type", "application/x-ndjson")
	w.Header().Set("Content-Disposition", `attachment; filename="drill-`+l.id+`.drill"`)
	_, _ = w.Write(text)
	return nil
}
