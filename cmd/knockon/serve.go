package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"

	"knockon/ask"
	"knockon/book"
	"knockon/costs"
)

type serveCommand struct {
	bookFlag
	regionFlags
	Address string `help:"Where to listen. Other machines can reach it only if you give an address that they can." default:"127.0.0.1:8765" placeholder:"HOST:PORT"`
}

func (c *serveCommand) Run(o *out) error {
	desk, err := c.desk(o)
	if err != nil {
		return err
	}
	g, err := c.region(o)
	if err != nil {
		return err
	}
	return serve(o, desk, site{address: c.Address, region: g}, func(url string) {
		fmt.Fprintf(o.stdout, "The pages are at %s (stop with Ctrl-C).\n%s\n", url, book.Caution)
	})
}

// site is where pages are served and what the bare address answers.
type site struct {
	address string
	opening string // the query of an address
	region  *costs.Region
}

// serve serves a desk's pages until the context ends; ready is told where.
func serve(o *out, desk *ask.Desk, at site, ready func(url string)) error {
	listener, err := net.Listen("tcp", at.address)
	if err != nil {
		return fmt.Errorf("cannot listen on %s: %w; try --address 127.0.0.1:0 for any free port", at.address, err)
	}
	handler, closing, err := pages(o, desk, at.region, at.opening)
	if err != nil {
		return err
	}
	defer closing()
	server := &http.Server{Handler: handler, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 30 * time.Second, WriteTimeout: 60 * time.Second, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10}
	go func() {
		<-o.Done()
		end, cancel := context.WithTimeout(context.Background(), 3*time.Second)
		defer cancel()
		_ = server.Shutdown(end)
	}()
	ready("http://" + listener.Addr().String() + "/")
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}
