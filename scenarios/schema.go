package scenarios

import (
	_ "embed"
	"slices"
)

// This file ships the JSON Schema of a scenario file, by which editors check
// and complete while one types. It is written by a test from the tags of
// file.go, the kinds of kinds.go and the tables of package materials.

//go:generate go test -run ^TestSchema$/^current$ . -update

//go:embed schema/scenario.schema.json
var schemaText []byte

// SchemaFile is the name under which Modeline looks for the schema.
const SchemaFile = "scenario.schema.json"

// Modeline is the remark that tells an editor which schema a scenario file
// follows, by the open convention of YAML language servers. The schema is to
// lie beside the file.
const Modeline = "# yaml-language-server: $schema=./" + SchemaFile

// Schema returns the JSON Schema (draft 2020-12) of a scenario file.
func Schema() []byte { return slices.Clone(schemaText) }
