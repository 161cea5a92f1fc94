package study

import (
	"context"
	"errors"
	"math"
	"slices"
	"sort"

	"clampheat/model"
	"clampheat/solver"
)

// This file finds how long a soak is that is to show all there is to see: until
// settled, or, of what repeats, until each period is like the one before.

// overloads warns of fuses that carry more than their rating when the load is
// largest, the stack being as warm as at its start.
func (r *run) overloads() []string {
	t := loadPeak(r.stack)
	x := slices.Clone(r.start)
	connect(r.assembly, t, x)
	return overloaded(r.stack, r.assembly, t, x)
}

// toSettle finds the state that the stack ends in, and the times of settling. It
// sets the soak's length where none was asked for.
func (r *run) toSettle(ctx context.Context, out *Soak) error {
	last := lastBreak(r.stack)
	if len(r.stack.BreaksUntil(2*last)) > len(r.stack.Breaks()) {
		out.Warnings = append(out.Warnings, "what drives the stack never comes to rest, nor does all of it repeat: there is no settled state")
		if out.Until == 0 {
			out.Until = max(last, restlessSoak)
		}
		return nil
	}
	var err error
	r.final, err = settle(ctx, frozen(r.stack, last, airAt(r.stack, last)), model.Likely, model.Mesh{})
	if err != nil && !errors.As(err, &r.none) {
		return err
	}
	out.Lasting = r.final != nil
	if !out.Lasting {
		out.Warnings = append(out.Warnings, r.none.Text)
		if out.Until == 0 {
			out.Until = longestSoak
		}
		return nil
	}
	end, err := r.settling(ctx, out)
	if out.Until == 0 {
		out.Until = end
	}
	return err
}

// restlessSoak, s, is how long a stack is followed that never comes to rest.
const restlessSoak = 24 * 3600

// fewestPeriods and mostPeriods bound how many periods of what repeats are
// followed where no time is asked for.
const (
	fewestPeriods = 3
	mostPeriods   = 2000
)

// periods is the length, s, of a whole number of periods in which the stack would
// settle under a load that heats as much.
func (r *run) periods(ctx context.Context) (float64, error) {
	period := r.stack.Period()
	stack := heatingAlike(r.stack)
	a, err := stack.Assemble(r.assembly.Condition, model.Mesh{})
	if err != nil {
		return 0, err
	}
	even := &run{stack: stack, assembly: a, soaker: solver.NewSoaker(a.Network), start: a.Start(nil)}
	copy(even.start, r.start[:a.Network.Nodes()])
	connect(a, 0, even.start)
	res, err := even.run(ctx, longestSoak, nil, nil, solver.Event{Name: "settled", Rate: settledRate, Stop: true})
	if err != nil {
		return 0, err
	}
	return period * min(max(math.Ceil(res.End/period), fewestPeriods), mostPeriods), nil
}

// settling soaks until settled and notes when the terminal that ends hottest
// has 90 % and 99 % of its way behind it. The share of the way means something
// only under one current.
func (r *run) settling(ctx context.Context, out *Soak) (end float64, err error) {
	hot, err := r.final.hottest()
	if err != nil {
		return 0, err
	}
	out.Final = temp(r.final.temp(hot))
	events := []solver.Event{{Name: "settled", Rate: settledRate, Stop: true}}
	steady := len(r.stack.Breaks()) == 0
	from, to := r.assembly.RowTemp(hot, r.start), r.final.temp(hot)
	if way := to - from; steady && math.Abs(way) > 0.1 {
		for name, share := range map[string]float64{"90": 0.90, "99": 0.99} {
			events = append(events, solver.Event{Name: name, Value: func(_ float64, x []float64) float64 {
				return (r.assembly.RowTemp(hot, x)-from)/way - share
			}})
		}
		sort.SliceStable(events, func(i, j int) bool { return events[i].Name < events[j].Name })
	}
	res, err := r.run(ctx, longestSoak, nil, nil, events...)
	if err != nil {
		return 0, err
	}
	for _, hit := range res.Events {
		switch hit.Name {
		case "90":
			out.To90 = hit.Time
		case "99":
			out.To99 = hit.Time
		case "settled":
			out.Settled = hit.Time
		}
	}
	if steady && out.To99 == 0 && out.Settled > 0 {
		// Settled before: go on to the 99 %.
		if out.To99, err = r.passing(ctx, hot, from+0.99*(to-from), to > from); err != nil {
			return 0, err
		}
	}
	return math.Max(res.End, 60), nil
}

// passing is when a row reaches a level, 0 where it does not.
func (r *run) passing(ctx context.Context, row int, level float64, upwards bool) (float64, error) {
	sign := 1.0
	if !upwards {
		sign = -1
	}
	res, err := r.run(ctx, longestSoak, nil, nil, solver.Event{Name: "level", Stop: true,
		Value: func(_ float64, x []float64) float64 { return sign * (r.assembly.RowTemp(row, x) - level) }})
	if err != nil {
		return 0, err
	}
	for _, hit := range res.Events {
		if hit.Name == "level" {
			return hit.Time, nil
		}
	}
	return 0, nil
}
