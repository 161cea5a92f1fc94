package solver

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// The search for the fixed point of the map y → P(y) of a period, y being the
// temperatures of the nodes with mass.
//
// With g = P(y) − y the heat C g is what the nodes keep of a period of length τ,
// and C g/τ what they gain in the mean. The mean of J over the period tells by how
// much the temperatures must rise for that to be lost as well. The correction
//
//	f = g + (−J̄)⁻¹ C g/τ
//
// is exact for bodies that are slow against the period and for those that are
// fast: of a mode that fades as exp(−t/θ) it leaves 1 − (1−e^−a)(1+1/a), a = τ/θ,
// of the error, which is 0 for a → 0 and a → ∞ and never beyond −0.30. What is
// left goes by Anderson mixing (D. G. Anderson, J. ACM 12 (1965) 547; H. F. Walker,
// P. Ni, SIAM J. Numer. Anal. 49 (2011) 1715, which for a linear map is GMRES on
// I − P'): the new guess is that combination of all earlier ones whose corrections
// cancel best. Both references from memory.
type mixing struct {
	s       *Soaker
	e       *elimination
	mean    *Jacobian   // Σ h J over the period, which is τ J̄
	ready   bool        // e holds the mean of a period
	against []bool      // of the globals' pivots, with large capacities
	y, g, f [][]float64 // guesses, changes over a period, corrections
	root    []float64   // √C, the weight of a node in the least squares

	departures departures
}

const (
	// mixed is the number of guesses that are combined at most.
	mixed = 12
	// mostMove, K, is the largest step from one guess to the next.
	mostMove = 300
	// farGuess, K, is how far a guess lies from the last one for the map to have
	// bent in between.
	farGuess = 50
	// leastMove, K, is one where the mean tells nothing.
	leastMove = 30
)

func newMixing(s *Soaker) mixing {
	m := mixing{s: s, e: newElimination(s.e.plan), mean: NewJacobian(s.st), root: make([]float64, s.n)}
	for i, c := range s.c[:s.n] {
		m.root[i] = math.Sqrt(c)
	}
	return m
}

// clear forgets the mean of the period before.
func (m *mixing) clear() {
	clear(m.mean.Diag)
	clear(m.mean.Up)
	clear(m.mean.Down)
}

// weigh adds the derivatives of a step of length h.
func (m *mixing) weigh(j *Jacobian, h float64) {
	floats.AddScaled(m.mean.Diag, h, j.Diag)
	floats.AddScaled(m.mean.Up, h, j.Up)
	floats.AddScaled(m.mean.Down, h, j.Down)
}

// note takes a guess and the state one period later, and the mean of that period.
func (m *mixing) note(start, end []float64) {
	n := m.s.n
	if len(m.y) == mixed {
		m.y, m.g = m.y[1:], m.g[1:]
	}
	y, g := clone(start[:n]), make([]float64, n)
	for i := range g {
		if m.s.c[i] > 0 {
			g[i] = end[i] - start[i]
		}
	}
	m.y, m.g = append(m.y, y), append(m.g, g)
	before := m.ready
	m.invert()
	m.f = m.f[:0]
	for _, g := range m.g {
		m.f = append(m.f, m.correction(g))
	}
	// Guesses from which the search went astray say nothing of where it is now.
	last := len(m.f) - 1
	if last > 0 && (!m.ready || !before || largest(m.f[last]) > largest(m.f[last-1])) {
		m.forget(last)
	}
	for len(m.y) > 1 && floats.Distance(m.y[0], y, math.Inf(1)) > farGuess {
		m.forget(1)
	}
}

// forget drops the first guesses.
func (m *mixing) forget(n int) { m.y, m.g, m.f = m.y[n:], m.g[n:], m.f[n:] }

// invert makes ready to solve with the mean, unless no state could last under it:
// then the temperatures that it would call for are not those that come about. As
// in a steady search the signs of pivots tell, which with large capacities are
// what they must be, and with globals, where these do not, the departures.
func (m *mixing) invert() {
	m.e.factor(m.mean, m.s.c[:m.s.n], heavy)
	up := m.e.determinantUp()
	m.against = append(m.against[:0], m.e.against...)
	m.e.factor(m.mean, nil, 0)
	m.ready = m.e.sound() && m.e.determinantUp() == up &&
		(m.e.alike(m.against) || m.s.st.Globals > 0 && m.departures.fade(m.e))
}

// heavy is a share of the capacities beside which what a period moves is nothing.
const heavy = 1e6

// correction is f of g.
func (m *mixing) correction(g []float64) []float64 {
	f := make([]float64, len(m.s.c))
	if m.ready {
		for i, v := range g {
			f[i] = m.s.c[i] * v
		}
		m.e.solve(f)
	}
	f = f[:len(g)]
	for i, v := range g {
		if m.s.c[i] > 0 {
			f[i] += v
		} else {
			f[i] = 0
		}
	}
	return f
}

// off is the largest correction of the last guess, K.
func (m *mixing) off() float64 { return largest(m.f[len(m.f)-1]) }

// imbalance is the largest change of a node over the last period, K.
func (m *mixing) imbalance() float64 {
	if len(m.g) == 0 {
		return 0
	}
	return largest(m.g[len(m.g)-1])
}

// next is the guess that follows, of all unknowns.
func (m *mixing) next(start []float64) []float64 {
	last := len(m.y) - 1
	step := clone(m.f[last])
	if !m.ready {
		// As the temperatures go by themselves, only faster.
		if most := largest(step); most > 0 {
			floats.Scale(max(1, leastMove/most), step)
		}
	} else if gamma := m.combine(); gamma != nil {
		for k, w := range gamma {
			for i := range step {
				step[i] -= w * (m.y[k+1][i] - m.y[k][i] + m.f[k+1][i] - m.f[k][i])
			}
		}
	}
	damp := 1.0
	if most := largest(step); most > mostMove {
		damp = mostMove / most
	}
	for i, v := range step {
		if t := start[i]; -v > mostCooling*t && t > 0 {
			damp = min(damp, mostCooling*t/-v)
		}
	}
	next := clone(start)
	for i, v := range step {
		next[i] += damp * v
	}
	return next
}

// combine finds the weights of the differences of corrections that together come
// nearest to the last one, in the norm of √C; nil if there are none to be had.
func (m *mixing) combine() []float64 {
	last, n := len(m.f)-1, m.s.n
	if last == 0 {
		return nil
	}
	a, b := mat.NewDense(n, last, nil), mat.NewVecDense(n, nil)
	for i, w := range m.root {
		b.SetVec(i, w*m.f[last][i])
		for k := range last {
			a.Set(i, k, w*(m.f[k+1][i]-m.f[k][i]))
		}
	}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDThin) {
		return nil
	}
	rank := svd.Rank(leastSpread)
	if rank == 0 {
		return nil
	}
	var x mat.VecDense
	svd.SolveVecTo(&x, b, rank)
	return x.RawVector().Data
}

// leastSpread is the share of the largest singular value of the differences below
// which they are taken for rounding.
const leastSpread = 1e-10

// rising says whether no node was cooler at the end of the last period than at
// its beginning, but for rounding.
func (m *mixing) rising() bool {
	g := m.g[len(m.g)-1]
	return floats.Min(g) >= -1e-6*largest(g)
}

// slowest is about the departure from the cycle that fades most slowly, of a
// largest rise of 1 in the nodes with mass: by inverse iteration on the mean.
func (m *mixing) slowest() []float64 {
	n := m.s.n
	v := make([]float64, len(m.s.c))
	for i := range n {
		v[i] = 1
	}
	for range inversions {
		if !m.ready {
			break
		}
		for i := range v {
			v[i] *= m.s.c[i]
		}
		m.e.solve(v)
		floats.Scale(1/largest(v[:n]), v)
	}
	for i, c := range m.s.c {
		if c == 0 {
			v[i] = 0
		}
	}
	return v[:n]
}

// inversions serve for a slowest mode well apart from the next.
const inversions = 8

// share is <v, w> / <v, v> in the norm of √C.
func (m *mixing) share(v, w []float64) float64 {
	above, below := 0.0, 0.0
	for i, c := range m.s.c[:m.s.n] {
		above += c * v[i] * w[i]
		below += c * v[i] * v[i]
	}
	if below == 0 {
		return 0
	}
	return above / below
}
