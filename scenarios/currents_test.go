package scenarios

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"clampheat/model"
	"clampheat/solver"
)

// Whatever branches lie in branches, the currents side by side add up to that of
// the way they lie in, and what is read is drawn.
func TestCurrentsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		names := 0
		cable := func() string {
			size := rapid.SampledFrom([]string{"16 mm²", "25 mm²", "50 mm²"}).Draw(t, "size")
			return fmt.Sprintf("{cable: %s, length: %d cm}", size, rapid.IntRange(10, 200).Draw(t, "length"))
		}
		var branches func(depth int) string
		lane := func(depth int) string {
			parts := []string{cable()}
			for range rapid.IntRange(0, 2).Draw(t, "more") {
				parts = append(parts, "{battery switch: generic, nuts: 20 N·m}")
				if depth > 0 && rapid.Bool().Draw(t, "nested") {
					parts = append(parts, branches(depth-1))
				} else {
					parts = append(parts, cable())
				}
			}
			return "[" + strings.Join(parts, ", ") + "]"
		}
		branches = func(depth int) string {
			var lanes []string
			for range rapid.IntRange(2, 3).Draw(t, "lanes") {
				names++
				lanes = append(lanes, fmt.Sprintf("w%d: %s", names, lane(depth)))
			}
			return "{branches: {" + strings.Join(lanes, ", ") + "}}"
		}
		file := "current: 100 A\nair: 25 °C\npath:\n  - {battery post: M10, nut: 20 N·m}\n  - " + branches(2) + "\n  - {inverter terminal: M10, nut: 20 N·m}\n"
		s, err := Read("t.yaml", []byte(file))
		if err != nil {
			if strings.Contains(err.Error(), "a line is longer") || strings.Contains(err.Error(), "up to 200 parts") {
				t.Skip("too much for one file")
			}
			t.Fatalf("%v\n%s", err, file)
		}
		stack, err := s.Stack(nil)
		if err != nil {
			t.Fatal(err)
		}
		a, err := stack.Assemble(model.Likely, coarse)
		if err != nil {
			t.Fatal(err)
		}
		r, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: a.Start(nil)})
		if err != nil {
			t.Fatal(err)
		}
		current := make([]float64, len(s.File.Ways)) // of each way, that of its first part
		for i := range a.Rows {
			row := &a.Rows[i]
			if row.Kind != model.PartRow {
				continue
			}
			way := s.File.Path[s.PartItems[row.Part]].Way
			if _, isCable := stack.Parts[row.Part].(*model.Cable); isCable && current[way] == 0 {
				current[way] = a.RowCurrent(i, 0, r.X)
			}
		}
		current[0] = 100
		sum := map[int]float64{}
		for w, info := range s.Ways() {
			if w > 0 {
				sum[info.Group] += current[w]
			}
		}
		for w, info := range s.Ways() {
			if w > 0 && math.Abs(sum[info.Group]-current[info.Parent]) > 1e-6 {
				t.Fatalf("ways beside %q carry %g A together, their parent %g A\n%s", info.Name, sum[info.Group], current[info.Parent], file)
			}
		}
	})
}
