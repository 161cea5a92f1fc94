package cli

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	ucli "github.com/urfave/cli/v2"

	"clampheat/cmd/clampheat/internal/texttable"
	"clampheat/validation"
)

func (s *session) validateCommand() *ucli.Command {
	return &ucli.Command{
		Name: "validate", Usage: "hold the program against published tables and measurements",
		UsageText: "clampheat validate [--json | --csv]",
		Description: `Runs every case that the answers are checked by: what is claimed, who published
it, what is expected, how far off it may be, and what comes out here. Each judged
case shows the smallest error of an input that it notices; "weak" stands beside
one that takes more than 10 %. A reported case is printed and not judged.

  clampheat validate
  clampheat validate --csv > cases.csv

Exit status 1: a case is outside its tolerance.
`,
		Flags: formatFlags(),
		Action: func(c *ucli.Context) error {
			if err := nothing(c); err != nil {
				return err
			}
			if err := checkFormat(c); err != nil {
				return err
			}
			results, err := validation.Run(c.Context)
			if err != nil {
				return err
			}
			err = s.put(c, answer{
				text:  func() string { return validateText(results) },
				value: func() any { return validateValue(results) },
				table: func() [][]string { return validateTable(results) },
			})
			if err != nil {
				return err
			}
			for _, r := range results {
				if !r.Passed {
					fmt.Fprintf(s.stderr, "clampheat: missed: %s, %s\n", r.Group, r.Name)
				}
			}
			if missed(results) > 0 {
				return &statusError{exitPassed}
			}
			return nil
		},
	}
}

func missed(results []validation.Result) int {
	n := 0
	for _, r := range results {
		if !r.Passed {
			n++
		}
	}
	return n
}

// validateText is a table a group, its sources under it, and a last line that
// counts.
func validateText(results []validation.Result) string {
	var b strings.Builder
	for from := 0; from < len(results); {
		to := from
		for to < len(results) && results[to].Group == results[from].Group {
			to++
		}
		b.WriteString(groupText(results[from:to]))
		b.WriteByte('\n')
		from = to
	}
	judged := 0
	for _, r := range results {
		if !r.Reported {
			judged++
		}
	}
	fmt.Fprintf(&b, "%d cases: %d judged, %d missed, %d reported; %d distinct published sources.\n",
		len(results), judged, missed(results), len(results)-judged, validation.Sources(results))
	return b.String()
}

func groupText(results []validation.Result) string {
	t := texttable.Table{Indent: 2, Columns: []texttable.Column{{Head: ""}, {Head: results[0].Group}, {Head: "expected", Align: texttable.Right},
		{Head: "got", Align: texttable.Right}, {Head: "unit"}, {Head: "off by", Align: texttable.Right}, {Head: "may be off"},
		{Head: "notices", Align: texttable.Right}, {Head: "", Align: texttable.Right}}}
	var sources []string
	watched := map[string][]string{}
	for _, r := range results {
		source := sourceNote(r)
		if !slices.Contains(sources, source) {
			sources = append(sources, source)
		}
		// An input's name has its unit behind a comma.
		input, _, _ := strings.Cut(r.Breaks, ",")
		if input != "" && !r.Reported && !slices.Contains(watched[source], input) {
			watched[source] = append(watched[source], input)
		}
		t.Row(verdict(r), r.Name, figure(r.Want), figure(r.Value), r.Unit, off(r), allowed(r), noticed(r),
			fmt.Sprintf("[%d]", slices.Index(sources, source)+1))
	}
	var b strings.Builder
	b.WriteString(t.String(width))
	for k, source := range sources {
		if inputs := watched[source]; len(inputs) > 0 {
			source += "; notices a change of " + strings.Join(inputs, ", ")
		}
		b.WriteString(texttable.Wrap(fmt.Sprintf("  %4s ", fmt.Sprintf("[%d]", k+1)), source, width))
	}
	return b.String()
}

// sourceNote says what stands behind a case.
func sourceNote(r validation.Result) string {
	text := fmt.Sprintf("%s: %s", r.Kind, r.Source)
	if r.Note != "" {
		text += ". " + r.Note
	}
	return text
}

func verdict(r validation.Result) string {
	switch {
	case !r.Passed:
		return "MISS"
	case r.Reported:
		return "--"
	}
	return "ok"
}

// figure writes a number of any size to four digits.
func figure(x float64) string { return strconv.FormatFloat(x+0, 'g', 4, 64) }

// off is the difference as a share of the value expected, where there is one.
func off(r validation.Result) string {
	d := r.Value - r.Want
	if r.Want == 0 {
		return strconv.FormatFloat(d+0, 'g', 2, 64)
	}
	// Rounding in the last digits is no difference.
	const rounding = 1e-9
	share := d / math.Abs(r.Want)
	if math.Abs(share) < rounding {
		return "0 %"
	}
	return fmt.Sprintf("%+.2g %%", 100*share)
}

func allowed(r validation.Result) string {
	if r.Reported {
		return "reported"
	}
	return r.Tol.Text
}

// noticed is the smallest wrong input that the case turns red at.
func noticed(r validation.Result) string {
	switch {
	case r.Reported || r.Breaks == "" || !r.Passed:
		return ""
	case math.IsInf(r.Break, 0):
		return "nothing"
	case r.Weak:
		return fmt.Sprintf("%.2g %% weak", 100*r.Break)
	}
	return fmt.Sprintf("%.1g %%", 100*r.Break)
}

// validateHeader names the columns of the CSV of validate.
var validateHeader = []column{
	{"group", "what the case is about"}, {"name", "of the case"}, {"claim", "what is claimed"},
	{"kind", "published, analytic, measured, practice or code"}, {"source", "who says so"},
	{"unit", "of the numbers that follow"}, {"expected", "by the source"}, {"got", "here"},
	{"lowest", "accepted; empty where not judged"}, {"highest", "accepted"}, {"why", "the tolerance is that wide"},
	{"input", "whose change must be noticed"}, {"noticed_from", "that change, as a share of it"},
	{"verdict", "ok, MISS or reported"}, {"note", ""},
}

func validateTable(results []validation.Result) [][]string {
	rows := [][]string{names(validateHeader)}
	for _, r := range results {
		v := caseValue(r)
		low, high := "", ""
		if v.Lowest != nil {
			low, high = exact(*v.Lowest), exact(*v.Highest)
		}
		from := ""
		if v.Noticed != nil {
			from = exact(*v.Noticed)
		}
		rows = append(rows, []string{v.Group, v.Name, v.Claim, v.Kind, v.Source, v.Unit, exact(v.Expected), exact(v.Got), low, high, v.Why, v.Input, from, v.Verdict, v.Note})
	}
	return rows
}

// caseJSON is a case with its outcome, as JSON.
type caseJSON struct {
	Group    string             `json:"group"`
	Name     string             `json:"name"`
	Claim    string             `json:"claim"`
	Kind     string             `json:"kind"`
	Source   string             `json:"source"`
	Inputs   map[string]float64 `json:"inputs"`
	Unit     string             `json:"unit"`
	Expected float64            `json:"expected"`
	Got      float64            `json:"got"`
	Lowest   *float64           `json:"lowest,omitempty"`
	Highest  *float64           `json:"highest,omitempty"`
	Why      string             `json:"why,omitempty"`
	Input    string             `json:"input_watched,omitempty"`
	Noticed  *float64           `json:"noticed_from,omitempty"`
	Weak     bool               `json:"weak,omitempty"`
	Verdict  string             `json:"verdict"`
	Note     string             `json:"note,omitempty"`
}

func caseValue(r validation.Result) caseJSON {
	v := caseJSON{Group: r.Group, Name: r.Name, Claim: r.Claim, Kind: string(r.Kind), Source: r.Source, Inputs: r.Inputs,
		Unit: r.Unit, Expected: r.Want, Got: r.Value, Why: r.Why, Input: r.Breaks, Weak: r.Weak, Verdict: verdict(r), Note: r.Note}
	if r.Reported {
		v.Verdict = "reported"
		return v
	}
	low, high := r.Want+r.Tol.Low, r.Want+r.Tol.High
	v.Lowest, v.Highest = &low, &high
	if r.Passed && !math.IsInf(r.Break, 0) {
		v.Noticed = &r.Break
	}
	return v
}

func validateValue(results []validation.Result) []caseJSON {
	list := make([]caseJSON, len(results))
	for i, r := range results {
		list[i] = caseValue(r)
	}
	return list
}
