// Package dot lays graphs out with the Graphviz library. It turns requests on
// one stream into plans on another.
//
// Invariant: one request at a time. The library is not safe for concurrent
// use, cannot be stopped, and can end the process it runs in; so nothing but a
// child process may call it, and package child holds the other end.
//
// Start reading at Serve.
package dot

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"

	"github.com/goccy/go-graphviz"

	"knockon/figure/layout/child"
)

// Serve answers requests from in on out until in ends. Each request is a graph
// in the DOT language, each answer its plan in the library's plain format. The
// error is of the streams, or of a library that does not start.
func Serve(in io.Reader, out io.Writer) error {
	ctx := context.Background()
	library, err := graphviz.New(ctx)
	if err != nil {
		return fmt.Errorf("layout: the graph library does not start: %w", err)
	}
	defer library.Close()
	r := bufio.NewReader(in)
	for {
		request, err := child.ReadFrame(r)
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
		plan, err := place(ctx, library, request)
		if err := child.WriteAnswer(out, plan, err); err != nil {
			return err
		}
	}
}

func place(ctx context.Context, library *graphviz.Graphviz, text []byte) ([]byte, error) {
	graph, err := graphviz.ParseBytes(text)
	if err != nil {
		return nil, err
	}
	if graph == nil { // what the library makes of an empty text
		return nil, errors.New("no graph in the request")
	}
	defer graph.Close()
	var plan bytes.Buffer
	if err := library.Render(ctx, graph, graphviz.Format("plain"), &plan); err != nil {
		return nil, err
	}
	return plan.Bytes(), nil
}
