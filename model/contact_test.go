package model_test

import (
	"fmt"
	"math"
	"testing"

	"clampheat/materials"
	"clampheat/model"

	"pgregory.net/rapid"
)

// TestHolmConstriction is an arithmetic check of Holm's plastic contact,
// R = ρ/2·√(πH/F), at ρ of annealed copper (IEC 60028): the numbers were worked
// out apart from this code.
func TestHolmConstriction(t *testing.T) {
	for _, c := range []struct{ force, soft, middle, hard float64 }{ // N, µΩ at 0.40, 0.55, 0.90 GPa
		{10, 96.64, 113.3, 145.0}, {100, 30.56, 35.83, 45.84}, {1000, 9.664, 11.33, 14.50},
		{5000, 4.322, 5.068, 6.483}, {10000, 3.056, 3.583, 4.584}, {20000, 2.161, 2.534, 3.241},
	} {
		for hardness, want := range map[float64]float64{0.40e9: c.soft, 0.55e9: c.middle, 0.90e9: c.hard} {
			t.Run(fmt.Sprintf("%.0f N/%.2f GPa", c.force, hardness/1e9), func(t *testing.T) {
				near(t, "µΩ", model.HolmConstriction(c.force, hardness, 1.7241e-8, 1.7241e-8)*1e6, want, 1e-3)
			})
		}
	}
	t.Run("two metals/mean of the resistivities", func(t *testing.T) {
		// Holm 1967 §4: (ρ1+ρ2)/(4a).
		both := model.HolmConstriction(1000, 5e8, 2e-8, 6e-8)
		near(t, "Ω", both, model.HolmConstriction(1000, 5e8, 4e-8, 4e-8), 1e-12)
	})
}

// TestSpotTemperature is an arithmetic check of Kohlrausch's relation with
// L = 2.45·10⁻⁸ V²/K² at a bulk of 293.15 K.
func TestSpotTemperature(t *testing.T) {
	for volts, want := range map[float64]float64{0.010: 294.9, 0.10: 433.6, 0.43: 1404.5} {
		t.Run(fmt.Sprintf("copper/%.2f V", volts), func(t *testing.T) {
			near(t, "K", model.SpotTemperature(293.15, volts), want, 2e-4)
		})
	}
}

// TestMetallicConductance holds Wiedemann–Franz against pure copper's own
// figures (IEC 60028; textbook k of 398 W/(m K)): they agree within 5 %.
func TestMetallicConductance(t *testing.T) {
	near(t, "W/K", model.MetallicConductance(1.7241e-8), 398, 0.05)
}

func TestPlasticArea(t *testing.T) {
	t.Run("light pressure/Holm's F over H", func(t *testing.T) {
		near(t, "m²", model.PlasticArea(10, 5e8, 2e-4), 10/5e8, 1e-3)
	})
	rapid.Check(t, func(t *rapid.T) {
		force := rapid.Float64Range(1e-3, 1e6).Draw(t, "force")
		hardness := rapid.Float64Range(1e7, 1e10).Draw(t, "hardness")
		apparent := rapid.Float64Range(1e-6, 1e-2).Draw(t, "apparent")
		area := model.PlasticArea(force, hardness, apparent)
		if !(area > 0 && area < apparent && area <= force/hardness*(1+1e-12)) {
			t.Fatalf("area %g of %g, F/H %g", area, apparent, force/hardness)
		}
		if more := model.PlasticArea(force*1.01, hardness, apparent); !(more > area) {
			t.Fatalf("more force, no more area: %g, %g", more, area)
		}
	})
}

// TestJacketShare checks Van Wormer's split against its limits: a thin jacket
// is split in halves, and the inner share falls with thickness.
func TestJacketShare(t *testing.T) {
	near(t, "thin", model.JacketShare(1+1e-9), 0.5, 1e-6)
	near(t, "series meets formula", model.JacketShare(1+0.99e-4), model.JacketShare(1+1.01e-4), 1e-5)
	// The share is the mean of ln(D/r)/ln(D/d) over the jacket's volume, for a
	// profile of steady conduction: summed over 2000 shells here.
	for _, ratio := range []float64{1.2, 1.5, 3} {
		sum, volume := 0.0, 0.0
		for i := range 2000 {
			r := 1 + (ratio-1)*(float64(i)+0.5)/2000
			sum += r * math.Log(ratio/r) / math.Log(ratio)
			volume += r
		}
		near(t, fmt.Sprintf("ratio %g", ratio), model.JacketShare(ratio), sum/volume, 1e-5)
	}
}

func TestJointFigures(t *testing.T) {
	figures := func(j model.Joint, torque float64) model.JointFigures {
		t.Helper()
		s := &model.Stack{Bolts: []model.Bolt{bolt("nut", m8, torque)}, Joints: []model.Joint{j}}
		f, err := s.JointFigures(0)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	t.Run("like metals/heat by ρk over R", func(t *testing.T) {
		f := figures(model.Joint{Name: "j", Face: face(bare)}, 12)
		metal := copper.Resistivity20 * copper.Conductivity / f.Constriction
		// Air at 20 °C conducts 0.0257 W/(m K) (Incropera et al., table A.4), over
		// 10 µm within and 50 µm outside the clamped area.
		gap := 0.0257 * ((f.Clamped-f.Contact)/10e-6 + (250e-6-f.Clamped)/50e-6)
		near(t, "W/K", f.Conductance.Likely, metal+gap, 2e-3)
		// A washer of 16 mm, a hole of 9 mm, 3 mm of depth, a cone of 30°.
		near(t, "clamped, mm²", f.Clamped*1e6, math.Pi/4*(math.Pow(16+6*math.Tan(math.Pi/6), 2)-81), 1e-9)
		near(t, "film over the metal that touches, Ω·m²", f.Film*f.Contact, 1e-10, 1e-9)
		near(t, "spots, Ω", f.Constriction, 1.7241e-8/2*math.Sqrt(math.Pi/f.Contact)*math.Pow(1-math.Sqrt(f.Contact/f.Clamped), 1.5), 1e-9)
		near(t, "Ω", f.Constriction+f.Film, f.Resistance.Likely, 1e-12)
	})
	t.Run("joint/order of practice", func(t *testing.T) {
		// Common practice: a sound bolted copper joint shows some 1 to 15 µΩ.
		f := figures(model.Joint{Name: "j", Face: face(bare)}, 12)
		if r := f.Resistance; r.Likely < 1e-6 || r.Likely > 15e-6 || r.Low >= r.Likely || r.High <= r.Likely {
			t.Errorf("%+v", r)
		}
	})
	t.Run("measured/ohms only", func(t *testing.T) {
		predicted := figures(model.Joint{Name: "j", Face: face(tin)}, 12)
		m := figures(model.Joint{Name: "j", Face: face(tin), Measured: &model.Measured{Resistance: 12e-6}}, 12)
		if m.Predicted || m.Resistance != materials.Exactly(12e-6) || m.Conductance != predicted.Conductance {
			t.Errorf("%+v", m)
		}
	})
	t.Run("three times/worse by three", func(t *testing.T) {
		one := figures(model.Joint{Name: "j", Face: face(tin)}, 12)
		three := figures(model.Joint{Name: "j", Face: face(tin), WorseBy: 3}, 12)
		near(t, "Ω", three.Resistance.Likely, 3*one.Resistance.Likely, 1e-12)
		if g := three.Conductance.Likely; !(g < one.Conductance.Likely && g > one.Conductance.Likely/3) {
			t.Errorf("%g W/K after %g W/K", g, one.Conductance.Likely)
		}
	})
	t.Run("overlap/streamline factor of its length", func(t *testing.T) {
		// e = 0.600 at five thicknesses: exact two-dimensional solution.
		f := face(bare)
		f.Depth, f.OverlapLength, f.OverlapWidth = [2]float64{5e-3, 5e-3}, 25e-3, 30e-3
		got := figures(model.Joint{Name: "j", Face: f}, 12).Bulk
		near(t, "Ω", got, 0.600*1.7241e-8*25e-3/(30e-3*5e-3), 2e-3)
	})
	t.Run("crimp/Wiedemann–Franz", func(t *testing.T) {
		f := figures(model.Joint{Name: "c", Kind: model.Crimped, Resistance: materials.Range{Low: 3e-6, Likely: 6e-6, High: 12e-6}}, 12)
		near(t, "W/K", f.Conductance.Low, model.MetallicConductance(12e-6), 1e-12)
	})
}

// TestMoreTorque: no torque that the thread bears gives more ohms or less
// conductance than a lower one.
func TestMoreTorque(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		torque := rapid.Float64Range(0.1, 20).Draw(t, "torque")
		f := face(rapid.SampledFrom([]materials.Plating{bare, tin}).Draw(t, "plating"))
		f.Area = rapid.Float64Range(5e-5, 1e-3).Draw(t, "area")
		at := func(torque float64) model.JointFigures {
			s := &model.Stack{Bolts: []model.Bolt{bolt("nut", m8, torque)}, Joints: []model.Joint{{Name: "j", Face: f}}}
			j, err := s.JointFigures(0)
			if err != nil {
				t.Fatal(err)
			}
			return j
		}
		less, more := at(torque), at(torque*rapid.Float64Range(1.001, 1.5).Draw(t, "times"))
		if more.Resistance.Likely >= less.Resistance.Likely || more.Resistance.High >= less.Resistance.High {
			t.Fatalf("%v after %v", more.Resistance, less.Resistance)
		}
		if more.Constriction >= less.Constriction || more.Film >= less.Film || more.Conductance.Likely < less.Conductance.Likely {
			t.Fatalf("%+v after %+v", more, less)
		}
	})
}
