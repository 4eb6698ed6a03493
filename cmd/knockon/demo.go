package main

import (
	"fmt"
	"net"

	"knockon/ask"
	"knockon/book"
	"knockon/ledger"
	"knockon/scenario"
)

// headline is the question that the demonstration opens with.
func headline() ask.Question {
	return ask.Question{Fail: []scenario.Strike{{What: []string{"tr_right"}, At: "climb + 120 s"}}, Out: []string{"tr_left"}}
}

// opening is the same question as the query of an address.
const opening = "fail=tr_right&out=tr_left&at=climb%2B120s"

type demoCommand struct {
	Address string `help:"Where to serve the pages; :8765 for every address of this machine. Default: 127.0.0.1:8765, or any free port if that one is taken." placeholder:"HOST:PORT"`
	Drills  string `help:"Folder for the logs of drills. Default: knockon/drills in your own configuration folder." placeholder:"DIR" type:"path"`
	Print   bool   `help:"Print the ledger and stop; serve nothing." xor:"only"`
	Open    bool   `help:"Open the page in the browser instead of printing the ledger." xor:"only"`
}

func (c *demoCommand) Help() string {
	return `The demonstration is the Corvane 71, an invented regional jet: one transformer rectifier is inoperative
at dispatch, and two minutes into the climb the second one goes.`
}

func (c *demoCommand) Run(o *out) error {
	if c.Address != "" && !c.Print { // before the headline, which is long
		l, err := listen(c.Address)
		if err != nil {
			return err
		}
		_ = l.Close()
	}
	desk, err := bookFlag{}.desk(o)
	if err != nil {
		return err
	}
	g, err := regionFlags{}.region(o, bookFlag{})
	if err != nil {
		return err
	}
	a, err := desk.Over(g).Answer(o, headline())
	if err != nil {
		return err
	}
	if !c.Open {
		if err := ledger.WriteText(o.stdout, a.Ledger, o.width(0)); err != nil || c.Print {
			return err
		}
	}
	at := site{address: c.address(), opening: opening, region: g, drills: c.Drills}
	return serve(o, desk, at, func(urls []string) {
		if c.Open {
			c.open(o, urls[0])
			return
		}
		fmt.Fprintf(o.stdout, "\nLive it as a drill: %sdrill/\nThe same as a page, with the failure to drag along the flight (stop with Ctrl-C):\n%s  %s?%s\n", urls[0], others(urls, "?"+opening), urls[0], opening)
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

// address is where the pages are served. Where nobody asked for an address, the
// demonstration starts whatever else runs.
func (c *demoCommand) address() string {
	if c.Address != "" {
		return c.Address
	}
	l, err := net.Listen("tcp", usual)
	if err != nil {
		return "127.0.0.1:0"
	}
	_ = l.Close()
	return usual
}
