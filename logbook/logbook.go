// Package logbook keeps the logs of drills in a folder, a file for each.
//
// Invariant: what Append has returned from without an error is on the disk. A
// process that dies at any moment, and a disk that takes nothing more, leave at most
// one line without an end behind, which was never acknowledged, and which the next
// writer cuts off; a file is never there without its first line. One process writes
// a log at a time.
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
	if err := os.MkdirAll(dir, 0o700); err != nil {
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

// Check fails where nothing can be kept in the folder.
func (s *Shelf) Check() error {
	f, err := os.CreateTemp(s.dir, "check-*.new")
	if err != nil {
		return err
	}
	return errors.Join(f.Close(), os.Remove(f.Name()))
}

// Path is where a log lies, to tell people.
func (s *Shelf) Path(id string) string { return filepath.Join(s.dir, id+ending) }

// Begin makes a new log, with its script in it or not at all. The error is
// fs.ErrExist where there is one.
func (s *Shelf) Begin(id string, script drill.Script) (*Writer, error) {
	path, err := s.path(id)
	if err != nil {
		return nil, err
	}
	if _, err := os.Lstat(path); err == nil {
		return nil, &fs.PathError{Op: "begin", Path: path, Err: fs.ErrExist}
	}
	var first bytes.Buffer
	if err := errors.Join(drill.WriteScript(&first, script), s.put(path, first.Bytes())); err != nil {
		return nil, err
	}
	return s.Continue(id)
}

// put makes a file that is there with all its text or not at all: it is written
// under another name, and gets its own when it is on the disk.
func (s *Shelf) put(path string, text []byte) error {
	temporary := path + ".new"
	err := write(temporary, text)
	if err == nil {
		err = os.Rename(temporary, path)
	}
	if err != nil {
		_ = os.Remove(temporary)
		return err
	}
	if err = sync(s.dir); err != nil {
		_ = os.Remove(path)
	}
	return err
}

func write(path string, text []byte) error {
	f, err := os.OpenFile(path, os.O_CREATE|os.O_TRUNC|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	return errors.Join(err, f.Sync(), f.Close())
}

// ErrEmpty is a log without a first line.
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
	if err := lock(f); err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return takeOver(f)
}

// ErrBusy is a log that another process writes.
var ErrBusy = errors.New("another process writes this log")

// Writer adds to one log. It is not safe for concurrent use.
type Writer struct {
	file  *os.File
	end   int64 // of what is on the disk
	lines int
	torn  bool // something may stand behind the end
	cut   bool // it did when the log was taken over
}

// Lines is how many lines are on the disk, the script's counted.
func (w *Writer) Lines() int { return w.lines }

// WasCut says that the log ended in the middle of a line, which is left out, when
// it was taken over.
func (w *Writer) WasCut() bool { return w.cut }

// Append adds an input. When it returns without an error the input is on the
// disk; after an error the log is as it was, and may be tried again.
func (w *Writer) Append(in drill.Input) error {
	return w.write(func(out io.Writer) error { return drill.WriteInput(out, in) })
}

// write adds a line in one piece.
func (w *Writer) write(line func(io.Writer) error) error {
	var text bytes.Buffer
	if err := errors.Join(line(&text), w.back()); err != nil {
		return err
	}
	_, err := w.file.Write(text.Bytes())
	if err = errors.Join(err, w.file.Sync()); err != nil {
		w.torn = true
		_ = w.back() // or else before the next line
		return fmt.Errorf("the log cannot be written: %w", err)
	}
	w.end += int64(text.Len())
	w.lines++
	return nil
}

// back takes away what a line that failed has left, and stands at the end.
func (w *Writer) back() error {
	if !w.torn {
		return nil
	}
	if err := w.file.Truncate(w.end); err != nil {
		return err
	}
	_, err := w.file.Seek(w.end, io.SeekStart)
	w.torn = err != nil
	return err
}

// takeOver stands at the end of a log, and takes away a last line without an end.
func takeOver(f *os.File) (*Writer, error) {
	text, err := io.ReadAll(io.NewSectionReader(f, 0, 1<<40))
	w := &Writer{file: f, end: int64(bytes.LastIndexByte(text, '\n') + 1), lines: bytes.Count(text, []byte("\n")), torn: true}
	w.cut = w.end < int64(len(text))
	if err == nil && w.end == 0 {
		err = ErrEmpty
	}
	if err == nil {
		err = w.back()
	}
	if err != nil {
		return nil, errors.Join(err, f.Close())
	}
	return w, nil
}

// SetAside copies a log to a file beside it, whose path it gives, and leaves only
// its first lines in it.
func (s *Shelf) SetAside(id string, w *Writer, lines int) (path string, err error) {
	text, err := io.ReadAll(io.NewSectionReader(w.file, 0, w.end))
	if err != nil {
		return "", err
	}
	for n := 1; ; n++ {
		path = fmt.Sprintf("%s.spoiled-%d", s.Path(id), n)
		if _, err := os.Lstat(path); err != nil {
			break
		}
	}
	if err := s.put(path, text); err != nil {
		return "", err
	}
	kept := bytes.Join(bytes.SplitAfter(text, []byte("\n"))[:lines], nil)
	w.end, w.lines, w.torn = int64(len(kept)), lines, true
	return path, w.back()
}

const seatsEnding = ".seats"

// PutSeats keeps who may see a drill beside its log. The text is the caller's.
func (s *Shelf) PutSeats(id string, text []byte) error {
	path, err := s.path(id)
	if err != nil {
		return err
	}
	return s.put(strings.TrimSuffix(path, ending)+seatsEnding, text)
}

// Seats gives what PutSeats has kept. The error is fs.ErrNotExist where there is
// nothing.
func (s *Shelf) Seats(id string) ([]byte, error) {
	path, err := s.path(id)
	if err != nil {
		return nil, err
	}
	return os.ReadFile(strings.TrimSuffix(path, ending) + seatsEnding)
}

// Close lets go of the log.
func (w *Writer) Close() error { return w.file.Close() }
