package model_test

import (
	"context"
	"math"
	"slices"
	"strings"
	"testing"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/solver"

	"pgregory.net/rapid"
)

// holder is a stack with every kind of part: cable, lug, washer, fuse in a
// base under a cover, bar, switch, cable.
func holder() *model.Stack {
	bolted := func(name string, from, to, bolt int) model.Joint {
		return model.Joint{Name: name, A: model.Port{Part: from, Port: 1}, B: model.Port{Part: to}, Bolt: bolt, Face: face(tin)}
	}
	crimp := func(from, to int) model.Joint {
		return model.Joint{Name: "crimp", A: model.Port{Part: from, Port: 1}, B: model.Port{Part: to}, Kind: model.Crimped,
			Resistance: materials.Range{Low: 3e-6, Likely: 6e-6, High: 12e-6}}
	}
	first := cable("feed", 0.6)
	first.Ends[0].Held = 310
	return &model.Stack{
		Surroundings: model.Surroundings{Air: 298.15, Altitude: 500},
		Supply:       model.Constant(140),
		Parts: []model.Part{
			first, lug("first lug"),
			&model.Washer{Label: "steel washer", Metal: steel, Plating: bare, Finish: finish, Hole: 9e-3, Outer: 16e-3, Thick: 1.6e-3},
			fuse(),
			&model.Bar{Label: "link bar", Metal: copper, Plating: tin, Finish: finish, Width: 0.03, Thickness: 0.005, Length: 0.08, Exposed: 0.8},
			&model.Block{Label: "battery switch", Metal: copper, Plating: tin, Finish: finish, Length: 0.02, Width: 0.02, Thickness: 0.004,
				Exposed: 5e-4, Across: materials.Exactly(8e-5), PlasticTo: 393.15,
				Housing: &model.Housing{Capacity: 100, To: materials.Exactly(0.2), Exposed: 8e-3, Height: 0.05, Emissivity: 0.9}},
			lug("second lug"), cable("load", 1.5),
			&model.Base{Label: "foot", LimitTo: 393.15, Carries: []model.Port{{Part: 3}, {Part: 3, Port: 1}},
				Housing: model.Housing{Capacity: 80, To: materials.Exactly(0.05), Exposed: 4e-3, Emissivity: 0.9}},
		},
		Bolts: []model.Bolt{bolt("first nut", m8, 15), bolt("second nut", m8, 15), bolt("switch nut", m10, 21.5), bolt("last nut", m10, 21.5)},
		Joints: []model.Joint{crimp(0, 1), bolted("lug on washer", 1, 2, 0), bolted("washer on fuse", 2, 3, 0),
			bolted("fuse on bar", 3, 4, 1), bolted("bar on switch", 4, 5, 2), bolted("lug on switch", 5, 6, 3), crimp(6, 7)},
		Covers: []model.Cover{{Label: "cover", Parts: []int{3}, Gap: 8e-3, Inside: 0.9, Capacity: 40, Exposed: 0.012, Height: 0.04, Outside: 0.9}},
	}
}

func names(a *model.Assembly) []string {
	var out []string
	for _, r := range a.Rows {
		out = append(out, r.Name)
	}
	return out
}

func TestRows(t *testing.T) {
	a, x := settle(t, holder(), model.Likely)
	want := []string{"feed", "crimp", "first lug", "lug on washer", "steel washer", "washer on fuse",
		"fuse 300 A, base side", "fuse 300 A", "fuse 300 A, nut side", "fuse on bar", "link bar", "bar on switch",
		"battery switch, first side", "battery switch", "battery switch, second side", "lug on switch", "second lug", "crimp", "load",
		"fuse 300 A, body", "battery switch, housing", "foot", "cover"}
	if got := names(a); !slices.Equal(got, want) {
		t.Errorf("rows\n%q, want\n%q", got, want)
	}
	var terminals []string
	for _, i := range a.Terminals() {
		terminals = append(terminals, a.Rows[i].Name)
	}
	if want := []string{"first lug", "fuse 300 A, base side", "fuse 300 A, nut side", "link bar", "battery switch, first side",
		"battery switch, second side", "second lug"}; !slices.Equal(terminals, want) {
		t.Errorf("terminals %q", terminals)
	}
	if h := a.HottestTerminal(x); h < 0 || !a.Rows[h].Terminal {
		t.Errorf("hottest terminal %d", h)
	}
	for i := 1; i < len(a.Path); i++ {
		if a.Path[i].Along < a.Path[i-1].Along {
			t.Errorf("the path runs back at %d", i)
		}
	}
}

// TestEnergy: at rest all heat made in resistors leaves by surfaces and bodies,
// and the rows' drops are the whole drop, Σ I·R.
func TestEnergy(t *testing.T) {
	for name, s := range map[string]*model.Stack{"compact": compact(), "holder": holder()} {
		for _, c := range []model.Condition{model.Likely, model.Careful, model.Careless} {
			a, x := settle(t, s, c)
			made, lost, drop, ohm := 0.0, 0.0, 0.0, 0.0
			for _, h := range a.Made(0, x) {
				made += h.Heat
			}
			for _, h := range a.Lost(x) {
				lost += h.Heat
			}
			heat := 0.0
			for i := range a.Rows {
				r := a.ReadRow(i, 0, x)
				drop, ohm, heat = drop+r.Drop, ohm+r.Ohm, heat+r.Heat
			}
			near(t, name+": lost, W", lost, made, 1e-7)
			near(t, name+": heat of the rows, W", heat, made, 1e-12)
			near(t, name+": drop, V", drop, a.Drop(0, x), 1e-12)
			near(t, name+": I·R, V", 140*ohm, drop, 1e-12)
			near(t, name+": U·I, W", 140*drop, made, 1e-12)
			if coldest := slices.Min(x); coldest < s.Surroundings.Air {
				t.Errorf("%s: a node at %g K is colder than all around it", name, coldest)
			}
		}
	}
}

// TestRipple: an alternating part of half the mean makes a quarter more heat
// and leaves the drop of cold ohms alone.
func TestRipple(t *testing.T) {
	s := compact()
	a, _ := settle(t, s, model.Likely)
	x := a.Start(nil)
	drop, heat := a.Drop(0, x), a.Made(0, x)[0].Heat
	s.Ripple = 0.5
	a, _ = settle(t, s, model.Likely)
	near(t, "heat of the cable, W", a.Made(0, x)[0].Heat, 1.25*heat, 1e-12)
	near(t, "drop, V", a.Drop(0, x), drop, 1e-3) // the spots are hotter
}

// TestMirror: a stack that is the same from either end has temperatures that
// are.
func TestMirror(t *testing.T) {
	joint := func(from, to, bolt int) model.Joint {
		return model.Joint{Name: "j", A: model.Port{Part: from, Port: 1}, B: model.Port{Part: to}, Bolt: bolt, Face: face(tin)}
	}
	crimp := func(from, to int) model.Joint {
		return model.Joint{Name: "c", A: model.Port{Part: from, Port: 1}, B: model.Port{Part: to}, Kind: model.Crimped, Resistance: materials.Exactly(6e-6)}
	}
	s := &model.Stack{
		Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(200),
		Parts:  []model.Part{cable("a", 0.9), lug("a"), fuse(), lug("b"), cable("b", 0.9)},
		Bolts:  []model.Bolt{bolt("nut", m8, 12)},
		Joints: []model.Joint{crimp(0, 1), joint(1, 2, 0), joint(2, 3, 0), crimp(3, 4)},
	}
	a, x := settle(t, s, model.Likely)
	for i := range a.Path {
		there := a.Path[len(a.Path)-1-i]
		if d := x[a.Path[i].Node] - x[there.Node]; math.Abs(d) > 1e-6 {
			t.Errorf("place %d: %g K off its mirror", i, d)
		}
	}
}

// TestOrder: neither the order of joints, nor which port of a joint comes
// first, nor the way in which a part was turned changes an answer.
func TestOrder(t *testing.T) {
	a, x := settle(t, compact(), model.Likely)
	s := compact()
	slices.Reverse(s.Joints)
	for i := range s.Joints {
		s.Joints[i].A, s.Joints[i].B = s.Joints[i].B, s.Joints[i].A
		for _, p := range []*model.Port{&s.Joints[i].A, &s.Joints[i].B} {
			if p.Part == 3 { // the lug the other way round
				p.Port = 1 - p.Port
			}
		}
	}
	b, y := settle(t, s, model.Likely)
	if !slices.Equal(names(a), names(b)) {
		t.Fatalf("rows %q, want %q", names(b), names(a))
	}
	for i := range a.Rows {
		if d := a.RowTemp(i, x) - b.RowTemp(i, y); math.Abs(d) > 1e-6 {
			t.Errorf("%s: %g K", a.Rows[i].Name, d)
		}
	}
}

// TestMesh: cells of half the length bring the hottest terminal nearer by a
// quarter of what the cells before did: second order.
func TestMesh(t *testing.T) {
	at := func(cell float64) float64 {
		a, err := compact().Assemble(model.Likely, model.Mesh{Cell: cell})
		if err != nil {
			t.Fatal(err)
		}
		r, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: a.Start(nil), Tol: 1e-9})
		if err != nil {
			t.Fatal(err)
		}
		return a.RowTemp(a.HottestTerminal(r.X), r.X)
	}
	coarse, middle, fine := at(0.4), at(0.2), at(0.1)
	if d := math.Abs(middle - fine); d > 0.05 {
		t.Errorf("the usual cells are %g K off half of them", d)
	}
	if ratio := (coarse - middle) / (middle - fine); ratio < 3.5 || ratio > 4.5 {
		t.Errorf("differences fall by %g, want about 4", ratio)
	}
}

// TestWorse: what an installer gets wrong makes the stack hotter, what cools
// it makes it colder.
func TestWorse(t *testing.T) {
	hottest := func(s *model.Stack, c model.Condition) float64 {
		a, x := settle(t, s, c)
		return a.RowTemp(a.HottestTerminal(x), x)
	}
	plain := hottest(holder(), model.Likely)
	for _, c := range []struct {
		name   string
		hotter bool
		change func(*model.Stack)
	}{
		{"half the torque", true, func(s *model.Stack) { s.Bolts[1].Torque /= 2 }},
		{"clamp kept 60 %", true, func(s *model.Stack) { s.Bolts[1].Kept = materials.Exactly(0.6) }},
		{"joint three times", true, func(s *model.Stack) { s.Joints[3].WorseBy = 3 }},
		{"measured 40 µΩ", true, func(s *model.Stack) { s.Joints[3].Measured = &model.Measured{Resistance: 40e-6} }},
		{"thin air", true, func(s *model.Stack) { s.Surroundings.Altitude = 4000 }},
		{"warm walls", true, func(s *model.Stack) { s.Surroundings.Radiant = 313 }},
		{"no cover", false, func(s *model.Stack) { s.Covers = nil }},
		{"no washer", false, func(s *model.Stack) { // brass in place of steel conducts better
			s.Parts[2].(*model.Washer).Metal = copper
		}},
		{"moving air", false, func(s *model.Stack) { s.Surroundings.AirSpeed = 1 }},
		{"cables upright", true, func(s *model.Stack) { s.Parts[7].(*model.Cable).Lies = model.Vertical }},
	} {
		t.Run("holder/"+c.name, func(t *testing.T) {
			s := holder()
			c.change(s)
			if got := hottest(s, model.Likely); (got > plain) != c.hotter || math.Abs(got-plain) < 1e-4 {
				t.Errorf("%.4f K, plain %.4f K", got, plain)
			}
		})
	}
	t.Run("holder/careful, likely, careless", func(t *testing.T) {
		low, high := hottest(holder(), model.Careful), hottest(holder(), model.Careless)
		if !(low < plain && plain < high) {
			t.Errorf("%g, %g, %g K", low, plain, high)
		}
	})
}

// TestBody: at rest a body with a mass and a loss is the same as the two
// conductances in series.
func TestBody(t *testing.T) {
	s := compact()
	a, x := settle(t, s, model.Likely)
	post := s.Parts[0].(*model.Post)
	to, loss := post.Body.To.Likely, post.Body.Loss
	post.Body = &model.Body{Name: "battery", To: materials.Exactly(1 / (1/to + 1/loss))}
	b, y := settle(t, s, model.Likely)
	near(t, "post, K", b.RowTemp(0, y), a.RowTemp(0, x), 1e-9)
}

// TestRest: without current a stack in a room of one temperature takes it.
func TestRest(t *testing.T) {
	s := compact()
	s.Supply = model.Constant(0)
	_, x := settle(t, s, model.Careless)
	for i, temp := range x {
		if math.Abs(temp-298.15) > 1e-6 {
			t.Errorf("node %d at %g K", i, temp)
		}
	}
}

// TestMaximum: more current never cools a terminal.
func TestMaximum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := compact()
		current := rapid.Float64Range(10, 200).Draw(t, "current")
		solve := func(i float64) (*model.Assembly, []float64) {
			s.Supply = model.Constant(i)
			a, err := s.Assemble(model.Likely, model.Mesh{Cell: 0.5})
			if err != nil {
				t.Fatal(err)
			}
			r, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: a.Start(nil)})
			if err != nil {
				t.Fatal(err)
			}
			return a, r.X
		}
		a, x := solve(current)
		_, y := solve(current * rapid.Float64Range(1.01, 1.2).Draw(t, "times"))
		for i := range a.Rows {
			if a.RowTemp(i, y) < a.RowTemp(i, x) {
				t.Fatalf("%s cools", a.Rows[i].Name)
			}
		}
	})
}

// TestDetail: the surfaces' own figures add up to the heat that leaves, and what
// crosses to a cover leaves by the cover's outside.
func TestDetail(t *testing.T) {
	a, x := settle(t, holder(), model.Likely)
	room, into, out := 0.0, 0.0, 0.0
	for _, d := range a.Detail(x) {
		if d.Area <= 0 || d.Convection <= 0 || d.Radiation <= 0 || d.Biot < 0 {
			t.Errorf("%+v", d)
		}
		switch {
		case d.Name == "cover":
			out = d.Conductance * (d.Temp - 298.15)
			room += out
		case strings.HasSuffix(d.Name, " to cover"):
			into += d.Conductance * (d.Temp - x[a.Rows[len(a.Rows)-1].Nodes[0]])
		default:
			room += d.Conductance * (d.Temp - 298.15)
		}
	}
	near(t, "into the cover, W", into, out, 1e-6)
	lost := a.Lost(x)
	near(t, "to the room, W", room, lost[0].Heat+lost[1].Heat, 1e-6)
	t.Run("thick lump/Biot warning", func(t *testing.T) {
		s := holder()
		poor := steel
		poor.Conductivity = 0.02
		s.Parts[1].(*model.Block).Metal = poor
		a, err := s.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			t.Fatal(err)
		}
		warned := false
		for _, d := range a.Detail(a.Start(nil)) {
			warned = warned || d.Name == "first lug" && len(d.Warnings) > 0
		}
		if !warned {
			t.Error("no warning of a Biot number above 0.1")
		}
	})
}
