package solver

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// drawLumps makes a linear network of any shape whose every node loses heat.
func drawLumps(t *rapid.T) *lumps {
	st := withoutGlobals(drawStructure(t))
	p := &lumps{air: 300, links: st.Links, load: 1}
	value := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	for range st.Nodes {
		c := value("capacity", 1, 500)
		if rapid.IntRange(0, 9).Draw(t, "massless") == 0 {
			c = 0
		}
		p.c = append(p.c, c)
		p.h = append(p.h, value("loss", 0.01, 1))
		p.sources = append(p.sources, given(rapid.SampledFrom([]float64{0, 1, 10}).Draw(t, "heat")))
	}
	for range st.Links {
		p.g = append(p.g, value("link", 0.01, 20))
	}
	return p
}

func TestNetworks(t *testing.T) {
	t.Run("any shape/energy, no node below the air, ends in the steady state", rapid.MakeCheck(func(t *rapid.T) {
		p := drawLumps(t)
		n := len(p.c)
		state, err := Steady(context.Background(), p, SteadyOptions{Start: uniform(n, p.air)})
		if err != nil {
			t.Fatal(err)
		}
		if !(state.Audit.Bookkeeping <= 1e-9) {
			t.Fatalf("steady audit %v", state.Audit)
		}
		const tol = 1e-3
		res, err := Soak(context.Background(), p, SoakOptions{Tol: tol, Start: uniform(n, p.air), Until: 1e7, Times: []float64{10, 1000, 1e7}})
		if err != nil {
			t.Fatal(err)
		}
		if !(res.Audit.Bookkeeping <= 1e-9) {
			t.Fatalf("soak audit %v", res.Audit)
		}
		for i := range n {
			for _, x := range res.States {
				if !(x[i] >= p.air-10*tol) {
					t.Fatalf("node %d at %v K is colder than the air", i, x[i])
				}
			}
			if !(math.Abs(res.X[i]-state.X[i]) <= 10*tol) {
				t.Fatalf("node %d ends at %v K, steady state %v K", i, res.X[i], state.X[i])
			}
		}
	}))
	t.Run("numbering/does not matter", rapid.MakeCheck(func(t *rapid.T) {
		p := drawLumps(t)
		n := len(p.c)
		to := rapid.Permutation(identity(n)).Draw(t, "new numbers")
		q := &lumps{c: make([]float64, n), h: make([]float64, n), air: p.air, g: p.g, sources: make([]source, n), load: 1}
		for i, k := range to {
			q.c[k], q.h[k], q.sources[k] = p.c[i], p.h[i], p.sources[i]
		}
		for _, l := range p.links {
			q.links = append(q.links, [2]int{to[l[1]], to[l[0]]})
		}
		opt := SoakOptions{Tol: 1e-2, Start: uniform(n, p.air), Until: 1000}
		a, err := Soak(context.Background(), p, opt)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Soak(context.Background(), q, opt)
		if err != nil {
			t.Fatal(err)
		}
		for i, k := range to {
			if !(math.Abs(a.X[i]-b.X[k]) <= 1e-6) {
				t.Fatalf("node %d: %v K, under its other number %v K", i, a.X[i], b.X[k])
			}
		}
	}))
}
