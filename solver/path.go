package solver

import (
	"context"
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
)

// The search along the load: from the state without load, the branch of
// steady states is followed by pseudo-arclength continuation (Keller, in
// Rabinowitz (ed.), Applications of Bifurcation Theory, 1977; Allgower & Georg,
// Numerical Continuation Methods, 1990), the load λ being one more unknown, until
// it carries the whole load, meets a ceiling, or turns back at a fold.

const (
	pathScale = 100.0 // K that count as much as the whole load along the path
	firstArc  = 0.1
	leastArc  = 1e-10
	mostSteps = 2000
	// corrections a point of the path may take.
	pathIterations = 12
	// leastCosine between tangents of neighbouring points keeps the search on
	// its branch.
	leastCosine = 0.8
	// pathPrecision is the relative precision in λ of folds and ceilings.
	pathPrecision = 1e-7
	// boundless is a temperature, K, that only states without bound reach.
	boundless = 1e7
)

// path is the state of such a search: the point last accepted, its tangent
// with respect to arc length, and the point being sought.
type path struct {
	s           *SteadySolver
	x, tx       []float64 // the point and its tangent
	load, tLoad float64
	y, b        []float64 // the next point, ∂x/∂λ there
	yLoad       float64
	ty          []float64 // its tangent
	tyLoad      float64
	iterations  int
	until       float64 // the load at which the search has arrived
	global      float64 // a change of the globals that counts as much as the whole load
	marks       *marks  // what is to be noted on the way; nil for nothing
}

// follow leaves the state at the full load in s.x, or says why there is none.
func (s *SteadySolver) follow(ctx context.Context) error {
	return s.way(1, nil).run(ctx)
}

// way makes ready a search up to a load.
func (s *SteadySolver) way(until float64, m *marks) *path {
	if s.path == nil {
		size := len(s.x)
		all := make([]float64, 5*size)
		cut := func() []float64 {
			v := all[:size:size]
			all = all[size:]
			return v
		}
		s.path = &path{s: s, x: cut(), tx: cut(), y: cut(), b: cut(), ty: cut()}
	}
	s.path.until, s.path.marks = until, m
	return s.path
}

func (p *path) run(ctx context.Context) error {
	s := p.s
	if err := s.withoutLoad(); err != nil {
		return fmt.Errorf("the state without load: %w", err)
	}
	copy(p.x, s.x)
	p.load = 0
	if node := s.overCeiling(p.x); node >= 0 {
		return &CeilingError{Node: node, Ceiling: s.opt.Ceilings[node], X: clone(p.x)}
	}
	// The tangent there, towards more load.
	s.loaded.LoadDerivative(s.opt.Time, p.x, p.b)
	s.e.solve(p.b)
	s.stats.Solves++
	p.global = leastGlobal + max(largest(p.x[s.n:]), largest(p.b[s.n:]))
	length := math.Sqrt(1 + p.dot(p.b, p.b))
	if length-length != 0 {
		return &NotFiniteError{What: "the change of the heat balance with the load", Time: s.opt.Time}
	}
	p.tLoad = 1 / length
	for i, v := range p.b {
		p.tx[i] = v / length
	}
	if p.marks != nil && p.marks.unloaded(p) {
		return nil
	}
	arc := firstArc
	for s.stats.Continuation < mostSteps {
		if ctx.Err() != nil {
			return fmt.Errorf("search along the load stopped at %.4g of it: %w", p.load, context.Cause(ctx))
		}
		if p.tLoad > 0 && p.load+arc*p.tLoad >= p.until {
			if p.finish() {
				return nil
			}
			arc = (p.until - p.load) / p.tLoad / 2
		}
		if !p.seek(arc) {
			if arc /= 3; arc < leastArc {
				return p.stuck("no step along the load succeeds")
			}
			continue
		}
		s.stats.Continuation++
		if s.overCeiling(p.y) >= 0 && p.tyLoad > 0 {
			return p.ceiling(arc)
		}
		if p.tyLoad <= 0 {
			return p.fold(arc)
		}
		if largest(p.y[:s.n]) > boundless {
			return p.unbounded()
		}
		if p.marks != nil {
			if done, err := p.marks.passed(p, p.y, p.yLoad); done || err != nil {
				return err
			}
		}
		p.advance()
		switch {
		case p.iterations <= 3:
			arc *= 2
		case p.iterations >= 6:
			arc *= 0.6
		}
	}
	return p.stuck("the steps along the load are used up")
}

func (p *path) stuck(why string) error {
	s := p.s
	return &NotConvergedError{Why: why, Residual: largest(s.f), Correction: largest(s.step[:s.n]), Iterations: s.stats.Iterations, Load: p.load}
}

func (p *path) advance() {
	p.x, p.y = p.y, p.x
	p.tx, p.ty = p.ty, p.tx
	p.load, p.tLoad = p.yLoad, p.tyLoad
}

// finish tries the load at which the search arrives from the point predicted for it.
func (p *path) finish() bool {
	s := p.s
	s.loaded.SetLoad(p.until)
	move(s.x, p.x, (p.until-p.load)/p.tLoad, p.tx)
	if s.newton(p.until) != nil || !s.stable() || s.overCeiling(s.x) >= 0 {
		return false
	}
	// A state far from the prediction may lie on another branch.
	copy(p.y, s.x)
	for i := range p.y {
		p.y[i] -= p.x[i]
	}
	d := p.until - p.load
	far := math.Sqrt(p.dot(p.y, p.y) + d*d)
	along := p.dot(p.y, p.tx) + d*p.tLoad
	return along >= leastCosine*far
}

// dot is the inner product of two changes of state: a node's counts against
// pathScale, as a current can turn back where it heats nothing, a global's against
// what the largest of them is without load or would become under the whole.
func (p *path) dot(a, b []float64) float64 {
	n := p.s.n
	sum := 0.0
	for i, v := range a[:n] {
		sum += v * b[i]
	}
	sum /= float64(n) * pathScale * pathScale
	if m := p.s.st.Globals; m > 0 {
		sum += floats.Dot(a[n:], b[n:]) / (float64(m) * p.global * p.global)
	}
	return sum
}

// seek finds the point of the branch whose projection on the tangent lies arc
// ahead, and its tangent; false if there is none near.
func (p *path) seek(arc float64) bool {
	s, t := p.s, p.s.opt.Time
	move(p.y, p.x, arc, p.tx)
	p.yLoad = p.load + arc*p.tLoad
	before := math.Inf(1)
	for k := range pathIterations {
		s.loaded.SetLoad(p.yLoad)
		s.sys.Linearize(t, p.y, s.f, s.j)
		s.stats.Jacobians++
		s.e.factor(s.j, nil, 0)
		s.stats.Factorisations++
		s.stats.Iterations++
		if !s.e.sound() {
			return false
		}
		s.loaded.LoadDerivative(t, p.y, p.b)
		copy(s.step, s.f)
		s.e.solve(s.step)
		s.e.solve(p.b)
		s.stats.Solves += 2
		// s.step = M⁻¹F and b = M⁻¹∂F/∂λ; the move stays in the plane across the
		// tangent.
		for i := range s.trial {
			s.trial[i] = p.y[i] - p.x[i]
		}
		off := arc - p.dot(s.trial, p.tx) - (p.yLoad-p.load)*p.tLoad
		dLoad := (off - p.dot(s.step, p.tx)) / (p.tLoad + p.dot(p.b, p.tx))
		floats.AddScaled(s.step, dLoad, p.b)
		size := largest(s.step[:s.n]) + pathScale*math.Abs(dLoad)
		if s.st.Globals > 0 {
			size += pathScale * largest(s.step[s.n:]) / (p.global + largest(p.y[s.n:]))
		}
		if size-size != 0 || !finite(s.step) || k > 2 && size > 2*before {
			return false
		}
		before = size
		floats.Add(p.y, s.step)
		p.yLoad += dLoad
		for _, v := range p.y[:s.n] {
			if v < 0 {
				return false
			}
		}
		if size <= 1e-7+1e-12*largest(p.y[:s.n]) {
			p.iterations = k + 1
			return p.turn()
		}
	}
	return false
}

// turn sets the tangent at the point found, in the sense of the one before.
func (p *path) turn() bool {
	length := math.Sqrt(1 + p.dot(p.b, p.b))
	cosine := (p.dot(p.b, p.tx) + p.tLoad) / length
	if cosine < 0 {
		length, cosine = -length, -cosine
	}
	if !(cosine >= leastCosine) {
		return false
	}
	p.tyLoad = 1 / length
	for i, v := range p.b {
		p.ty[i] = v / length
	}
	return true
}

// ceiling finds, between the last point and the one arc ahead, the highest load
// at which no node is above its ceiling.
func (p *path) ceiling(arc float64) error {
	s := p.s
	over := func() float64 {
		worst := math.Inf(-1)
		for i, c := range s.opt.Ceilings {
			worst = max(worst, p.y[i]-c)
		}
		return worst
	}
	lo, hi := 0.0, arc
	loLoad, hiLoad := p.load, p.yLoad
	node := s.overCeiling(p.y)
	state := clone(p.x)
	lowOver := math.Inf(-1)
	for i, c := range s.opt.Ceilings {
		lowOver = max(lowOver, p.x[i]-c)
	}
	highOver := over()
	for range 100 {
		if hiLoad-loLoad <= pathPrecision*hiLoad {
			break
		}
		at := hi - highOver*(hi-lo)/(highOver-lowOver)
		// False position, kept off the ends so that both close in.
		at = min(max(at, lo+0.01*(hi-lo)), hi-0.01*(hi-lo))
		if math.IsNaN(at) {
			at = (lo + hi) / 2
		}
		if !p.seek(at) {
			return p.stuck("the load at the ceiling could not be located")
		}
		if v := over(); v > 0 {
			hi, hiLoad, highOver = at, p.yLoad, v
			node = s.overCeiling(p.y)
		} else {
			lo, loLoad, lowOver = at, p.yLoad, v
			copy(state, p.y)
		}
	}
	// Where even the full load lies below, the search for it goes on there.
	if loLoad >= p.until {
		return p.stuck("the full load was passed over")
	}
	return &CeilingError{Node: node, Ceiling: s.opt.Ceilings[node], Load: loLoad, X: state}
}

// fold finds the highest load of the branch between the last point and the
// one arc ahead: where dλ/ds is zero.
func (p *path) fold(arc float64) error {
	lo, hi := 0.0, arc
	slopeLo, slopeHi := p.tLoad, p.tyLoad
	best, load, state := 0.0, p.load, clone(p.x)
	keep := func(at float64) {
		if p.yLoad > load {
			best, load = at, p.yLoad
			copy(state, p.y)
		}
	}
	keep(arc)
	for k := 0; ; k++ {
		// λ is concave here: what is left to gain is below slope times width.
		if min(slopeLo, -slopeHi)*(hi-lo) <= pathPrecision*load {
			break
		}
		if k == 100 {
			return p.stuck("the fold could not be located")
		}
		at := (lo*-slopeHi + hi*slopeLo) / (slopeLo - slopeHi)
		at = min(max(at, lo+0.05*(hi-lo)), hi-0.05*(hi-lo))
		// Exactly at the fold the linear system is singular: look beside it.
		if !p.seek(at) {
			if at = lo + 0.7*(at-lo); !p.seek(at) {
				return p.stuck("the fold could not be located")
			}
		}
		keep(at)
		if p.tyLoad > 0 {
			lo, slopeLo = at, p.tyLoad
		} else {
			hi, slopeHi = at, p.tyLoad
		}
	}
	if p.s.overCeiling(state) >= 0 {
		if !p.seek(best) {
			return p.stuck("the ceiling below a fold could not be located")
		}
		return p.ceiling(best)
	}
	return &FoldError{Load: load, X: state}
}

// unbounded names the load towards which the temperatures rise without bound:
// far out it is linear in their reciprocal.
func (p *path) unbounded() error {
	far, farther := 1/largest(p.x[:p.s.n]), 1/largest(p.y[:p.s.n])
	load := p.yLoad
	if far > farther {
		load += (p.yLoad - p.load) * farther / (far - farther)
	}
	return &FoldError{Load: load, X: clone(p.y), Unbounded: true}
}
