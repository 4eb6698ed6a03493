package main

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"

	"knockon/ask"
	"knockon/say"
	"knockon/sweep"
	"knockon/sweep/store"
)

// keeping is the file that a build's sheets are kept in; nil keeps nothing.
type keeping struct {
	file   *os.File
	sheets []*sweep.Sheet // that were there already
}

// openStore opens the file of a build and reads what is there. What a sweep
// that was stopped left unfinished is cut off.
func (c *sweepCommand) openStore(s *swept) (*keeping, error) {
	if c.Store == "" {
		return &keeping{}, nil
	}
	heading, err := c.heading(s)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(c.Store, 0o755); err != nil {
		return nil, fmt.Errorf("no folder to keep results in: %w", err)
	}
	name := filepath.Join(c.Store, fmt.Sprintf("%s--%s--%d.sweep", s.Build.Variant, s.flight.ID, c.Order))
	f, err := os.OpenFile(name, os.O_RDWR|os.O_CREATE, 0o644)
	if err != nil {
		return nil, fmt.Errorf("no file to keep results in: %w", err)
	}
	k := &keeping{file: f}
	if err := k.resume(heading); err != nil {
		k.close()
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return k, nil
}

func (k *keeping) resume(heading store.Heading) error {
	had, sheets, good, err := store.Read(k.file)
	switch {
	case errors.Is(err, store.ErrForeign):
		return &ask.Trouble{Part: "store", Text: "there is something else in the file; give another folder"}
	case err != nil:
		return err
	case good > 0 && !reflect.DeepEqual(had, heading):
		return &ask.Trouble{Part: "store", Text: "what is stored was made from another text of the book, or of other phases; remove the file, or give another folder"}
	}
	k.sheets = sheets
	if err := k.file.Truncate(good); err != nil {
		return err
	}
	if _, err := k.file.Seek(good, io.SeekStart); err != nil {
		return err
	}
	if good > 0 {
		return nil
	}
	return k.write(func(w io.Writer) error { return store.WriteHeading(w, heading) })
}

func (k *keeping) add(s *sweep.Sheet) error {
	if k.file == nil {
		return nil
	}
	return k.write(func(w io.Writer) error { return store.WriteSheet(w, s) })
}

// write puts a whole record into the file and has it on the disk before more
// is worked out.
func (k *keeping) write(record func(io.Writer) error) error {
	var whole bytes.Buffer
	if err := record(&whole); err != nil {
		return err
	}
	if _, err := k.file.Write(whole.Bytes()); err != nil {
		return err
	}
	return k.file.Sync()
}

func (k *keeping) close() {
	if k.file != nil {
		k.file.Close()
	}
}

func (c *sweepCommand) heading(s *swept) (h store.Heading, err error) {
	h = store.Heading{Build: s.Build.Variant, Flight: s.flight.ID, Order: c.Order}
	if h.Book, err = c.digest(); err != nil {
		return h, err
	}
	h.Failures = say.Texts(s.Failures)
	for _, p := range s.phases {
		h.Phases = append(h.Phases, p.ID+" "+p.Moment.String())
	}
	return h, nil
}

// digest is a print of the book's text and of the rules it is worked out by.
func (c *sweepCommand) digest() (string, error) {
	files, err := c.files()
	if err != nil {
		return "", err
	}
	sum := sha256.New()
	fmt.Fprintln(sum, version)
	err = fs.WalkDir(files, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(files, path)
		fmt.Fprintf(sum, "%s %d\n%s", path, len(text), text)
		return err
	})
	return fmt.Sprintf("%x", sum.Sum(nil)), err
}
