package materials_test

import (
	"math"
	"testing"

	"clampheat/materials"
	"pgregory.net/rapid"
)

// near reports whether got is within a share of want.
func near(got, want, share float64) bool { return math.Abs(got-want) <= share*math.Abs(want) }

// TestAWG holds the gauge against the printed table of solid copper wire:
// diameter, area and Ω/km at 20 °C (ASTM B258 and NBS Handbook 100; rounding
// of the print is 0.05 %, values from memory). The strand adds 2 % to the ohms.
func TestAWG(t *testing.T) {
	const lay = 1.02 // ASTM B8, concentric strand
	for _, c := range []struct {
		name           string
		n              int
		mm, mm2, ohmKm float64
	}{
		{"14 AWG", 14, 1.628, 2.081, 8.285}, {"12 AWG", 12, 2.053, 3.309, 5.211}, {"10 AWG", 10, 2.588, 5.261, 3.277},
		{"8 AWG", 8, 3.264, 8.366, 2.061}, {"6 AWG", 6, 4.115, 13.30, 1.296}, {"4 AWG", 4, 5.189, 21.15, 0.8152},
		{"3 AWG", 3, 5.827, 26.67, 0.6464}, {"2 AWG", 2, 6.544, 33.63, 0.5127}, {"1 AWG", 1, 7.348, 42.41, 0.4066},
		{"1/0 AWG", 0, 8.251, 53.48, 0.3224}, {"2/0 AWG", -1, 9.266, 67.43, 0.2557}, {"3/0 AWG", -2, 10.405, 85.03, 0.2028},
		{"4/0 AWG", -3, 11.684, 107.2, 0.1608},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := materials.AWG(c.n, false)
			if err != nil {
				t.Fatal(err)
			}
			if got.Name != c.name {
				t.Errorf("named %q", got.Name)
			}
			if !near(got.Area*1e6, c.mm2, 5e-4) || !near(math.Sqrt(got.Area*4/math.Pi)*1e3, c.mm, 5e-4) {
				t.Errorf("area %.5g mm², want %.5g", got.Area*1e6, c.mm2)
			}
			if !near(got.Resistance20*1e3, c.ohmKm*lay, 5e-4) {
				t.Errorf("%.5g Ω/km, want %.5g", got.Resistance20*1e3, c.ohmKm*lay)
			}
			tinned, err := materials.AWG(c.n, true)
			if err != nil || tinned.Name != c.name+" tinned" {
				t.Fatalf("%q, %v", tinned.Name, err)
			}
			// ASTM B33, 910.15 against 875.20 Ω·lb/mile² for strands of 0.51 to 2.6 mm.
			if ratio := tinned.Resistance20 / got.Resistance20; !near(ratio, 910.15/875.20, 1e-3) {
				t.Errorf("tin adds %.4f", ratio)
			}
		})
	}
	for _, n := range []int{19, -4} {
		if _, err := materials.AWG(n, false); err == nil {
			t.Errorf("AWG %d exists", n)
		}
	}
}

// TestKcmil: 250 kcmil is 127 mm², 500 kcmil 253 mm² (NFPA 70, chapter 9, table 8; from memory).
func TestKcmil(t *testing.T) {
	for k, mm2 := range map[float64]float64{250: 127, 500: 253} {
		c, err := materials.Kcmil(k, false)
		if err != nil || !near(c.Area*1e6, mm2, 4e-3) {
			t.Errorf("%g kcmil is %.4g mm², %v", k, c.Area*1e6, err)
		}
	}
	// 4/0 AWG is 211 600 circular mils by the gauge's definition.
	c, err := materials.AWG(-3, false)
	if err != nil || !near(c.Area, math.Pi/4*0.46*0.46*0.0254*0.0254, 1e-9) {
		t.Errorf("4/0 AWG is %.8g mm², %v", c.Area*1e6, err)
	}
}

// TestMetric holds the metric conductors against what physics allows: the
// standard's greatest resistance leaves 1 to 16 % above the nominal metal for
// flexible and −2 to +14 % for stranded ones, falls with size, and tin adds
// up to 4 %. A few printed cells of IEC 60228 tables 2 and 3 stand beside.
func TestMetric(t *testing.T) {
	printed := []struct {
		mm2           float64
		class         int
		plain, tinned float64
	}{{1.5, 2, 12.1, 12.2}, {50, 2, 0.387, 0.391}, {50, 5, 0.386, 0.393}, {95, 5, 0.206, 0.210}, {120, 2, 0.153, 0.154}}
	for _, p := range printed {
		a, err := materials.Metric(p.mm2, p.class, false)
		if err != nil {
			t.Fatal(err)
		}
		b, err := materials.Metric(p.mm2, p.class, true)
		if err != nil {
			t.Fatal(err)
		}
		if !near(a.Resistance20*1e3, p.plain, 1e-9) || !near(b.Resistance20*1e3, p.tinned, 1e-9) {
			t.Errorf("%g mm² class %d: %g and %g Ω/km", p.mm2, p.class, a.Resistance20*1e3, b.Resistance20*1e3)
		}
	}
	sizes := []float64{0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240, 300}
	for _, class := range []int{2, 5} {
		last := math.Inf(1)
		for _, mm2 := range sizes {
			plain, err := materials.Metric(mm2, class, false)
			if err != nil {
				t.Fatal(err)
			}
			tinned, err := materials.Metric(mm2, class, true)
			if err != nil {
				t.Fatal(err)
			}
			above := plain.Resistance20 / (plain.Metal.Resistivity20 / plain.Area)
			if above < 0.98 || above > 1.16 {
				t.Errorf("%s: %.3f of the nominal metal", plain.Name, above)
			}
			if r := tinned.Resistance20 / plain.Resistance20; r <= 1 || r > 1.04 {
				t.Errorf("%s: tin makes %.3f", plain.Name, r)
			}
			if plain.Resistance20 >= last {
				t.Errorf("%s resists no less than the size below", plain.Name)
			}
			last = plain.Resistance20
		}
	}
	for _, bad := range []struct {
		mm2   float64
		class int
	}{{45, 5}, {50, 6}, {math.NaN(), 5}, {400, 2}} {
		if c, err := materials.Metric(bad.mm2, bad.class, false); err == nil {
			t.Errorf("%g mm² class %d gives %q", bad.mm2, bad.class, c.Name)
		}
	}
}

// TestStrandDiameter: the likely diameter lies between concentric strands and
// the greatest diameter of IEC 60228 annex C, table C.3 (16 mm² 6.3 mm, 50 mm²
// 11.0 mm, 95 mm² 15.1 mm; from memory).
func TestStrandDiameter(t *testing.T) {
	for mm2, most := range map[float64]float64{16: 6.3, 50: 11.0, 95: 15.1} {
		c, err := materials.Metric(mm2, 5, false)
		if err != nil {
			t.Fatal(err)
		}
		solid := math.Sqrt(4 * mm2 / math.Pi)
		concentric := 5 / math.Sqrt(19) * solid // 19 wires, five across
		if d := c.Diameter.Likely * 1e3; d <= concentric || d >= most {
			t.Errorf("%s: %.3g mm across, want %.3g to %.3g", c.Name, d, concentric, most)
		}
	}
}

func TestConductors(t *testing.T) {
	list := materials.Conductors()
	if len(list) != 15+6+2*19 {
		t.Fatalf("%d conductors", len(list))
	}
	for _, c := range list {
		again, err := materials.LookupConductor(c.Name)
		if err != nil || again.Area != c.Area {
			t.Errorf("%q does not read back: %v", c.Name, err)
		}
		if c.Source.Cite == "" || c.Ground == "" || c.Metal.Name == "" {
			t.Errorf("%q lacks source, ground or metal", c.Name)
		}
	}
}

func TestLookupConductor(t *testing.T) {
	for name, want := range map[string]string{
		"1/0 AWG": "1/0 AWG", "awg 2": "2 AWG", "AWG2": "2 AWG", "#6": "6 AWG", "4/0": "4/0 AWG", "00 AWG": "2/0 AWG", "0 AWG": "1/0 AWG",
		"50 mm²": "50 mm²", "50mm2": "50 mm²", "50 mm^2": "50 mm²", "2.5mm² tinned": "2.5 mm² tinned", "25 mm² class 2": "25 mm² class 2",
		"50 mm² class 5": "50 mm²", "250 kcmil": "250 kcmil", "300 MCM": "300 kcmil", "2 AWG tinned": "2 AWG tinned", "tinned 2 AWG": "2 AWG tinned",
	} {
		if c, err := materials.LookupConductor(name); err != nil || c.Name != want {
			t.Errorf("%q gives %q, %v", name, c.Name, err)
		}
	}
	for _, name := range []string{"", "mm²", "2", "2,5 mm²", "50 mm² class 6", "50 mm² class", "2 AWG class 2", "5/0 AWG", "-1 AWG", "1.5 AWG", "2 3 AWG", "2 AWG 4 mm²", "NaN mm²", "Inf mm²", "0 mm²"} {
		if c, err := materials.LookupConductor(name); err == nil {
			t.Errorf("%q gives %q", name, c.Name)
		}
	}
}

// TestJacketWall holds the walls against the two families that bound them at
// sizes of the tables (IEC 60227-3: 16 mm² 1.0, 50 mm² 1.4 mm; UL 83: 2 AWG
// 0.060 in, 4/0 AWG 0.080 in; from memory).
func TestJacketWall(t *testing.T) {
	for _, c := range []struct{ mm2, low, high float64 }{
		{16, 1.0, 1.52}, {50, 1.4, 2.03}, {33.63, 1.19, 1.524}, {107.2, 1.6, 2.03},
	} {
		r, p, err := materials.JacketWall(c.mm2 * 1e-6)
		if err != nil || !near(r.Low*1e3, c.low, 0.02) || !near(r.High*1e3, c.high, 0.02) {
			t.Errorf("%g mm²: %.3g … %.3g mm, %v", c.mm2, r.Low*1e3, r.High*1e3, err)
		}
		if p.Source.Cite == "" || len(p.Also) == 0 || p.Ground == "" {
			t.Errorf("%g mm²: incomplete provenance", c.mm2)
		}
	}
	for _, bad := range []float64{0, 0.4e-6, 301e-6, math.NaN(), -1} {
		if _, _, err := materials.JacketWall(bad); err == nil {
			t.Errorf("%g m² has a wall", bad)
		}
	}
	t.Run("grows with size", rapid.MakeCheck(func(t *rapid.T) {
		a := rapid.Float64Range(0.5e-6, 300e-6).Draw(t, "a")
		b := rapid.Float64Range(a, 300e-6).Draw(t, "b")
		ra, _, errA := materials.JacketWall(a)
		rb, _, errB := materials.JacketWall(b)
		if errA != nil || errB != nil || !ra.Valid() || ra.Low > rb.Low || ra.High > rb.High {
			t.Fatalf("%v %v, %v %v", ra, rb, errA, errB)
		}
	}))
}
