package drilling

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"

	"knockon/drill"
	"knockon/logbook"
	"knockon/say"
)

// Shelf is where logs are kept; logbook.Shelf is one.
type Shelf interface {
	Path(id string) string
	Read(id string) (io.ReadCloser, error)
	Begin(id string, s drill.Script) (*logbook.Writer, error)
	Continue(id string) (*logbook.Writer, error)
	SetAside(id string, w *logbook.Writer, lines int) (path string, err error)
	Seats(id string) ([]byte, error)
	PutSeats(id string, text []byte) error
}

// kept is how much of a drill is on the disk.
type kept struct {
	shelf        Shelf
	id           string
	writer       *logbook.Writer // nil: the log cannot be written for now
	inputs       int             // on the disk; -1 where there is no log
	seatsChanged bool
	missing      error  // why something is not on the disk
	spoilt       string // what could not be read from the log, for the instructor
}

// catchUp writes down all that is not on the disk yet. What fails is tried again
// whenever something comes.
func (k *kept) catchUp(s *drill.Session, who seats) { k.missing = k.write(s, who) }

func (k *kept) write(s *drill.Session, who seats) error {
	if err := k.open(s); err != nil {
		return err
	}
	log := s.Log()
	for k.inputs < len(log) {
		if err := k.writer.Append(log[k.inputs]); err != nil {
			return err
		}
		k.inputs++
	}
	if !k.seatsChanged {
		return nil
	}
	text, _ := json.Marshal(who)
	err := k.shelf.PutSeats(k.id, text)
	k.seatsChanged = err != nil
	return err
}

// errElsewhere is a log with which another process has gone on.
var errElsewhere = errors.New("another process has gone on with it")

// open has a log that can be written: the one there is, or a new one.
func (k *kept) open(s *drill.Session) (err error) {
	if k.writer != nil {
		return nil
	}
	var w *logbook.Writer
	if k.inputs < 0 {
		w, err = k.shelf.Begin(k.id, s.Script())
	} else {
		w, err = k.shelf.Continue(k.id)
	}
	if err != nil {
		return err
	}
	if w.Lines() != 1+max(0, k.inputs) {
		return errors.Join(errElsewhere, w.Close())
	}
	k.writer, k.inputs = w, max(0, k.inputs)
	return nil
}

// close writes what is missing, and lets go of the log.
func (k *kept) close(s *drill.Session, who seats) error {
	k.catchUp(s, who)
	err := k.missing
	if err != nil {
		err = fmt.Errorf("the drill %s: not kept: %s: %w", k.id, k.lost(s), err)
	}
	if k.writer != nil {
		err = errors.Join(err, k.writer.Close())
	}
	return err
}

// notice says what is not kept, where, and how to save the rest. Who flies with an
// instructor is told only that it is so.
func (k *kept) notice(s *drill.Session, all bool) string {
	switch {
	case k.missing != nil && !all:
		return "This drill is not being kept on the disk. The instructor is told why."
	case k.missing != nil:
		return strings.TrimSpace(fmt.Sprintf("Not kept: %s. %s cannot be written (%s). The drill goes on in the memory of the server and is lost when that stops, so save the log before. The server tries again by itself. %s", k.lost(s), k.shelf.Path(k.id), reason(k.missing), k.spoilt))
	case k.spoilt != "" && !all:
		return "Part of the log of this drill could not be read. The instructor is told which."
	}
	return k.spoilt
}

// lost says what is missing on the disk.
func (k *kept) lost(s *drill.Session) string {
	log := s.Log()
	switch {
	case k.inputs < 0:
		return "all of this drill"
	case k.inputs < len(log):
		return fmt.Sprintf("what was done from %s on", say.Clock(log[k.inputs].At))
	case k.seatsChanged:
		return "the links that were given out last"
	}
	return "what comes from now on"
}

// reason is an error of the system without its path, which is told beside it.
func reason(err error) string {
	var p *fs.PathError
	var r *drill.Refusal
	switch {
	case errors.As(err, &p):
		return p.Err.Error()
	case errors.As(err, &r):
		return r.Text
	}
	return err.Error()
}
