package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
)

// This file judges limits. A limit is a temperature, or a rise that holds for
// air up to 40 °C (IEC 60947-1, 7.2.2: the rises are stated for an ambient
// temperature of at most 40 °C); above that the terminal may be no hotter than
// 40 °C plus the rise.

// warmest is the air for which rises are stated, K.
const warmest = 40 + celsius

// bound is a limit at a row.
type bound struct {
	row    int
	name   string
	source string
	rise   float64
	most   float64 // K, that it states besides or in place of a rise; 0 = none
	temp   float64 // K; NaN where it cannot be judged
	air    float64 // K, in which temp holds
	asked  bool
}

// in is the temperature of the limit in air of another temperature, K.
func (b bound) in(air float64) float64 {
	if b.rise > 0 {
		return limitTemp(b.rise, b.most, air)
	}
	return b.temp
}

// bounds lists the limits of an assembly's rows, and the limits of touch that
// the file asks for on terminals.
func bounds(sc *scenarios.Scenario, a *model.Assembly, air float64) []bound {
	return boundsOf(sc, a, air, func(part int) int { return sc.PartItems[part] })
}

// boundsOf lists them for a stack whose parts are not those of the file one by
// one: item gives for a part its index in the file's path.
func boundsOf(sc *scenarios.Scenario, a *model.Assembly, air float64, item func(part int) int) []bound {
	var out []bound
	for i, row := range a.Rows {
		for _, l := range row.Limits {
			out = append(out, bound{row: i, name: l.Name, source: l.Source, rise: l.Rise, most: l.Temp,
				temp: limitTemp(l.Rise, l.Temp, air), air: air, asked: l.Source == scenarios.OwnLimit})
		}
	}
	for i, row := range a.Rows {
		if row.Terminal && !statesRise(row) {
			out = append(out, bound{row: i, name: "rise of the terminal, no figure for its faces", source: riseSource, temp: math.NaN()})
		}
	}
	for _, touch := range sc.Touches {
		for i, row := range a.Rows {
			surface := touched(row)
			if surface == "" || (touch.Item >= 0 && (row.Part < 0 || item(row.Part) != touch.Item)) {
				continue
			}
			name := "touch " + contactTime(touch.Contact)
			if surface != bareMetal {
				name += ", " + surface
			}
			out = append(out, bound{row: i, source: touchSource, asked: true,
				name: name, temp: touchTemp(surface, touch.Contact)})
		}
	}
	return out
}

// riseSource is the standard of the rises of terminals.
const riseSource = "IEC 60947-1"

// statesRise says whether a terminal has the standard's limit for its faces.
// One without cannot be judged by that standard, which is no pass.
func statesRise(row model.Row) bool {
	for _, l := range row.Limits {
		if l.Source == riseSource {
			return true
		}
	}
	return false
}

// touched is what a hand meets at a row: bare metal at a terminal, plastic at
// what has the limit of a plastic or of an insulation, and "" where that is
// not known or the row cannot be touched. An insulation is judged at the
// temperature of the conductor under it, which is the safe side.
func touched(row model.Row) string {
	if row.Terminal {
		return bareMetal
	}
	if row.Kind != model.BodyRow && row.Kind != model.PartRow {
		return ""
	}
	for _, l := range row.Limits {
		if l.Source == "rating of the plastic" || l.Source == "rating of the insulation" {
			return "plastic"
		}
	}
	return ""
}

// touchSource is the standard of the burn thresholds.
const touchSource = "ISO 13732-1"

// limitTemp is the lower of a rise above the air and a temperature.
func limitTemp(rise, temp, air float64) float64 {
	limit := math.Inf(1)
	if rise > 0 {
		limit = math.Min(air, warmest) + rise
	}
	if temp > 0 {
		limit = math.Min(limit, temp)
	}
	return limit
}

// judge makes a margin of a bound and the temperatures at the likely and the
// careless condition; careless is +Inf
// where that has no lasting state.
func (b bound) judge(place string, likely, careless float64) Margin {
	m := Margin{Place: place, Name: b.name, Source: b.source, Rise: b.rise, Asked: b.asked}
	if !b.judgeable() {
		m.Verdict = Unknown
		return m
	}
	m.Limit, m.Left, m.Verdict = temp(b.temp), b.temp-likely, Holds
	if b.rise > 0 {
		m.Over = temp(math.Min(b.air, warmest))
		m.Capped = b.temp < b.air+b.rise-hair
		if b.air > warmest {
			m.Name = overWarmest(b.name, b.rise)
		}
	}
	if m.Left < 0 {
		m.Verdict = Passed
	}
	if left := b.temp - careless; !math.IsInf(left, 0) && !math.IsNaN(left) {
		m.Careless = &left
	}
	return m
}

// overWarmest names a rise as it holds in warmer air than it is stated for.
func overWarmest(name string, rise float64) string {
	stated := fmt.Sprintf("%.3g K", rise)
	if bare, ok := strings.CutSuffix(name, " rise"); ok && strings.HasSuffix(bare, stated) {
		name = bare
	} else {
		name += ", " + stated
	}
	return fmt.Sprintf("%s over %.0f °C at most", name, warmest-celsius)
}

// hair, K, is too little to tell two limits apart by.
const hair = 1e-9

// bareMetal is the surface for which thresholds of touch are looked up.
const bareMetal = "bare metal"

// touchTemp is the lower burn threshold of a surface, K, for a contact time, s:
// that of the next longer time in the table, which is the safer. NaN where the
// table ends before it.
func touchTemp(surface string, contact float64) float64 {
	best, time := math.NaN(), math.Inf(1)
	for _, t := range materials.TouchThresholds() {
		if t.Surface == surface && t.ContactTime >= contact && t.ContactTime < time {
			best, time = t.Low, t.ContactTime
		}
	}
	return best
}

// touchCaution says how long a touch of bare metal at a temperature [K] may
// last by the lower burn thresholds, nil where it is below all of them.
func touchCaution(k float64) *TouchCaution {
	shortest := math.Inf(1)
	source := ""
	for _, t := range materials.TouchThresholds() {
		if t.Surface == bareMetal && k >= t.Low && t.ContactTime < shortest {
			shortest, source = t.ContactTime, t.Source.Cite
		}
	}
	if math.IsInf(shortest, 1) {
		return nil
	}
	return &TouchCaution{Source: source, Text: fmt.Sprintf(
		"Bare metal at %.0f °C (%.0f °F) can burn skin at a touch of %s.", k-celsius, temp(k).Fahrenheit(), contactTime(shortest))}
}

// touchOpinions tells, for each time of contact that the file asks for, what a
// second list says of bare metal. The standard, the safer, is what is judged.
func touchOpinions(sc *scenarios.Scenario) []string {
	out := []string{}
	for i, t := range sc.Touches {
		asked := func(other scenarios.Touch) bool { return other.Contact == t.Contact }
		if slices.ContainsFunc(sc.Touches[:i], asked) {
			continue
		}
		burns := materials.BurnTimes()
		k := slices.IndexFunc(burns, func(b materials.BurnTime) bool { return b.Time <= t.Contact })
		judged := touchTemp(bareMetal, t.Contact)
		if k < 0 || math.IsNaN(judged) {
			continue
		}
		out = append(out, fmt.Sprintf(
			"touch %s on bare metal: judged by %s at %.0f °C; a list of burns on metal, of unknown origin, has one at %.0f °C",
			contactTime(t.Contact), touchSource, judged-celsius, burns[k].Temp-celsius))
	}
	return out
}

func contactTime(s float64) string {
	switch {
	case s < 60:
		return fmt.Sprintf("%.3g s", s)
	case s < 3600:
		return fmt.Sprintf("%.3g min", s/60)
	}
	return fmt.Sprintf("%.3g h", s/3600)
}
