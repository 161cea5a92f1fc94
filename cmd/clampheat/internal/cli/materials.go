package cli

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/materials"
)

func (s *session) materialsCommand() *ucli.Command {
	return &ucli.Command{
		Name: "materials", Usage: "the tables that the numbers come from, with their sources",
		UsageText: "clampheat materials [--json | --csv] [KIND]",
		Description: "Lists what a scenario may name and what is known of it. Every row says where it\n" +
			"comes from; a row that is assumed says on what ground.\n\n" +
			"  clampheat materials\n" +
			"  clampheat materials fasteners\n" +
			"  clampheat materials conductors --csv\n\n" +
			"CSV has the columns of the kind, then basis, source, ground and note; it needs a KIND.\n",
		Flags: formatFlags(),
		Action: func(c *ucli.Context) error {
			kind, err := argument(c, "")
			if err != nil {
				return err
			}
			if err := checkFormat(c); err != nil {
				return err
			}
			tables := materials.Tables()
			kinds := make([]string, len(tables))
			for i, t := range tables {
				kinds[i] = t.Kind
			}
			if kind != "" {
				i := kindIndex(kinds, kind)
				if i < 0 {
					return &usageError{fmt.Sprintf("there is no kind of material %q", kind), didYouMean(kind, kinds, "kinds are: "+strings.Join(kinds, ", "))}
				}
				tables = tables[i : i+1]
			} else if c.Bool("csv") {
				return &usageError{"materials --csv needs a KIND: each has its own columns", "kinds are: " + strings.Join(kinds, ", ")}
			}
			return s.put(c, answer{
				text:  func() string { return materialsText(tables) },
				value: func() any { return materialsValue(tables) },
				table: func() [][]string { return materialsTable(tables[0]) },
			})
		},
	}
}

// kindIndex finds a kind by its name or, where it is the only one that begins
// so, by the beginning of it; -1 where there is none.
func kindIndex(kinds []string, kind string) int {
	kind, found := strings.ToLower(kind), -1
	for i, k := range kinds {
		switch {
		case k == kind:
			return i
		case !strings.HasPrefix(k, kind):
		case found >= 0:
			return -1
		default:
			found = i
		}
	}
	return found
}

// materialsText prints tables with the sources numbered under each.
func materialsText(tables []materials.Table) string {
	var b strings.Builder
	for i, table := range tables {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(texttable.Wrap(table.Kind+": ", table.Title, width))
		t := texttable.Table{Indent: 2}
		for _, c := range table.Columns {
			t.Columns = append(t.Columns, texttable.Column{Head: c})
		}
		t.Columns = append(t.Columns, texttable.Column{Head: "from"})
		var notes []string
		for _, row := range table.Rows {
			note := provenance(row.Provenance)
			k := slices.Index(notes, note)
			if k < 0 {
				k = len(notes)
				notes = append(notes, note)
			}
			t.Row(append(slices.Clone(row.Cells), "["+strconv.Itoa(k+1)+"]")...)
		}
		b.WriteString(t.Folded(width))
		for k, note := range notes {
			b.WriteString(texttable.Wrap(fmt.Sprintf("  %4s ", "["+strconv.Itoa(k+1)+"]"), note, width))
		}
	}
	return b.String()
}

func provenance(p materials.Provenance) string {
	text := p.Basis.String() + ": " + p.Source.Cite
	if p.Ground != "" {
		text += "; ground: " + p.Ground
	}
	if p.Note != "" {
		text += "; " + p.Note
	}
	return text
}

// Rows of materials as JSON.
type (
	materialRow struct {
		Cells  map[string]string `json:"cells"`
		Basis  string            `json:"basis"`
		Source string            `json:"source"`
		Ground string            `json:"ground,omitempty"`
		Note   string            `json:"note,omitempty"`
	}
	materialKind struct {
		Kind    string        `json:"kind"`
		Title   string        `json:"title"`
		Columns []string      `json:"columns"`
		Rows    []materialRow `json:"rows"`
	}
)

func materialsValue(tables []materials.Table) []materialKind {
	kinds := make([]materialKind, 0, len(tables))
	for _, t := range tables {
		kind := materialKind{Kind: t.Kind, Title: t.Title, Columns: t.Columns, Rows: []materialRow{}}
		for _, r := range t.Rows {
			cells := map[string]string{}
			for i, c := range r.Cells {
				cells[t.Columns[i]] = c
			}
			kind.Rows = append(kind.Rows, materialRow{cells, r.Basis.String(), r.Source.Cite, r.Ground, r.Note})
		}
		kinds = append(kinds, kind)
	}
	return kinds
}

func materialsTable(t materials.Table) [][]string {
	rows := [][]string{append(slices.Clone(t.Columns), "basis", "source", "ground", "note")}
	for _, r := range t.Rows {
		rows = append(rows, append(slices.Clone(r.Cells), r.Basis.String(), r.Source.Cite, r.Ground, r.Note))
	}
	return rows
}
