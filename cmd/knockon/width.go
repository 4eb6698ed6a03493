package main

import (
	"bytes"
	"encoding/json"
	"io"
	"os"
	"reflect"
	"strconv"

	"knockon/say"

	"golang.org/x/term"
)

// usualWidth is what paragraphs are set in where no width is known.
const usualWidth = 100

// mostWidth is the longest line that is set.
const mostWidth = 10_000

// columns is how wide what is written to w may be: COLUMNS, or the terminal's
// width; 0 where there is no end, as in a file.
func columns(w io.Writer) int {
	if n, err := strconv.Atoi(os.Getenv("COLUMNS")); err == nil && n > 0 {
		return max(n, say.LeastWidth)
	}
	if f, ok := w.(*os.File); ok {
		if n, _, err := term.GetSize(int(f.Fd())); err == nil && n > 0 {
			return max(n, say.LeastWidth)
		}
	}
	return 0
}

// width is what paragraphs are set in: as asked, or as there is room.
func (o *out) width(asked int) int {
	switch n := columns(o.stdout); {
	case asked > 0:
		return asked
	case n > 0:
		return min(n, usualWidth)
	}
	return usualWidth
}

// lay prints a text that has lines of its own, such as a table, and breaks those
// that are wider than the terminal.
func (o *out) lay(write func(io.Writer) error) error {
	var text bytes.Buffer
	if err := write(&text); err != nil {
		return err
	}
	_, err := io.WriteString(o.stdout, say.Fold(text.String(), columns(o.stdout)))
	return err
}

// roomy refuses a width in which nothing can be set.
func roomy(width int) error {
	if width == 0 {
		return nil
	}
	if width > mostWidth {
		return wrong("width", "%d is too many: give %d or fewer, such as --width %d", width, mostWidth, usualWidth)
	}
	return atLeast("width", width, say.LeastWidth, usualWidth)
}

// printJSON prints a view for a machine. A list without entries is [], never null.
func printJSON(o *out, v any) error {
	e := json.NewEncoder(o.stdout)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	list(reflect.ValueOf(&v))
	return e.Encode(v)
}

var marshaler = reflect.TypeFor[json.Marshaler]()

// list makes every list that is not there one without entries.
func list(v reflect.Value) {
	if v.Type().Implements(marshaler) || v.Kind() == reflect.Pointer && v.IsNil() {
		return // it writes itself
	}
	switch v.Kind() {
	case reflect.Pointer:
		list(v.Elem())
	case reflect.Interface:
		if !v.IsNil() && v.CanSet() {
			held := reflect.New(v.Elem().Type()).Elem()
			held.Set(v.Elem())
			list(held)
			v.Set(held)
		}
	case reflect.Slice:
		if v.IsNil() && v.CanSet() {
			v.Set(reflect.MakeSlice(v.Type(), 0, 0))
		}
		for i := range v.Len() {
			list(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				list(v.Field(i))
			}
		}
	}
}
