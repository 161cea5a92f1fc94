package study

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"

	"clampheat/model"
	"clampheat/scenarios"
)

// This file opens each of the ways side by side in turn, and looks what becomes
// of the others.

// opened settles the stack with each way opened that shares a current with
// others. Circuits share none. Which limits are passed only then is told by those
// of the whole.
func opened(ctx context.Context, sc *scenarios.Scenario, whole []Margin) ([]OpenedCase, error) {
	ways := sc.Ways()
	var list []int
	for i, w := range ways {
		if w.Kind == scenarios.BatteryWay || w.Kind == scenarios.BranchWay {
			list = append(list, i)
		}
	}
	if len(list) == 0 {
		return nil, nil
	}
	out := make([]OpenedCase, len(list))
	err := abreast(len(list), func(k int) (err error) {
		out[k], err = openedAt(ctx, sc, ways, list[k])
		return err
	})
	for i := range out {
		for _, m := range out[i].Passed {
			before := func(w Margin) bool { return w.Verdict == Passed && w.Place == m.Place && w.Name == m.Name }
			if !slices.ContainsFunc(whole, before) {
				out[i].New = append(out[i].New, m)
			}
		}
	}
	return out, err
}

func openedAt(ctx context.Context, sc *scenarios.Scenario, ways []scenarios.WayInfo, way int) (OpenedCase, error) {
	out := OpenedCase{Name: ways[way].Name, Kind: string(ways[way].Kind)}
	left, stack, err := sc.Opened(way)
	if err != nil {
		out.None = "nothing is left that leads the current: " + firstLine(err)
		return out, nil
	}
	s, err := settle(ctx, still(stack), model.Likely, model.Mesh{})
	var none *NoAnswerError
	var odd *model.StackError
	switch {
	case errors.As(err, &none):
		out.None = none.Text
		return out, nil
	case errors.As(err, &odd):
		out.None = "nothing is left that leads the current: " + firstLine(err)
		return out, nil
	case err != nil:
		return out, err
	}
	out.Current = s.current()
	rest := left.Ways()
	names := rowNames(s.assembly)
	out.Branches, _ = branchLines(s, rest)
	for i := range out.Branches {
		b := &out.Branches[i]
		if b.Group == ways[way].Group && (out.Largest == nil || b.Current > out.Largest.Current) {
			out.Largest = b
		}
	}
	hot, err := s.hottest()
	if err != nil {
		return out, err
	}
	out.Place, out.Temp = names[hot], temp(s.temp(hot))
	item := func(part int) int { return left.PartItems[part] }
	_, margins := tightest(boundsOf(sc, s.assembly, s.stack.Surroundings.Air, item), func(i int) string { return names[i] }, s.temp,
		func(int) float64 { return math.Inf(1) })
	out.Tightest = least(margins)
	for _, m := range margins {
		if m.Verdict == Passed {
			out.Passed = append(out.Passed, m)
		}
	}
	out.Fuses = following(sc, newLanes(s, rest), item)
	return out, nil
}

// following are the fuses that carry more than may be drawn through them for
// good, and whether they open as well.
func following(sc *scenarios.Scenario, l *lanes, item func(part int) int) []FollowFuse {
	var out []FollowFuse
	for i, p := range l.stack.Parts {
		f, ok := p.(*model.Fuse)
		if !ok || !(f.Rated > 0) {
			continue
		}
		c := FollowFuse{Name: f.Name(), Current: l.fuseCurrent(i)}
		if w := l.partWay(i); w >= 0 {
			c.Way = l.ways[w].Name
		}
		c.Load = c.Current / f.Rated
		c.Follows = c.Load > 1
		if c.Load <= usable {
			continue
		}
		if c.Follows {
			c.Melts = meltsAfter(sc.File.Path[item(i)].Melts, c.Current)
		}
		out = append(out, c)
	}
	return out
}

// meltsAfter reads a fuse's time–current curve at a current: straight between its
// points in the logarithms of both, as such curves are printed. 0 below the first
// point, where nothing is known; above the last, where it is quicker, its time.
func meltsAfter(points []scenarios.Melt, current float64) float64 {
	points = slices.Clone(points)
	slices.SortFunc(points, func(a, b scenarios.Melt) int { return cmp.Compare(a.Current, b.Current) })
	for i, p := range points {
		switch {
		case current > p.Current:
		case current == p.Current:
			return p.Time
		case i == 0:
			return 0
		default:
			from := points[i-1]
			share := math.Log(current/from.Current) / math.Log(p.Current/from.Current)
			return from.Time * math.Pow(p.Time/from.Time, share)
		}
	}
	if len(points) == 0 {
		return 0
	}
	return points[len(points)-1].Time
}
