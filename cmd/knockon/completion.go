package main

import (
	"fmt"
	"slices"
	"strings"

	"knockon/book"
	"knockon/say"

	"github.com/alecthomas/kong"
)

type completionCommand struct {
	Shell string `arg:"" enum:"bash,zsh,fish" help:"bash, zsh or fish."`
}

func (c *completionCommand) Help() string {
	return `  bash:  source <(knockon completion bash)
  zsh:   source <(knockon completion zsh)
  fish:  knockon completion fish | source`
}

var scripts = map[string]string{
	"bash": `_knockon() {
  local IFS=$'\n'
  COMPREPLY=($(knockon internal-complete -- "${COMP_WORDS[@]:1:COMP_CWORD}"))
}
complete -o default -F _knockon knockon
`,
	"zsh": `_knockon() {
  local -a found
  found=("${(@f)$(knockon internal-complete -- "${(@)words[2,CURRENT]}")}")
  compadd -a found
}
compdef _knockon knockon
`,
	"fish": `complete -c knockon -f -a '(knockon internal-complete -- (commandline -opc)[2..-1] (commandline -ct))'
`,
}

func (c *completionCommand) Run(o *out) error {
	_, err := fmt.Fprint(o.stdout, scripts[c.Shell])
	return err
}

// completeCommand is what the shells' scripts call: it prints what may stand
// where the last of the words is being typed.
type completeCommand struct {
	Words []string `arg:"" optional:"" passthrough:""`
}

func (c *completeCommand) Run(o *out) error {
	words := c.Words
	if len(words) > 0 && words[0] == "--" {
		words = words[1:]
	}
	if len(words) == 0 {
		words = []string{""}
	}
	last := words[len(words)-1]
	for _, w := range candidates(o, words) {
		if strings.HasPrefix(w, last) {
			fmt.Fprintln(o.stdout, w)
		}
	}
	return nil
}

func candidates(o *out, words []string) []string {
	model := kong.Must(&commands{}).Model
	if len(words) == 1 {
		return commandNames(model)
	}
	i := slices.IndexFunc(model.Children, func(n *kong.Node) bool { return n.Name == words[0] })
	if i < 0 {
		return nil
	}
	if strings.HasPrefix(words[len(words)-1], "-") {
		return flagNames(model.Children[i])
	}
	return idsFor(o, words)
}

func commandNames(model *kong.Application) (names []string) {
	for _, n := range model.Children {
		if !n.Hidden {
			names = append(names, n.Name)
		}
	}
	return names
}

func flagNames(n *kong.Node) (names []string) {
	for _, f := range n.Flags {
		if !f.Hidden {
			names = append(names, "--"+f.Name)
		}
	}
	return append(names, "--help")
}

// idsFor lists ids of the book that fit the word being typed, by the flag or
// command in front of it.
func idsFor(o *out, words []string) []string {
	var from bookFlag
	for i, w := range words[:len(words)-1] {
		if w == "--book" && i+1 < len(words)-1 {
			from.Book = words[i+1]
		}
	}
	files, err := from.files()
	if err != nil {
		return nil
	}
	loaded, diags := book.Load(o, files)
	if diags.HasErrors() {
		return nil
	}
	b, _ := loaded.Build("")
	return idsAfter(words[len(words)-2], words[0], loaded, b)
}

func idsAfter(previous, command string, loaded *book.Book, b *book.Build) (ids []string) {
	switch previous {
	case "--build":
		return book.IDs(loaded.Variants)
	case "--flight":
		return book.IDs(b.Flights)
	case "--at", "--moment", "--phase":
		return book.IDs(b.Phases)
	case "--move":
		return placed(b.Controls)
	}
	if command == "why" && previous == "why" {
		return slices.Concat(book.IDs(b.Functions), book.IDs(b.Alerts), book.IDs(b.Indications))
	}
	if command == "rescue" && previous == "rescue" {
		return book.IDs(b.Functions)
	}
	if command == "worth" && previous == "worth" {
		return book.IDs(b.Procedures)
	}
	return say.Texts(b.Failures())
}

// placed lists controls with each of their positions, as --move takes them.
func placed(list []*book.Control) (texts []string) {
	for _, c := range list {
		for _, p := range c.Positions {
			texts = append(texts, c.ID+"="+p)
		}
	}
	return texts
}
