package solver

import (
	"context"
	"errors"
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/floats"
)

// How much load a system bears: along the branch of steady states, followed as
// in the search along the load, the loads are found at which given nodes
// reach given temperatures. Each is solved for itself, by Newton's method with
// the load as one more unknown and the temperature as one more equation, so that
// no load is ever found by trial.

// Target is a temperature whose load is sought.
type Target struct {
	Nodes []int   // the hottest of them counts
	Temp  float64 // K
}

// RateOptions says from where and what for the branch is followed.
type RateOptions struct {
	// Start is a guess of the state without load, nodes then globals, length n+m.
	Start []float64
	// Time at which the supply is frozen, s.
	Time float64
	// Ceilings as in SteadyOptions.
	Ceilings []float64
	Targets  []Target
	// First ends the search at the target reached under the least load.
	First bool
}

// Reach is a target reached.
type Reach struct {
	Target int     // its index in the options
	Node   int     // the node that reaches it
	Load   float64 // λ; 0 where it lies below the state without load
	// Slope is dT/dλ of that node along the branch, K; 0 without load.
	Slope float64
	X     []float64 // the state there
}

// RateResult is what a search for loads finds.
type RateResult struct {
	// Reached are the targets reached, by growing load. Those that are missing
	// lie above the end of the branch, or above the first one if only that was
	// asked for.
	Reached []Reach
	// End is how the branch ends, *CeilingError or *FoldError; nil if it was
	// not followed so far. Their Load can be more than 1.
	End   error
	Stats Stats
}

// Rate follows the steady states of the system from no load to the end of
// their branch and notes at which loads targets are reached. The
// system's load is 1 when it returns.
//
// It needs a Loaded system. Its errors are *InputError, *NotConvergedError,
// *NotFiniteError and the context's.
func (s *SteadySolver) Rate(ctx context.Context, opt RateOptions) (*RateResult, error) {
	sought := SteadyOptions{Start: opt.Start, Time: opt.Time, Ceilings: opt.Ceilings}
	if err := s.check(&sought); err != nil {
		return nil, err
	}
	if err := s.checkTargets(opt.Targets); err != nil {
		return nil, err
	}
	s.opt, s.stats = sought, Stats{}
	if ctx.Err() != nil {
		return nil, fmt.Errorf("search for loads stopped: %w", context.Cause(ctx))
	}
	own := s.loaded
	unit, err := s.loadUnit()
	if err != nil {
		own.SetLoad(1)
		return nil, fmt.Errorf("the state without load: %w", err)
	}
	s.loaded = scaledLoad{own, unit}
	defer func() {
		s.loaded = own
		own.SetLoad(1)
	}()
	m := &marks{targets: opt.Targets, first: opt.First, done: make([]bool, len(opt.Targets))}
	p := s.way(math.Inf(1), m)
	err = p.run(ctx)
	res := &RateResult{}
	switch end := err.(type) {
	case nil:
	case *CeilingError:
		res.End, err = end, nil
		if end.Load > 0 {
			_, err = m.passed(p, end.X, end.Load)
		}
		end.Load *= unit
	case *FoldError:
		load := end.Load
		if end.Unbounded {
			load = p.yLoad
		}
		res.End = end
		_, err = m.passed(p, end.X, load)
		end.Load *= unit
	}
	var none *NotConvergedError
	if errors.As(err, &none) {
		none.Load *= unit
	}
	if err != nil {
		return nil, err
	}
	for i := range m.reached {
		m.reached[i].Load *= unit
		m.reached[i].Slope /= unit
	}
	if m.first && len(m.reached) > 0 {
		m.reached, res.End = m.reached[:1], nil
	}
	res.Reached, res.Stats = m.reached, s.stats
	return res, nil
}

// scaledLoad is a system whose load is counted in another unit.
type scaledLoad struct {
	Loaded
	unit float64
}

func (s scaledLoad) SetLoad(lambda float64) { s.Loaded.SetLoad(lambda * s.unit) }

func (s scaledLoad) LoadDerivative(t float64, x, df []float64) {
	s.Loaded.LoadDerivative(t, x, df)
	floats.Scale(s.unit, df)
}

// loadUnit is about the load at which the hottest node rises by pathScale, as
// seen from the state without load: in that unit the way of the load is as long
// as that of the temperatures, whatever 1 means for the system. It is 1
// where nothing can be told.
func (s *SteadySolver) loadUnit() (float64, error) {
	if err := s.withoutLoad(); err != nil {
		return 0, err
	}
	s.loaded.SetLoad(1)
	s.sys.Balance(s.opt.Time, s.x, s.step)
	s.stats.Balances++
	s.e.solve(s.step)
	s.stats.Solves++
	if s.st.Globals > 0 { // currents come first, and heat from them
		copy(s.trial, s.x)
		floats.Add(s.trial[s.n:], s.step[s.n:])
		s.sys.Balance(s.opt.Time, s.trial, s.step)
		s.stats.Balances++
		s.e.solve(s.step)
		s.stats.Solves++
	}
	unit := math.Sqrt(pathScale / largest(s.step[:s.n]))
	if !(unit > 0) || math.IsInf(unit, 1) {
		return 1, nil
	}
	return unit, nil
}

func (s *SteadySolver) checkTargets(targets []Target) error {
	if s.loaded == nil {
		return &InputError{"the system", "has no load that could be scaled"}
	}
	for k, t := range targets {
		if len(t.Nodes) == 0 {
			return &InputError{"a target", fmt.Sprintf("(%d) names no node", k)}
		}
		if t.Temp-t.Temp != 0 {
			return &InputError{"a target", fmt.Sprintf("(%d) has a temperature that is no finite number", k)}
		}
		for _, i := range t.Nodes {
			if i < 0 || i >= s.n {
				return &InputError{"a target", fmt.Sprintf("(%d) names node %d of %d", k, i, s.n)}
			}
		}
	}
	return nil
}

// marks are the targets of a search, and those reached so far.
type marks struct {
	targets []Target
	first   bool
	done    []bool
	reached []Reach
	z       []float64
}

// hottest is the hottest node of a target at a state.
func (t *Target) hottest(x []float64) int {
	node := t.Nodes[0]
	for _, i := range t.Nodes[1:] {
		if x[i] > x[node] {
			node = i
		}
	}
	return node
}

// unloaded notes the targets that need no load, and says whether that is all
// that was asked for.
func (m *marks) unloaded(p *path) bool {
	for k := range m.targets {
		if node := m.targets[k].hottest(p.x); p.x[node] >= m.targets[k].Temp {
			m.done[k] = true
			m.reached = append(m.reached, Reach{Target: k, Node: node, X: clone(p.x)})
		}
	}
	return m.first && len(m.reached) > 0
}

// passed notes the targets between the last point of the path and a point
// further on, and says whether the search may end.
func (m *marks) passed(p *path, y []float64, load float64) (bool, error) {
	from := len(m.reached)
	for k := range m.targets {
		if m.done[k] || y[m.targets[k].hottest(y)] < m.targets[k].Temp {
			continue
		}
		r, err := m.meet(p, k, y, load)
		if err != nil {
			return false, err
		}
		m.done[k] = true
		m.reached = append(m.reached, r)
	}
	found := m.reached[from:]
	sort.SliceStable(found, func(i, j int) bool { return found[i].Load < found[j].Load })
	return m.first && len(m.reached) > 0, nil
}

// meet solves for the state between the path's last point and y in which the
// hottest node of target k has its temperature.
func (m *marks) meet(p *path, k int, y []float64, yLoad float64) (Reach, error) {
	t := &m.targets[k]
	node := t.hottest(y)
	for range t.Nodes {
		load, slope, ok := m.solve(p, node, t.Temp, y, yLoad)
		if !ok || load < p.load*(1-pathPrecision) || load > yLoad*(1+pathPrecision) {
			return Reach{}, p.stuck("the load at which a target is reached could not be located")
		}
		hot := t.hottest(m.z)
		if m.z[hot]-t.Temp <= p.s.opt.Tol {
			return Reach{Target: k, Node: node, Load: load, Slope: slope, X: clone(m.z)}, nil
		}
		node = hot
	}
	return Reach{}, p.stuck("which node of a target is hottest could not be settled")
}

// solve leaves in m.z the state in which a node has a temperature.
func (m *marks) solve(p *path, node int, temp float64, y []float64, yLoad float64) (load, slope float64, ok bool) {
	s, t := p.s, p.s.opt.Time
	// Heat goes with the square of a current: so do the temperatures about.
	w := 1.0
	if rise := y[node] - p.x[node]; rise > 0 {
		w = min(max((temp-p.x[node])/rise, 0), 1)
	}
	m.z = append(m.z[:0], p.x...)
	for i := range m.z {
		m.z[i] += w * (y[i] - p.x[i])
	}
	load = math.Sqrt(p.load*p.load + w*(yLoad*yLoad-p.load*p.load))
	for range pathIterations {
		s.loaded.SetLoad(load)
		s.sys.Linearize(t, m.z, s.f, s.j)
		s.stats.Jacobians++
		s.e.factor(s.j, nil, 0)
		s.stats.Factorisations++
		s.stats.Iterations++
		if !s.e.sound() {
			return 0, 0, false
		}
		s.loaded.LoadDerivative(t, m.z, p.b)
		copy(s.step, s.f)
		s.e.solve(s.step)
		s.e.solve(p.b)
		s.stats.Solves += 2
		// The rise of the node must be the one sought: that fixes the load.
		dLoad := (temp - m.z[node] - s.step[node]) / p.b[node]
		floats.AddScaled(s.step, dLoad, p.b)
		size := largest(s.step[:s.n]) + pathScale*math.Abs(dLoad)
		if size-size != 0 || !finite(s.step) {
			return 0, 0, false
		}
		floats.Add(m.z, s.step)
		load += dLoad
		if size <= s.opt.Tol+1e-12*largest(m.z[:s.n]) {
			return load, p.b[node], load >= 0
		}
	}
	return 0, 0, false
}
