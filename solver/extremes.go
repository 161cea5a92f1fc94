package solver

import "math"

// extremes gathers, for each unknown, its integral over time and its highest
// value, inside steps as well: the dense output of a step is a cubic, whose turning
// points are the roots of a quadratic.
type extremes struct {
	sum        []float64 // ∫ x dt, by three Gauss–Lobatto points a step
	peak, when []float64
}

func newExtremes(size int) *extremes {
	e := &extremes{sum: make([]float64, size), peak: make([]float64, size), when: make([]float64, size)}
	for i := range e.peak {
		e.peak[i] = math.Inf(-1)
	}
	return e
}

// step looks at the step just made, from s.x by s.mid to s.z.
func (e *extremes) step(s *Soaker) {
	for i := range e.sum {
		from, to := s.x[i], s.z[i]
		e.sum[i] += s.h / 6 * (from + 4*s.mid[i] + to)
		e.see(i, from, s.t)
		// x(θ) = from + θ rise + θ(1−θ)(bow + θ bend); x' = 0.
		rise, bow, bend := to-from, 0.0, 0.0
		for k := range denseFirst {
			bow += denseFirst[k] * s.u[k][i]
			bend += denseSecond[k] * s.u[k][i]
		}
		for _, theta := range turns(-3*bend, 2*(bend-bow), rise+bow) {
			if theta > 0 && theta < 1 {
				e.see(i, from+theta*(rise+(1-theta)*(bow+theta*bend)), s.t+theta*s.h)
			}
		}
		e.see(i, to, s.end)
	}
}

func (e *extremes) see(i int, v, t float64) {
	if v > e.peak[i] {
		e.peak[i], e.when[i] = v, t
	}
}

// turns are the roots of aθ² + bθ + c, NaN or infinite where there are none.
func turns(a, b, c float64) [2]float64 {
	q := -0.5 * (b + math.Copysign(math.Sqrt(b*b-4*a*c), b))
	return [2]float64{q / a, c / q}
}
