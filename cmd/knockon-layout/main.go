// Command knockon-layout places the boxes of graphs with the Graphviz library:
// requests on its standard input, plans on its standard output. It is the
// child process of knockon's pages and is of no use by itself.
//
// It is a program of its own because the library is not safe to have in a
// server: it can end the process it runs in, cannot be stopped, and starts its
// engine, from a folder for temporary files, in every program it is linked into.
package main

import (
	"fmt"
	"os"

	"knockon/figure/layout/dot"
)

func main() {
	if err := dot.Serve(os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, "knockon-layout:", err)
		os.Exit(1)
	}
}
