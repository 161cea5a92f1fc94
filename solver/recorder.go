package solver

import (
	"cmp"
	"math"
	"slices"
)

// recorder takes from each step what the caller of a soak asked for.
type recorder struct {
	s       *Soaker
	opt     *SoakOptions
	res     *SoakResult
	stopped bool

	fired []bool // an event each
}

// at is the weight of stage k in the dense output at θ of the step.
func at(k int, theta float64) float64 {
	return theta * (1 - theta) * (denseFirst[k] + theta*denseSecond[k])
}

var (
	denseFirst  = [5]float64{dense1, dense2, dense3, dense4, dense5}
	denseSecond = [5]float64{bend1, bend2, bend3, bend4, bend5}
)

// interpolate stores the dense output at θ of the step in dst.
func (s *Soaker) interpolate(dst []float64, theta float64) {
	n := len(dst)
	x, z := s.x[:n], s.z[:n]
	u1, u2, u3, u4, u5 := s.u[0][:n], s.u[1][:n], s.u[2][:n], s.u[3][:n], s.u[4][:n]
	w1, w2, w3, w4, w5 := at(0, theta), at(1, theta), at(2, theta), at(3, theta), at(4, theta)
	for i := range dst {
		dst[i] = (x[i] + theta*(z[i]-x[i])) + ((w1*u1[i] + w2*u2[i]) + (w3*u3[i] + w4*u4[i]) + w5*u5[i])
	}
}

func (s *Soaker) interpolateOne(i int, theta float64) float64 {
	v := s.x[i] + theta*(s.z[i]-s.x[i])
	for k := range denseFirst {
		v += at(k, theta) * s.u[k][i]
	}
	return v
}

// fastest is the largest |dT/dt| of a node at θ on the dense output, K/s.
func (s *Soaker) fastest(theta float64) float64 {
	most := 0.0
	for i := range s.n {
		v := s.z[i] - s.x[i]
		for k := range denseFirst {
			// d/dθ of θ(1−θ)(d + θe)
			w := (1-2*theta)*denseFirst[k] + theta*(2-3*theta)*denseSecond[k]
			v += w * s.u[k][i]
		}
		most = max(most, v, -v)
	}
	return most / s.h
}

func (r *recorder) start() {
	if n := len(r.opt.Events); n > 0 {
		r.fired = make([]bool, n)
	}
	r.restart()
}

// restart looks at the state at a time from which the system is evaluated anew.
// It records it also over one recorded for what came before.
func (r *recorder) restart() {
	res, t := r.res, r.s.t
	copy(res.X, r.s.x)
	for len(res.Times) > 0 && res.Times[len(res.Times)-1] == t {
		res.Times = res.Times[:len(res.Times)-1]
		res.States = res.States[:len(res.States)-1]
	}
	for len(res.Times) < len(r.opt.Times) && r.opt.Times[len(res.Times)] <= t {
		copy(r.row(), r.s.x)
	}
	first := len(res.Events)
	for k := range r.opt.Events {
		v := &r.opt.Events[k]
		if !r.fired[k] && !v.settles() && r.value(v, t, r.s.x) >= 0 {
			r.hit(k, t)
		}
	}
	r.sortHits(first)
}

// row adds the next wanted time to the result and gives the place of its state.
func (r *recorder) row() []float64 {
	k, size := len(r.res.Times), len(r.s.x)
	row := r.res.backing[k*size : (k+1)*size : (k+1)*size]
	r.res.Times = append(r.res.Times, r.opt.Times[k])
	r.res.States = append(r.res.States, row)
	return row
}

func (r *recorder) value(v *Event, t float64, x []float64) float64 {
	if v.Value != nil {
		return v.Value(t, x)
	}
	return x[v.Node] - v.Level
}

func (r *recorder) hit(k int, t float64) {
	r.fired[k] = true
	r.res.Events = append(r.res.Events, EventHit{Name: r.opt.Events[k].Name, Index: k, Time: t})
}

// sortHits puts the hits from the first on in order of time and cuts the soak
// at the first that stops it.
func (r *recorder) sortHits(first int) {
	hits := r.res.Events[first:]
	slices.SortStableFunc(hits, func(a, b EventHit) int { return cmp.Compare(a.Time, b.Time) })
	for k, h := range hits {
		if r.opt.Events[h.Index].Stop {
			r.stopped = true
			r.res.End = h.Time
			for first+k+1 < len(r.res.Events) && r.res.Events[first+k+1].Time == h.Time {
				k++
			}
			r.res.Events = r.res.Events[:first+k+1]
			break
		}
	}
}

// step looks at the step just made, from s.x to s.z, before they are swapped.
// It may stand before a jump.
func (r *recorder) step(jump bool) {
	s, res := r.s, r.res
	end := s.end
	if len(r.opt.Events) > 0 {
		r.watch()
	}
	if r.stopped {
		end = res.End
	} else {
		res.End = end
	}
	for len(res.Times) < len(r.opt.Times) && r.opt.Times[len(res.Times)] <= end {
		if t := r.opt.Times[len(res.Times)]; t == s.end {
			r.settled(r.row(), t, jump, s.z)
		} else {
			row := r.row()
			s.interpolate(row, (t-s.t)/s.h)
			s.settle(t, row)
		}
	}
	switch n := len(res.Times); {
	case !r.stopped && end < r.opt.Until:
	case n > 0 && res.Times[n-1] == end:
		copy(res.X, res.States[n-1])
	case end < s.end:
		s.interpolate(res.X, (end-s.t)/s.h)
		s.settle(end, res.X)
	default:
		r.settled(res.X, end, jump, s.z)
	}
}

// settled stores the state z at the end t of a step in dst, with unknowns without
// mass settled: before a jump by what comes before it.
func (r *recorder) settled(dst []float64, t float64, jump bool, z []float64) {
	copy(dst, z)
	if jump {
		t = math.Nextafter(t, math.Inf(-1))
	}
	r.s.settle(t, dst)
}

func (r *recorder) watch() {
	s, first := r.s, len(r.res.Events)
	for k := range r.opt.Events {
		v := &r.opt.Events[k]
		switch {
		case r.fired[k]:
		case v.settles():
			b := r.opt.Breaks
			if len(b) > 0 && b[len(b)-1] > s.t && b[len(b)-1] < r.opt.Until {
				continue
			}
			if s.fastest(1) < v.Rate {
				theta := crossing(func(theta float64) float64 {
					if s.fastest(theta) < v.Rate {
						return 1
					}
					return -1
				}, 0, 1)
				r.hit(k, s.t+theta*s.h)
			}
		default:
			middle, end := r.value(v, s.t+s.h/2, s.mid), r.value(v, s.end, s.z)
			from, to := 0.0, 1.0
			switch {
			case middle >= 0:
				to = 0.5
			case end >= 0:
				from = 0.5
			}
			if middle >= 0 || end >= 0 {
				theta := crossing(func(theta float64) float64 { return r.along(v, theta) }, from, to)
				r.hit(k, s.t+theta*s.h)
			}
		}
	}
	if len(r.res.Events) > first {
		r.sortHits(first)
	}
}

// along is an event's value at θ of the step.
func (r *recorder) along(v *Event, theta float64) float64 {
	s := r.s
	if v.Value == nil {
		return s.interpolateOne(v.Node, theta) - v.Level
	}
	s.interpolate(s.scratch, theta)
	return v.Value(s.t+theta*s.h, s.scratch)
}

func (r *recorder) finish() error {
	s, res := r.s, r.res
	s.book.close(res, s.c[:s.n], s.x[:s.n])
	res.Stats = s.stats
	if v := res.Made + res.Lost + res.Stored + res.Audit.Bookkeeping + res.Audit.Quadrature; v-v != 0 {
		return &NotFiniteError{What: "the energy balance", Time: s.t}
	}
	return nil
}
