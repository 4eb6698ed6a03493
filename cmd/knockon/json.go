package main

import (
	"encoding/json"
	"reflect"
)

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
