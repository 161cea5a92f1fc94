package scenarios

import (
	"reflect"
	"strings"
	"sync"
)

// This file reads the tags of the types in file.go into a table of keys, the
// one place where reader, messages and schema learn what a key is.

// field is one key of a type.
type field struct {
	index              int // of the Go field
	key, also          string
	is                 string
	from               string
	words              []string
	need               bool
	later              string
	above, least, most string
	doc                string
}

var fileFields = sync.OnceValue(func() []field { return fieldsOf(reflect.TypeFor[File]()) })
var returnFields = sync.OnceValue(func() []field { return fieldsOf(reflect.TypeFor[Return]()) })
var boxFields = sync.OnceValue(func() []field { return fieldsOf(reflect.TypeFor[Enclosure]()) })
var circuitFields = sync.OnceValue(func() []field { return fieldsOf(reflect.TypeFor[circuit]()) })
var itemFields = sync.OnceValue(func() []field { return fieldsOf(reflect.TypeFor[Item]()) })

func fieldsOf(t reflect.Type) []field {
	var fields []field
	for i := range t.NumField() {
		tag := t.Field(i).Tag
		key := tag.Get("key")
		if key == "" {
			continue
		}
		f := field{
			index: i, key: key, also: tag.Get("also"), is: tag.Get("is"), from: tag.Get("from"),
			need: tag.Get("need") == "yes", later: tag.Get("later"),
			above: tag.Get("above"), least: tag.Get("least"), most: tag.Get("most"), doc: tag.Get("doc"),
		}
		if words := tag.Get("words"); words != "" {
			f.words = strings.Split(words, "|")
		}
		fields = append(fields, f)
	}
	return fields
}

// fieldNamed finds a key, by either spelling.
func fieldNamed(fields []field, key string) (field, bool) {
	for _, f := range fields {
		if f.key == key || (f.also != "" && f.also == key) {
			return f, true
		}
	}
	return field{}, false
}

func keysOf(fields []field) []string {
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.key
	}
	return keys
}

// meant names keys for words of everyday speech that are none.
var meant = map[string]string{
	"torque": "nut", "bolt": "nut", "ambient": "air", "temperature": "air", "amps": "current", "load": "current",
	"parts": "path", "stack": "path", "jacket": "insulation", "width": "section", "thickness": "section",
	"box": "enclosure", "watts": "power", "cycle": "duty", "schedule": "duty",
	"lubrication": "thread", "contact": "faces", "rating": "fuse", "orientation": "lies",
}
