package materials_test

import (
	"math"
	"testing"

	"clampheat/materials"
)

// TestInsulations holds the computed adiabatic factors against the integers
// printed in IEC 60364-5-54, tables A.54.2 to A.54.4, A·√s/mm².
func TestInsulations(t *testing.T) {
	for name, want := range map[string]float64{"PVC 70 °C": 115, "90 °C": 100, "XLPE 90 °C": 143, "EPR 90 °C": 143, "rubber 85 °C": 134} {
		i, err := materials.LookupInsulation(name)
		if err != nil || math.Abs(i.AdiabaticK*1e-6-want) > 0.5 {
			t.Errorf("%s: k = %.1f, want %g, %v", name, i.AdiabaticK*1e-6, want, err)
		}
	}
	// IEC 60364-5-54 annex A: K = 226 A·√s/mm² is √(c·(β + 20)/ρ20), of which
	// this package's copper makes 0.5 % less by its density and specific heat.
	copper, err := materials.LookupMetal("copper")
	if err != nil {
		t.Fatal(err)
	}
	if k := math.Sqrt(copper.Density * copper.SpecificHeat / copper.Alpha20 / copper.Resistivity20); !near(k*1e-6, 226, 0.01) {
		t.Errorf("K = %.1f from the properties of copper", k*1e-6)
	}
	// IEC 60287-2-1 table 1, thermal resistivity K·m/W (from memory).
	for name, resistivity := range map[string]float64{"PVC 70 °C": 5.0, "XLPE 90 °C": 3.5, "EPR 90 °C": 3.5, "rubber 85 °C": 5.0, "chloroprene 85 °C": 5.5} {
		i, err := materials.LookupInsulation(name)
		if err != nil || !near(1/i.Conductivity.Likely, resistivity, 0.02) {
			t.Errorf("%s: %.2f K·m/W, want %g, %v", name, 1/i.Conductivity.Likely, resistivity, err)
		}
	}
	for _, i := range materials.Insulations() {
		if i.MaxTemp < 330 || i.MaxTemp > 480 || i.HeatCapacity < 1e6 || i.HeatCapacity > 3e6 || i.Emissivity.High > 1 || math.IsNaN(i.AdiabaticK) {
			t.Errorf("%s: %+v", i.Name, i)
		}
	}
}

// TestAmpacities holds rows against the printed law and against physics.
func TestAmpacities(t *testing.T) {
	const law, code = "33 CFR 183.425 Table 5", "NEC 310.17"
	cell := make(map[string]map[string]map[float64]float64) // table, size, °C
	for _, r := range materials.Ampacities() {
		if cell[r.Table] == nil {
			cell[r.Table] = make(map[string]map[float64]float64)
		}
		if cell[r.Table][r.Size] == nil {
			cell[r.Table][r.Size] = make(map[float64]float64)
		}
		cell[r.Table][r.Size][math.Round(r.InsulationTemp-273.15)] = r.Current
		c, err := materials.LookupConductor(r.Size)
		if err != nil || c.Area != r.Area || r.Ambient != 303.15 || r.Source.Cite == "" {
			t.Errorf("%s %s: area %g, ambient %g, %v", r.Table, r.Size, r.Area, r.Ambient, err)
		}
	}
	// 33 CFR 183.425, table 5, as printed.
	for size, row := range map[string]map[float64]float64{
		"8 AWG": {60: 55, 105: 80, 200: 100}, "2 AWG": {60: 140, 75: 170, 105: 210}, "1/0 AWG": {90: 245, 105: 285}, "4/0 AWG": {60: 300, 75: 360, 105: 445, 200: 510},
	} {
		for rating, current := range row {
			if got := cell[law][size][rating]; got != current {
				t.Errorf("%s %s %g °C: %g A, want %g", law, size, rating, got, current)
			}
		}
	}
	sizes := []string{"14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG", "3 AWG", "2 AWG", "1 AWG", "1/0 AWG", "2/0 AWG", "3/0 AWG", "4/0 AWG"}
	for table, ratings := range map[string][]float64{law: {60, 75, 80, 90, 105, 125, 200}, code: {60, 75, 90}} {
		for i, size := range sizes {
			for j, rating := range ratings {
				current := cell[table][size][rating]
				if current == 0 || (i > 0 && current <= cell[table][sizes[i-1]][rating]) || (j > 0 && current < cell[table][size][ratings[j-1]]) {
					t.Errorf("%s %s %g °C: %g A is out of order", table, size, rating, current)
				}
			}
		}
	}
	// The two tables share their root: 60 and 75 °C agree from 6 AWG up.
	for _, size := range sizes[4:] {
		for _, rating := range []float64{60, 75} {
			if a, b := cell[law][size][rating], cell[code][size][rating]; a != b {
				t.Errorf("%s %g °C: %g A and %g A", size, rating, a, b)
			}
		}
	}
}

// TestTouchThresholds: burn thresholds fall with time, metal burns first, and
// all meet at 43 °C for a whole shift (ISO 13732-1, from memory; 48 °C for ten
// minutes on bare metal read in a test report).
func TestTouchThresholds(t *testing.T) {
	at := make(map[string]map[float64]materials.TouchThreshold)
	for _, h := range materials.TouchThresholds() {
		if at[h.Surface] == nil {
			at[h.Surface] = make(map[float64]materials.TouchThreshold)
		}
		at[h.Surface][h.ContactTime] = h
	}
	times := []float64{1, 4, 10, 60, 600, 28800}
	for surface, list := range at {
		for i, s := range times {
			h, ok := list[s]
			if !ok || h.Low > h.High || h.Low < at["bare metal"][s].Low || (i > 0 && h.High > list[times[i-1]].Low) {
				t.Errorf("%s %g s: %g to %g K", surface, s, h.Low, h.High)
			}
		}
		if h := list[28800]; !near(h.High, 316.15, 1e-9) {
			t.Errorf("%s: %g K for eight hours", surface, h.High)
		}
	}
	if h := at["bare metal"][600]; len(at) != 3 || !near(h.High, 321.15, 1e-9) {
		t.Errorf("%d surfaces, bare metal %g K for ten minutes", len(at), h.High)
	}
}

func TestTables(t *testing.T) {
	kinds := make(map[string]bool)
	for _, table := range materials.Tables() {
		if kinds[table.Kind] || table.Title == "" || len(table.Rows) == 0 {
			t.Errorf("table %q is empty or listed twice", table.Kind)
		}
		kinds[table.Kind] = true
		for i, r := range table.Rows {
			if len(r.Cells) != len(table.Columns) || r.Source.Cite == "" {
				t.Errorf("%s row %d: %d cells under %d headings, source %q", table.Kind, i, len(r.Cells), len(table.Columns), r.Source.Key)
			}
		}
	}
	if len(kinds) < 14 {
		t.Errorf("%d tables", len(kinds))
	}
}

// TestCopies: what a caller does to a list does not reach the next caller.
func TestCopies(t *testing.T) {
	materials.Metals()[0].Name = "x"
	materials.Ampacities()[0].Current = -1
	if materials.Metals()[0].Name == "x" || materials.Ampacities()[0].Current == -1 {
		t.Error("a list is shared")
	}
}

func TestRange(t *testing.T) {
	nan := math.NaN()
	for _, c := range []struct {
		r  materials.Range
		ok bool
	}{
		{materials.Exactly(2), true}, {materials.Range{Low: 1, Likely: 2, High: 3}, true}, {materials.Range{Low: 2, Likely: 1, High: 3}, false},
		{materials.Range{Low: 1, Likely: 3, High: 2}, false}, {materials.Range{Low: nan, Likely: 1, High: 2}, false},
		{materials.Range{Low: 1, Likely: nan, High: 2}, false}, {materials.Range{Low: math.Inf(-1), Likely: 1, High: 2}, false}, {materials.Range{Low: 0, Likely: 1, High: math.Inf(1)}, false},
	} {
		if c.r.Valid() != c.ok {
			t.Errorf("%v valid: %v", c.r, !c.ok)
		}
	}
	if materials.Published.String() != "published" || materials.Assumed.String() != "assumed" {
		t.Error("the words of the basis changed")
	}
}
