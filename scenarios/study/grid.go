package study

import (
	"context"
	"errors"
	"math"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/solver"
)

// This file tries a stack under many conditions, the same for every stack, so
// that a comparison does not rest on likely values alone: a holder that is
// cooler only if the fuse happens to be a good one has not won.

// gridSize is the number of conditions: joints put together carefully, as is
// likely, or carelessly; faces brushed, as received or tarnished where the file
// does not say; the fuse at the low, the likely and the high end of its ohms.
const gridSize = 27

var (
	gridConditions = [3]model.Condition{model.Careful, model.Likely, model.Careless}
	gridFaces      = [3]string{"brushed", "as received", "tarnished"}
)

// facesFilm is the assumption that stands for faces of no stated state.
const facesFilm = "faces not stated.film"

// grid is the hottest terminal, K, under each condition; +Inf where it has no
// lasting state.
func grid(ctx context.Context, sc *scenarios.Scenario, likely *state) ([]float64, error) {
	open := false
	for _, a := range sc.Assumptions() {
		open = open || a.ID == facesFilm
	}
	out := make([]float64, 0, gridSize)
	for i, face := range gridFaces {
		if i > 0 && !open {
			out = append(out, out[:gridSize/len(gridFaces)]...) // the file says what its faces are
			continue
		}
		var vary map[string]float64
		if open {
			state, err := materials.LookupFaceState(face)
			if err != nil {
				return nil, err
			}
			vary = map[string]float64{facesFilm: state.Film.Likely}
		}
		stack, err := leftOn(sc, vary)
		if err != nil {
			return nil, err
		}
		for _, c := range gridConditions {
			a, err := stack.Assemble(c, model.Mesh{})
			if err != nil {
				return nil, err
			}
			start := a.Start(nil)
			if len(start) == len(likely.x) {
				copy(start, likely.x)
			}
			search := solver.NewSteadySolver(a.Network)
			for _, end := range gridConditions {
				if err := setFuses(a, stack, end); err != nil {
					return nil, err
				}
				r, err := search.Solve(ctx, solver.SteadyOptions{Start: start, Ceilings: a.Network.Ceilings()})
				var ceiling *solver.CeilingError
				var fold *solver.FoldError
				switch {
				case errors.As(err, &ceiling), errors.As(err, &fold):
					out = append(out, math.Inf(1))
				case err != nil:
					return nil, noAnswer(stack, a, err)
				default:
					out = append(out, a.RowTemp(a.HottestTerminal(r.X), r.X))
				}
			}
		}
	}
	return out, nil
}

// setFuses takes the fuses' ohms at one end of their range, whatever the
// condition of the joints is.
func setFuses(a *model.Assembly, stack *model.Stack, c model.Condition) error {
	for _, r := range a.Rows {
		if r.Kind != model.ElementRow {
			continue
		}
		fuse := stack.Parts[r.Part].(*model.Fuse)
		f, err := fuse.FuseFigures()
		if err != nil {
			return err
		}
		cold := map[model.Condition]float64{model.Careful: f.Cold.Low, model.Likely: f.Cold.Likely, model.Careless: f.Cold.High}[c]
		caps := 2 * fuse.Metal.Resistivity20 * fuse.CapLength / (fuse.CapWidth * fuse.CapThickness)
		for _, id := range r.Resistors {
			if err := a.Network.SetResistor(id, (cold-caps)/float64(len(r.Resistors)), 0); err != nil {
				return err
			}
		}
	}
	return nil
}

// agreeing counts the conditions in which the second stack stands to the first
// as a difference [K] between them says.
func agreeing(first, second []float64, cooler float64) int {
	n := 0
	for i := range first {
		d := first[i] - second[i]
		if math.Abs(d) >= noticeable && d > 0 == (cooler > 0) || math.Abs(d) < noticeable && math.Abs(cooler) < noticeable {
			n++
		}
	}
	return n
}

// noticeable, K, is a difference that is no rounding of the search.
const noticeable = 1e-6
