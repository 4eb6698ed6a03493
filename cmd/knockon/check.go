package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"

	"knockon/book"
	"knockon/claim"
	"knockon/crew/clash"
	"knockon/dispatch"
	"knockon/say"
	"knockon/scenario"
)

type checkCommand struct {
	bookFlag
	regionFlags
	JSON   bool `help:"Print diagnostics and claims as JSON."`
	Advice bool `help:"Show advice as well as errors." default:"true" negatable:""`
}

func (c *checkCommand) Help() string {
	return `Reads the book and reports what is wrong with its text, with place and advice; then flies
every claim of the book and reports whether it holds: expected, got, and the chain. Claims
that turn or price flights need the book's airfields, as costs does.
Exit code 1 when the text has an error or a claim fails.`
}

func (c *checkCommand) Run(o *out) error {
	files, err := c.files()
	if err != nil {
		return err
	}
	loaded, diags := book.Load(o, files)
	if !diags.HasErrors() {
		diags = append(diags, clash.Advise(loaded)...)
		deferred, err := dispatch.Advise(o, scenario.NewCourses(loaded))
		if err != nil {
			return err
		}
		diags = append(diags, deferred...)
	}
	if c.JSON {
		return c.asJSON(o, loaded, diags)
	}
	c.writeDiagnostics(o, files, diags)
	if diags.HasErrors() {
		return errFinding
	}
	report, err := c.claims(o, loaded)
	if err != nil {
		return err
	}
	err = o.lay(func(w io.Writer) error {
		writeContents(w, loaded)
		return claim.WriteText(w, report)
	})
	if err != nil {
		return err
	}
	return finding(report)
}

// claims flies every claim of a book.
func (c *checkCommand) claims(o *out, loaded *book.Book) (*claim.Report, error) {
	ground, err := c.region(o, c.bookFlag)
	if err != nil && !errors.Is(err, errNoFields) { // what is claimed of airfields then says that they are not known
		return nil, err
	}
	b := newBar(o, "claims")
	defer b.clear()
	return claim.Watch(o, loaded, ground, claim.All(loaded), b.progress())
}

func finding(r *claim.Report) error {
	if r.Failing() > 0 {
		return errFinding
	}
	return nil
}

// asJSON prints diagnostics and claims in one object.
func (c *checkCommand) asJSON(o *out, loaded *book.Book, diags book.Diagnostics) error {
	all := struct {
		Diagnostics book.Diagnostics `json:"diagnostics"`
		Claims      *claim.Report    `json:"claims,omitempty"` // not there: with errors in the text no claim was flown
		Caution     string           `json:"caution"`
	}{Diagnostics: diags, Caution: book.Caution}
	if !diags.HasErrors() {
		report, err := c.claims(o, loaded)
		if err != nil {
			return err
		}
		all.Claims = report
	}
	if err := printJSON(o, all); err != nil {
		return err
	}
	if all.Claims == nil {
		return errFinding
	}
	return finding(all.Claims)
}

func (c *checkCommand) writeDiagnostics(o *out, files fs.FS, diags book.Diagnostics) {
	for _, d := range diags {
		if d.Severity == book.Error || c.Advice {
			d.Write(o.stderr, files)
		}
	}
}

// writeContents says how much the book holds.
func writeContents(w io.Writer, loaded *book.Book) {
	b, _ := loaded.Build("")
	fmt.Fprintf(w, "%s: %s; on the first, %s, %s, %s, %s, %s.\n", b.Aircraft.Title,
		say.Counted(len(loaded.Variants), "build"), say.Counted(len(b.Units), "unit"), say.Counted(len(b.Functions), "function"),
		say.Counted(len(b.Alerts), "alert"), say.Counted(len(b.Indications), "indication"), say.Counted(len(b.Procedures), "procedure"))
}
