package main

import (
	"fmt"
	"net"

	"knockon/ask"
	"knockon/book"
	"knockon/ledger"
)

// headline is the question that the demonstration opens with.
func headline() ask.Question {
	return ask.Question{Fail: []string{"tr_right"}, Out: []string{"tr_left"}, At: "climb + 120 s"}
}

// opening is the same question as the query of an address.
const opening = "fail=tr_right&out=tr_left&at=climb%2B120s"

type demoCommand struct {
	Address string `help:"Where to serve the pages." default:"127.0.0.1:8765" placeholder:"HOST:PORT"`
	Drills  string `help:"Folder for the logs of drills. Default: knockon/drills in your own configuration folder." placeholder:"DIR" type:"path"`
	Print   bool   `help:"Print the ledger and stop; serve nothing." xor:"only"`
	Open    bool   `help:"Open the page in the browser instead of printing the ledger." xor:"only"`
}

func (c *demoCommand) Help() string {
	return `The demonstration is the Corvane 76, an invented regional jet: one transformer rectifier is inoperative
at dispatch, and two minutes into the climb the second one goes.`
}

func (c *demoCommand) Run(o *out) error {
	desk, err := bookFlag{}.desk(o)
	if err != nil {
		return err
	}
	a, err := desk.Answer(o, headline())
	if err != nil {
		return err
	}
	if !c.Open {
		if err := ledger.WriteText(o.stdout, a.Ledger, 100); err != nil || c.Print {
			return err
		}
	}
	g, err := regionFlags{}.region(o)
	if err != nil {
		return err
	}
	at := site{address: freeAddress(c.Address), opening: opening, region: g, drills: c.Drills}
	return serve(o, desk, at, func(url string) {
		if c.Open {
			c.open(o, url)
			return
		}
		fmt.Fprintf(o.stdout, "\nThe same as a page, with the failure to drag along the flight:\n  %s?%s\nLive it as a drill: %sdrill/\n(stop with Ctrl-C)\n", url, opening, url)
	})
}

// open shows the demonstration to somebody who started it without a word.
func (c *demoCommand) open(o *out, url string) {
	said := "The demonstration opens in your browser. If it does not, open this address there:"
	if err := openPage(url); err != nil {
		said = "No browser could be started from here. Open this address in one, on this machine:"
	}
	fmt.Fprintf(o.stdout, "%s\n\n  %s\n\nIt is there until you close this window or press Ctrl-C.\n%s\n", said, url, book.Caution)
}

// freeAddress is the address wanted, or any free port on this machine if that
// one is taken: the demonstration should start whatever else runs.
func freeAddress(wanted string) string {
	l, err := net.Listen("tcp", wanted)
	if err != nil {
		return "127.0.0.1:0"
	}
	_ = l.Close()
	return wanted
}
