package network_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"clampheat/model/network"
	"clampheat/solver"
)

// way is a branch of one lump that loses heat linearly.
type way struct {
	emf, outside float64 // V, Ω
	r20, alpha   float64
	loss         float64 // W/K to the air
}

const roomAir = 300.0

// between puts ways side by side from one junction to another and takes a current
// or a power from the second to the first.
func between(tb testing.TB, ways []way, draw network.Draw) *network.Network {
	tb.Helper()
	net := network.New(network.Surroundings{Air: roomAir})
	minus, plus := net.AddJunction("minus"), net.AddJunction("plus")
	for i, w := range ways {
		id := net.AddNode(network.Node{Name: fmt.Sprintf("lump %d", i), Capacity: 30})
		net.AddHoldToAir("air", id, w.loss)
		b := net.AddBranch(network.Branch{Name: "way", From: minus, To: plus, EMF: w.emf, Ohms: w.outside})
		net.AddResistor(network.Resistor{Name: "way", A: id, B: id, R20: w.r20, Alpha: w.alpha, Branch: b})
	}
	if draw.Current != nil || draw.Power != nil {
		draw.From, draw.To = plus, minus
		net.AddDraw(draw)
	}
	if err := net.Finish(); err != nil {
		tb.Fatal(err)
	}
	return net
}

func begin(tb testing.TB, net *network.Network, temp float64) []float64 {
	tb.Helper()
	x := make([]float64, net.Unknowns())
	for i := range net.Nodes() {
		x[i] = temp
	}
	if err := net.Connect(0, x); err != nil {
		tb.Fatal(err)
	}
	return x
}

func steady(tb testing.TB, net *network.Network, temp float64) *solver.SteadyResult {
	tb.Helper()
	res, err := solver.Steady(context.Background(), net, solver.SteadyOptions{Start: begin(tb, net, temp), Tol: 1e-10})
	if err != nil {
		tb.Fatal(err)
	}
	return res
}

func current(net *network.Network, b int, x []float64) float64 {
	return net.ReadBranch(network.BranchID(b), 0, x).Current
}

func near(tb testing.TB, what string, got, want, tol float64) {
	tb.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		tb.Errorf("%s: %.14g, want %.14g within %.1g of it", what, got, want, tol)
	}
}

// Two ways side by side divide a current as their conductances: by hand, with
// ohms that do not change, with ohms at temperatures that are held, and with ohms
// that follow what the current itself makes of them.
func TestTwoBranches(t *testing.T) {
	const total = 200.0
	ways := []way{{r20: 1.5e-4, alpha: 0.004, loss: 0.3}, {r20: 2.5e-4, alpha: 0.003, loss: 0.9}}
	lamp := network.Draw{Name: "lamp", Current: network.Constant(total)}

	t.Run("ohms/constant", func(t *testing.T) {
		cold := []way{{r20: 1.5e-4, loss: 0.3}, {r20: 2.5e-4, loss: 0.9}}
		net := between(t, cold, lamp)
		x := steady(t, net, 350).X
		near(t, "first", current(net, 1, x), 125, 1e-13)
		near(t, "second", current(net, 2, x), 75, 1e-13)
		// 125 A over 0.15 mΩ, and the air 300 K.
		near(t, "potential", net.Potential(1, x), -18.75e-3, 1e-13)
		near(t, "first's temperature", x[0], roomAir+125*125*1.5e-4/0.3, 1e-12)
		r := net.ReadBranch(1, 0, x)
		near(t, "ohms", r.Ohm, 1.5e-4, 1e-13)
		near(t, "drop", r.Drop, 18.75e-3, 1e-13)
		d := net.ReadDraw(0, 0, x)
		near(t, "voltage of the lamp", d.Voltage, -18.75e-3, 1e-13)
		near(t, "power of the lamp", d.Power, -3.75, 1e-13)
	})
	t.Run("temperatures/held", func(t *testing.T) {
		net := between(t, ways, lamp)
		x := []float64{393.15, 313.15, 0, 0, 0}
		if err := net.Connect(0, x); err != nil {
			t.Fatal(err)
		}
		hot := [2]float64{1.5e-4 * (1 + 0.004*100), 2.5e-4 * (1 + 0.003*20)}
		near(t, "first", x[2], total*hot[1]/(hot[0]+hot[1]), 1e-13)
		near(t, "second", x[3], total*hot[0]/(hot[0]+hot[1]), 1e-13)
	})
	t.Run("temperatures/solved", func(t *testing.T) {
		net := between(t, ways, lamp)
		x := steady(t, net, 350).X
		// At a drop U a way settles where R = Rₐ + R20 α U²/(G R), Rₐ being that at
		// the temperature of the air: R is the root of a quadratic. U is the one at
		// which both carry the whole current.
		ohm := func(w way, u float64) float64 {
			ra := w.r20 * (1 + w.alpha*(roomAir-293.15))
			return (ra + math.Sqrt(ra*ra+4*w.r20*w.alpha*u*u/w.loss)) / 2
		}
		low, high := 0.0, 1.0
		for range 200 {
			u := (low + high) / 2
			if u/ohm(ways[0], u)+u/ohm(ways[1], u) < total {
				low = u
			} else {
				high = u
			}
		}
		for i, w := range ways {
			amps := low / ohm(w, low)
			near(t, fmt.Sprintf("current %d", i), current(net, i+1, x), amps, 1e-11)
			near(t, fmt.Sprintf("temperature %d", i), x[i], roomAir+amps*low/w.loss, 1e-11)
		}
	})
	t.Run("turned round/currents turn, temperatures stay", func(t *testing.T) {
		a, b := between(t, ways, lamp), between(t, ways, network.Draw{Name: "charger", Current: network.Constant(-total)})
		x, y := steady(t, a, 350).X, steady(t, b, 350).X
		for i := range x {
			if i >= 2 {
				y[i] = -y[i]
			}
			near(t, fmt.Sprintf("unknown %d", i), y[i], x[i], 1e-12)
		}
	})
}

// Branches that are alike share alike, and heat alike.
func TestLikeBranchesShareExactly(t *testing.T) {
	w := way{emf: 13.2, outside: 2e-3, r20: 1e-4, alpha: 0.004, loss: 0.4}
	for _, n := range []int{2, 3, 5} {
		t.Run(fmt.Sprintf("branches/%d", n), func(t *testing.T) {
			ways := make([]way, n)
			for i := range ways {
				ways[i] = w
			}
			net := between(t, ways, network.Draw{Name: "lamp", Current: network.Constant(100 * float64(n))})
			x := steady(t, net, 340).X
			for i := range n {
				near(t, "current", current(net, i+1, x), 100, 1e-13)
				near(t, "temperature", x[i], x[0], 1e-14)
			}
		})
	}
}

// Unlike batteries send a current round with no load on them:
// I = (E₁ − E₂)/(R₁ + R₂).
func TestUnlikeBatteriesCirculate(t *testing.T) {
	ways := []way{{emf: 13.3, outside: 2e-3, r20: 3e-4, alpha: 0.004, loss: 0.5}, {emf: 13.1, outside: 4e-3, r20: 2e-4, alpha: 0.004, loss: 0.5}}
	net := between(t, ways, network.Draw{})
	x := steady(t, net, 310).X
	hot := func(i int) float64 { return ways[i].outside + ways[i].r20*(1+ways[i].alpha*(x[i]-293.15)) }
	amps := 0.2 / (hot(0) + hot(1))
	near(t, "out of the first", current(net, 1, x), amps, 1e-12)
	near(t, "into the second", current(net, 2, x), -amps, 1e-12)
	near(t, "between the poles", net.Potential(1, x), 13.3-amps*hot(0), 1e-13)
	if x[1] <= roomAir {
		t.Errorf("a current that flows backwards makes no heat: %g K", x[1])
	}
	// Half the load on nothing is nothing: voltages are not scaled.
	net.SetLoad(0.5)
	near(t, "at half the load", current(net, 1, steady(t, net, 310).X), amps, 1e-12)
}

// row is a row of four batteries of internal resistance r on two rails, with a
// link of resistance x between neighbours in each. The load takes 100 A times so
// many rows side by side, from the first battery's end of the one rail and gives
// it back at the given end of the other. Each link is a lump that warms up
// where alpha is not 0.
func row(tb testing.TB, copies, back int, r, x, alpha float64) *network.Network {
	tb.Helper()
	net := network.New(network.Surroundings{Air: roomAir})
	var plus, minus [4]network.JunctionID
	for c := range copies {
		for k := range 4 {
			if c == 0 || k != 0 {
				plus[k] = net.AddJunction(fmt.Sprintf("plus %d", k))
			}
			if c == 0 || k != back {
				minus[k] = net.AddJunction(fmt.Sprintf("minus %d", k))
			}
		}
		piece := func(name string, from, to network.JunctionID, emf, ohms float64) {
			id := net.AddNode(network.Node{Name: name, Capacity: 10})
			net.AddHoldToAir("air", id, 0.5)
			b := net.AddBranch(network.Branch{Name: name, From: from, To: to, EMF: emf})
			net.AddResistor(network.Resistor{Name: name, A: id, B: id, R20: ohms, Alpha: alpha, Branch: b})
		}
		for k := range 4 {
			piece("battery", minus[k], plus[k], 13.2, r)
		}
		for k := range 3 {
			piece("plus rail", plus[k+1], plus[k], 0, x)
			piece("minus rail", minus[k], minus[k+1], 0, x)
		}
	}
	net.AddDraw(network.Draw{Name: "load", From: plus[0], To: minus[back], Current: network.Constant(100 * float64(copies))})
	if err := net.Finish(); err != nil {
		tb.Fatal(err)
	}
	return net
}

// Nodal analysis of the row, ρ = x/r. Between neighbours k and k+1 the plus rail
// carries Sₖ = Σ_{j>k} Iⱼ towards the load. With feed and return at the same end
// the minus rail carries as much, so that
//
//	I_k = I_{k+1} + 2ρ Sₖ
//
// and for ρ = 1 from the far end on 1, 1 + 2·1 = 3, 3 + 2·4 = 11, 11 + 2·15 = 41,
// together 56. With the return at the other end the minus rail carries
// Pₖ = Σ_{j≤k} Iⱼ in the sense that helps the nearer one less:
//
//	I_k = I_{k+1} + ρ (Sₖ − Pₖ)
//
// which is the same from both ends, I₁ = I₄ and I₂ = I₃, with I₁ = (1 + 2ρ) I₂.
func TestRowOfBatteries(t *testing.T) {
	for _, c := range []struct {
		name string
		back int
		rho  float64
		want [4]float64
	}{
		{"same end/x = r", 0, 1, [4]float64{41.0 / 56, 11.0 / 56, 3.0 / 56, 1.0 / 56}},
		{"opposite ends/x = r", 3, 1, [4]float64{3.0 / 8, 1.0 / 8, 1.0 / 8, 3.0 / 8}},
		{"opposite ends/x = 0.1 r", 3, 0.1, [4]float64{3.0 / 11, 2.5 / 11, 2.5 / 11, 3.0 / 11}},
	} {
		t.Run(c.name, func(t *testing.T) {
			const r = 2e-3
			net := row(t, 1, c.back, r, c.rho*r, 0)
			x := steady(t, net, 320).X
			for k, share := range c.want {
				near(t, fmt.Sprintf("battery %d", k+1), current(net, k+1, x), 100*share, 1e-12)
			}
			if k := net.Kirchhoff(0, x); !(k <= 1e-13) {
				t.Errorf("Kirchhoff residual %.3g", k)
			}
		})
	}
}

// Two like rows side by side at twice the current are one at the current, hot
// ohms and all.
func TestTwoRowsAreOne(t *testing.T) {
	one, two := row(t, 1, 0, 2e-3, 1e-3, 0.004), row(t, 2, 0, 2e-3, 1e-3, 0.004)
	x, y := steady(t, one, 320).X, steady(t, two, 320).X
	n := one.Nodes()
	for i := range n {
		near(t, "temperature", y[i], x[i], 1e-11)
		near(t, "temperature of the copy", y[n+i], x[i], 1e-11)
		near(t, "current", current(two, i+1, y), current(one, i+1, x), 1e-10)
		near(t, "current of the copy", current(two, n+i+1, y), current(one, i+1, x), 1e-10)
	}
}

// A constant power P from a source E over R takes I = (E − √(E² − 4PR))/(2R), and
// above E²/(4R) nothing: the search ends at the share of the load that is the
// last to have a state.
func TestConstantPower(t *testing.T) {
	const e, r = 12.8, 0.01
	ways := []way{{emf: e, outside: 0.004, r20: 0.006, loss: 20}}
	for _, p := range []float64{10, 1000, 3000, 4000} {
		t.Run(fmt.Sprintf("power/%g W", p), func(t *testing.T) {
			net := between(t, ways, network.Draw{Name: "inverter", Power: network.Constant(p)})
			x := steady(t, net, 310).X
			amps := (e - math.Sqrt(e*e-4*p*r)) / (2 * r)
			d := net.ReadDraw(0, 0, x)
			near(t, "current", d.Current, amps, 1e-11)
			near(t, "voltage", d.Voltage, e-amps*r, 1e-11)
			near(t, "power", d.Power, p, 1e-11)
			near(t, "temperature", x[0], roomAir+amps*amps*0.006/20, 1e-11)
		})
	}
	for _, p := range []float64{4100, 5000, 10000} {
		t.Run(fmt.Sprintf("power/%g W is more than there is", p), func(t *testing.T) {
			net := between(t, ways, network.Draw{Name: "inverter", Power: network.Constant(p)})
			x := []float64{310, 0, 0, 0}
			var none *network.CircuitError
			if err := net.Connect(0, x); !errors.As(err, &none) || !none.Power {
				t.Fatalf("connected with %v", err)
			}
			if x[3] != e || x[1] != 0 {
				t.Errorf("left at %v, want the source at rest", x)
			}
			near(t, "Kirchhoff, nothing being drawn of the power", net.Kirchhoff(0, x), 1, 1e-14)
			_, err := solver.Steady(context.Background(), net, solver.SteadyOptions{Start: x})
			var fold *solver.FoldError
			if !errors.As(err, &fold) {
				t.Fatalf("got %v, want a fold", err)
			}
			near(t, "load at the fold", fold.Load, e*e/(4*r*p), 1e-6)
		})
	}
}
