package model_test

import (
	"context"
	"math"
	"testing"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/solver"
)

// The stacks below are invented. Their figures are written out so that these
// tests hold the relations of the package and not the tables of another.

var copper = materials.Metal{
	Name: "copper", Resistivity20: 1.7241e-8, Alpha20: 0.00393, // IEC 60028
	Conductivity: 390, Density: 8890, SpecificHeat: 385, ValidTo: 600,
}

var steel = materials.Metal{
	Name: "steel", Resistivity20: 1.43e-7, Alpha20: 0.005,
	Conductivity: 63.9, Density: 7832, SpecificHeat: 434, ValidTo: 600,
}

var bare = materials.Plating{
	Name: "bare copper", Hardness: materials.Range{Low: 0.4e9, Likely: 0.55e9, High: 0.9e9},
	Softening: 0.12, RiseLimit: 60, // Holm 1967; IEC 60947-1 Table 2
}

var tin = materials.Plating{
	Name: "tin-plated", Hardness: materials.Range{Low: 0.04e9, Likely: 0.06e9, High: 0.2e9},
	Thickness: materials.Range{Low: 3e-6, Likely: 8e-6, High: 15e-6},
	Softening: 0.07, RiseLimit: 65,
}

var asReceived = materials.FaceState{
	Name: "as received",
	Film: materials.Range{Low: 2e-11, Likely: 1e-10, High: 4e-10},
	Gap:  materials.Range{Low: 3e-6, Likely: 10e-6, High: 30e-6},
}

var finish = materials.Finish{Name: "dull tin", Emissivity: materials.Exactly(0.15)}

var insulation = materials.Insulation{
	Name: "105 °C", Conductivity: materials.Exactly(0.2), HeatCapacity: 1.7e6,
	MaxTemp: 378.15, Emissivity: materials.Exactly(0.9),
}

// conductor is 1/0 AWG: ASTM B258 area, with 2 % for the lay.
var conductor = materials.Conductor{
	Name: "1/0 AWG", Area: 53.49e-6, Resistance20: 1.7241e-8 / 53.49e-6 * 1.02,
	Diameter: materials.Exactly(9.9e-3), Metal: copper,
}

// metric is the thread of an ISO metric coarse screw: ISO 724 from diameter
// and pitch, ISO 4014 bearing face, ISO 273 medium hole, ISO 7089 washer, mm.
func metric(name string, d, pitch, head, hole, washer float64) materials.Fastener {
	d2, d3 := d-0.649519*pitch, d-1.226869*pitch
	return materials.Fastener{
		Name: name, Diameter: d * 1e-3, Pitch: pitch * 1e-3, PitchDiameter: d2 * 1e-3, MinorDiameter: d3 * 1e-3,
		StressArea:   math.Pi / 4 * math.Pow((d2+d3)/2, 2) * 1e-6,
		HeadDiameter: head * 1e-3, HoleDiameter: hole * 1e-3, WasherDiameter: washer * 1e-3,
	}
}

var (
	m5  = metric("M5", 5, 0.8, 6.88, 5.5, 10)
	m6  = metric("M6", 6, 1.0, 8.88, 6.6, 12)
	m8  = metric("M8", 8, 1.25, 11.63, 9, 16)
	m10 = metric("M10", 10, 1.5, 14.63, 11, 20)
	m12 = metric("M12", 12, 1.75, 16.63, 13.5, 24)
)

var class88 = materials.PropertyClass{Name: "8.8", Rp02: 640e6} // ISO 898-1

func bolt(name string, f materials.Fastener, torque float64) model.Bolt {
	return model.Bolt{
		Name: name, Fastener: f, Class: class88, Torque: torque,
		Thread:     materials.ThreadCondition{Name: "dry", NutFactor: materials.Range{Low: 0.18, Likely: 0.2, High: 0.27}},
		Tightening: materials.Tightening{Name: "torque wrench", ClampFactor: materials.Range{Low: 0.9, Likely: 1, High: 1.1}},
		Kept:       materials.Exactly(1),
	}
}

func face(p materials.Plating) model.Face {
	return model.Face{
		Metals: [2]materials.Metal{copper, copper}, Platings: [2]materials.Plating{p, p},
		State: asReceived, Area: 250e-6, Depth: [2]float64{3e-3, 3e-3},
	}
}

func lug(name string) *model.Block {
	return &model.Block{Label: name, Metal: copper, Plating: tin, Finish: finish,
		Length: 0.03, Width: 0.02, Thickness: 0.003, Exposed: 1.5e-3}
}

func fuse() *model.Fuse {
	return &model.Fuse{
		Label: "fuse 300 A", Rated: 300, Metal: copper, Plating: tin, Finish: finish,
		CapLength: 0.015, CapWidth: 0.02, CapThickness: 0.003, CapExposed: 4e-4,
		Hot: &model.HotFigure{Current: 300, Drop: materials.Range{Low: 0.06, Likely: 0.075, High: 0.09},
			Terminal: materials.Range{Low: 323, Likely: 338, High: 353}},
		ElementAlpha: 0.0039, ElementCapacity: 3, ElementTo: 600,
		ToCap:  materials.Range{Low: 0.08, Likely: 0.13, High: 0.2},
		ToBody: 0.05,
		Body:   model.Housing{Capacity: 15, To: materials.Exactly(0.1), Exposed: 1e-3, Emissivity: 0.9},
		Sides:  [2]string{"base side", "nut side"},
	}
}

func cable(name string, length float64) *model.Cable {
	return &model.Cable{Label: name, Conductor: conductor, Insulation: insulation, Wall: 2e-3, Length: length, Exposed: 1}
}

// compact is a fuse on a post: post, base, fuse, lug, cable.
func compact() *model.Stack {
	bolted := func(name string, from, to, bolt int) model.Joint {
		return model.Joint{Name: name, A: model.Port{Part: from, Port: 1}, B: model.Port{Part: to}, Bolt: bolt, Face: face(tin)}
	}
	return &model.Stack{
		Title:        "fuse on a post",
		Surroundings: model.Surroundings{Air: 298.15},
		Supply:       model.Constant(140),
		Parts: []model.Part{
			&model.Post{Label: "battery post", Metal: copper, Plating: tin, Finish: finish,
				Diameter: 8e-3, Length: 10e-3, Exposed: 3e-4,
				Body: &model.Body{Name: "battery", Capacity: 12000, To: materials.Exactly(0.1), Loss: 2}},
			lug("base"), fuse(), lug("lug"), cable("cable 1/0 AWG", 1.5),
		},
		Bolts: []model.Bolt{bolt("post nut", m8, 12), bolt("holder nut", m8, 8.5)},
		Joints: []model.Joint{
			bolted("post nut", 0, 1, 0), bolted("nut, below", 1, 2, 1), bolted("nut, above", 2, 3, 1),
			{Name: "crimp", A: model.Port{Part: 3, Port: 1}, B: model.Port{Part: 4}, Kind: model.Crimped,
				Resistance: materials.Range{Low: 3e-6, Likely: 6e-6, High: 12e-6}},
		},
	}
}

// settle assembles a stack and solves it.
func settle(t testing.TB, s *model.Stack, c model.Condition) (*model.Assembly, []float64) {
	t.Helper()
	a, err := s.Assemble(c, model.Mesh{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{
		Start: a.Start(nil), Ceilings: a.Network.Ceilings()})
	if err != nil {
		t.Fatal(err)
	}
	return a, r.X
}
