package study

import (
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
)

// This file says what a drop consists of: how much of the circuit is in the
// figure differs with what the file tells of it.

// DropParts is what a drop consists of. Source, Path and Return add up to it.
type DropParts struct {
	Source float64 `json:"source_V,omitempty"` // in the inner resistance of the one source of a power
	Path   float64 `json:"path_V"`
	Return float64 `json:"return_V,omitempty"` // in the return cable
	// In lists what lies in the path's figure, Out what of the circuit does not.
	In  []string `json:"path_holds"`
	Out []string `json:"left_out,omitempty"`
	// Draw is the circuit that loses the most, of several: the figure is its own.
	Draw string `json:"circuit,omitempty"`
}

// What lies in a drop, in words.
const (
	positiveSide   = "the positive side"
	innerOhms      = "the batteries' inner resistance"
	mirroredCables = "each battery's own cables once more on the negative side"
	mirroredBar    = `the bar's twin there (the bus bar's "return:")`
	wayBack        = "the way back from the load"
	returnCable    = "the return cable, which clampheat check adds"
)

// dropParts takes the drop of a state apart.
func dropParts(sc *scenarios.Scenario, s *state) DropParts {
	stack := s.stack
	d := DropParts{Path: s.assembly.Drop(0, s.x)}
	one := powered(stack) && !slices.ContainsFunc(sc.Ways(), func(w scenarios.WayInfo) bool { return w.Kind == scenarios.BatteryWay })
	inner, cables, bar, back := false, false, false, false
	for _, w := range stack.Wires {
		switch {
		case w.EMF != 0 && one:
			d.Source += s.current() * w.Resistance
		case w.EMF != 0:
			inner = inner || w.Resistance > 0
		case w.Like != nil:
			if _, cable := stack.Parts[w.Like.Part].(*model.Cable); cable {
				cables = true
			} else {
				bar = true
			}
		case w.Resistance > 0:
			back = true
			d.Return += s.current() * w.Resistance
		}
	}
	d.Path -= d.Source + d.Return
	for _, in := range []struct {
		is   bool
		what string
	}{{inner, innerOhms}, {true, positiveSide}, {cables, mirroredCables}, {bar, mirroredBar}} {
		if in.is {
			d.In = append(d.In, in.what)
		}
	}
	switch {
	case back:
	case sc.File.Return.Set:
		d.Out = append(d.Out, returnCable)
	default:
		d.Out = append(d.Out, wayBack)
	}
	if len(stack.Draws) > 1 {
		d.Draw = worstDraw(s)
	}
	return d
}

// worstDraw is the name of the draw that loses the most.
func worstDraw(s *state) string {
	worst, most := "", 0.0
	for i, open := range s.assembly.OpenVoltages(0, s.x) {
		if lost := open - s.assembly.Network.ReadDraw(s.assembly.Draws[i], 0, s.x).Voltage; worst == "" || lost > most {
			worst, most = s.stack.Draws[i].Name, lost
		}
	}
	return worst
}
