package network_test

import (
	"math"

	"clampheat/model/network"
	"clampheat/solver"
	"pgregory.net/rapid"
)

// This file holds what is true of any network, plain or branched, at the time 2 s.

func sum(f []float64) float64 {
	s := 0.0
	for _, v := range f {
		s += v
	}
	return s
}

// flowIsSum: what is made and not lost is the net heat of the nodes.
func flowIsSum(t *rapid.T, net *network.Network, x []float64) {
	f := make([]float64, len(x))
	flow := net.Balance(2, x, f)
	scale := math.Abs(flow.Made) + math.Abs(flow.Lost)
	for _, v := range f[:net.Nodes()] {
		scale += math.Abs(v)
	}
	if got := sum(f[:net.Nodes()]); math.Abs(got-(flow.Made-flow.Lost)) > 1e-12*scale {
		t.Fatalf("sum of balances %.15g, made − lost %.15g", got, flow.Made-flow.Lost)
	}
}

// linearized gives the balance and the whole matrix of its derivatives; Balance
// and Linearize agree.
func linearized(t *rapid.T, net *network.Network, x []float64) (f []float64, full [][]float64) {
	f, g := make([]float64, len(x)), make([]float64, len(x))
	j := solver.NewJacobian(net.Structure())
	flow := net.Balance(2, x, f)
	if again := net.Linearize(2, x, g, j); math.Abs(again.Made-flow.Made)+math.Abs(again.Lost-flow.Lost) > 1e-9*(1+math.Abs(flow.Made)+math.Abs(flow.Lost)) {
		t.Fatalf("flow %v by Balance, %v by Linearize", flow, again)
	}
	full = make([][]float64, len(x))
	for i := range f {
		if math.Abs(f[i]-g[i]) > 1e-9*(1+math.Abs(f[i])) {
			t.Fatalf("unknown %d: %.15g by Balance, %.15g by Linearize", i, f[i], g[i])
		}
		full[i] = make([]float64, len(x))
		full[i][i] = j.Diag[i]
	}
	for k, p := range net.Structure().Links {
		full[p[0]][p[1]], full[p[1]][p[0]] = j.Up[k], j.Down[k]
	}
	return f, full
}

// driftAndLoad: the derivatives by time and load agree with central differences, to
// a share of them.
func driftAndLoad(t *rapid.T, net *network.Network, x []float64, share float64) {
	n := len(x)
	load := rapid.Float64Range(0, 1.5).Draw(t, "load")
	net.SetLoad(load)
	got, up, down := make([]float64, n), make([]float64, n), make([]float64, n)
	const step = 1e-4
	compare := func(what string) {
		for i := range got {
			want := (up[i] - down[i]) / (2 * step)
			if math.Abs(got[i]-want) > share*math.Abs(want)+1e-5 {
				t.Fatalf("%s, unknown %d of %d nodes: %.10g, by difference %.10g", what, i, net.Nodes(), got[i], want)
			}
		}
	}
	if net.Drift(2, x, got) {
		net.Balance(2+step, x, up)
		net.Balance(2-step, x, down)
		compare("drift")
	}
	net.LoadDerivative(2, x, got)
	net.SetLoad(load + step)
	net.Balance(2, x, up)
	net.SetLoad(load - step)
	net.Balance(2, x, down)
	compare("load")
}

// anyTemperature is where a search may wander.
func anyTemperature(t *rapid.T, net *network.Network) float64 {
	return rapid.OneOf(rapid.Float64Range(-500, 1e5), rapid.Just(net.Air(2)), rapid.Just(0.0)).Draw(t, "temperature")
}

// staysFinite: all that is worked out at a state is a number.
func staysFinite(t *rapid.T, net *network.Network, x []float64) {
	f := make([]float64, len(x))
	j := solver.NewJacobian(net.Structure())
	finite := func(what string, of ...[]float64) {
		for _, v := range of {
			if s := sum(v); math.IsNaN(s) || math.IsInf(s, 0) {
				t.Fatalf("%s at %v: %v", what, x, v)
			}
		}
	}
	net.Linearize(2, x, f, j)
	finite("balance", f, j.Diag, j.Up, j.Down)
	net.Drift(2, x, f)
	finite("drift", f)
	net.LoadDerivative(2, x, f)
	finite("load", f)
	finite("Kirchhoff", []float64{net.Kirchhoff(2, x)})
}
