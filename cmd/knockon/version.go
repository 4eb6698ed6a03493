package main

import "fmt"

// version is what this tree is; the changelog says what is in it.
const version = "0.1.0"

type versionCommand struct{}

func (versionCommand) Run(o *out) error {
	_, err := fmt.Fprintln(o.stdout, "knockon", version)
	return err
}
