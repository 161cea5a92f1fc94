package scenarios

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	yaml "go.yaml.in/yaml/v4"
)

var update = flag.Bool("update", false, "write the schema and the golden complaints anew")

func TestSchema(t *testing.T) {
	t.Run("current", func(t *testing.T) {
		want, err := makeSchema()
		if err != nil {
			t.Fatal(err)
		}
		if *update {
			if err := os.WriteFile(filepath.Join("schema", SchemaFile), want, 0o644); err != nil {
				t.Fatal(err)
			}
			return
		}
		if !bytes.Equal(Schema(), want) {
			t.Error("schema/scenario.schema.json is not what the types say: run go generate ./scenarios")
		}
	})
	schema := compileSchema(t)
	for _, name := range filesIn(t, "examples", ".yaml") {
		t.Run("example/"+filepath.Base(name), func(t *testing.T) {
			if err := schema.Validate(asJSON(t, readFile(t, name))); err != nil {
				t.Errorf("the schema refuses it: %v", err)
			}
			if _, err := Parse(name, readFile(t, name)); err != nil {
				t.Errorf("the reader refuses it: %v", err)
			}
		})
	}
	for _, name := range filesIn(t, filepath.Join("testdata", "good"), ".yaml") {
		t.Run("good/"+filepath.Base(name), func(t *testing.T) {
			if err := schema.Validate(asJSON(t, readFile(t, name))); err != nil {
				t.Errorf("the schema refuses it: %v", err)
			}
		})
	}
	for _, name := range filesIn(t, filepath.Join("testdata", "broken"), ".yaml") {
		t.Run("broken/"+filepath.Base(name), func(t *testing.T) {
			data := readFile(t, name)
			reason, readerOnly := onlyReader[filepath.Base(name)]
			var value any
			if err := yaml.Load(data, &value); err != nil {
				if !readerOnly {
					t.Errorf("no YAML at all, so no schema can judge it: %v", err)
				}
				return
			}
			err := schema.Validate(asJSON(t, data))
			switch {
			case err == nil && !readerOnly:
				t.Error("the schema accepts what the reader refuses")
			case err != nil && readerOnly:
				t.Errorf("the schema refuses it too, so this is no reason to except it: %s", reason)
			}
		})
	}
}

func compileSchema(t *testing.T) *jsonschema.Schema {
	t.Helper()
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(SchemaFile, document); err != nil {
		t.Fatal(err)
	}
	schema, err := c.Compile(SchemaFile)
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

// asJSON gives the file as an editor's language server sees it.
func asJSON(t *testing.T, data []byte) any {
	t.Helper()
	var value any
	if err := yaml.Load(data, &value); err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	value, err = jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	return value
}

func filesIn(t testing.TB, dir, ext string) []string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(dir, "*"+ext))
	if err != nil {
		t.Fatal(err)
	}
	return names
}

func readFile(t *testing.T, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Patterns that are not both ECMA 262 (with the u flag) and RE2 would work in
// one editor and not in the next: no inline flags, no escapes that only one
// knows.
func TestSchema_portablePatterns(t *testing.T) {
	var walk func(v any)
	odd := regexp.MustCompile(`\(\?[^:]|\\[^\\.+*?()|\[\]{}^$s/]`)
	walk = func(v any) {
		switch v := v.(type) {
		case map[string]any:
			if p, ok := v["pattern"].(string); ok && odd.MatchString(p) {
				t.Errorf("%s holds %q", p, odd.FindString(p))
			}
			for _, child := range v {
				walk(child)
			}
		case []any:
			for _, child := range v {
				walk(child)
			}
		}
	}
	var document any
	if err := json.Unmarshal(Schema(), &document); err != nil {
		t.Fatal(err)
	}
	walk(document)
	if !strings.HasSuffix(Modeline, SchemaFile) {
		t.Errorf("%q does not name the schema", Modeline)
	}
}
