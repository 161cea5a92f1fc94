package study

import (
	"context"
	"errors"
	"math"
	"regexp"
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
)

// Options of a study. The zero value is the usual.
type Options struct {
	// Detail asks for every node.
	Detail bool
}

// RunSteady answers how hot a stack gets when it is left on until settled, at
// the largest current of its supply.
//
// Its errors are *scenarios.Problems for a file that cannot be used,
// *NoAnswerError where there is no lasting state, or the context's.
func RunSteady(ctx context.Context, sc *scenarios.Scenario) (*Steady, error) {
	stack, err := resolved(sc, nil)
	if err != nil {
		return nil, err
	}
	left := still(stack)
	likely, err := settle(ctx, left, model.Likely, model.Mesh{})
	if err != nil {
		return nil, err
	}
	careful, err := settle(ctx, left, model.Careful, model.Mesh{})
	if err != nil {
		return nil, err
	}
	careless, err := settle(ctx, left, model.Careless, model.Mesh{})
	var none *NoAnswerError
	if err != nil && !errors.As(err, &none) {
		return nil, err
	}

	air := left.Surroundings.Air
	names := rowNames(likely.assembly)
	hot, err := likely.hottest()
	if err != nil {
		return nil, err
	}
	out := &Steady{
		Conditions: likely.conditions(sc),
		Hottest:    Span{Place: names[hot], Temp: temp(likely.temp(hot)), Rise: likely.temp(hot) - air},
		Made:       watts(likely.assembly.Made(0, likely.x)),
		Lost:       watts(likely.assembly.Lost(likely.x)),
		Heat:       likely.result.Flow.Made,
		Drop:       likely.assembly.Drop(0, likely.x),
		DropParts:  dropParts(sc, likely),
		Warnings:   slices.Concat(overloaded(left, likely.assembly, 0, likely.x), touchOpinions(sc), warnings(likely), unchanging(stack, left)),
	}
	// Careful and careless assembly may be hottest elsewhere.
	cold, err := careful.hottest()
	if err != nil {
		return nil, err
	}
	out.Hottest.Careful = temp(careful.temp(cold))
	carelessTemp := func(int) float64 { return math.Inf(1) }
	if none != nil {
		out.Hottest.CarelessEnds = none.Text
	} else {
		worst, err := careless.hottest()
		if err != nil {
			return nil, err
		}
		out.Hottest.Careless = temp(careless.temp(worst))
		carelessTemp = careless.temp
	}

	byRow, margins := tightest(bounds(sc, likely.assembly, air), func(i int) string { return names[i] }, likely.temp, carelessTemp)
	out.Margins, out.Tightest = margins, least(margins)
	ways := sc.Ways()
	if out.Rows, err = rows(likely, byRow, ways); err != nil {
		return nil, err
	}
	out.From, out.To = stack.Parts[0].Name(), lastOnPath(likely.assembly, stack)
	out.Element = element(likely, names)
	on := hottestWays(likely.assembly.Rows, rowWays(likely, ways), ways, likely.temp)
	out.Aside = leftAside(ways, on)
	out.Profile, out.Beside = profiles(likely, careful, careless, names, ways, on)
	out.Branches, out.Spreads = branchLines(likely, ways)
	out.Circulating = circulating(likely, ways)
	if out.Opened, err = opened(ctx, sc, out.Margins); err != nil {
		return nil, err
	}
	if out.Box, err = boxState(left, likely.assembly, 0, likely.x); err != nil {
		return nil, err
	}
	out.Touch = touchCaution(likely.temp(hot))
	if out.Telling, out.More, err = telling(ctx, sc, likely, hot); err != nil {
		return nil, err
	}
	if out.Numerics, err = numerics(ctx, likely, hot); err != nil {
		return nil, err
	}
	return out, nil
}

// numerics solves again with cells of half the size to see what cutting the
// long parts costs.
func numerics(ctx context.Context, s *state, hot int) (Numerics, error) {
	fine, err := settle(ctx, s.stack, model.Likely, model.Mesh{Cell: defaultCell / 2})
	if err != nil {
		return Numerics{}, err
	}
	return Numerics{
		Nodes: s.assembly.Network.Nodes(), Iterations: s.result.Stats.Iterations,
		Bookkeeping: s.result.Audit.Bookkeeping, Quadrature: s.result.Audit.Quadrature,
		Cutting: math.Abs(fine.temp(hot) - s.temp(hot)), Kirchhoff: s.assembly.Network.Kirchhoff(0, s.x),
	}, nil
}

// defaultCell is the cell of model.Mesh's zero value, over the fin length.
const defaultCell = 0.2

// element is the hottest fuse element, nil where the stack has no fuse.
func element(s *state, names []string) *ElementState {
	var out *ElementState
	for i, r := range s.assembly.Rows {
		if r.Kind == model.ElementRow && (out == nil || temp(s.temp(i)) > out.Temp) {
			out = &ElementState{Name: names[i], Temp: temp(s.temp(i))}
		}
	}
	return out
}

func lastOnPath(a *model.Assembly, stack *model.Stack) string {
	if len(a.Path) == 0 {
		return stack.Parts[len(stack.Parts)-1].Name()
	}
	return stack.Parts[a.Path[len(a.Path)-1].Part].Name()
}

// warnings are those of the assembly and of the surfaces, each once: the cells
// of a long part say the same with other numbers. Those of the file stand on
// it with their places.
func warnings(s *state) []string {
	out := []string{}
	seen := map[string]bool{}
	// What a warning says of a part is told once, whatever its numbers.
	add := func(part, text string) {
		kind := part + numbers.ReplaceAllString(text, "#")
		if part != "" {
			text = part + ": " + text
		}
		if !seen[kind] {
			seen[kind] = true
			out = append(out, text)
		}
	}
	for _, w := range s.assembly.Warnings {
		add(w.Where, w.Text)
	}
	for _, d := range s.assembly.Detail(s.x) {
		for _, w := range d.Warnings {
			add(d.Name, w)
		}
	}
	return out
}

// numbers of a warning differ from cell to cell.
var numbers = regexp.MustCompile(`\b\d+(\.\d+)?(e[+-]?\d+)?\b`)
