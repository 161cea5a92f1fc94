package solver

import "fmt"

// Structure says who touches whom in a system of nodes, links and globals.
//
// It, Jacobian and Flow are aliases of plain struct types, so that a network
// of another package meets System without importing this one.
type Structure = struct {
	Nodes   int
	Links   [][2]int // unordered pairs i ≠ j of nodes, each pair at most once
	Globals int      // algebraic unknowns that follow the nodes in the state
}

// Jacobian holds the derivatives of the balances. NewJacobian makes its
// storage; Linearize overwrites the whole of it.
type Jacobian = struct {
	Diag     []float64   // ∂F_i/∂T_i, a node each
	Up, Down []float64   // a link {i, j} each: ∂F_i/∂T_j and ∂F_j/∂T_i
	Cols     [][]float64 // a global k each: ∂F_i/∂g_k over the nodes
	Rows     [][]float64 // a global k each: ∂r_k/∂T_i over the nodes
	Corner   []float64   // ∂r_k/∂g_l, row by row
}

// Flow is the heat made in and lost by the whole system, W. The net heat of
// all nodes is Made − Lost, since what crosses a link leaves one node and
// enters the other.
type Flow = struct{ Made, Lost float64 }

// System is what the solver needs of a heat network:
//
//	C dT/dt = F(t, x)    for the nodes, T = x[:n]
//	0       = r(t, x)    for the globals, g = x[n:]
//
// A System is used by one goroutine at a time.
type System interface {
	// Structure does not change during the system's life.
	Structure() Structure
	// Capacities stores the heat capacity of each node, J/K. A node of none
	// is algebraic.
	Capacities(dst []float64)
	// Balance stores the net heat of each node, W, in f[:n] and the residual
	// of each global in f[n:].
	Balance(t float64, x, f []float64) Flow
	// Linearize does what Balance does and stores the exact derivatives.
	Linearize(t float64, x, f []float64, j *Jacobian) Flow
	// Drift stores ∂F/∂t at fixed x, or reports false where it is zero.
	Drift(t float64, x, df []float64) bool
}

// Loaded is a System whose load can be scaled, which a search along the load
// needs: its given currents or power are multiplied by lambda.
type Loaded interface {
	System
	SetLoad(lambda float64)
	// LoadDerivative stores ∂F/∂λ at fixed x.
	LoadDerivative(t float64, x, df []float64)
}

// Ready is what a System may have besides: why it cannot be solved as it
// stands, nil where it can. It is asked before anything else.
type Ready interface {
	Ready() error
}

// structureOf reads the structure of a system that can be solved.
func structureOf(sys System) (Structure, error) {
	if sys == nil {
		return Structure{}, &InputError{"the system", "is missing"}
	}
	if r, ok := sys.(Ready); ok {
		if err := r.Ready(); err != nil {
			return Structure{}, fmt.Errorf("the system cannot be solved: %w", err)
		}
	}
	st := sys.Structure()
	return st, checkStructure(st)
}

// NewJacobian makes the storage of the derivatives of a system.
func NewJacobian(s Structure) *Jacobian {
	j := &Jacobian{
		Diag:   make([]float64, s.Nodes),
		Up:     make([]float64, len(s.Links)),
		Down:   make([]float64, len(s.Links)),
		Cols:   make([][]float64, s.Globals),
		Rows:   make([][]float64, s.Globals),
		Corner: make([]float64, s.Globals*s.Globals),
	}
	for k := range s.Globals {
		j.Cols[k] = make([]float64, s.Nodes)
		j.Rows[k] = make([]float64, s.Nodes)
	}
	return j
}

// checkStructure looks for what an elimination could not be planned for.
func checkStructure(s Structure) error {
	bad := func(format string, a ...any) error {
		return &InputError{"the structure", fmt.Sprintf(format, a...)}
	}
	if s.Nodes < 1 || s.Globals < 0 {
		return bad("has %d nodes and %d globals", s.Nodes, s.Globals)
	}
	near := make([][]int, s.Nodes)
	for l, p := range s.Links {
		a, b := min(p[0], p[1]), max(p[0], p[1])
		if a < 0 || b >= s.Nodes || a == b {
			return bad("has a link %d from node %d to node %d, of %d nodes", l, p[0], p[1], s.Nodes)
		}
		near[a] = append(near[a], b)
	}
	seen := make([]int, s.Nodes)
	for a, others := range near {
		for _, b := range others {
			if seen[b] == a+1 {
				return bad("links nodes %d and %d twice", a, b)
			}
			seen[b] = a + 1
		}
	}
	return nil
}
