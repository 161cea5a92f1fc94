package study

import (
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
)

// This file holds a stack against the plain rules by which conductors and
// fuses are sized. It only states the figures: whether they are enough is for
// the local code to say.

// Sizing is one line each about fuses, conductors and drop.
type Sizing struct {
	Fuses  []FuseSizing  `json:"fuses"`
	Cables []CableSizing `json:"cables"`
	Drop   DropSizing    `json:"drop"`
}

// FuseSizing is how far a fuse is loaded.
type FuseSizing struct {
	Name         string  `json:"name"`
	Rated        float64 `json:"rated_A"`
	Sustained    float64 `json:"sustained_A"` // with the ripple
	Usable       float64 `json:"usable_A"`
	Loaded       float64 `json:"loaded_share_of_usable"`
	Rule         string  `json:"rule"`
	Interrupting float64 `json:"interrupting_rating_A,omitempty"` // 0 = UNKNOWN: not in the file
}

// usable is the share of a fuse's rating that may be drawn without end, and
// the rule that says so.
const (
	usable     = 0.8
	usableRule = "NFPA 70, 215.3: rating at least 125 % of the continuous load; from memory"
)

// CableSizing is a cable beside the current that a table allows it.
type CableSizing struct {
	Name      string  `json:"name"`
	Sustained float64 `json:"sustained_A"`
	Table     string  `json:"table,omitempty"`
	Source    string  `json:"source,omitempty"`
	Row       string  `json:"row,omitempty"` // "1/0 AWG, 105 °C insulation"
	Tabled    float64 `json:"tabled_A,omitempty"`
	Factor    float64 `json:"ambient_factor,omitempty"`
	Allowed   float64 `json:"allowed_A,omitempty"`
	Loaded    float64 `json:"loaded_share,omitempty"`
	Unknown   string  `json:"unknown_because,omitempty"` // in words; then the figures are 0
}

// DropSizing is the drop of the whole circuit, of which Total is the sum. Its
// Return is 0 where the file states no return cable.
type DropSizing struct {
	DropParts
	// ReturnAt is the temperature of the return cable's conductor, K: that of
	// the air where its ohms are in the circuit, as of a power, else that of the
	// warmest cable of the path, which is on the safe side.
	ReturnAt float64 `json:"-"`
	Total    float64 `json:"total_V"`
	Bank     float64 `json:"bank_voltage_V,omitempty"`
	Share    float64 `json:"share_of_bank_voltage,omitempty"`
}

// sizing reads the lines at a state, which may be the cold one.
func sizing(sc *scenarios.Scenario, s *state) Sizing {
	ripple := math.Sqrt(1 + s.stack.Ripple*s.stack.Ripple)
	out := Sizing{Fuses: []FuseSizing{}, Cables: []CableSizing{}}
	warmest := s.stack.Surroundings.Air
	for i, p := range s.stack.Parts {
		rms := partCurrent(s.assembly, i, 0, s.x) * ripple
		switch p := p.(type) {
		case *model.Fuse:
			out.Fuses = append(out.Fuses, fuseSizing(sc, s.stack, i, rms))
		case *model.Cable:
			out.Cables = append(out.Cables, ampacity(p, rms, s.stack.Surroundings.Air))
			for k, r := range s.assembly.Rows {
				if r.Part == i {
					warmest = math.Max(warmest, s.temp(k))
				}
			}
		}
	}
	d := &out.Drop
	d.DropParts = dropParts(sc, s)
	switch back := sc.File.Return; {
	case d.Return > 0:
		d.ReturnAt = s.stack.Surroundings.Air
	case back.Set:
		if c, err := materials.LookupConductor(back.Cable.Text); err == nil {
			d.ReturnAt = warmest
			d.Return = s.current() * c.Resistance20 * back.Length.Value * c.Metal.Resistivity(warmest) / c.Metal.Resistivity20
			d.Out = nil
		}
	}
	d.Total = d.Source + d.Path + d.Return
	if d.Bank = sc.File.BankVoltage.Value; d.Bank > 0 {
		d.Share = d.Total / d.Bank
	}
	return out
}

// fuseSizing holds a fuse against the current, A, that heats it.
func fuseSizing(sc *scenarios.Scenario, stack *model.Stack, part int, rms float64) FuseSizing {
	p := stack.Parts[part].(*model.Fuse)
	f := FuseSizing{Name: p.Name(), Rated: p.Rated, Sustained: rms, Usable: usable * p.Rated, Rule: usableRule,
		Interrupting: sc.File.Path[sc.PartItems[part]].Interrupting.Value}
	if f.Usable > 0 {
		f.Loaded = rms / f.Usable
	}
	return f
}

// ampacity finds the row of the first table that has the cable's size and
// insulation, and brings it to the air of the stack by
//
//	f = √((Tc − Ta)/(Tc − Tt))
//
// Tc being the conductor's rated temperature, Ta the air's, Tt that of the
// table: the loss of the conductor goes with its rise.
//
// Source: NFPA 70, 310.15, equation for other ambient temperatures (from
// memory).
func ampacity(c *model.Cable, rms, air float64) CableSizing {
	out := CableSizing{Name: c.Name(), Sustained: rms}
	rated := c.Insulation.MaxTemp
	switch {
	case c.Bundle != nil && c.Bundle.Count > 1:
		out.Unknown = "the tables here are for a single cable in free air, not for a bundle"
		return out
	case c.Conduit != nil:
		out.Unknown = "the tables here are for a single cable in free air, not in a conduit"
		return out
	}
	for _, row := range materials.Ampacities() {
		if row.Size != c.Conductor.Name || math.Abs(row.InsulationTemp-rated) > 0.5 {
			continue
		}
		out.Table, out.Source = row.Table, row.Source.Cite
		out.Row = fmt.Sprintf("%s, %.0f °C insulation", row.Size, rated-celsius)
		out.Tabled = row.Current
		out.Factor = AmbientFactor(rated, air, row.Ambient)
		out.Allowed = out.Factor * row.Current
		if out.Allowed > 0 {
			out.Loaded = rms / out.Allowed
		} else {
			out.Unknown = "the air is as warm as the insulation may be"
		}
		return out
	}
	out.Unknown = fmt.Sprintf("no table here has a row for %s with %.0f °C insulation", c.Conductor.Name, rated-celsius)
	return out
}

// AmbientFactor is what a tabled current is multiplied with in other air; 0
// where the air is as warm as the conductor may be. Temperatures in K.
func AmbientFactor(conductor, air, tabled float64) float64 {
	return math.Sqrt(math.Max(0, conductor-air) / (conductor - tabled))
}
