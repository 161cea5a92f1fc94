package validation

import (
	"context"
	"embed"
	"encoding/json"
	"fmt"

	"clampheat/model"
	"clampheat/model/network"
	"clampheat/solver"
)

// This file measures what the form of the model costs: parts of one
// temperature, and a formula for the crowding at contact spots, against fields
// solved in space. The stack solved is invented, its properties constant, so
// that nothing but the form differs.

//go:embed testdata/lug_fuse_lug_conduction.json testdata/constriction.json
var formData embed.FS

// stackField is the solution in space of one lug, fuse, lug.
type stackField struct {
	Inputs struct {
		Current         float64 `json:"current_A"`
		Air             float64 `json:"air_K"`
		Film            float64 `json:"film_coefficient_W_m2K"`
		Width           float64 `json:"bar_width_m"`
		Thickness       float64 `json:"bar_thickness_m"`
		LugLength       float64 `json:"lug_length_m"`
		CapLength       float64 `json:"cap_length_m"`
		Overlap         float64 `json:"overlap_m"`
		CopperK         float64 `json:"copper_k_W_mK"`
		CopperRho       float64 `json:"copper_rho_ohm_m"`
		ElementLength   float64 `json:"element_length_m"`
		ElementWidth    float64 `json:"element_width_m"`
		ElementThick    float64 `json:"element_thickness_m"`
		ElementK        float64 `json:"element_k_W_mK"`
		LeftConductance float64 `json:"left_interface_areal_conductance_W_m2K"`
		RightConduct    float64 `json:"right_interface_areal_conductance_W_m2K"`
	}
	Derived struct {
		CableConductance float64 `json:"cable_end_conductance_W_K"`
		CableRest        float64 `json:"cable_resting_temperature_K"`
		Clamped          float64 `json:"clamped_area_m2"`
		ElementOhm       float64 `json:"element_resistance_ohm"`
		LeftOhm          float64 `json:"left_interface_resistance_ohm"`
		RightOhm         float64 `json:"right_interface_resistance_ohm"`
	}
	Results map[string]float64
}

// The stack's parts in the order of the current.
var formParts = []string{"left_lug", "left_cap", "element", "right_cap", "right_lug"}

// What the cases vary; the geometry is fixed.
const (
	inFormCurrent = "current, A"
	inJointFactor = "worse joint's resistance over that given"
)

// lumped puts the stack together as the model puts lugs and a fuse together:
// a lug and the element are two halves each, a cap is one lump. The current's
// way in lug and cap ends in the middle of the clamped disc. The heat of
// long cables comes by their end conductance, exactly. It returns the rises of
// the parts by name, K; of a lug the mean of its halves.
func (f *stackField) lumped(ctx context.Context, in Inputs) (map[string]float64, error) {
	p, d := &f.Inputs, &f.Derived
	n := network.New(network.Surroundings{Air: p.Air})
	section := p.Width * p.Thickness
	film := network.Given{H: p.Film}
	ohm := func(name string, id network.NodeID, length float64) {
		n.AddResistor(network.Resistor{Name: name, A: id, B: id, R20: p.CopperRho * length / section})
	}
	surface := func(id network.NodeID, name string, share float64) {
		n.AddSurface(id, network.Surface{Name: name, Area: f.Results[name+"_exposed_area_m2"] * share, Shape: film})
	}

	lugWay, capWay := p.LugLength-p.Overlap/2, p.CapLength-p.Overlap/2
	factor := in[inJointFactor]
	var caps [2]network.NodeID
	nodes := map[string][]network.NodeID{}
	for i, side := range []string{"left", "right"} {
		outer := n.AddNode(network.Node{Name: side + " lug, cable side"})
		inner := n.AddNode(network.Node{Name: side + " lug, fuse side"})
		caps[i] = n.AddNode(network.Node{Name: side + " cap"})
		nodes[side+"_lug"], nodes[side+"_cap"] = []network.NodeID{outer, inner}, []network.NodeID{caps[i]}
		for _, half := range []network.NodeID{outer, inner} {
			ohm("lug", half, lugWay/2)
			surface(half, side+"_lug", 0.5)
		}
		n.AddLink("lug", outer, inner, p.CopperK*section/lugWay)
		ohm("cap", caps[i], capWay)
		surface(caps[i], side+"_cap", 1)
		joint, conductance := d.LeftOhm, p.LeftConductance*d.Clamped
		if side == "right" {
			joint, conductance = d.RightOhm*factor, p.RightConduct*d.Clamped/factor
		}
		n.AddResistor(network.Resistor{Name: "joint", A: inner, B: caps[i], R20: joint})
		n.AddLink("joint", inner, caps[i], conductance)
		n.AddHold("cable", outer, d.CableConductance, d.CableRest)
	}
	strip := p.ElementK * p.ElementWidth * p.ElementThick / p.ElementLength
	for _, c := range caps {
		half := n.AddNode(network.Node{Name: "element"})
		nodes["element"] = append(nodes["element"], half)
		n.AddResistor(network.Resistor{Name: "element", A: half, B: half, R20: d.ElementOhm / 2})
		surface(half, "element", 0.5)
		// A strip that makes P evenly between ends of one temperature is on average
		// P/(12 G) above them, G its conductance from end to end.
		n.AddLink("element to cap", half, c, 6*strip)
	}
	n.AddLink("element", nodes["element"][0], nodes["element"][1], 1.5*strip)
	n.SetSupply(network.Constant(in[inFormCurrent]), 0)
	if err := n.Finish(); err != nil {
		return nil, err
	}
	start := make([]float64, n.Nodes())
	for i := range start {
		start[i] = p.Air
	}
	res, err := solver.Steady(ctx, n, solver.SteadyOptions{Start: start})
	if err != nil {
		return nil, err
	}
	rises := map[string]float64{}
	for name, ids := range nodes {
		for _, id := range ids {
			rises[name] += (res.X[id] - p.Air) / float64(len(ids))
		}
	}
	return rises, nil
}

func readField(name string, dst any) error {
	data, err := formData.ReadFile("testdata/" + name)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(data, dst); err != nil {
		return fmt.Errorf("validation field %s: %w", name, err)
	}
	return nil
}

const (
	formSource         = "steady conduction in three dimensions, finite volumes on three meshes, SciPy 1.10"
	constrictionSource = "constriction of a round column in two dimensions, finite volumes on three meshes, SciPy 1.10"
)

// The bands were fixed before the first comparison: 1 K where a thermocouple
// sits, which is what two of them differ by, and 3 K at the element.
const (
	terminalBand = 1.0
	elementBand  = 3.0
)

func modelFormCases() ([]Case, error) {
	var field stackField
	if err := readField("lug_fuse_lug_conduction.json", &field); err != nil {
		return nil, err
	}
	given := Inputs{inFormCurrent: field.Inputs.Current, inJointFactor: 1}
	var cases []Case
	for _, part := range formParts {
		c := Case{
			Group: "model form", Name: "lumping/" + part, Kind: Analytic, Source: formSource,
			Claim:  "mean rise of the part of a lug, fuse, lug at 140 A",
			Inputs: given, Breaks: inFormCurrent, Unit: "K",
			Want: field.Results[part+"_mean_rise_K"], Tol: Abs(terminalBand, "K"),
			Why: "what two thermocouples differ by, fixed before the comparison",
		}
		if part == "element" {
			c.Tol = Abs(elementBand, "K")
			c.Why = "nobody measures there, and a fuse's element differs more from one to the next; fixed before the comparison"
		}
		c.Got = func(ctx context.Context, in Inputs) (float64, error) {
			rises, err := field.lumped(ctx, in)
			return rises[part], err
		}
		cases = append(cases, c)
	}
	middle := cases[2]
	middle.Name, middle.Claim = "lumping/element, middle", "largest rise of the element against the mean of its two halves"
	middle.Want, middle.Reported = field.Results["element_max_rise_K"], true
	middle.Note = "a fuse's row shows the mean of the hotter half, not the hottest place"
	cases = append(cases, middle)
	more, err := constrictionCases(&field, given)
	return append(cases, more...), err
}

// inSpot is the radius of the spot over that of its column.
const inSpot = "spot's radius over the column's"

// crowdingTo is the ratio of radii up to which the formula is claimed within
// crowdingBand. Spots of a joint under load lie below it.
const (
	crowdingTo   = 0.3
	crowdingBand = 0.01
)

func constrictionCases(field *stackField, given Inputs) ([]Case, error) {
	var solved struct {
		Rows []struct {
			Ratio  float64 `json:"spot_over_column_radius"`
			Solved float64
		}
	}
	if err := readField("constriction.json", &solved); err != nil {
		return nil, err
	}
	crowding := func(ratio float64) float64 { return model.Crowding(ratio*ratio, 1) }
	var cases []Case
	for _, row := range solved.Rows {
		c := Case{
			Group: "model form", Name: fmt.Sprintf("crowding/radii %.2g", row.Ratio), Kind: Analytic, Source: constrictionSource,
			Claim:  "constriction of a spot in a column over that in a half space",
			Inputs: Inputs{inSpot: row.Ratio}, Breaks: inSpot, Unit: "1",
			Want: row.Solved, Tol: Rel(row.Solved, crowdingBand), Why: "a joint's resistance is known ten times worse",
			Got: func(_ context.Context, in Inputs) (float64, error) { return crowding(in[inSpot]), nil },
		}
		inKelvin := Case{
			Group: "model form", Name: fmt.Sprintf("crowding in kelvin/radii %.2g", row.Ratio), Kind: Analytic, Source: constrictionSource,
			Claim:    "what the formula's error moves the hottest cap by, all of the worse joint being such spots",
			Unit:     "K",
			Reported: true, Note: "translates the error of the formula into the answer",
			Got: func(ctx context.Context, _ Inputs) (float64, error) {
				exact, err := field.lumped(ctx, given)
				if err != nil {
					return 0, err
				}
				off := Inputs{inFormCurrent: given[inFormCurrent], inJointFactor: crowding(row.Ratio) / row.Solved}
				moved, err := field.lumped(ctx, off)
				return moved["right_cap"] - exact["right_cap"], err
			},
		}
		if row.Ratio > crowdingTo*(1+1e-9) {
			c.Reported = true
			c.Note = "more crowded than spots under a bolt: the formula is not claimed so far"
		}
		cases = append(cases, c, inKelvin)
	}
	return cases, nil
}
