package solver

import "fmt"

// Structure says who touches whom in a system of nodes, links and globals.
// Its unknowns are numbered through: the nodes 0 … Nodes−1, then the globals
// Nodes … Nodes+Globals−1.
//
// Of two globals that are linked the one with the lower number is eliminated
// first. A global whose own derivative is zero, as that of a potential is, must
// therefore be numbered after those that lend it one: after the currents that
// meet in it.
//
// It, Jacobian and Flow are aliases of plain struct types, so that a network
// of another package meets System without importing this one.
type Structure = struct {
	Nodes   int
	Links   [][2]int // unordered pairs i ≠ j of unknowns that act on one another, each pair at most once
	Globals int      // algebraic unknowns that follow the nodes in the state
}

// Jacobian holds the derivatives of the balances F of the nodes and of the
// residuals r of the globals, which are called F as well here. NewJacobian makes
// its storage; Linearize overwrites the whole of it.
type Jacobian = struct {
	Diag     []float64 // ∂F_i/∂x_i, an unknown each
	Up, Down []float64 // a link {i, j} each: ∂F_i/∂x_j and ∂F_j/∂x_i
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
// The sign of a residual and its unit are free. Among the largest of the globals
// those of other units count as they are: volts and amperes go together, volts
// and megawatts do not.
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

// Connected is a System that can fill in the globals of a state, exact at its
// temperatures or as near as it can, under the load that it has. It is asked where
// a search from the globals of a guess, or from none, has failed. A state that it
// answers with an error for is not used.
type Connected interface {
	System
	Connect(t float64, x []float64) error
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
	return &Jacobian{
		Diag: make([]float64, s.Nodes+s.Globals),
		Up:   make([]float64, len(s.Links)),
		Down: make([]float64, len(s.Links)),
	}
}

// checkStructure looks for what an elimination could not be planned for.
func checkStructure(s Structure) error {
	bad := func(format string, a ...any) error {
		return &InputError{"the structure", fmt.Sprintf(format, a...)}
	}
	if s.Nodes < 1 || s.Globals < 0 {
		return bad("has %d nodes and %d globals", s.Nodes, s.Globals)
	}
	size := s.Nodes + s.Globals
	near := make([][]int, size)
	for l, p := range s.Links {
		a, b := min(p[0], p[1]), max(p[0], p[1])
		if a < 0 || b >= size || a == b {
			return bad("has a link %d from unknown %d to unknown %d, of %d unknowns", l, p[0], p[1], size)
		}
		near[a] = append(near[a], b)
	}
	seen := make([]int, size)
	for a, others := range near {
		for _, b := range others {
			if seen[b] == a+1 {
				return bad("links unknowns %d and %d twice", a, b)
			}
			seen[b] = a + 1
		}
	}
	return nil
}
