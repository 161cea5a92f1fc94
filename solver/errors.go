package solver

import "fmt"

// CeilingError ends a steady search at the highest load under which no node
// is above its ceiling.
type CeilingError struct {
	Node    int     // the node that reaches its ceiling
	Ceiling float64 // K
	// Load is the share λ of the load at which it does, 0 … 1. It is 0 where
	// the node is above its ceiling without any load, and where the load of
	// the system cannot be scaled.
	Load float64
	X    []float64 // the state there
}

func (e *CeilingError) Error() string {
	at := ""
	if e.Load > 0 {
		at = fmt.Sprintf(": it is reached at %.6g of the load", e.Load)
	}
	return fmt.Sprintf("no steady state below the ceiling of %.5g K at node %d%s", e.Ceiling, e.Node, at)
}

// FoldError ends a steady search at the highest load that has a steady state.
type FoldError struct {
	Load float64 // the share λ of the load
	// X is the state at the fold. Where the states rise without bound as the
	// load nears Load, X is the last state followed.
	X         []float64
	Unbounded bool
}

func (e *FoldError) Error() string {
	if e.Unbounded {
		return fmt.Sprintf("no steady state: temperatures rise without bound towards %.6g of the load", e.Load)
	}
	return fmt.Sprintf("no steady state beyond %.6g of the load", e.Load)
}

// NotConvergedError says that a search found nothing, which is no statement
// about the system.
type NotConvergedError struct {
	Sought     string // what was sought; "" is a steady state
	Why        string
	Residual   float64 // largest net heat of a node or residual of a global
	Correction float64 // largest last correction of a node, K
	Iterations int
	Load       float64 // share of the load at which the search stood, 1 if it was not scaled
}

func (e *NotConvergedError) Error() string {
	if e.Sought != "" {
		return fmt.Sprintf("no %s found: %s (after %d periods, the last of which changes a node by %.3g K, with %.3g K left to correct)",
			e.Sought, e.Why, e.Iterations, e.Residual, e.Correction)
	}
	return fmt.Sprintf("no steady state found: %s (after %d iterations, largest imbalance %.3g W, last correction %.3g K)",
		e.Why, e.Iterations, e.Residual, e.Correction)
}

// NotFiniteError says that a system answered with something that is no
// number where one was needed.
type NotFiniteError struct {
	What string
	Time float64 // s
}

func (e *NotFiniteError) Error() string {
	return fmt.Sprintf("%s is not a finite number at %.6g s", e.What, e.Time)
}

// StepTooSmallError ends a soak that no step, however short, can carry on.
type StepTooSmallError struct {
	Time, Step float64 // s
	Why        string
}

func (e *StepTooSmallError) Error() string {
	return fmt.Sprintf("the soak cannot go on beyond %.6g s: a step of %.3g s is still too long (%s)", e.Time, e.Step, e.Why)
}

// StepLimitError ends a soak that takes more steps than it may.
type StepLimitError struct {
	Time  float64 // s
	Steps int
}

func (e *StepLimitError) Error() string {
	return fmt.Sprintf("the soak stands at %.6g s after the %d steps that it may take", e.Time, e.Steps)
}

// InputError says which input of the caller cannot be used, and why.
type InputError struct {
	What, Why string
}

func (e *InputError) Error() string { return fmt.Sprintf("%s %s", e.What, e.Why) }
