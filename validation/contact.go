package validation

import (
	"context"
	"encoding/json"
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model"
)

// This file holds the relations of electric contacts: constriction, hot spots,
// heat through metal, and the crowding of current in an overlap.

const (
	holmBook = "Holm, Electric Contacts, 4th ed. 1967"
	forceIn  = "force, N"
	voltsIn  = "drop over the constriction, V"
)

func contactCases() ([]Case, error) {
	var cases []Case
	for _, group := range []func() ([]Case, error){holmCases, meltingCases, contactLawCases, lorenzCases, overlapCases, barJointCase} {
		more, err := group()
		if err != nil {
			return nil, err
		}
		cases = append(cases, more...)
	}
	return cases, nil
}

// holmCases are arithmetic from Holm's and Kohlrausch's relations, and the
// round figure that the trade keeps of the latter.
func holmCases() ([]Case, error) {
	table, err := openSheet("holm")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		given := r.inputs("inputs")
		want := r.number("value")
		c := Case{Group: "contact", Kind: CodeCheck, Exact: true, Source: holmBook, Unit: r.text("unit"),
			Want: want, Tol: r.printed("value", 0.001, r.text("unit")), Why: printedWhy}
		switch r.text("quantity") {
		case "constriction":
			c.Name = fmt.Sprintf("constriction/%g N, %g GPa", given["force_N"], given["hardness_GPa"])
			c.Claim = "resistance of one round spot between like metals"
			c.Unit = "µΩ"
			c.Inputs = Inputs{forceIn: given["force_N"], "hardness, Pa": given["hardness_GPa"] * 1e9,
				"resistivity, Ω·m": given["resistivity_ohm_m"]}
			c.Breaks = "resistivity, Ω·m"
			c.Got = func(_ context.Context, in Inputs) (float64, error) {
				rho := in["resistivity, Ω·m"]
				return model.HolmConstriction(in[forceIn], in["hardness, Pa"], rho, rho) * 1e6, nil
			}
		case "spot_temperature":
			c.Name = fmt.Sprintf("hot spot/%g V", given["drop_V"])
			c.Claim = "temperature of a spot above metal of 20 °C"
			c.Inputs = Inputs{voltsIn: given["drop_V"], "bulk, K": given["bulk_K"]}
			c.Breaks = "bulk, K"
			if given["drop_V"] > 0.2 {
				c.Breaks = voltsIn
			}
			c.Got = func(_ context.Context, in Inputs) (float64, error) {
				return model.SpotTemperature(in["bulk, K"], in[voltsIn]), nil
			}
		default:
			continue
		}
		cases = append(cases, c)
	}
	cases = append(cases, Case{
		Group: "contact", Name: "hot spot/1 V", Kind: Published,
		Claim:  "a spot is 3200 K hot for each volt over it",
		Source: "online reference work on electrical contacts, Contact Physics, formulas",
		Inputs: Inputs{voltsIn: 1, "bulk, K": materials.ReferenceTemp}, Breaks: voltsIn,
		Unit: "K", Want: 3200, Tol: Rel(3200, 0.01), Why: "a round figure, and the bulk adds four thousandths at 1 V",
		Got: func(_ context.Context, in Inputs) (float64, error) {
			return model.SpotTemperature(in["bulk, K"], in[voltsIn]), nil
		},
	})
	return cases, table.err
}

// meltingCases hold the measured voltages at which the spots of a metal melt
// against the metal's melting point by the relation of temperature and voltage.
func meltingCases() ([]Case, error) {
	var cases []Case
	for _, row := range []struct {
		plating string
		melts   float64 // K
	}{
		{"bare copper", 1357.8}, {"silver", 1234.9}, {"tin", 505.1},
		{"bare aluminium", 933.5}, {"nickel", 1728}, {"zinc", 692.7},
	} {
		p, err := materials.LookupPlating(row.plating)
		if err != nil {
			return nil, err
		}
		cases = append(cases, Case{
			Group: "contact", Name: "melting voltage/" + row.plating, Kind: Published, Reported: true,
			Claim:  "spots at the measured melting voltage are as hot as the metal melts",
			Source: "CRC Handbook of Chemistry and Physics, 85th ed. 2004" + fromMemory,
			Inputs: Inputs{voltsIn: p.Melting, "bulk, K": materials.ReferenceTemp},
			Unit:   "K", Want: row.melts,
			Note: "One Lorenz number for all metals: good for copper, silver and tin, a fifth off for nickel; voltages by Holm (from memory)",
			Got: func(_ context.Context, in Inputs) (float64, error) {
				return model.SpotTemperature(in["bulk, K"], in[voltsIn]), nil
			},
		})
	}
	return cases, nil
}

// contactLawCases hold one Holm spot of copper against the power law of the
// switchgear handbooks, R = c·F^−m with F in kgf.
func contactLawCases() ([]Case, error) {
	face, err := materials.LookupPlating("bare copper")
	if err != nil {
		return nil, err
	}
	copper, err := materials.LookupMetal("C11000")
	if err != nil {
		return nil, err
	}
	const (
		kgf    = materials.Gravity // N
		middle = 110.0             // µΩ, of the 0.08 to 0.14 mΩ for copper on copper at 1 kgf
	)
	var cases []Case
	for _, force := range []float64{100, 1000, 10000} {
		cases = append(cases, Case{
			Group: "contact", Name: fmt.Sprintf("power law/%g N", force), Kind: Published, Reported: true,
			Claim:  "constriction of copper on copper by the handbooks' c·F^−½, middle of their c",
			Source: "online reference work on electrical contacts, contact resistance by the power law of Babikov",
			Inputs: Inputs{forceIn: force}, Unit: "µΩ", Want: middle / math.Sqrt(force/kgf),
			Note: "The constant spans ±27 % and the unit of its force, kgf, is read from its size; exponents of 0.5 to 0.7 are given for bars",
			Got: func(_ context.Context, in Inputs) (float64, error) {
				return model.HolmConstriction(in[forceIn], face.Hardness.Likely, copper.Resistivity20, copper.Resistivity20) * 1e6, nil
			},
		})
	}
	return cases, nil
}

// lorenzCases hold heat conduction by the law of Wiedemann and Franz, which
// crimps are given, against the conductivities of the textbooks.
func lorenzCases() ([]Case, error) {
	var cases []Case
	for _, row := range []struct {
		metal        string
		conductivity float64 // W/(m·K)
	}{
		{"annealed copper", 398}, {"silver", 429}, {"aluminium 1350", 234}, {"tin", 66.6}, {"brass C26000", 120},
	} {
		m, err := materials.LookupMetal(row.metal)
		if err != nil {
			return nil, err
		}
		cases = append(cases, Case{
			Group: "contact", Name: "heat by resistance/" + row.metal, Kind: Published, Reported: true,
			Claim:  "heat conductivity from the resistivity at 20 °C",
			Source: "Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, 6th ed. 2007" + fromMemory,
			Inputs: Inputs{"resistivity, Ω·m": m.Resistivity20}, Unit: "W/(m·K)", Want: row.conductivity,
			Note: "The law leaves out what the lattice carries and how a metal departs from the ideal number; crimps of copper use it",
			Got: func(_ context.Context, in Inputs) (float64, error) {
				return model.MetallicConductance(in["resistivity, Ω·m"]), nil
			},
		})
	}
	return cases, nil
}

// overlapCases hold the crowding in an overlap against plane solutions. Below
// four thicknesses the program tables such a solution, so that only those of
// an independent one are a check there.
func overlapCases() ([]Case, error) {
	data, err := tables.ReadFile("testdata/streamline.json")
	if err != nil {
		return nil, fmt.Errorf("validation table streamline: %w", err)
	}
	var solved struct {
		Rows []struct {
			Ratio  float64 `json:"overlap_over_thickness"`
			Factor float64 `json:"factor"`
		} `json:"rows"`
	}
	if err := json.Unmarshal(data, &solved); err != nil {
		return nil, fmt.Errorf("validation table streamline: %w", err)
	}
	base := Case{Group: "contact", Kind: Analytic, Unit: "1", Breaks: "overlap over thickness",
		Claim: "resistance of a full-faced overlap over that of a bar of its length",
		Got: func(_ context.Context, in Inputs) (float64, error) {
			e, err := materials.StreamlineFactor(in["overlap over thickness"])
			return e / in[unitIn], err
		}}
	var cases []Case
	for _, row := range solved.Rows {
		c := base
		c.Name = fmt.Sprintf("overlap/%g thicknesses", row.Ratio)
		c.Source = "plane finite-volume solution, SciPy, testdata/streamline.py"
		c.Inputs = Inputs{c.Breaks: row.Ratio, unitIn: 1}
		if row.Ratio == 1 { // where the factor begins
			c.Breaks = unitIn
		}
		c.Want, c.Tol, c.Why = row.Factor, Rel(row.Factor, 0.003), "solution and table, ±0.002 each"
		cases = append(cases, c)
	}
	table, err := openSheet("streamline_factors")
	if err != nil {
		return nil, err
	}
	for _, r := range table.rows {
		ratio := r.number("overlap_over_thickness")
		if ratio != 4 && ratio != 6 && ratio != 8 {
			continue
		}
		c := base
		c.Name = fmt.Sprintf("overlap/%g thicknesses", ratio)
		c.Source = "plane finite-volume solution, second"
		c.Inputs = Inputs{c.Breaks: ratio, unitIn: 1}
		c.Want = r.number("factor")
		c.Tol, c.Why = Abs(r.number("uncertainty"), ""), "its own uncertainty"
		cases = append(cases, c)
	}
	return cases, table.err
}

// barJointCase is the joint of two bars that the trade bolts every day.
func barJointCase() ([]Case, error) {
	bolt := model.Bolt{Name: "bolt", Kept: materials.Exactly(1)}
	face := model.Face{Depth: [2]float64{5e-3, 5e-3}, OverlapLength: 0.04, OverlapWidth: 0.04}
	var copper materials.Metal
	var bare materials.Plating
	for _, err := range []error{
		find(&bolt.Fastener, materials.LookupFastener, "M10"),
		find(&bolt.Class, materials.LookupPropertyClass, "8.8"),
		find(&bolt.Thread, materials.LookupThreadCondition, "zinc-plated"),
		find(&bolt.Tightening, materials.LookupTightening, "torque wrench"),
		find(&face.State, materials.LookupFaceState, "brushed"),
		find(&copper, materials.LookupMetal, "C11000"),
		find(&bare, materials.LookupPlating, "bare copper"),
	} {
		if err != nil {
			return nil, err
		}
	}
	hole := bolt.Fastener.HoleDiameter
	face.Metals, face.Platings = [2]materials.Metal{copper, copper}, [2]materials.Plating{bare, bare}
	face.Area = face.OverlapLength*face.OverlapWidth - math.Pi/4*hole*hole
	const torqueIn = "torque, N·m"
	return []Case{{
		Group: "contact", Name: "bolted bars/40 × 5 mm, M10", Kind: Practice, Reported: true,
		Claim:  "a sound joint of two copper bars measures 5 to 15 µΩ",
		Source: "common practice, no source",
		Inputs: Inputs{torqueIn: 40}, Unit: "µΩ", Want: 10,
		Note: "The middle of a span that does not say how long the measured overlap is; the overlap's own copper counts here",
		Got: func(_ context.Context, in Inputs) (float64, error) {
			b := bolt
			b.Torque = in[torqueIn]
			s := model.Stack{Bolts: []model.Bolt{b}, Joints: []model.Joint{{Name: "lap", Kind: model.Bolted, Face: face}}}
			figures, err := s.JointFigures(0)
			return figures.Resistance.Likely * 1e6, err
		},
	}}, nil
}

// find stores what a table holds under a name.
func find[T any](dst *T, lookup func(string) (T, error), name string) error {
	v, err := lookup(name)
	*dst = v
	return err
}
