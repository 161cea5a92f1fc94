package network_test

import (
	"context"
	"math"
	"testing"

	"clampheat/model/network"
	"clampheat/solver"
	"pgregory.net/rapid"
)

// A box by hand: all coefficients constant, nothing radiates. Heat from the part
// to the box's air over a, from there to the wall over b and to the room by the
// fan's flow v, from the wall to the room over c and to what holds it over k.
func TestBoxByHand(t *testing.T) {
	const (
		a, b, c, v, k = 0.2, 0.9, 1.1, 0.4, 0.3 // W/K
		made, other   = 12.0, 7.0               // W, in the part and in the air
		room          = 296.0
	)
	net := network.New(network.Surroundings{Air: room})
	part, air, wall := net.AddNode(network.Node{Name: "part", Capacity: 5}), net.AddNode(network.Node{Name: "air", Capacity: 5}), net.AddNode(network.Node{Name: "wall", Capacity: 50})
	box := net.AddSpace("box", air, wall)
	inside := net.AddSurface(part, network.Surface{Name: "part", Area: 0.02, Shape: network.Given{H: a / 0.02}, In: box})
	net.AddSurface(wall, network.Surface{Name: "inner face", Area: 0.2, Emissivity: 0.9, Shape: network.Given{H: b / 0.2}, In: box})
	net.AddSurface(wall, network.Surface{Name: "outer face", Area: 0.2, Shape: network.Given{H: c / 0.2}})
	back := net.AddHoldToAir("bulkhead", wall, k)
	vent := net.AddVent(network.Vent{Name: "fan", Node: air, Flow: v})
	charger := net.AddSource("charger", air, other)
	net.SetSupply(network.Constant(100), 0)
	net.AddResistor(network.Resistor{Name: "part", A: part, B: part, Film: made / 1e4})
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	x := steady(t, net, 300).X
	// Of what comes into the air, v takes one part and the way over b and c + k
	// the other.
	out := 1 / (1/b + 1/(c+k))
	rise := (made + other) / (v + out)
	near(t, "air", x[air], room+rise, 1e-13)
	near(t, "part", x[part], room+rise+made/a, 1e-13)
	near(t, "wall", x[wall], room+rise*out/(c+k), 1e-13)
	near(t, "fan", net.ReadVent(vent, 0, x), v*rise, 1e-12)
	near(t, "bulkhead", net.ReadHold(back, x), k*rise*out/(c+k), 1e-12)
	near(t, "charger", net.ReadSource(charger), other, 0)
	r := net.ReadSurface(inside, x)
	near(t, "from the part", r.Convection, made, 1e-12)
	near(t, "coefficient", r.Film, a/0.02, 0)
}

// Air that moves by its own warmth alone carries B ΔT √(ΔT/T), T of the warmer.
func TestBuoyantVent(t *testing.T) {
	net := network.New(network.Surroundings{Air: 300})
	air := net.AddNode(network.Node{Name: "air", Capacity: 1})
	vent := net.AddVent(network.Vent{Name: "vent", Node: air, Buoyant: 10})
	net.AddSource("charger", air, 50)
	if err := net.Finish(); err != nil {
		t.Fatal(err)
	}
	x := steady(t, net, 310).X
	near(t, "rise", x[0]-300, 20, 1e-10) // 10 · 20 · √(20/320) = 50
	near(t, "heat", net.ReadVent(vent, 0, x), 50, 1e-10)
	f := make([]float64, 1)
	for _, d := range []float64{0, 1e-9, -1e-9, -12} {
		net.Balance(0, []float64{300 + d}, f)
		if want := 50 - 10*math.Sqrt(math.Abs(d)/(300+max(d, 0)))*d; math.Abs(f[0]-want) > 1e-12 {
			t.Errorf("ΔT = %g K: %.14g W, want %.14g W", d, f[0], want)
		}
	}
}

// In a space a surface gives to a wall what it would give to a room that is as
// warm, and to enclosed air likewise; and the space gets it.
func TestSpaceIsLikeARoom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		surface := network.Surface{Name: "skin", Area: rapid.Float64Range(0.001, 0.1).Draw(t, "area"),
			Emissivity: rapid.Float64Range(0, 1).Draw(t, "emissivity"), Shape: kinds[rapid.IntRange(0, len(kinds)-1).Draw(t, "shape")]}
		temps := [3]float64{}
		for i := range temps {
			temps[i] = rapid.Float64Range(250, 500).Draw(t, "temperature")
		}
		open := network.New(network.Surroundings{Air: temps[1], Radiant: temps[2]})
		plain := open.AddSurface(open.AddNode(network.Node{Name: "part"}), surface)
		open.AddHold("body", 0, 1, 300)
		closed := network.New(network.Surroundings{Air: 270})
		for _, name := range []string{"part", "air", "wall"} {
			closed.AddHold("body", closed.AddNode(network.Node{Name: name}), 1, 300)
		}
		surface.In = closed.AddSpace("box", 1, 2)
		inner := closed.AddSurface(0, surface)
		for _, n := range []*network.Network{open, closed} {
			if err := n.Finish(); err != nil {
				t.Fatal(err)
			}
		}
		want, got := open.ReadSurface(plain, temps[:1]), closed.ReadSurface(inner, temps[:])
		same := func(what string, a, b float64) {
			if math.Abs(a-b) > 1e-11*(1+math.Abs(b)) {
				t.Fatalf("%s: %.14g in the space, %.14g in the room", what, a, b)
			}
		}
		same("convection", got.Convection, want.Convection)
		same("radiation", got.Radiation, want.Radiation)
		same("coefficient", got.Film, want.Film)
		same("coefficient of radiation", got.HRad, want.HRad)
		f, g := make([]float64, 3), make([]float64, 1)
		closed.Balance(0, temps[:], f)
		open.Balance(0, temps[:1], g)
		held := func(i int) float64 { return f[i] + temps[i] - 300 }
		same("balance of the part", f[0], g[0])
		same("heat of the air", held(1), want.Convection)
		same("heat of the wall", held(2), want.Radiation)
	})
}

// course is a day's temperature, a sinus around its mean.
type course struct{ mean, swing, omega float64 }

func (c course) Current(t float64) float64 { return c.mean + c.swing*math.Sin(c.omega*t) }
func (c course) Slope(t float64) float64   { return c.swing * c.omega * math.Cos(c.omega*t) }

// A lump of linear losses in moving air follows C dT/dt = G (Tₐ(t) − T), which has
// a closed form for a ramp and for a sinus: with τ = C/G, starting at the air's
// temperature,
//
//	ramp s:          T − T₀ = s (t − τ + τ e^(−t/τ))
//	sinus a, ω:      T − T₀ = a/(1 + ω²τ²) (sin ωt − ωτ cos ωt + ωτ e^(−t/τ))
func TestSoakInMovingAir(t *testing.T) {
	const c, tau, t0 = 240.0, 300.0, 295.0
	const s, a, omega = 0.004, 12.0, 2 * math.Pi / 3600
	for _, m := range []struct {
		name string
		air  network.Supply
		want func(t float64) float64
	}{
		{"air/ramp", ramp{t0, s}, func(t float64) float64 { return t0 + s*(t-tau+tau*math.Exp(-t/tau)) }},
		{"air/sinus", course{t0, a, omega}, func(t float64) float64 {
			w := omega * tau
			return t0 + a/(1+w*w)*(math.Sin(omega*t)-w*math.Cos(omega*t)+w*math.Exp(-t/tau))
		}},
	} {
		t.Run(m.name, func(t *testing.T) {
			net := network.New(network.Surroundings{Air: 250})
			net.SetAir(m.air)
			id := net.AddNode(network.Node{Name: "lump", Capacity: c})
			// A third of the losses each by a surface, a body in the air, and a fan.
			g := c / tau / 3
			skin := net.AddSurface(id, network.Surface{Name: "skin", Area: 1, Shape: network.Given{H: g}})
			body := net.AddHoldToAir("body", id, g)
			net.AddVent(network.Vent{Name: "fan", Node: id, Flow: g})
			if err := net.Finish(); err != nil {
				t.Fatal(err)
			}
			times := []float64{0, 10, 200, 900, 2500, 7200}
			res, err := solver.Soak(context.Background(), net, solver.SoakOptions{Start: []float64{t0}, Until: 7200, Times: times, Tol: 1e-5})
			if err != nil {
				t.Fatal(err)
			}
			for i, at := range times {
				if got := res.States[i][0]; math.Abs(got-m.want(at)) > 2e-5 {
					t.Errorf("at %g s: %.8g K, closed form %.8g K", at, got, m.want(at))
				}
				now := net.Air(at)
				near(t, "air", now, m.air.Current(at), 0)
				near(t, "skin", net.ReadSurfaceAt(skin, at, res.States[i]).Convection, g*(res.States[i][0]-now), 1e-9)
				near(t, "body", net.ReadHoldAt(body, at, res.States[i]), g*(res.States[i][0]-now), 1e-9)
			}
			if !(res.Audit.Bookkeeping <= 1e-9) {
				t.Errorf("books of heat: %.3g", res.Audit.Bookkeeping)
			}
		})
	}
}

// The books of a soak with branches, a box, moving air and a load that changes
// close, and its end is that of a soak at a tenth of the tolerance.
func TestSoakWithBranches(t *testing.T) {
	net := bank(t, 3, 4)
	var ends [2][]float64
	for i, tol := range []float64{1e-3, 1e-4} {
		start := make([]float64, net.Unknowns())
		for k := range net.Nodes() {
			start[k] = 298.15
		}
		if err := net.Connect(0, start); err != nil {
			t.Fatal(err)
		}
		res, err := solver.Soak(context.Background(), net, solver.SoakOptions{Start: start, Until: 3600, Tol: tol})
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("tolerance %g K: books %.2g and %.2g, Kirchhoff %.2g, made %.6g J, lost %.6g J",
			tol, res.Audit.Bookkeeping, res.Audit.Quadrature, net.Kirchhoff(3600, res.X), res.Made, res.Lost)
		if !(res.Audit.Bookkeeping <= 1e-9) {
			t.Errorf("books of heat: %.3g", res.Audit.Bookkeeping)
		}
		if !(res.Audit.Quadrature <= 1e-4) {
			t.Errorf("books of heat by quadrature: %.3g", res.Audit.Quadrature)
		}
		if k := net.Kirchhoff(3600, res.X); !(k <= 1e-9) {
			t.Errorf("Kirchhoff residual at the end: %.3g", k)
		}
		ends[i] = res.X
	}
	for i := range net.Nodes() {
		if d := math.Abs(ends[0][i] - ends[1][i]); d > 2e-3 {
			t.Errorf("%s: %.3g K apart", net.NodeName(network.NodeID(i)), d)
		}
	}
}
