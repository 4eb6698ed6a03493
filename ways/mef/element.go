package mef

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
)

// element is an XML element with its place in the file.
type element struct {
	name         string
	attrs        []xml.Attr
	children     []*element
	text         string // only of a label
	line, column int
}

func (e *element) err(format string, args ...any) *Error {
	return &Error{e.line, e.column, fmt.Sprintf(format, args...)}
}

// attr returns an attribute without the space around it.
func (e *element) attr(name string) string {
	for _, a := range e.attrs {
		if a.Name.Local == name {
			return strings.TrimSpace(a.Value)
		}
	}
	return ""
}

func (e *element) child(name string) *element {
	for _, c := range e.children {
		if c.name == name {
			return c
		}
	}
	return nil
}

// content returns the children that are neither label nor attributes.
func (e *element) content() []*element {
	var rest []*element
	for _, c := range e.children {
		if c.name != "label" && c.name != "attributes" {
			rest = append(rest, c)
		}
	}
	return rest
}

func (e *element) label() string {
	if l := e.child("label"); l != nil {
		return strings.TrimSpace(l.text)
	}
	return ""
}

// scanner turns a file into elements. It knows no entities but those of XML
// itself, so a small file cannot unfold into a large one.
type scanner struct {
	d      *xml.Decoder
	in     *bounded
	limits Limits
	count  int
	open   []*element
	root   *element
}

// bounded fails once more bytes than allowed were read.
type bounded struct {
	r    io.Reader
	left int
}

var errLong = errors.New("the file is too long")

func (b *bounded) Read(p []byte) (int, error) {
	n, err := b.r.Read(p)
	if b.left -= n; b.left < 0 {
		return 0, errLong
	}
	return n, err
}

// scan returns the root element.
func scan(r io.Reader, limits Limits) (*element, *Error) {
	s := &scanner{in: &bounded{r, limits.Bytes}, limits: limits}
	s.d = xml.NewDecoder(s.in)
	s.d.CharsetReader = charset
	for {
		line, column := s.d.InputPos()
		token, err := s.d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, s.syntax(err)
		}
		if err := s.token(token, line, column); err != nil {
			return nil, err
		}
	}
	if s.root == nil {
		return nil, &Error{1, 1, "the file holds no XML element"}
	}
	return s.root, nil
}

// syntax gives the decoder's error the place where it stopped.
func (s *scanner) syntax(err error) *Error {
	line, column := s.d.InputPos()
	var syntax *xml.SyntaxError
	reason := err.Error()
	switch {
	case errors.As(err, &syntax):
		line, reason = syntax.Line, syntax.Msg
	case errors.Is(err, errLong):
		reason = fmt.Sprintf("the file is longer than the %d bytes allowed", s.limits.Bytes)
	}
	return &Error{line, column, reason}
}

func (s *scanner) token(token xml.Token, line, column int) *Error {
	switch t := token.(type) {
	case xml.StartElement:
		return s.start(t, line, column)
	case xml.EndElement:
		s.open = s.open[:len(s.open)-1]
	case xml.CharData:
		if n := len(s.open); n > 0 && s.open[n-1].name == "label" {
			s.open[n-1].text += string(t)
		} else if text := strings.TrimSpace(string(t)); text != "" {
			line, column = after(string(t[:strings.Index(string(t), text)]), line, column)
			return &Error{line, column, fmt.Sprintf("text %.40q where none is expected", text)}
		}
	}
	return nil
}

// after returns the place behind some text that begins at a place.
func after(text string, line, column int) (int, int) {
	if i := strings.LastIndexByte(text, '\n'); i >= 0 {
		return line + strings.Count(text, "\n"), len(text) - i
	}
	return line, column + len(text)
}

func (s *scanner) start(t xml.StartElement, line, column int) *Error {
	e := &element{name: t.Name.Local, attrs: t.Copy().Attr, line: line, column: column}
	if s.count++; s.count > s.limits.Elements {
		return e.err("more than the %d elements allowed", s.limits.Elements)
	}
	if len(s.open) >= s.limits.Depth {
		return e.err("elements stand in one another more than %d deep", s.limits.Depth)
	}
	switch {
	case len(s.open) > 0:
		in := s.open[len(s.open)-1]
		in.children = append(in.children, e)
	case s.root != nil:
		return e.err("a second root element <%s>", e.name)
	default:
		s.root = e
	}
	s.open = append(s.open, e)
	return nil
}

// charset reads the encodings that need no tables.
func charset(label string, in io.Reader) (io.Reader, error) {
	switch strings.ToLower(label) {
	case "us-ascii", "ascii":
		return in, nil
	case "iso-8859-1", "latin1":
		return &latin1{r: in}, nil
	}
	return nil, fmt.Errorf("encoding %q is not supported; save the file as UTF-8", label)
}

type latin1 struct {
	r    io.Reader
	rest []byte
}

func (l *latin1) Read(p []byte) (int, error) {
	if len(l.rest) == 0 {
		buffer := make([]byte, 4096)
		n, err := l.r.Read(buffer)
		if n == 0 {
			return 0, err
		}
		for _, b := range buffer[:n] {
			l.rest = append(l.rest, string(rune(b))...)
		}
	}
	n := copy(p, l.rest)
	l.rest = l.rest[n:]
	return n, nil
}
