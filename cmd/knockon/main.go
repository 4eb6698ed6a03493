// Command knockon computes what a system failure takes away from an aircraft,
// what the flight deck says of it, and why.
//
// It is a shell around the rooms below it: each command reads its words, asks
// package ask, and prints what comes back. Start reading at run.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"regexp"
	"strings"
	"syscall"
	"time"

	"knockon/ask"
	"knockon/say"

	"github.com/alecthomas/kong"
)

// Exit codes.
const (
	exitGood    = 0
	exitFinding = 1 // the book or a claim is not right
	exitUsage   = 2 // the command was not understood
	exitTrouble = 3 // the machine failed us: a file, a port
)

// commands is the whole command line.
type commands struct {
	Demo       demoCommand       `cmd:"" help:"Show the demonstration: its headline failure, then its pages."`
	Find       findCommand       `cmd:"" help:"Say in plain words what fails and when; see how it is understood."`
	Check      checkCommand      `cmd:"" help:"Check a book: its text, then every claim that it makes."`
	Fail       failCommand       `cmd:"" help:"The ledger of a failure: what is lost, what is told, what is not, and when."`
	Why        whyCommand        `cmd:"" help:"Why something is lost, given, wrong or dark: the chain of causes."`
	Beside     besideCommand     `cmd:"" help:"Two questions side by side: only what differs, with counts."`
	Snapshot   snapshotCommand   `cmd:"" help:"One moment of the flight with a failure: where it is, how it is set, what is told, what is true."`
	Handout    handoutCommand    `cmd:"" help:"The answer as one sheet of paper to teach from, for a browser to print."`
	Costs      costsCommand      `cmd:"" help:"What a failure costs: fuel, time and runway to every airfield, and which are still good."`
	Crew       crewCommand       `cmd:"" help:"What the crew do about a failure: which procedure when, who does each line, and why."`
	Worth      worthCommand      `cmd:"" help:"What each step of a procedure is worth: done right beside left out, late, wrong or swapped."`
	Proof      proofCommand      `cmd:"" help:"What a crew that looks can conclude: the smallest set of signs that no other single failure shows."`
	Lists      listsCommand      `cmd:"" help:"What following the lists takes away: every failure that calls one, hands off and with the crew."`
	Rescue     rescueCommand     `cmd:"" help:"What can be done about a loss: the smallest sets of control moves that prevent or end it, and by when."`
	Conflicts  conflictsCommand  `cmd:"" help:"Conflicts among the procedures of a book."`
	Drill      drillCommand      `cmd:"" help:"Live a failure in the browser: alone, or two pilots and an instructor."`
	Dispatch   dispatchCommand   `cmd:"" help:"With this broken, may it go: by which deferral, under which conditions, and what is then one failure away."`
	Ways       waysCommand       `cmd:"" help:"All the smallest sets of failures that take a function away."`
	Sweep      sweepCommand      `cmd:"" help:"Every failure, every two and every three together: traps, and what else to know."`
	Assess     assessCommand     `cmd:"" help:"Every function against the objective of its severity: how likely its loss is, and by which failures."`
	Serve      serveCommand      `cmd:"" help:"Serve the pages of a book on this machine."`
	Begin      beginCommand      `cmd:"" help:"Write a little book to begin with into a new folder."`
	Completion completionCommand `cmd:"" help:"Print shell completion for bash, zsh or fish."`
	Version    versionCommand    `cmd:"" help:"Print the version."`
	Complete   completeCommand   `cmd:"" name:"internal-complete" hidden:""`
}

const description = `Knockon computes what a system failure takes away from an aircraft, phase by phase,
what the flight deck tells of it, holds back, shows wrong or never says, and why.
The aircraft is a book: a folder of text files (docs/language.md). Without --book the
built-in demonstration is used.

  knockon demo
  knockon fail tr_right --out tr_left --at "climb + 120 s"
  knockon why bay_cooling --fail tr_right --out tr_left --at "climb + 120 s"
  knockon check --book my-aircraft/

Exit codes: 0 answered (a server that is told to stop ends so too); 1 the book has an error or a
claim fails; 2 the question was not understood; 3 a file, a port or the time was not to be had, or
the work was stopped before it was done.

For training and study only, not for use in flight. The operator's approved manuals
and licensed judgement prevail.`

// out is where a command prints and what it may use.
type out struct {
	context.Context
	stdout, stderr io.Writer
	terminal       bool
}

func main() {
	boundMemory()
	collectSeldom()
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run is the program without the process around it.
func run(args []string, stdout, stderr io.Writer) (code int) {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	parsed, code, done := parse(args, stdout, stderr)
	if done {
		return code
	}
	o := &out{Context: ctx, stdout: stdout, stderr: stderr, terminal: isTerminal(stdout)}
	return report(parsed.Run(o), stderr)
}

// parse reads the command line. done says that there is nothing left to run.
func parse(args []string, stdout, stderr io.Writer) (parsed *kong.Context, code int, done bool) {
	exited := false
	var help strings.Builder
	defer func() { _, _ = io.WriteString(stdout, say.Fold(help.String(), columns(stdout))) }()
	parser, err := kong.New(&commands{},
		kong.Name("knockon"), kong.Description(description), kong.Writers(&help, stderr),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: columns(stdout)}),
		kong.Exit(func(c int) { code, exited = c, true }))
	if err != nil {
		fmt.Fprintln(stderr, "knockon:", err)
		return nil, exitTrouble, true
	}
	if len(args) == 0 {
		args = strings.Fields(bare)
	}
	if args[0] == "help" {
		args = append(args[1:len(args):len(args)], "--help")
	}
	parsed, err = parser.Parse(args)
	if exited {
		return nil, code, true
	}
	if err != nil {
		fmt.Fprintln(stderr, "knockon:", plainly(err.Error()))
		fmt.Fprintln(stderr, "try: knockon --help, or knockon <command> --help")
		return nil, exitUsage, true
	}
	return parsed, 0, false
}

// plainly puts a parser's complaint about a value into a user's words.
func plainly(text string) string {
	for _, t := range []struct{ of, is string }{
		{`expected a float but got ("[^"]*").*`, "$1 is no number: write one, such as 30 or 2.5"},
		{`expected a valid 64 bit int but got ("[^"]*").*`, "$1 is no whole number: write one, such as 30"},
		{`--move: missing value.*`, "--move: give control=position, such as cross_bleed_selector=shut; knockon rescue --moves lists the controls"},
		{`expected duration but got ("[^"]*").*`, "$1 is no length of time: write one, such as 90s or 15m"},
	} {
		text = regexp.MustCompile(t.of).ReplaceAllString(text, t.is)
	}
	return text
}

// bare is what the program does when it is started without a word: the help,
// which teaches; in the file that is made to be double-clicked (cmd/pack), the
// demonstration.
var bare = "--help"

// errFinding ends a command that has printed what is not right.
var errFinding = errors.New("not right")

// report prints an error the way a person can act on and gives its exit code.
func report(err error, stderr io.Writer) int {
	var t *ask.Trouble
	switch {
	case err == nil:
		return exitGood
	case errors.Is(err, errFinding):
		return exitFinding
	case errors.As(err, &t):
		complain(stderr, flagOf(t.Part)+": "+t.Text)
		return exitUsage
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(stderr, "knockon: stopped")
		return exitTrouble
	}
	complain(stderr, strings.TrimPrefix(err.Error(), "knockon: "))
	return exitTrouble
}

func complain(stderr io.Writer, text string) {
	fmt.Fprint(stderr, say.Fold("knockon: "+text+"\n", columns(stderr)))
}

func flagOf(part string) string {
	if part == "fail" || part == "item" || part == "function" || part == "procedure" {
		return part
	}
	return "--" + part
}

func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// withLimit ends a context after a while; 0 is no limit.
func withLimit(o *out, d time.Duration) (context.Context, context.CancelFunc) {
	if d <= 0 {
		return context.WithCancel(o)
	}
	return context.WithTimeout(o, d)
}

// version is what this tree is; the changelog says what is in it.
const version = "0.1.0"

type versionCommand struct{}

func (versionCommand) Run(o *out) error {
	_, err := fmt.Fprintln(o.stdout, "knockon", version)
	return err
}
