package validation

import (
	"context"
	"fmt"
	"maps"
	"math"
	"strings"
)

// weakBreak is the change of its input above which a case is labelled weak;
// largestBreak the largest change that is tried.
const (
	weakBreak    = 0.10
	largestBreak = 0.95
)

// Run computes every case, in the order of their groups. The error is that of
// a case which could not be computed at all, or of ctx.
func Run(ctx context.Context) ([]Result, error) {
	cases, err := Cases()
	if err != nil {
		return nil, err
	}
	results := make([]Result, 0, len(cases))
	for i := range cases {
		r, err := cases[i].run(ctx)
		if err != nil {
			return nil, err
		}
		results = append(results, r)
	}
	return results, nil
}

func (c *Case) run(ctx context.Context) (Result, error) {
	if err := ctx.Err(); err != nil {
		return Result{}, err
	}
	value, err := c.Got(ctx, c.Inputs)
	if err != nil {
		return Result{}, fmt.Errorf("validation case %s/%s: %w", c.Group, c.Name, err)
	}
	r := Result{Case: *c, Value: value}
	if c.Reported {
		r.Passed = !math.IsNaN(value) && !math.IsInf(value, 0)
		return r, nil
	}
	r.Passed = c.passes(value)
	if r.Passed {
		r.Break = c.smallestBreak(ctx)
		r.Weak = r.Break > weakBreak
	}
	return r, nil
}

// smallestBreak looks, upwards and downwards, for the smallest change of the
// named input that turns the case red: it doubles the change until red, then
// halves the interval to 1 % of its size. An input that cannot be computed
// with counts as red. It returns +Inf where no change tried does.
func (c *Case) smallestBreak(ctx context.Context) float64 {
	answer := c.Got
	if c.Stand != nil {
		answer = c.Stand
	}
	red := func(change float64) bool {
		in := maps.Clone(c.Inputs)
		in[c.Breaks] *= 1 + change
		got, err := answer(ctx, in)
		return err != nil || !c.passes(got)
	}
	best := math.Inf(1)
	for _, sign := range []float64{1, -1} {
		green, bad := 0.0, math.Inf(1)
		for s := 1e-6; ; s = math.Min(4*s, largestBreak) {
			if s >= best {
				break
			}
			if red(sign * s) {
				bad = s
				break
			}
			green = s
			if s == largestBreak {
				break
			}
		}
		for !math.IsInf(bad, 1) && bad-green > 0.01*bad {
			if mid := (green + bad) / 2; red(sign * mid) {
				bad = mid
			} else {
				green = mid
			}
		}
		best = math.Min(best, bad)
	}
	return best
}

// Sources counts the distinct published sources of the results.
func Sources(results []Result) int {
	seen := map[string]bool{}
	for _, r := range results {
		if r.Kind == Published || r.Kind == Measured {
			seen[strings.TrimSuffix(r.Source, fromMemory)] = true
		}
	}
	return len(seen)
}
