package solver

import (
	"math"

	"gonum.org/v1/gonum/floats"
)

// ledger keeps the energy books of a soak: two sums of the same integral, one
// by the method itself, one by points on its dense output.
type ledger struct {
	stored0    float64 // Σ C T at the start, J
	own        float64 // ∫ net heat dt with the method's weights, J
	made, lost float64 // by Gauss–Lobatto points, J
}

func heatContent(c, x []float64) float64 { return floats.Dot(c[:len(x)], x) }

func (l *ledger) start(c, x []float64) { l.stored0 = heatContent(c, x) }

// method books a step with the weights with which the method would
// integrate the net heat as a further unknown.
func (l *ledger) method(s *Soaker) {
	heat := 0.0
	for i, f := range s.flows {
		heat += bookWeights[i] * (f.Made - f.Lost)
	}
	if s.drifting {
		slope := floats.Sum(s.drift[:s.n])
		for i, g := range stageDrifts {
			heat += bookWeights[i] * g * s.h * slope
		}
	}
	l.own += s.h * (heat + netHeat(&s.st, s.j, s.sum))
}

// netHeat is ∂(net heat of all nodes)/∂x · v, the derivative being the sum of
// the rows of J that belong to nodes.
func netHeat(st *Structure, j *Jacobian, v []float64) float64 {
	n := st.Nodes
	heat := floats.Dot(j.Diag[:n], v[:n])
	up, down := j.Up, j.Down[:len(j.Up)]
	if st.Globals == 0 {
		for k, p := range st.Links[:len(up)] {
			heat += up[k]*v[p[1]] + down[k]*v[p[0]]
		}
		return heat
	}
	for k, p := range st.Links[:len(up)] {
		if p[0] < n {
			heat += up[k] * v[p[1]]
		}
		if p[1] < n {
			heat += down[k] * v[p[0]]
		}
	}
	return heat
}

// lobatto books a step by the three-point Gauss–Lobatto rule, exact for cubics
// (Abramowitz & Stegun 1964, 25.4.32); its ends are evaluated anyway.
func (l *ledger) lobatto(h float64, first, middle, last Flow) {
	l.made += h / 6 * (first.Made + 4*middle.Made + last.Made)
	l.lost += h / 6 * (first.Lost + 4*middle.Lost + last.Lost)
}

// close fills in the heats and residuals of a result.
func (l *ledger) close(res *SoakResult, c, x []float64) {
	res.Made, res.Lost = l.made, l.lost
	res.Stored = heatContent(c, x) - l.stored0
	scale := max(math.Abs(res.Made), math.Abs(res.Lost), math.Abs(res.Stored), leastHeat*floats.Sum(c))
	res.Audit = Audit{
		Bookkeeping: relative(l.own-res.Stored, scale),
		Quadrature:  relative(l.made-l.lost-res.Stored, scale),
	}
}

// leastHeat, K: heats below those of this rise are too near to rounding to be
// measured against.
const leastHeat = 1e-3

// steadyAudit measures heat made against heat lost.
func steadyAudit(flow Flow, st *Structure, j *Jacobian) Audit {
	scale := max(math.Abs(flow.Made), math.Abs(flow.Lost))
	if r := relative(flow.Made-flow.Lost, scale); r < 1e-10 {
		return Audit{Bookkeeping: r}
	}
	slope := floats.Sum(j.Diag[:st.Nodes])
	for l, p := range st.Links {
		if max(p[0], p[1]) < st.Nodes {
			slope += j.Up[l] + j.Down[l]
		}
	}
	scale = max(scale, leastHeat*math.Abs(slope))
	return Audit{Bookkeeping: relative(flow.Made-flow.Lost, scale)}
}

func relative(v, scale float64) float64 {
	if scale == 0 {
		return 0
	}
	return math.Abs(v) / scale
}
