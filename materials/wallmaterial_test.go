package materials_test

import (
	"testing"

	"clampheat/materials"
)

// Each wall has a finish that the table of finishes knows, and figures between
// those of foams and of copper.
func TestWallMaterials(t *testing.T) {
	for _, m := range materials.WallMaterials() {
		t.Run(m.Name, func(t *testing.T) {
			if _, err := materials.LookupFinish(m.Finish); err != nil {
				t.Error(err)
			}
			k := m.Conductivity
			if k.Low < 0.1 || k.High > 240 || m.Density < 400 || m.Density > 8000 || m.SpecificHeat < 450 || m.SpecificHeat > 2000 {
				t.Errorf("no solid wall has %+v", m)
			}
		})
	}
	t.Run("plywood/handbook", func(t *testing.T) {
		// Incropera & DeWitt, 6th ed. 2007, Table A.3: 0.12 W/(m K), 545 kg/m³,
		// 1215 J/(kg K); from memory.
		m, err := materials.LookupWallMaterial("ply")
		if err != nil || m.Conductivity.Likely != 0.12 || m.Density != 545 || m.SpecificHeat != 1215 {
			t.Errorf("%+v, %v", m, err)
		}
	})
}
