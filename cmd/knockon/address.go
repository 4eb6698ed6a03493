package main

import (
	"errors"
	"fmt"
	"net"
	"strconv"
	"strings"
	"syscall"
)

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
