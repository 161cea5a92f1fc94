package model_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"clampheat/materials"
	"clampheat/model"
)

// relations are the pure functions of the package, each of three numbers.
var relations = map[string]func(a, b, c float64) float64{
	"PlasticArea":         model.PlasticArea,
	"HolmConstriction":    func(a, b, c float64) float64 { return model.HolmConstriction(a, b, c, c) },
	"Crowding":            func(a, b, _ float64) float64 { return model.Crowding(a, b) },
	"SpotTemperature":     func(a, b, _ float64) float64 { return model.SpotTemperature(a, b) },
	"MetallicConductance": func(a, _, _ float64) float64 { return model.MetallicConductance(a) },
	"ClampedArea":         func(a, b, c float64) float64 { return model.ClampedArea(a, b, c, c) },
	"ClampShort":          model.ClampShort,
	"JacketShare":         func(a, _, _ float64) float64 { return model.JacketShare(a) },
	"ClampLong":           func(a, b, c float64) float64 { return model.ClampLong(a, sized(b), c, c) },
	"TighteningTorque":    func(a, b, c float64) float64 { return model.TighteningTorque(a, sized(b), c, c) },
	"FrictionFor":         func(a, b, _ float64) float64 { return model.FrictionFor(a, sized(b)) },
	"ThreadStress":        func(a, b, c float64) float64 { return model.ThreadStress(a, sized(b), c) },
	"YieldClamp":          func(a, b, c float64) float64 { return model.YieldClamp(sized(b), a, c, c) },
	"YieldTorque":         func(a, b, c float64) float64 { return model.YieldTorque(sized(b), a, c) },
}

func sized(d float64) materials.Fastener {
	return materials.Fastener{Diameter: d, Pitch: d / 8, PitchDiameter: 0.9 * d, StressArea: d * d / 2, HeadDiameter: 1.5 * d, HoleDiameter: 1.1 * d}
}

// No NaN and no Inf comes out of a relation, whatever goes in.
func TestRelationsStayFinite(t *testing.T) {
	edges := []float64{0, 1, -1, 2, math.NaN(), math.Inf(1), math.Inf(-1), math.MaxFloat64, math.SmallestNonzeroFloat64}
	for name, f := range relations {
		t.Run(name, func(t *testing.T) {
			for _, a := range edges {
				for _, b := range edges {
					for _, c := range edges {
						if v := f(a, b, c); math.IsNaN(v) || math.IsInf(v, 0) {
							t.Fatalf("(%g, %g, %g) gives %g", a, b, c, v)
						}
					}
				}
			}
			rapid.Check(t, func(t *rapid.T) {
				a, b, c := rapid.Float64().Draw(t, "a"), rapid.Float64().Draw(t, "b"), rapid.Float64().Draw(t, "c")
				if v := f(a, b, c); math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("gives %g", v)
				}
			})
		})
	}
}

// Where a relation has no answer it is 0, and where spots cover everything
// nothing crowds.
func TestRelationsOutsideTheirDomain(t *testing.T) {
	for name, got := range map[string]float64{
		"PlasticArea/no area":             model.PlasticArea(1, 1, 0),
		"PlasticArea/no force":            model.PlasticArea(0, 1, 1),
		"HolmConstriction/no force":       model.HolmConstriction(0, 1, 1, 1),
		"Crowding/more than all":          model.Crowding(2, 1),
		"ClampShort/no friction":          model.ClampShort(1, 0, 1),
		"MetallicConductance/no ohms":     model.MetallicConductance(0),
		"FrictionFor/no fastener":         model.FrictionFor(0.2, materials.Fastener{}),
		"ThreadStress/no fastener":        model.ThreadStress(1, materials.Fastener{}, 0.1),
		"YieldTorque/no fastener":         model.YieldTorque(materials.Fastener{}, 640e6, 0.2),
		"ClampLong/no fastener":           model.ClampLong(1, materials.Fastener{}, 0.1, 0.1),
		"Schedule/zero value has current": (&model.Schedule{}).Current(1),
		"Schedule/zero value has a slope": (&model.Schedule{}).Slope(1),
	} {
		if got != 0 {
			t.Errorf("%s: %g, want 0", name, got)
		}
	}
	if got := model.Crowding(0, 1); got != 1 {
		t.Errorf("Crowding/no spots: %g, want 1", got)
	}
	if b := (&model.Schedule{}).Breaks(); len(b) != 0 {
		t.Errorf("Schedule/zero value breaks at %v", b)
	}
}
