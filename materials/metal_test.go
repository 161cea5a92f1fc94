package materials_test

import (
	"math"
	"strings"
	"testing"

	"clampheat/materials"
)

func metal(t *testing.T, name string) materials.Metal {
	t.Helper()
	m, err := materials.LookupMetal(name)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// TestMetals holds the metals against figures of other books than their rows
// name: Holman, table A-2 and Çengel, table A-3 (conductivity, density, specific
// heat near 20 °C), and per cent of the standard of annealed copper, 58 MS/m
// (trade lists); from memory. Grades and books differ by some per cent.
func TestMetals(t *testing.T) {
	for _, c := range []struct {
		name                     string
		iacs                     float64 // %
		conductivity, dens, heat float64
	}{
		{"copper", 100, 401, 8933, 385}, {"C11000", 101, 388, 8890, 385}, {"brass", 28, 111, 8522, 385},
		{"phosphor bronze", 15, 69, 8860, 380}, {"aluminium", 61, 237, 2702, 903}, {"6061-T6", 43, 167, 2700, 896},
		{"6101", 57, 218, 2700, 895}, {"stainless 304", 2.4, 14.9, 7900, 477}, {"steel", 9.6, 54, 7833, 465},
		{"tin", 15, 66.6, 7310, 227}, {"silver", 108.4, 429, 10500, 235}, {"zinc", 29, 116, 7140, 389},
		{"nickel", 25, 90.7, 8900, 444}, {"lead", 8.3, 35.3, 11340, 129},
	} {
		m := metal(t, c.name)
		if iacs := 100 / 58e6 / m.Resistivity20; !near(iacs, c.iacs, 0.025) {
			t.Errorf("%s: %.1f %% IACS, want %.1f", m.Name, iacs, c.iacs)
		}
		if !near(m.Conductivity, c.conductivity, 0.085) || !near(m.Density, c.dens, 0.01) || !near(m.SpecificHeat, c.heat, 0.02) {
			t.Errorf("%s: k %g ρ %g c %g", m.Name, m.Conductivity, m.Density, m.SpecificHeat)
		}
	}
}

// TestResistivity holds the linear law against the resistivities of pure
// metals at 400 and 500 K in the CRC Handbook (nΩ·m, from memory). The
// purity of the trade's metals and the bend of the law cost up to 4 %.
func TestResistivity(t *testing.T) {
	for _, c := range []struct {
		name       string
		temp, want float64
	}{
		{"copper", 400, 24.02}, {"copper", 500, 30.90}, {"silver", 400, 22.41}, {"silver", 500, 28.7},
		{"zinc", 400, 83.7}, {"lead", 400, 296},
	} {
		if got := metal(t, c.name).Resistivity(c.temp) * 1e9; !near(got, c.want, 0.04) {
			t.Errorf("%s at %g K: %.4g nΩ·m, want %g", c.name, c.temp, got, c.want)
		}
	}
	// IEC 60287-1-1: copper's law reaches zero at −234.5 °C, aluminium's at −228 °C.
	for name, beta := range map[string]float64{"copper": 234.5, "aluminium": 228} {
		m := metal(t, name)
		if got := 1/m.Alpha20 - 20; math.Abs(got-beta) > 0.5 {
			t.Errorf("%s: −%.1f °C", name, got)
		}
		if m.Resistivity(20) < 0 {
			t.Errorf("%s resists less than nothing near absolute zero", name)
		}
	}
	// IEC 60228 annex A, factors to bring a resistance to 20 °C; it rounds the
	// coefficient to 0.004, which makes up to 0.5 %.
	for theta, factor := range map[float64]float64{30: 0.962, 50: 0.893, 75: 0.820, 90: 0.781, 100: 0.758} {
		m := metal(t, "copper")
		if got := m.Resistivity20 / m.Resistivity(theta+273.15); !near(got, factor, 0.005) {
			t.Errorf("copper at %g °C: factor %.4f, want %g", theta, got, factor)
		}
	}
	if r := metal(t, "copper").Resistivity(materials.ReferenceTemp); !near(r, 1.7241e-8, 1e-4) { // IEC 60028
		t.Errorf("copper %g Ω·m at 20 °C", r)
	}
}

// TestWiedemannFranz: the number L of common metals lies between 2.1 and
// 2.7e-8 V²/K² where electrons carry the heat, and above in poor conductors,
// up to 4e-8, where the lattice helps (Kittel, Introduction to Solid State
// Physics, 8th ed., ch. 6; from memory).
func TestWiedemannFranz(t *testing.T) {
	for _, m := range materials.Metals() {
		l := m.Resistivity20 * m.Conductivity / materials.ReferenceTemp
		high := 2.75e-8
		if m.Conductivity < 60 {
			high = 4e-8
		}
		if l < 2.1e-8 || l > high {
			t.Errorf("%s: L = %.3g V²/K²", m.Name, l)
		}
	}
}

func TestMetalBounds(t *testing.T) {
	for _, m := range materials.Metals() {
		if !(m.ValidTo > 400 && m.ValidTo < m.Solidus) {
			t.Errorf("%s: claimed to %g K, melts from %g K", m.Name, m.ValidTo, m.Solidus)
		}
		if !m.Hardness.Valid() || m.Hardness.Low <= 0 || m.Hardness.High > 4e9 {
			t.Errorf("%s: hardness %v", m.Name, m.Hardness)
		}
	}
}

// TestMeltingVoltage holds Holm's measured melting voltages against
// Kohlrausch's relation from the melting point, U = 2·√(L·(T² − T0²)). Measured
// and ideal differ by up to a quarter (nickel).
func TestMeltingVoltage(t *testing.T) {
	for name, melting := range map[string]float64{ // K
		"tin": 505, "silver": 1235, "bare copper": 1356, "nickel": 1728, "zinc": 693, "bare aluminium": 933, "bare steel": 1811, "bare brass": 1188, "bare lead": 601,
	} {
		p, err := materials.LookupPlating(name)
		if err != nil {
			t.Fatal(err)
		}
		ideal := 2 * math.Sqrt(materials.Lorenz*(melting*melting-293.15*293.15))
		if !near(p.Melting, ideal, 0.25) {
			t.Errorf("%s: melts at %g V, ideally %.2f V", name, p.Melting, ideal)
		}
		if p.Softening >= p.Melting {
			t.Errorf("%s softens at %g V and melts at %g V", name, p.Softening, p.Melting)
		}
	}
}

// TestRiseLimits: IEC 60947-1:2007 table 2, terminals (from memory).
func TestRiseLimits(t *testing.T) {
	for name, rise := range map[string]float64{"bare copper": 60, "bare brass": 65, "tin": 65, "silver": 70, "nickel": 70} {
		if p, err := materials.LookupPlating(name); err != nil || p.RiseLimit != rise {
			t.Errorf("%s: %g K, %v", name, p.RiseLimit, err)
		}
	}
}

// TestFaces: a worse state never has the thinner film or the closer faces.
func TestFaces(t *testing.T) {
	var last materials.FaceState
	for _, f := range materials.FaceStates() {
		if f.Film.Low < last.Film.Low || f.Film.Likely <= last.Film.Likely || f.Film.High <= last.Film.High || f.Gap.Likely < last.Gap.Likely || f.Gap.Low <= 0 {
			t.Errorf("%s: %v %v after %v %v", f.Name, f.Film, f.Gap, last.Film, last.Gap)
		}
		last = f
	}
	for _, p := range materials.Platings() {
		bare := p.Thickness == materials.Range{}
		if !p.Hardness.Valid() || p.Hardness.Low <= 0 || !p.Thickness.Valid() || bare != strings.HasPrefix(p.Name, "bare ") {
			t.Errorf("%s: hardness %v, thickness %v", p.Name, p.Hardness, p.Thickness)
		}
	}
}

// TestFinishes holds emissivities against lists for infrared cameras (from
// memory, other tables than the rows name) and their order: dull above bright.
func TestFinishes(t *testing.T) {
	for _, f := range materials.Finishes() {
		if f.Emissivity.Low <= 0 || f.Emissivity.High > 1 {
			t.Errorf("%s: %v", f.Name, f.Emissivity)
		}
	}
	for name, listed := range map[string]float64{
		"polished copper": 0.02, "black copper": 0.78, "oxidised copper": 0.65, "painted": 0.94, "plastic": 0.9, "tape": 0.96, "aluminium sheet": 0.09,
	} {
		f, err := materials.LookupFinish(name)
		if err != nil || listed < f.Emissivity.Low || listed > f.Emissivity.High {
			t.Errorf("%s: %v does not hold %g, %v", name, f.Emissivity, listed, err)
		}
	}
	ladder := []string{"polished copper", "commercial copper", "service-aged copper", "oxidised copper", "black copper", "dull black"}
	for i := 1; i < len(ladder); i++ {
		a, errA := materials.LookupFinish(ladder[i-1])
		b, errB := materials.LookupFinish(ladder[i])
		if errA != nil || errB != nil || a.Emissivity.Likely >= b.Emissivity.Likely {
			t.Errorf("%s radiates no less than %s", ladder[i-1], ladder[i])
		}
	}
}
