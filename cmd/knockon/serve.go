package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"syscall"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/region"
)

// placeFlags say where pages are served and where drills are kept.
type placeFlags struct {
	Address string `help:"Where to listen. Other machines can reach it only if you give an address that they can." default:"127.0.0.1:8765" placeholder:"HOST:PORT"`
	Drills  string `help:"Folder for the logs of drills. Default: knockon/drills in your own configuration folder." placeholder:"DIR" type:"path"`
}

type serveCommand struct {
	bookFlag
	regionFlags
	placeFlags
}

// site is the site that the flags ask for, and the desk of its book.
func (c *serveCommand) site(o *out) (*ask.Desk, site, error) {
	desk, err := c.desk(o)
	if err != nil {
		return nil, site{}, err
	}
	g, err := c.region(o, c.bookFlag)
	if errors.Is(err, errNoFields) { // the pages are then without what it costs
		err = nil
	}
	return desk, site{address: c.Address, region: g, drills: c.Drills}, err
}

type drillCommand struct {
	serveCommand
	Resume string `help:"Give the instructor of a drill in the folder a new link: the name of its file without .drill." placeholder:"NAME"`
}

func (c *drillCommand) Help() string {
	return `Serves the pages and says where a drill is begun: alone, or on two devices with an instructor on a
third (give --address with this machine's own address, so that they can reach it). A drill is its log:
it goes on where it stood after a page or this program was closed.`
}

func (c *drillCommand) Run(o *out) error {
	desk, at, err := c.site(o)
	if err != nil {
		return err
	}
	if at.resume = c.Resume; c.Resume != "" {
		at.resumed = func(path string) {
			fmt.Fprintf(o.stdout, "Its instructor goes on at %s (put it behind the address below).\n", path)
		}
	}
	return serve(o, desk, at, func(urls []string) {
		fmt.Fprintf(o.stdout, "Begin a drill at %sdrill/ (stop with Ctrl-C).\n%s%s\n", urls[0], others(urls, "drill/"), book.Caution)
	})
}

func (c *serveCommand) Run(o *out) error {
	desk, at, err := c.site(o)
	if err != nil {
		return err
	}
	return serve(o, desk, at, func(urls []string) {
		fmt.Fprintf(o.stdout, "The pages are at %s (stop with Ctrl-C).\n%s%s\n", urls[0], others(urls, ""), book.Caution)
	})
}

// site is where pages are served and what the bare address answers.
type site struct {
	address string
	opening string // the query of an address
	region  *region.Region
	drills  string // folder of their logs; "" for the usual one
	resume  string // a drill that is to be taken up; "" for none
	resumed func(path string)
}

// memoryLimit is where the runtime begins to give memory back in earnest. It is a
// help only: what bounds the memory are the doors and what is kept behind them
// (docs/limits.md).
const memoryLimit = 1200 << 20

func boundMemory() {
	if os.Getenv("GOMEMLIMIT") == "" {
		debug.SetMemoryLimit(memoryLimit)
	}
}

// collectSeldom has the runtime look for garbage when three times as much is taken as
// was in use, instead of twice: most of what a run makes is soon no longer needed.
// Near the memory limit it looks as often as that takes.
func collectSeldom() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(200)
	}
}

// serve serves a desk's pages until the context ends, and ends in good order:
// what is being answered is let go of, drills and their logs are closed. ready is
// told where the pages are.
func serve(o *out, desk *ask.Desk, at site, ready func(urls []string)) error {
	listener, err := listen(at.address)
	if err != nil {
		return err
	}
	defer listener.Close()
	handler, closing, err := pages(o, desk, at)
	if err != nil {
		return err
	}
	defer closing()
	server := &http.Server{Handler: handler, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 30 * time.Second, WriteTimeout: 60 * time.Second, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10,
		BaseContext: func(net.Listener) context.Context { return o }} // streams and long work end with the program
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		<-o.Done()
		end, cancel := context.WithTimeout(context.Background(), 3*time.Second)
		defer cancel()
		if server.Shutdown(end) != nil {
			_ = server.Close()
		}
	}()
	ready(addresses(listener.Addr(), interfaces()))
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	<-ended
	fmt.Fprintln(o.stderr, "knockon: stopped; drills go on where they stood")
	return nil
}

// usual is where pages are served if nobody says where.
const usual = "127.0.0.1:8765"

// listen takes an address as typed: a host and a port, or a port alone for every
// address of this machine.
func listen(address string) (net.Listener, error) {
	_, port, err := net.SplitHostPort(address)
	if n, e := strconv.Atoi(port); err != nil || e != nil || n < 0 || n > 65535 {
		return nil, wrong("address", "%q is no address to listen on: write host:port, such as %s, or :8765 for every address of this machine", address, usual)
	}
	l, err := net.Listen("tcp", address)
	switch {
	case err == nil:
		return l, nil
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, fmt.Errorf("another program listens on %s already: try --address 127.0.0.1:0 for any free port", address)
	}
	return nil, wrong("address", "cannot listen on %q (%v): give an address of this machine, such as %s", address, rootOf(err), usual)
}

// rootOf is what an error comes from, without what was being done.
func rootOf(err error) error {
	for inner := errors.Unwrap(err); inner != nil; inner = errors.Unwrap(inner) {
		err = inner
	}
	return err
}

// addresses are what to type into a browser: for one that listens everywhere the
// one on this machine first, then those that others can reach.
func addresses(at net.Addr, own []net.Addr) (urls []string) {
	tcp, ok := at.(*net.TCPAddr)
	if !ok || !tcp.IP.IsUnspecified() {
		return []string{"http://" + at.String() + "/"}
	}
	urls = append(urls, fmt.Sprintf("http://localhost:%d/", tcp.Port))
	for _, a := range own {
		if n, ok := a.(*net.IPNet); ok && n.IP.To4() != nil && n.IP.IsGlobalUnicast() {
			urls = append(urls, fmt.Sprintf("http://%s:%d/", n.IP, tcp.Port))
		}
	}
	return urls
}

// interfaces are this machine's own addresses.
func interfaces() []net.Addr {
	list, _ := net.InterfaceAddrs() // none can be told of: localhost is
	return list
}

// others tells of the addresses behind the first, which are for other machines.
func others(urls []string, page string) string {
	var text strings.Builder
	for _, u := range urls[1:] {
		text.WriteString("From other machines: " + u + page + "\n")
	}
	return text.String()
}

// openPage asks the machine to show an address in the person's browser.
func openPage(url string) error {
	words := opener(runtime.GOOS, url)
	return exec.Command(words[0], words[1:]...).Start()
}

// opener is how each system is asked.
func opener(system, url string) []string {
	switch system {
	case "windows":
		return []string{"rundll32", "url.dll,FileProtocolHandler", url}
	case "darwin":
		return []string{"open", url}
	}
	return []string{"xdg-open", url}
}
