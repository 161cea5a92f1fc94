package study

import (
	"fmt"
	"math"

	"clampheat/model"
	"clampheat/scenarios"
)

// This file reads the rows of a state.

var kinds = map[model.RowKind]string{
	model.PartRow: "part", model.TerminalRow: "terminal", model.ElementRow: "element",
	model.JointRow: "joint", model.BodyRow: "body",
}

// rows reads every row of the likely state, with the margin of its tightest
// limit and, where the current divides, the way that it lies on.
func rows(s *state, margins map[int]Margin, ways []scenarios.WayInfo) ([]Row, error) {
	names := rowNames(s.assembly)
	out := make([]Row, len(s.assembly.Rows))
	of := rowWays(s, ways)
	bolt := -1
	for k, i := range rowOrder(s, ways) {
		r := s.assembly.Rows[i]
		reading := s.assembly.ReadRow(i, 0, s.x)
		row := Row{Kind: kinds[r.Kind], Name: names[i], Terminal: r.Terminal, Temp: temp(s.temp(i)),
			Rise: s.temp(i) - s.stack.Surroundings.Air, Resistance: reading.Ohm, Drop: reading.Drop, Heat: reading.Heat}
		if of[i] >= 0 {
			row.Way = ways[of[i]].Name
		}
		if r.Branch > 0 {
			row.Current = s.assembly.RowCurrent(i, 0, s.x)
		}
		if reading.Spot > 0 {
			row.Spot = temp(reading.Spot)
		}
		if m, ok := margins[i]; ok {
			row.Limit = &m
		}
		if r.Kind == model.JointRow && r.Bolt >= 0 {
			b := s.stack.Bolts[r.Bolt]
			f, err := s.stack.BoltFigures(r.Bolt)
			if err != nil {
				return nil, fmt.Errorf("the clamp force of %s: %w", b.Name, err)
			}
			row.Bolt, row.Torque, row.Clamp = b.Name, b.Torque, f.Clamp.Likely
			row.SameNut = r.Bolt == bolt
			bolt = r.Bolt
		}
		out[k] = row
	}
	return out, nil
}

// rowNames gives every row a name of its own: the second of a name gets "#2".
func rowNames(a *model.Assembly) []string {
	seen := map[string]int{}
	names := make([]string, len(a.Rows))
	for i, r := range a.Rows {
		seen[r.Name]++
		names[i] = r.Name
		if n := seen[r.Name]; n > 1 {
			names[i] = fmt.Sprintf("%s #%d", r.Name, n)
		}
	}
	return names
}

// tightest gives for each row the margin of its tightest limit, and all
// margins. An UNKNOWN is tightest only where nothing is known.
func tightest(all []bound, place func(row int) string, likely, careless func(row int) float64) (map[int]Margin, []Margin) {
	byRow := map[int]Margin{}
	var margins []Margin
	for _, b := range all {
		m := b.judge(place(b.row), likely(b.row), careless(b.row))
		margins = append(margins, m)
		old, ok := byRow[b.row]
		if !ok || old.Verdict == Unknown || (m.Verdict != Unknown && m.Left < old.Left) {
			byRow[b.row] = m
		}
	}
	return byRow, margins
}

// least is the margin with the least left, nil where none can be judged.
func least(margins []Margin) *Margin {
	var best *Margin
	for i := range margins {
		if m := &margins[i]; m.Verdict != Unknown && (best == nil || m.Left < best.Left) {
			best = m
		}
	}
	return best
}

// watts drops what is next to nothing and checks that the rest is finite.
func watts(heats []model.Heat) []Watts {
	var out []Watts
	for _, h := range heats {
		if math.Abs(h.Heat) > 1e-9 {
			out = append(out, Watts(h))
		}
	}
	return out
}
