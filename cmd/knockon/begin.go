package main

import (
	_ "embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"knockon/book"
)

// littleBook is the smallest book that says something; the README prints it.
//
//go:embed begin/book.hcl
var littleBook []byte

// littleFile is the file that a begun book stands in.
const littleFile = "book.hcl"

type beginCommand struct {
	Dir string `arg:"" help:"Where the book will stand: a new folder, or an empty one." placeholder:"DIR"`
}

func (c *beginCommand) Help() string {
	return `Writes the smallest book that says something: two pumps, the brakes, one alert, one flight and one claim.
Change it from there; docs/language.md has all that a book can say.

  knockon begin my-aircraft`
}

func (c *beginCommand) Run(o *out) error {
	if err := writeLittleBook(c.Dir); err != nil {
		return err
	}
	fmt.Fprintf(o.stdout, "A little book stands in %s: two pumps, the brakes, one alert, one claim.\nWhat to do next:\n", filepath.Join(c.Dir, littleFile))
	for _, line := range nextCommands(c.Dir) {
		fmt.Fprintln(o.stdout, "  "+line)
	}
	fmt.Fprintln(o.stdout, book.Caution)
	return nil
}

// nextCommands are what somebody with a new book does with it.
func nextCommands(dir string) []string {
	in := " --book " + dir
	if strings.ContainsAny(dir, " &;()'") {
		in = ` --book "` + dir + `"`
	}
	const lost = `pump_2 --out pump_1 --at "descent + 60 s"`
	return []string{
		"knockon check" + in,
		"knockon fail " + lost + in,
		"knockon why main_brakes --fail " + lost + in,
		"knockon ways main_brakes" + in,
		"knockon serve" + in,
	}
}

// writeLittleBook writes the book into a folder that is new or empty. It writes
// over nothing, and leaves nothing half written behind.
func writeLittleBook(dir string) error {
	made, err := emptyFolder(dir)
	if err != nil {
		return err
	}
	file := filepath.Join(dir, littleFile)
	if err := writeNew(file, littleBook); err != nil {
		if made {
			_ = os.Remove(dir) // only if it is empty
		}
		return fmt.Errorf("cannot write %s: %s; nothing was changed", file, reason(err))
	}
	return nil
}

// emptyFolder sees to it that there is such a folder, with nothing in it.
func emptyFolder(dir string) (made bool, err error) {
	entries, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := os.MkdirAll(dir, 0o755); err != nil {
			return false, fmt.Errorf("cannot make the folder %s: %s", dir, reason(err))
		}
		return true, nil
	case err != nil:
		return false, fmt.Errorf("%s cannot hold a book: %s; name a folder that is new or empty", dir, reason(err))
	case len(entries) > 0:
		return false, fmt.Errorf("%s is not empty (%s is in it), and nothing in it is written over; name a folder that is new or empty", dir, entries[0].Name())
	}
	return false, nil
}

// writeNew writes a file that is not there yet, whole or not at all.
func writeNew(file string, text []byte) error {
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	if err = errors.Join(err, f.Close()); err != nil {
		_ = os.Remove(file)
	}
	return err
}
