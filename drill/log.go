package drill

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// A log is text: the script in its first line, then one input a line, each as
// JSON. A line is complete when its line end is there; what a process left behind
// without one was never acknowledged.

// WriteScript writes the first line of a log.
func WriteScript(w io.Writer, s Script) error { return writeLine(w, s) }

// WriteInput writes one line of a log.
func WriteInput(w io.Writer, in Input) error { return writeLine(w, in) }

func writeLine(w io.Writer, v any) error {
	line, err := json.Marshal(v)
	if err != nil {
		return err
	}
	_, err = w.Write(append(line, '\n'))
	return err
}

// ReadInput reads an input as a client sends it. The error is a *Refusal.
func ReadInput(line []byte) (Input, error) {
	var in Input
	if err := strictly(line, &in); err != nil {
		return in, refuse(Garbage, "this is no input: %v", err)
	}
	return in, nil
}

func strictly(line []byte, v any) error {
	d := json.NewDecoder(bytes.NewReader(line))
	d.DisallowUnknownFields()
	if err := d.Decode(v); err != nil {
		return err
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return fmt.Errorf("something follows it")
	}
	return nil
}

// mostLine is the longest line that a log may have.
const mostLine = 1 << 20

// Spoiled is a log that cannot be read on from a line.
type Spoiled struct {
	Line int // from 1, which is the script
	Err  error
}

func (s *Spoiled) Error() string { return fmt.Sprintf("line %d of the log: %v", s.Line, s.Err) }
func (s *Spoiled) Unwrap() error { return s.Err }

// Replay opens the drill of a log and lets all its inputs happen. A last line
// without an end is left out. With a *Spoiled error the session is what the lines
// before give; nil before the second.
func (d *Deck) Replay(ctx context.Context, r io.Reader) (*Session, error) {
	var s *Session
	lines := bufio.NewReaderSize(r, 1<<16)
	for number := 1; ; number++ {
		line, err := lines.ReadBytes('\n')
		switch {
		case errors.Is(err, io.EOF) && s == nil:
			return nil, refuse(Garbage, "the log has no script")
		case errors.Is(err, io.EOF):
			return s.asRead(), nil
		case err != nil:
			return nil, err
		case len(line) > mostLine:
			return s.asRead(), &Spoiled{number, refuse(Garbage, "it is too long")}
		}
		next, err := d.replayLine(ctx, s, line)
		if err != nil {
			return s.asRead(), &Spoiled{number, err}
		}
		s = next
	}
}

// asRead is a session whose log has been read.
func (s *Session) asRead() *Session {
	if s != nil {
		s.read = false
	}
	return s
}

func (d *Deck) replayLine(ctx context.Context, s *Session, line []byte) (*Session, error) {
	if s == nil {
		var script Script
		if err := strictly(line, &script); err != nil {
			return nil, refuse(Garbage, "this is no script: %v", err)
		}
		return d.Open(ctx, script)
	}
	in, err := ReadInput(line)
	if err != nil {
		return nil, err
	}
	s.read = true
	ack, err := s.Accept(ctx, in)
	if err == nil && ack.Again {
		err = refuse(OutOfOrder, "the input is there twice")
	}
	return s, err
}
