package study

import (
	"fmt"
	"math"
	"slices"

	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file reads the box around a stack, and what lies side by side as one
// conductor.

// BoxState is the box around a stack at a state.
type BoxState struct {
	Name  string        `json:"name"`
	Air   quantity.Temp `json:"air_C"` // one temperature for all of it
	Inner quantity.Temp `json:"wall_inside_C"`
	Outer quantity.Temp `json:"wall_outside_C"`
	// Top is what the air below its top may have, by the standard's ratio of the
	// rise there to that at half the height.
	Top      quantity.Temp `json:"air_at_top_C"`
	TopRatio float64       `json:"rise_at_top_over_middle"`
	Source   string        `json:"top_source"`
	// Within is false where the box is outside of what the standard's tables cover.
	Within   bool    `json:"within_the_tables"`
	Parts    float64 `json:"from_parts_W"`
	Other    float64 `json:"from_other_things_W"`
	Wall     float64 `json:"by_wall_W"`
	Bulkhead float64 `json:"into_bulkhead_W"`
	Vents    float64 `json:"by_vents_W"`
	// Doubts say why the box cannot be what it is meant to be.
	Doubts []string `json:"doubts,omitempty"`
}

// topSource is the report whose ratio is used.
const topSource = "IEC TR 60890, from memory"

// boxName is what outputs call a box.
func boxName(e *model.Enclosure) string {
	if e.Label == "" {
		return "box"
	}
	return e.Label
}

// boxState reads the box of a stack at a state of a time, nil without one.
func boxState(stack *model.Stack, a *model.Assembly, t float64, x []float64) (*BoxState, error) {
	if stack.Enclosure == nil {
		return nil, nil
	}
	f, err := stack.EnclosureFigures()
	if err != nil {
		return nil, fmt.Errorf("the figures of the box: %w", err)
	}
	r := a.ReadBox(t, x)
	return &BoxState{Name: boxName(stack.Enclosure), Air: temp(r.Air), Inner: temp(r.Inner), Outer: temp(r.Outer),
		Top: temp(r.Air + (f.Top-1)*max(0, r.Air-airAt(stack, t))), TopRatio: f.Top, Source: topSource, Within: f.Within,
		Doubts: tooSmall(stack, a), Parts: r.Parts, Other: r.Other, Wall: r.Wall, Bulkhead: r.Bulkhead, Vents: r.Vents}, nil
}

// tooSmall says where a box does not hold what it is said to hold.
func tooSmall(stack *model.Stack, a *model.Assembly) []string {
	e := stack.Enclosure
	w, h, d := e.Width, e.Height, e.Depth
	wall := 2 * (w*h + w*d + h*d)
	diagonal := math.Sqrt(w*w + h*h + d*d)
	surface := 0.0
	var out []string
	for i, p := range stack.Parts {
		if e.Parts != nil && !slices.Contains(e.Parts, i) {
			continue
		}
		surface += a.Parts[i].Surface
		if bar, ok := p.(*model.Bar); ok && bar.Length > diagonal {
			out = append(out, fmt.Sprintf("%s is %.0f mm long, more than the box from corner to corner, %.0f mm: it does not go in", bar.Name(), bar.Length*1e3, diagonal*1e3))
		}
	}
	if surface > wall {
		out = append(out, fmt.Sprintf("what it holds has %.0f cm² of surface, its wall %.0f cm²: so full a box has no air that moves freely, as is reckoned here, and is hotter",
			surface*1e4, wall*1e4))
	}
	return out
}

// BoxCheck is a box as understood.
type BoxCheck struct {
	Name     string  `json:"name"`
	Width    float64 `json:"width_m"`
	Height   float64 `json:"height_m"`
	Depth    float64 `json:"depth_m"`
	Wall     string  `json:"wall"`
	Thick    float64 `json:"wall_thickness_m"`
	Mounting string  `json:"mounting"`
	Inlet    float64 `json:"low_vent_m2,omitempty"`
	Outlet   float64 `json:"high_vent_m2,omitempty"`
	VentRise float64 `json:"vent_rise_m,omitempty"`
	Fan      float64 `json:"fan_m3_per_s,omitempty"`
	Heat     float64 `json:"other_heat_W,omitempty"`
	// Cooling is the effective cooling surface of the standard.
	Cooling  float64  `json:"effective_cooling_surface_m2"`
	TopRatio float64  `json:"rise_at_top_over_middle"`
	Source   string   `json:"source"`
	Within   bool     `json:"within_the_tables"`
	Holds    []string `json:"holds"`
}

var mountings = map[model.Mounting]string{model.Free: "free", model.OnBulkhead: "on bulkhead", model.Insulated: "against insulation"}

func boxCheck(stack *model.Stack) (*BoxCheck, error) {
	e := stack.Enclosure
	if e == nil {
		return nil, nil
	}
	f, err := stack.EnclosureFigures()
	if err != nil {
		return nil, fmt.Errorf("the figures of the box: %w", err)
	}
	out := &BoxCheck{Name: boxName(e), Width: e.Width, Height: e.Height, Depth: e.Depth, Wall: e.Wall.Name, Thick: e.Wall.Thickness,
		Mounting: mountings[e.Mounting], Inlet: e.Inlet, Outlet: e.Outlet, VentRise: e.VentRise, Fan: e.Fan, Heat: e.Heat, Cooling: f.Cooling, TopRatio: f.Top, Source: topSource, Within: f.Within, Holds: []string{}}
	for i, p := range stack.Parts {
		if e.Parts == nil {
			out.Holds = append(out.Holds, p.Name())
			continue
		}
		for _, in := range e.Parts {
			if in == i {
				out.Holds = append(out.Holds, p.Name())
			}
		}
	}
	return out, nil
}

// SideBySide is a conductor that lies with others like it, which the stack counts
// once, or one of several bars.
type SideBySide struct {
	Name string `json:"name"`
	Text string `json:"text"` // "3 cables touching in a row"
}

// runs lists bundles, conduits and bars side by side.
func runs(stack *model.Stack) []SideBySide {
	var out []SideBySide
	add := func(name, format string, a ...any) {
		out = append(out, SideBySide{name, fmt.Sprintf(format, a...)})
	}
	for _, p := range stack.Parts {
		switch p := p.(type) {
		case *model.Cable:
			if g := p.Bundle; g != nil && g.Count > 1 {
				how := "touching in a row"
				if g.Arrangement == model.RoundBunch {
					how = "in a round bunch"
				}
				add(p.Name(), "%d alike %s, each with this current; the hottest is looked at", g.Count, how)
			}
			if d := p.Conduit; d != nil {
				with := "alone"
				if d.Count > 1 {
					with = fmt.Sprintf("%d alike, each with this current,", d.Count)
				}
				add(p.Name(), "%s in a conduit, %s, %.0f mm outside, %.0f mm inside", with, d.Name, d.Outer*1e3, d.Inner*1e3)
			}
		case *model.Bar:
			if p.Count > 1 {
				add(p.Name(), "%d bars with gaps of %.0f mm carry the current together", p.Count, p.Gap*1e3)
			}
		}
	}
	return out
}
