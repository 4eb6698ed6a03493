package book

import (
	"fmt"
	"reflect"
)

// difference says where two books differ, ranges aside; "" if nowhere.
func difference(a, b *Book) string {
	if d := differ("variants", reflect.ValueOf(a.Variants), reflect.ValueOf(b.Variants)); d != "" {
		return d
	}
	for i := range a.builds {
		if d := differ(a.Variants[i].ID, reflect.ValueOf(*a.builds[i]), reflect.ValueOf(*b.builds[i])); d != "" {
			return d
		}
	}
	return ""
}

var rangeType, bookType = reflect.TypeFor[Range](), reflect.TypeFor[*Book]()

func differ(path string, a, b reflect.Value) string {
	switch {
	case a.Type() == rangeType || a.Type() == bookType:
		return ""
	case a.Kind() == reflect.Pointer || a.Kind() == reflect.Interface:
		if a.IsNil() || b.IsNil() {
			if a.IsNil() != b.IsNil() {
				return path + ": only one is there"
			}
			return ""
		}
		return differ(path, a.Elem(), b.Elem())
	case a.Kind() == reflect.Struct:
		for i := range a.NumField() {
			if d := differ(path+"."+a.Type().Field(i).Name, a.Field(i), b.Field(i)); d != "" {
				return d
			}
		}
	case a.Kind() == reflect.Slice:
		if a.Len() != b.Len() {
			return fmt.Sprintf("%s: %d and %d entries", path, a.Len(), b.Len())
		}
		for i := range a.Len() {
			if d := differ(fmt.Sprintf("%s[%d]", path, i), a.Index(i), b.Index(i)); d != "" {
				return d
			}
		}
	case a.Kind() == reflect.Map: // items, which the slices hold too
		if a.Len() != b.Len() {
			return fmt.Sprintf("%s: %d and %d entries", path, a.Len(), b.Len())
		}
	default:
		if !a.Equal(b) {
			return fmt.Sprintf("%s: %v and %v", path, a, b)
		}
	}
	return ""
}
