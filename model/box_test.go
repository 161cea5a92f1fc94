package model_test

import (
	"context"
	"math"
	"testing"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/model/network"
	"clampheat/solver"
)

// steelBox is an invented box of painted sheet steel.
func steelBox() *model.Enclosure {
	return &model.Enclosure{Label: "box", Width: 0.4, Height: 0.5, Depth: 0.2, Inside: 0.9, Outside: 0.9,
		Wall: model.Wall{Name: "steel", Conductivity: 50, Density: 7850, SpecificHeat: 470, Thickness: 1.5e-3}}
}

// foam is a wall that lets next to nothing through.
var foam = model.Wall{Name: "foam", Conductivity: 1e-9, Density: 30, SpecificHeat: 1400, Thickness: 20e-3}

// heated is a box with nothing in it but other heat; the stack is an idle cable
// outside.
func heated(e *model.Enclosure, watts float64) *model.Stack {
	e.Heat, e.Parts = watts, []int{}
	return &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(0),
		Parts: []model.Part{cable("idle", 0.5)}, Enclosure: e}
}

// TestVents: what air carries out of a box whose wall lets nothing through.
func TestVents(t *testing.T) {
	t.Run("fan/ρ c V", func(t *testing.T) {
		// 30 m³/h of dry air at 25 °C, 1.184 kg/m³ and 1006 J/(kg K) (tables of
		// air), carry 1.184·1006·30/3600 = 9.926 W/K: 100 W warm it by 10.07 K.
		e := steelBox()
		e.Wall, e.Fan = foam, 30.0/3600
		a, x := fine(t, heated(e, 100))
		near(t, "rise of the air, K", a.ReadBox(0, x).Air-298.15, 10.07, 2e-3)
		near(t, "by the fan, W", a.ReadBox(0, x).Vents, 100, 1e-4)
	})
	t.Run("buoyancy/two vents in series", func(t *testing.T) {
		// Two vents of 20 cm² act as 20/√2 = 14.14 cm². Over 0.4 m at a rise of d
		// they pass 0.6·14.14e-4·√(2·9.807·0.4·d/(298.15+d)) m³/s, 1191.1 J/(m³ K) each:
		// 2.8307 d √(d/(298.15+d)) W, which is 10 W at d = 15.764 K.
		e := steelBox()
		e.Wall, e.Inlet, e.Outlet, e.VentRise = foam, 20e-4, 20e-4, 0.4
		a, x := fine(t, heated(e, 10))
		near(t, "rise of the air, K", a.ReadBox(0, x).Air-298.15, 15.764, 2e-3)
	})
	t.Run("altitude/thin air carries less", func(t *testing.T) {
		e := steelBox()
		e.Wall, e.Fan = foam, 30.0/3600
		s := heated(e, 100)
		s.Surroundings.Altitude = 2000
		a, x := fine(t, s)
		// 79.5 kPa at 2000 m (ISO 2533) against 101.325 kPa.
		near(t, "rise of the air, K", a.ReadBox(0, x).Air-298.15, 10.07*101.325/79.495, 3e-3)
	})
}

// TestBoxBalance: a box of steel that stands free, worked out once more from the
// relations for its faces: the air's rise over the wall, the wall's over the room.
func TestBoxBalance(t *testing.T) {
	const watts, room, sigma = 60.0, 298.15, 5.670374e-8
	e := steelBox()
	a, x := fine(t, heated(e, watts))
	box := a.ReadBox(0, x)

	face := func(temp, air, length float64, nu func(ra, pr float64) float64) float64 {
		f, err := materials.DryAir((temp+air)/2, 101325)
		if err != nil {
			t.Fatal(err)
		}
		ra := 9.80665 * f.Expansion() * math.Abs(temp-air) * length * length * length /
			(f.Viscosity / f.Density * f.Diffusivity())
		return nu(ra, f.Prandtl()) * f.Conductivity / length
	}
	// Solved for the rise at which the heat is that of the box, by halving.
	solve := func(heat func(rise float64) float64) float64 {
		low, high := 0.0, 200.0
		for range 80 {
			if mid := (low + high) / 2; heat(mid) > watts {
				high = mid
			} else {
				low = mid
			}
		}
		return low
	}
	const w, h, d = 0.4, 0.5, 0.2
	level := w * d / (2 * (w + d))
	outer := solve(func(rise float64) float64 {
		temp := room + rise
		convection := 2*h*(w+d)*face(temp, room, h, network.NusseltVerticalPlate) +
			w*d*face(temp, room, level, network.NusseltFaceUp) + w*d*face(temp, room, level, network.NusseltFaceDown)
		return rise*convection + 0.9*sigma*2*(w*h+h*d+w*d)*(math.Pow(temp, 4)-math.Pow(room, 4))
	})
	near(t, "wall's rise, K", box.Outer-room, outer, 1e-3)
	const t2 = 3e-3 // both walls
	iw, ih, id := w-t2, h-t2, d-t2
	inside := solve(func(rise float64) float64 {
		air, wall := box.Inner+rise, box.Inner
		l := iw * id / (2 * (iw + id))
		// The ceiling is cold above warm air, as a warm face up; the floor is
		// cold below it.
		return rise * (2*ih*(iw+id)*face(wall, air, ih, network.NusseltVerticalPlate) +
			iw*id*face(wall, air, l, network.NusseltFaceUp) + iw*id*face(wall, air, l, network.NusseltFaceDown))
	})
	near(t, "air's rise over the wall, K", box.Air-box.Inner, inside, 1e-3)
	area := 2 * (iw*ih + ih*id + iw*id)
	near(t, "fall through the wall, K", box.Inner-box.Outer, watts*1.5e-3/(50*area), 0.02)
}

// TestMounting: a bulkhead cools a box more than air on its back, insulation
// less, and the bulkhead takes what its contact lets through.
func TestMounting(t *testing.T) {
	rise := func(change func(*model.Enclosure)) (float64, model.BoxReading) {
		e := steelBox()
		change(e)
		a, x := fine(t, heated(e, 60))
		box := a.ReadBox(0, x)
		return box.Air - 298.15, box
	}
	free, _ := rise(func(*model.Enclosure) {})
	insulated, _ := rise(func(e *model.Enclosure) { e.Mounting = model.Insulated })
	bulkhead, box := rise(func(e *model.Enclosure) { e.Mounting, e.Bulkhead = model.OnBulkhead, 50 })
	if !(bulkhead < free && free < insulated) {
		t.Errorf("rises %g on a bulkhead, %g free, %g against insulation", bulkhead, free, insulated)
	}
	near(t, "into the bulkhead, W", box.Bulkhead, 50*0.4*0.5*(box.Outer-298.15), 1e-12)
	dull, _ := rise(func(e *model.Enclosure) { e.Outside = 0.1 })
	if !(dull > free) {
		t.Errorf("bright wall %g K, painted %g K", dull, free)
	}
}

// TestBoxed: a stack in a box is hotter than one in the room by about what the
// box's air is, and in a box with a gale blown through it as hot as in the room.
func TestBoxed(t *testing.T) {
	a, x := fine(t, holder())
	room := a.RowTemp(a.HottestTerminal(x), x)
	s := holder()
	s.Enclosure = steelBox()
	b, y := fine(t, s)
	boxed := b.RowTemp(b.HottestTerminal(y), y)
	air := b.ReadBox(0, y).Air - 298.15
	if !(air > 5 && boxed > room+air/2 && boxed < room+1.5*air) {
		t.Errorf("%g K in the room, %g K in a box %g K warm", room, boxed, air)
	}
	for _, d := range b.Detail(y) {
		if d.Area <= 0 || d.Convection <= 0 || math.IsNaN(d.Conductance) {
			t.Errorf("%+v", d)
		}
	}
	s.Enclosure.Fan, s.Enclosure.Inside = 1e6, 1
	s.Enclosure.Mounting, s.Enclosure.Bulkhead = model.OnBulkhead, 1e7 // a cold wall
	s.Surroundings.AirSpeed = 0
	c, z := fine(t, s)
	near(t, "in a gale, K", c.RowTemp(c.HottestTerminal(z), z), room, 1e-5)
	// A battery whose post is in the box gives its heat to the box's air.
	for _, capacity := range []float64{0, 12000} {
		s := compact()
		s.Parts[0].(*model.Post).Body.Capacity = capacity
		s.Enclosure = steelBox()
		d, v := fine(t, s)
		box := d.ReadBox(0, v)
		near(t, "out of the box with a battery, W", box.Wall, box.Parts, 1e-8)
		made := 0.0
		for _, m := range d.Made(0, v) {
			made += m.Heat
		}
		near(t, "made in the box, W", box.Parts, made, 1e-8)
	}
	if got := names(b); got[len(got)-2] != "box, air" || got[len(got)-1] != "box, wall" {
		t.Errorf("rows end with %q", got[len(got)-2:])
	}
}

// TestTrend holds the rise of the air in closed boxes against the empirical
// figures of IEC TR 60890 (from memory), which are for boxes of sheet metal whose
// heat is made all over. The exponent of the power lies near the report's 0.804, and
// the ratio of the rises is the same for boxes of 0.2 to 7 m². It is above 1: other
// heat is all given to the air here, while much of that of real parts goes to the
// wall by radiation. Of a cable's heat the air takes but a part. The bounds of the
// ratios were set when these were known: they guard against change and prove
// nothing about the level.
func TestTrend(t *testing.T) {
	for _, c := range []struct {
		name                 string
		width, height, depth float64
		mounting             model.Mounting
		watts                float64
	}{
		{"0.2 m²/free", 0.2, 0.25, 0.12, model.Free, 15},
		{"0.4 m²/free", 0.3, 0.4, 0.15, model.Free, 30},
		{"0.9 m²/free", 0.4, 0.6, 0.25, model.Free, 60},
		{"2.5 m²/free", 0.8, 1.0, 0.3, model.Free, 150},
		{"7 m²/free", 1, 1.8, 0.6, model.Free, 400},
	} {
		t.Run(c.name, func(t *testing.T) {
			rise := func(watts float64) (ours, theirs float64) {
				e := steelBox()
				e.Width, e.Height, e.Depth, e.Mounting = c.width, c.height, c.depth, c.mounting
				return against(t, heated(e, watts))
			}
			ours, theirs := rise(c.watts)
			twice, _ := rise(2 * c.watts)
			exponent := math.Log2(twice / ours)
			t.Logf("rise %.1f K, IEC TR 60890 %.1f K, ratio %.2f; exponent %.3f", ours, theirs, ours/theirs, exponent)
			if exponent < 0.7 || exponent > 0.9 {
				t.Errorf("the rise goes with P^%.3f", exponent)
			}
			for _, by := range []float64{0.25, 1, 3} {
				ours, theirs := rise(by * c.watts)
				if r := ours / theirs; r < 1.2 || r > 1.5 {
					t.Errorf("%g W: rise %g K, by the report %g K", by*c.watts, ours, theirs)
				}
			}
		})
	}
	t.Run("heat of a cable", func(t *testing.T) {
		e := steelBox()
		s := &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(180), Parts: []model.Part{cable("loop", 4)}, Enclosure: e}
		ours, theirs := against(t, s)
		t.Logf("rise %.1f K, IEC TR 60890 %.1f K, ratio %.2f", ours, theirs, ours/theirs)
		if r := ours / theirs; r < 0.8 || r > 1.25 {
			t.Errorf("rise %g K, by the report %g K", ours, theirs)
		}
	})
}

// against gives the rise of the air in a stack's box and that of IEC TR 60890.
func against(t *testing.T, s *model.Stack) (ours, theirs float64) {
	t.Helper()
	a, x := fine(t, s)
	f, err := s.EnclosureFigures()
	if err != nil {
		t.Fatal(err)
	}
	if !f.Within || !f.Closed {
		t.Fatalf("%+v", f)
	}
	box := a.ReadBox(0, x)
	return box.Air - s.Surroundings.Air, f.Rise(box.Parts + box.Other)
}

// TestEnclosureFigures holds the figures against those of a box worked by hand:
// b of 1.4 top, 0.9 sides, 0.5 covered back (IEC TR 60890, from memory).
func TestEnclosureFigures(t *testing.T) {
	e := steelBox()
	s := heated(e, 0)
	f, err := s.EnclosureFigures()
	if err != nil {
		t.Fatal(err)
	}
	// 1.4·0.08 + 0.9·(2·0.2 + 2·0.1) = 0.652 m²; g = 1.25.
	near(t, "free, m²", f.Cooling, 0.652, 1e-12)
	near(t, "top over middle", f.Top, 1.215, 1e-12)
	near(t, "k", f.K, 0.617*math.Pow(0.652, -0.737), 5e-3) // the power law through the table
	near(t, "rise at 60 W, K", f.Rise(60), f.K*26.89, 1e-3)
	e.Mounting, e.Bulkhead = model.OnBulkhead, 10
	if f, err = s.EnclosureFigures(); err != nil {
		t.Fatal(err)
	}
	near(t, "on a bulkhead, m²", f.Cooling, 0.652-0.4*0.2, 1e-12)
	e.Fan = 0.01
	if f, _ = s.EnclosureFigures(); f.Closed {
		t.Error("a box with a fan counts as closed")
	}
	s.Enclosure = nil
	if _, err := s.EnclosureFigures(); err == nil {
		t.Error("no box, and it has figures")
	}
}

// TestCourse: where the room's air follows a course, a stack long after its last
// change is as in a room of that temperature, box and all.
func TestCourse(t *testing.T) {
	for _, boxed := range []bool{false, true} {
		s := compact()
		s.Parts[0].(*model.Post).Body.Capacity = 500
		if boxed {
			s.Enclosure = steelBox()
			s.Enclosure.Mounting, s.Enclosure.Bulkhead = model.OnBulkhead, 20
		}
		course, err := model.NewSchedule(model.Piece{From: 288.15, To: 308.15, For: 3600}, model.Piece{From: 308.15, To: 308.15, For: math.Inf(1)})
		if err != nil {
			t.Fatal(err)
		}
		s.Course = course
		a, err := s.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			t.Fatal(err)
		}
		start := a.Start(nil)
		if start[0] != 288.15 {
			t.Errorf("starts at %g K", start[0])
		}
		run, err := solver.Soak(context.Background(), a.Network, solver.SoakOptions{Start: start, Until: 60000, Breaks: s.Breaks(), Tol: 1e-3})
		if err != nil {
			t.Fatal(err)
		}
		s.Course, s.Surroundings.Air = nil, 308.15
		// The flow through a vent aside, which this box has none of, nothing of a
		// room's own figures is left.
		b, x := fine(t, s)
		h := b.HottestTerminal(x)
		near(t, "hottest, K", a.RowTemp(h, run.X), b.RowTemp(h, x), 2e-6)
		sum := 0.0
		for _, way := range a.LostAt(60000, run.X) {
			sum += way.Heat
		}
		made := 0.0
		for _, m := range a.Made(60000, run.X) {
			made += m.Heat
		}
		near(t, "lost, W", sum, made, 1e-3)
	}
}
