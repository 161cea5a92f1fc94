package validation

import (
	"context"
	"fmt"
	"math"
	"strings"

	"clampheat/materials"
)

// This file holds the wires and cable conductors against their standards. A
// table has no formula to break: its cases must notice a wrong length or a
// wrong unit.

const (
	foot     = 0.3048 // m, exact since 1959
	inch     = 0.0254 // m, exact since 1959
	lengthIn = "length, m"
	unitIn   = "unit of the table"
)

func conductorCases() ([]Case, error) {
	var cases []Case
	for _, group := range []func() ([]Case, error){wireCases, strandedCases, metricCases, warmCases, metalCases} {
		more, err := group()
		if err != nil {
			return nil, err
		}
		cases = append(cases, more...)
	}
	return cases, nil
}

// gauge is the number of a wire as materials.AWG takes it: 0 for 1/0, −1 for 2/0.
func gauge(text string) (int, error) {
	n := 0
	if aughts, ok := strings.CutSuffix(text, "/0"); ok {
		if _, err := fmt.Sscanf(aughts, "%d", &n); err != nil {
			return 0, fmt.Errorf("wire gauge %q: %w", text, err)
		}
		return 1 - n, nil
	}
	if _, err := fmt.Sscanf(text, "%d", &n); err != nil {
		return 0, fmt.Errorf("wire gauge %q: %w", text, err)
	}
	return n, nil
}

// wireCases are the area and the resistance of the solid wire of each gauge,
// arithmetic from the formula of ASTM B258.
func wireCases() ([]Case, error) {
	table, err := openSheet("awg")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		n, err := gauge(r.text("awg"))
		if err != nil {
			return nil, err
		}
		area := r.number("area_mm2")
		ohms := r.number("resistance_20C_ohm_km")
		size := "AWG " + r.text("awg")
		base := Case{Group: "conductors", Kind: CodeCheck, Exact: true,
			Source: "ASTM B258, d = 0.127 mm·92^((36−n)/39), with 1/58 Ω·mm²/m of IEC 60028:1925",
			Why:    "printed to four digits"}
		a := base
		a.Name, a.Claim, a.Unit = "area/"+size, "metal of the solid wire", "mm²"
		a.Inputs, a.Breaks = Inputs{unitIn: 1e-6}, unitIn
		a.Want, a.Tol = area, Rel(area, 0.0005)
		a.Got = func(_ context.Context, in Inputs) (float64, error) {
			c, err := materials.AWG(n, false)
			return c.Area / in[unitIn], err
		}
		o := base
		o.Name, o.Claim, o.Unit = "solid wire/"+size, "resistance of a kilometre of solid wire at 20 °C", "Ω"
		o.Inputs, o.Breaks = Inputs{lengthIn: 1000}, lengthIn
		o.Want, o.Tol = ohms, Rel(ohms, 0.0005)
		o.Got = func(_ context.Context, in Inputs) (float64, error) {
			c, err := materials.AWG(n, false)
			return c.Metal.Resistivity20 * in[lengthIn] / c.Area, err
		}
		cases = append(cases, a, o)
	}
	return cases, table.err
}

// strandedCases hold size and warm resistance of stranded AWG conductors
// against the printed table of the electrical code.
func strandedCases() ([]Case, error) {
	table, err := openSheet("nec_chapter9_table8")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		n, err := gauge(r.text("awg"))
		if err != nil {
			return nil, err
		}
		size := "AWG " + r.text("awg")
		mils := r.number("circular_mils")
		base := Case{Group: "conductors", Kind: Published, Exact: true,
			Source: r.source("NFPA 70, National Electrical Code, Chapter 9, Table 8")}
		a := base
		a.Name, a.Claim, a.Unit = "circular mils/"+size, "metal area in circles of a mil", "1"
		a.Inputs, a.Breaks = Inputs{"mil, m": inch / 1000}, "mil, m"
		a.Want, a.Tol, a.Why = mils, Rel(mils, 0.002), "rounded to tens or hundreds of circular mils"
		a.Got = func(_ context.Context, in Inputs) (float64, error) {
			c, err := materials.AWG(n, false)
			return c.Area / (math.Pi / 4 * in["mil, m"] * in["mil, m"]), err
		}
		cases = append(cases, a)
		if !r.has("dc_resistance_75C_ohm_kft") {
			continue
		}
		ohms := r.number("dc_resistance_75C_ohm_kft")
		o := base
		o.Exact = false
		o.Name, o.Claim, o.Unit = "stranded at 75 °C/"+size, "d.c. resistance of a thousand feet, stranded, at 75 °C", "Ω"
		o.Inputs, o.Breaks = Inputs{lengthIn: 1000 * foot, "conductor, °C": 75}, lengthIn
		o.Want, o.Tol, o.Why = ohms, Rel(ohms, 0.01), "printed to three digits; the lay of a strand adds 2 %, rope-lay a little more"
		o.Got = func(_ context.Context, in Inputs) (float64, error) {
			c, err := materials.AWG(n, false)
			warm := c.Metal.Resistivity(in["conductor, °C"]+celsius) / c.Metal.Resistivity20
			return c.Resistance20 * warm * in[lengthIn], err
		}
		cases = append(cases, o)
	}
	return cases, table.err
}

// metricCases hold the greatest resistances of IEC 60228 against a copy of
// the standard's tables that was made apart from that in materials.
func metricCases() ([]Case, error) {
	table, err := openSheet("iec_60228")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		area := r.number("area_mm2")
		for _, k := range []struct {
			column, name string
			class        int
			tinned       bool
		}{
			{"class2_plain_ohm_km", "class 2", 2, false}, {"class2_tinned_ohm_km", "class 2 tinned", 2, true},
			{"class5_plain_ohm_km", "class 5", 5, false}, {"class5_tinned_ohm_km", "class 5 tinned", 5, true},
		} {
			want := r.number(k.column)
			cases = append(cases, Case{
				Group: "conductors", Name: fmt.Sprintf("%s/%g mm²", k.name, area), Kind: Published, Exact: true,
				Claim: "greatest resistance of a kilometre at 20 °C", Source: r.source("IEC 60228:2004"),
				Inputs: Inputs{lengthIn: 1000}, Breaks: lengthIn,
				Unit: "Ω", Want: want, Tol: Rel(want, 1e-4), Why: "the standard's own figure",
				Got: func(_ context.Context, in Inputs) (float64, error) {
					c, err := materials.Metric(area, k.class, k.tinned)
					return c.Resistance20 * in[lengthIn], err
				},
			})
		}
	}
	return cases, table.err
}

// warmCases hold the factors by which the standard brings resistances to 20 °C.
func warmCases() ([]Case, error) {
	table, err := openSheet("iec_60228_temperature_factor")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, r := range table.rows {
		temp, want := r.number("conductor_temp_C"), r.number("factor_to_20C")
		cases = append(cases, Case{
			Group: "conductors", Name: fmt.Sprintf("factor to 20 °C/%g °C", temp), Kind: Published,
			Claim:  "factor that brings a copper resistance to 20 °C",
			Source: r.source("IEC 60228:2004"),
			Inputs: Inputs{"conductor, °C": temp, unitIn: 1}, Breaks: unitIn, Exact: true,
			Unit: "1", Want: want, Tol: Rel(want, 0.005), Why: "the standard rounds the coefficient to 0.004 per kelvin",
			Got: func(_ context.Context, in Inputs) (float64, error) {
				m, err := materials.LookupMetal("annealed copper")
				return m.Resistivity(materials.ReferenceTemp) / m.Resistivity(in["conductor, °C"]+celsius) / in[unitIn], err
			},
		})
	}
	return cases, table.err
}

// metalCases hold resistivity and temperature coefficient of the conductor
// metals against the standards that define them.
func metalCases() ([]Case, error) {
	var cases []Case
	for _, row := range []struct {
		metal, source string
		nano, alpha   float64 // nΩ·m, 1/K
	}{
		{"annealed copper", "IEC 60028:1925", 1000.0 / 58, 0.00393},
		{"hard copper", "IEC 60287-1-1:2006", 17.77, 0.00381},
		{"aluminium 1350", "IEC 60287-1-1:2006", 28.264, 0.00403},
	} {
		base := Case{Group: "conductors", Kind: Published, Exact: true, Source: row.source + fromMemory,
			Why: "the standard's own figure"}
		if row.metal == "hard copper" {
			base.Note = "97 % of the conductivity of annealed copper"
		}
		r := base
		r.Name, r.Claim, r.Unit = "resistivity/"+row.metal, "resistance at 20 °C of a metre of 1 m²", "nΩ"
		r.Inputs, r.Breaks = Inputs{lengthIn: 1}, lengthIn
		r.Want, r.Tol = row.nano, Rel(row.nano, 1e-4)
		r.Got = func(_ context.Context, in Inputs) (float64, error) {
			m, err := materials.LookupMetal(row.metal)
			return m.Resistivity(materials.ReferenceTemp) * in[lengthIn] * 1e9, err
		}
		a := base
		a.Name, a.Claim, a.Unit = "temperature coefficient/"+row.metal, "growth of resistance from 20 to 120 °C, per kelvin", "1/K"
		a.Inputs, a.Breaks = Inputs{"rise, K": 100}, "rise, K"
		a.Want, a.Tol = row.alpha, Rel(row.alpha, 1e-4)
		a.Got = func(_ context.Context, in Inputs) (float64, error) {
			m, err := materials.LookupMetal(row.metal)
			return (m.Resistivity(materials.ReferenceTemp+in["rise, K"])/m.Resistivity20 - 1) / 100, err
		}
		cases = append(cases, r, a)
	}
	return cases, nil
}
