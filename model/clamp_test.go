package model_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"clampheat/materials"
	"clampheat/model"
)

// near complains where got is off want by more than a share.
func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: got %.6g, want %.6g ± %.3g %%", what, got, want, share*100)
	}
}

// TestAssemblyPreload holds clamp force and torque at 90 % of Rp0.2 against
// VDI 2230-1, tables A1 to A4 (2003 and 2015 editions), coarse thread, one
// friction coefficient for thread and head; from memory. 1 % is
// what the prints round to.
func TestAssemblyPreload(t *testing.T) {
	for _, c := range []struct {
		f                           materials.Fastener
		rp02, friction, clamp, tork float64 // Pa, 1, kN, N·m
	}{
		{m5, 640e6, 0.10, 7.4, 5.2}, {m5, 640e6, 0.12, 7.2, 5.9}, {m5, 640e6, 0.14, 7.0, 6.5}, {m5, 640e6, 0.16, 6.8, 7.1},
		{m6, 640e6, 0.10, 10.4, 9.0}, {m6, 640e6, 0.12, 10.2, 10.1}, {m6, 640e6, 0.14, 9.9, 11.3}, {m6, 640e6, 0.16, 9.6, 12.3},
		{m8, 640e6, 0.10, 19.1, 21.6}, {m8, 640e6, 0.12, 18.6, 24.6}, {m8, 640e6, 0.14, 18.1, 27.3}, {m8, 640e6, 0.16, 17.6, 29.8},
		{m10, 640e6, 0.10, 30.3, 43}, {m10, 640e6, 0.12, 29.6, 48}, {m10, 640e6, 0.14, 28.8, 54}, {m10, 640e6, 0.16, 27.9, 59},
		{m12, 640e6, 0.10, 44.1, 73}, {m12, 640e6, 0.12, 43.0, 84}, {m12, 640e6, 0.14, 41.9, 93}, {m12, 640e6, 0.16, 40.7, 102},
		// A2-70 at µ = 0.10, torque as printed in a drive maker's manual after
		// VDI 2230 (2003), clamp not printed. The manual's M5 and M6, 3.68 and
		// 6.4 N·m, are 1.4 % above the standard's formula and not judged.
		{m8, 450e6, 0.10, 0, 15.2}, {m10, 450e6, 0.10, 0, 30}, {m12, 450e6, 0.10, 0, 51.5},
	} {
		t.Run(fmt.Sprintf("%s/%.0f MPa, friction %.2f", c.f.Name, c.rp02/1e6, c.friction), func(t *testing.T) {
			clamp := model.YieldClamp(c.f, c.rp02, 0.9, c.friction)
			torque := model.TighteningTorque(clamp, c.f, c.friction, c.friction)
			if c.clamp > 0 {
				near(t, "clamp, kN", clamp/1e3, c.clamp, 0.01)
			}
			near(t, "torque, N·m", torque, c.tork, 0.01)
			near(t, "clamp back from the torque", model.ClampLong(torque, c.f, c.friction, c.friction), clamp, 1e-12)
		})
	}
}

// TestNutFactor holds the short form against worked examples.
func TestNutFactor(t *testing.T) {
	const lbf, inch = 4.4482216, 0.0254
	t.Run("Wentzell/3-4-10 bolt, 3620 lb·in", func(t *testing.T) {
		// Wentzell, Machine Design, ex. 6.1: A_s 0.334 in², 85 % of 85 ksi, K 0.2.
		clamp := 0.334 * 0.85 * 85000 * lbf
		near(t, "clamp, N", model.ClampShort(3619.73*lbf*inch, 0.2, 0.75*inch), clamp, 1e-5)
	})
	t.Run("Jindal/20 mm, 120 kN, 432 N·m", func(t *testing.T) {
		// Jindal, Machine Design, ex. 9-6: inputs; the torque is their product.
		near(t, "clamp, N", model.ClampShort(432, 0.18, 0.02), 120e3, 1e-12)
	})
	for k, torque := range map[float64]float64{0.20: 30, 0.15: 23} {
		t.Run(fmt.Sprintf("3-8-16 grade 5/K %.2f", k), func(t *testing.T) {
			// A trade article on the nut factor: 4940 lbf at 30 or 23 lb·ft, the
			// torques rounded to whole numbers.
			near(t, "clamp, lbf", model.ClampShort(torque*12*lbf*inch, k, 0.375*inch)/lbf, 4940, 0.035)
		})
	}
}

// TestFrictionFor holds the friction that a nut factor asks for against the
// nut factors that the VDI 2230 tables imply, to the three digits given.
func TestFrictionFor(t *testing.T) {
	for _, c := range []struct {
		f           materials.Fastener
		friction, k float64
	}{{m5, 0.10, 0.140}, {m6, 0.12, 0.166}, {m8, 0.10, 0.142}, {m8, 0.16, 0.211}, {m10, 0.14, 0.187}, {m12, 0.16, 0.208}} {
		t.Run(fmt.Sprintf("%s/%.2f", c.f.Name, c.friction), func(t *testing.T) {
			near(t, "friction", model.FrictionFor(c.k, c.f), c.friction, 0.01)
		})
	}
	t.Run("M8/never below zero", func(t *testing.T) {
		if got := model.FrictionFor(0.01, m8); got != 0 {
			t.Errorf("got %g, want 0", got)
		}
	})
}

func TestBoltFigures(t *testing.T) {
	with := func(torque float64) (model.BoltFigures, error) {
		s := &model.Stack{Bolts: []model.Bolt{bolt("nut", m8, torque)}}
		return s.BoltFigures(0)
	}
	t.Run("M8/12 N·m", func(t *testing.T) {
		f, err := with(12)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "likely clamp, N", f.Clamp.Likely, 7500, 1e-12)
		// JCGM 100:2008 §5.1.6: relative effects add as squares. Nut factor
		// 0.27/0.2 and tightening 1/0.9.
		low := math.Hypot(math.Log(0.27/0.2), math.Log(1/0.9))
		near(t, "low clamp, N", f.Clamp.Low, 7500*math.Exp(-low), 1e-12)
		if f.Utilisation <= f.Least || f.Utilisation >= 0.9 || len(f.Warnings) > 0 {
			t.Errorf("utilisation %g, at the highest friction %g, warnings %v", f.Utilisation, f.Least, f.Warnings)
		}
		near(t, "torque at the yield figure", f.Yield*f.Utilisation, 12, 1e-12)
	})
	t.Run("M8/900 N·m is past yield", func(t *testing.T) {
		_, err := with(900)
		var yield *model.YieldError
		if !errors.As(err, &yield) {
			t.Fatalf("got %v, want a YieldError", err)
		}
		if yield.Torque != 900 || yield.Fastener != "M8" || yield.Class != "8.8" || yield.Yield > 60 || yield.Yield < 30 {
			t.Errorf("%+v", yield)
		}
	})
	t.Run("M8/warned above nine tenths", func(t *testing.T) {
		f, err := with(12)
		if err != nil {
			t.Fatal(err)
		}
		near9, err := with(f.Yield * 0.95)
		if err != nil || len(near9.Warnings) != 1 {
			t.Errorf("warnings %v, error %v", near9.Warnings, err)
		}
	})
	t.Run("M8/no torque", func(t *testing.T) {
		for _, torque := range []float64{0, -3, math.NaN(), math.Inf(1)} {
			var field *model.StackError
			if _, err := with(torque); !errors.As(err, &field) || field.Field != "torque" {
				t.Errorf("%g N·m: got %v", torque, err)
			}
		}
	})
}
