// Package logbook keeps the logs of drills in a folder, a file for each.
//
// Invariant: what Append has returned from is on the disk. A process that dies at
// any moment leaves at most one line without an end behind, which was never
// acknowledged, and which the next writer cuts off. One process writes a log at
// a time.
//
// Start reading at Shelf.Continue.
package logbook

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"knockon/drill"
)

// Shelf is a folder of logs.
type Shelf struct{ dir string }

// Open opens a folder, and makes it where there is none.
func Open(dir string) (*Shelf, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("no folder for the logs: %w", err)
	}
	return &Shelf{dir}, nil
}

const ending = ".drill"

// mostID is the longest name of a log.
const mostID = 64

// path is the file of a log; its name is small letters, digits and dashes.
func (s *Shelf) path(id string) (string, error) {
	bad := strings.IndexFunc(id, func(r rune) bool { return !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-') })
	if id == "" || len(id) > mostID || bad >= 0 {
		return "", fmt.Errorf("%q cannot be the name of a drill: use small letters, digits and dashes, at most %d", id, mostID)
	}
	return filepath.Join(s.dir, id+ending), nil
}

// List names the logs, in the order of the alphabet.
func (s *Shelf) List() ([]string, error) {
	entries, err := os.ReadDir(s.dir)
	if err != nil {
		return nil, err
	}
	var ids []string
	for _, e := range entries {
		if id, ok := strings.CutSuffix(e.Name(), ending); ok && e.Type().IsRegular() {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	return ids, nil
}

// Read opens a log for reading; drill.Deck.Replay takes it. The error is
// fs.ErrNotExist where there is none.
func (s *Shelf) Read(id string) (io.ReadCloser, error) {
	path, err := s.path(id)
	if err != nil {
		return nil, err
	}
	return os.Open(path)
}

// Begin makes a new log. The error is fs.ErrExist where there is one.
func (s *Shelf) Begin(id string, script drill.Script) (*Writer, error) {
	path, err := s.path(id)
	if err != nil {
		return nil, err
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_RDWR, 0o644)
	if err != nil {
		return nil, err
	}
	w := &Writer{file: f}
	if err := errors.Join(lock(f), w.write(func(out io.Writer) error { return drill.WriteScript(out, script) }), sync(s.dir)); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return w, nil
}

// ErrEmpty is a log that a process died over before it was begun.
var ErrEmpty = errors.New("the log was never begun")

// Continue takes a log over from a process that no longer lives. It fails with
// ErrBusy while another process writes it.
func (s *Shelf) Continue(id string) (*Writer, error) {
	path, err := s.path(id)
	if err != nil {
		return nil, err
	}
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return nil, err
	}
	w := &Writer{file: f}
	if err := errors.Join(lock(f), w.cut()); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return w, nil
}

// Discard forgets a log that was never begun.
func (s *Shelf) Discard(id string) error {
	path, err := s.path(id)
	if err != nil {
		return err
	}
	if info, err := os.Stat(path); err != nil || info.Size() > 0 {
		return errors.Join(err, fmt.Errorf("%s is not empty: %w", id, fs.ErrExist))
	}
	return os.Remove(path)
}

// ErrBusy is a log that another process writes.
var ErrBusy = errors.New("another process writes this log")

// Writer adds to one log. It is not safe for concurrent use.
type Writer struct {
	file   *os.File
	broken error
}

// Append adds an input. When it returns without an error the input is on the
// disk; after an error the writer takes nothing more.
func (w *Writer) Append(in drill.Input) error {
	return w.write(func(out io.Writer) error { return drill.WriteInput(out, in) })
}

// write adds a line in one piece.
func (w *Writer) write(line func(io.Writer) error) error {
	if w.broken != nil {
		return w.broken
	}
	var text bytes.Buffer
	if err := line(&text); err != nil {
		return err
	}
	_, err := w.file.Write(text.Bytes())
	if err = errors.Join(err, w.file.Sync()); err != nil {
		w.broken = fmt.Errorf("the log cannot be written: %w", err)
	}
	return w.broken
}

// cut takes away a last line without an end, and stands at the end.
func (w *Writer) cut() error {
	text, err := io.ReadAll(w.file)
	if err != nil {
		return err
	}
	whole := int64(bytes.LastIndexByte(text, '\n') + 1)
	if whole == 0 {
		return errors.Join(w.file.Truncate(0), ErrEmpty)
	}
	if err := w.file.Truncate(whole); err != nil {
		return err
	}
	_, err = w.file.Seek(whole, io.SeekStart)
	return err
}

// Close lets go of the log.
func (w *Writer) Close() error { return w.file.Close() }

// sync makes sure that a new file's name is on the disk.
func sync(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	if err := d.Sync(); err != nil && !errors.Is(err, errors.ErrUnsupported) {
		return err
	}
	return nil
}
