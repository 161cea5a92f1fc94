package validation

import (
	"context"
	"embed"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
	"clampheat/scenarios/study"
	"clampheat/solver"
)

// This file holds the two generic holders against what is usual in practice:
// at the same place, 140 A and 25 °C, both warm from an earlier run, the
// hottest terminal of a high-capacity holder reads some 60 to 63 °C after a
// quarter of an hour and that of a compact one some 75 °C. Nobody measured the
// resistances, so this checks order and band and not a number. The generic
// parts and their grounds were set before the case first ran.

//go:embed testdata/practice_high_capacity.yaml testdata/practice_compact.yaml
var practiceFiles embed.FS

const (
	practiceSource = "common practice, no source"
	practiceDraws  = 1000
	quarterHour    = 900.0

	compactReading      = 75.0 // °C
	highCapacityReading = 61.5 // °C, the middle of 60 … 63

	// roomSpread is how far the air around a stack may be from what a
	// thermometer in the room reads, K: common practice, no source.
	roomSpread = 3.0
)

// shared are the assumptions that are drawn, with one value for both holders:
// fuse and switch, thread and clamp. Faces, cover and room are drawn besides.
var shared = []string{"fuse.drop", "battery switch.across", "thread dry.nut factor", "joints.clamp kept"}

// film is the assumption that the drawn faces replace: nobody knows in which
// of the states that a file can name the faces were, so each is drawn as often.
const film = "faces not stated.film"

// holder is one holder in its place.
type holder struct {
	covered, open *scenarios.Scenario
	start         float64 // K, of the hottest terminal
}

func openHolder(name, cover string) (*holder, error) {
	data, err := practiceFiles.ReadFile("testdata/" + name)
	if err != nil {
		return nil, err
	}
	h := &holder{}
	for _, variant := range []struct {
		to   **scenarios.Scenario
		word string
	}{{&h.covered, "closed"}, {&h.open, "open"}} {
		text := strings.Replace(string(data), "cover: "+cover, "cover: "+variant.word, 1)
		if *variant.to, err = scenarios.Read(name, []byte(text)); err != nil {
			return nil, fmt.Errorf("practice case: %w", err)
		}
	}
	h.start = h.open.File.Start.Temp
	return h, nil
}

// stated is the scenario as the file has it.
func (h *holder) stated(cover string) *scenarios.Scenario {
	if cover == "closed" {
		return h.covered
	}
	return h.open
}

// quarter is the hottest terminal, K, after a quarter of an hour from the
// settled profile scaled to the start. It is +Inf where there is no lasting
// state to scale from.
func (h *holder) quarter(ctx context.Context, stack *model.Stack, c model.Condition) (float64, error) {
	a, err := stack.Assemble(c, model.Mesh{})
	if err != nil {
		return 0, err
	}
	x := a.Start(nil)
	for i := range x {
		x[i] += 30
	}
	settled, err := solver.Steady(ctx, a.Network, solver.SteadyOptions{Start: x, Ceilings: a.Network.Ceilings()})
	if err != nil {
		return 0, err
	}
	air := stack.Surroundings.Air
	rise := a.RowTemp(a.HottestTerminal(settled.X), settled.X) - air
	for i := range x {
		x[i] = air + (settled.X[i]-air)*(h.start-air)/rise
	}
	soak, err := solver.Soak(ctx, a.Network, solver.SoakOptions{Start: x, Until: quarterHour})
	if err != nil {
		return 0, err
	}
	return a.RowTemp(a.HottestTerminal(soak.X), soak.X), nil
}

// draw is one set of plausible values.
type draw struct {
	vary    map[string]float64
	covered bool
	air     float64 // K above the stated
}

// draws gives seeded draws of the shared values: each is below its likely
// value as often as above. Ranges that reach over a decade are drawn by their
// logarithm.
func draws(sc *scenarios.Scenario, states []materials.FaceState, n int) ([]draw, error) {
	ranges := make([]materials.Range, len(shared))
	for i, id := range shared {
		k := slices.IndexFunc(sc.Assumptions(), func(a scenarios.Assumption) bool { return a.ID == id })
		if k < 0 {
			return nil, fmt.Errorf("practice case: nothing is assumed under the name %q", id)
		}
		ranges[i] = sc.Assumptions()[k].Value
	}
	r := rand.New(rand.NewPCG(1, 140))
	out := make([]draw, n)
	for k := range out {
		d := draw{vary: map[string]float64{}, covered: r.IntN(2) == 1, air: roomSpread * (2*r.Float64() - 1)}
		for i, id := range shared {
			d.vary[id] = between(ranges[i], r.Float64())
		}
		d.vary[film] = between(states[r.IntN(len(states))].Film, r.Float64())
		out[k] = d
	}
	return out, nil
}

// between maps 0 … 1 on a range so that its likely value is the median.
func between(r materials.Range, u float64) float64 {
	a, b, share := r.Low, r.Likely, 2*u
	if u > 0.5 {
		a, b, share = r.Likely, r.High, 2*u-1
	}
	if r.Low > 0 && r.High > 10*r.Low {
		return math.Exp(math.Log(a) + share*(math.Log(b)-math.Log(a)))
	}
	return a + share*(b-a)
}

// drawn are the temperatures of one holder over the draws, °C.
type drawn struct {
	likely           []float64
	coolest, warmest float64 // careful at the coolest draw, careless at the warmest
}

// over solves a holder at every draw, at the likely condition, and the
// coolest and the warmest draw again at careful and careless assembly. Factor
// scales the drop of the fuse. It runs on two goroutines.
func (h *holder) over(ctx context.Context, all []draw, factor float64) (*drawn, error) {
	out := &drawn{likely: make([]float64, len(all))}
	var wait sync.WaitGroup
	errs := make([]error, 2)
	for w := range errs {
		wait.Add(1)
		go func() {
			defer wait.Done()
			for k := w; k < len(all); k += len(errs) {
				if out.likely[k], errs[w] = h.at(ctx, all[k], model.Likely, factor); errs[w] != nil {
					return
				}
			}
		}()
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	cold, hot := 0, 0
	for k, v := range out.likely {
		if v < out.likely[cold] {
			cold = k
		}
		if v > out.likely[hot] {
			hot = k
		}
	}
	var err error
	if out.coolest, err = h.at(ctx, all[cold], model.Careful, factor); err != nil {
		return nil, err
	}
	if out.warmest, err = h.at(ctx, all[hot], model.Careless, factor); err != nil {
		return nil, err
	}
	return out, nil
}

// at is the hottest terminal, °C, at one draw.
func (h *holder) at(ctx context.Context, d draw, c model.Condition, factor float64) (float64, error) {
	sc := h.open
	if d.covered {
		sc = h.covered
	}
	vary := map[string]float64{}
	for id, v := range d.vary {
		vary[id] = v
	}
	vary["fuse.drop"] *= factor
	stack, err := sc.Stack(vary)
	if err != nil {
		return 0, err
	}
	stack.Surroundings.Air += d.air
	k, err := h.quarter(ctx, stack, c)
	return k - celsius, err
}

// once keeps the answer of a first successful call: the draws are dear, and
// several cases read the same.
func once(solve func(context.Context) (*drawn, error)) func(context.Context) (*drawn, error) {
	var lock sync.Mutex
	var kept *drawn
	return func(ctx context.Context) (*drawn, error) {
		lock.Lock()
		defer lock.Unlock()
		if kept == nil {
			d, err := solve(ctx)
			if err != nil {
				return nil, err
			}
			kept = d
		}
		return kept, nil
	}
}

// outside is how far a reading lies outside of a range, K; 0 within.
func outside(reading, low, high float64) float64 {
	return math.Max(0, math.Max(low-reading, reading-high))
}

func practiceCases() ([]Case, error) {
	compact, err := openHolder("practice_compact.yaml", "open")
	if err != nil {
		return nil, err
	}
	large, err := openHolder("practice_high_capacity.yaml", "closed")
	if err != nil {
		return nil, err
	}
	states := materials.FaceStates()
	all, err := draws(compact.open, states, practiceDraws)
	if err != nil {
		return nil, err
	}
	sound := slices.DeleteFunc(slices.Clone(states), func(f materials.FaceState) bool { return f.Name == "corroded" })
	fewSound, err := draws(compact.open, sound, practiceDraws/5)
	if err != nil {
		return nil, err
	}
	few := all[:practiceDraws/50]
	const factor = "fuse drop of the compact one, over drawn"
	compactAll := once(func(ctx context.Context) (*drawn, error) { return compact.over(ctx, all, 1) })
	largeAll := once(func(ctx context.Context) (*drawn, error) { return large.over(ctx, all, 1) })
	// hotter is the share of draws in which the compact one is hotter, %.
	hotter := func(c, l *drawn, n int) float64 {
		count := 0
		for k := range n {
			if c.likely[k] > l.likely[k] {
				count++
			}
		}
		return 100 * float64(count) / float64(n)
	}
	// shareOf solves the compact one again where its fuse is changed.
	shareOf := func(all []draw) func(context.Context, Inputs) (float64, error) {
		return func(ctx context.Context, in Inputs) (float64, error) {
			l, err := largeAll(ctx)
			if err != nil {
				return 0, err
			}
			c, err := compactAll(ctx)
			if err == nil && in[factor] != 1 {
				c, err = compact.over(ctx, all, in[factor])
			}
			if err != nil {
				return 0, err
			}
			return hotter(c, l, len(all)), nil
		}
	}
	inside := func(drawnAll func(context.Context) (*drawn, error)) func(context.Context, Inputs) (float64, error) {
		return func(ctx context.Context, in Inputs) (float64, error) {
			d, err := drawnAll(ctx)
			if err != nil {
				return 0, err
			}
			return outside(in["reading, °C"], d.coolest, d.warmest), nil
		}
	}
	base := Case{Group: "practice", Kind: Practice, Source: practiceSource}
	share := base
	share.Name = "compact hotter"
	share.Claim = "the compact holder is the hotter one, of 1000 draws of shared values"
	share.Inputs, share.Breaks = Inputs{factor: 1}, factor
	share.Unit, share.Want, share.Tol = "% of draws", 100, Tolerance{Low: -5, Text: "≥ 95 %"}
	share.Why = "which is hotter is what people meet; a few draws may be odd"
	share.Got, share.Stand = shareOf(all), shareOf(few)

	cases := []Case{share}
	for _, one := range []struct {
		name    string
		h       *holder
		drawn   func(context.Context) (*drawn, error)
		cover   string
		reading float64
		band    float64
	}{{"compact", compact, compactAll, "open", compactReading, 0}, {"high-capacity", large, largeAll, "closed", highCapacityReading, 1.5}} {
		c := base
		c.Name = one.name + "/reading"
		c.Claim = fmt.Sprintf("how far the usual reading, about %.0f °C, lies outside the draws from careful to careless", one.reading)
		c.Inputs, c.Breaks = Inputs{"reading, °C": one.reading}, "reading, °C"
		c.Unit, c.Tol = "K", Tolerance{High: one.band, Text: fmt.Sprintf("≤ %.3g K", one.band)}
		c.Why = "a reading within the range, itself known to a few kelvin"
		c.Got = inside(one.drawn)
		cases = append(cases, c)

		n := c
		n.Name = one.name + "/reading, no face corroded"
		n.Claim = "the same where no face is worse than tarnished"
		n.Reported, n.Note = true, "the faces were used ones of unknown state"
		n.Got = inside(once(func(ctx context.Context) (*drawn, error) { return one.h.over(ctx, fewSound, 1) }))
		cases = append(cases, n)

		r := base
		r.Name = one.name + "/stated defaults"
		r.Claim = "hottest terminal after a quarter of an hour, all at likely values"
		r.Inputs, r.Unit, r.Want, r.Reported = Inputs{"current, A": 140}, "°C", one.reading, true
		r.Note = "nobody measured the resistances"
		r.Got = func(ctx context.Context, _ Inputs) (float64, error) {
			stack, err := one.h.stated(one.cover).Stack(nil)
			if err != nil {
				return 0, err
			}
			k, err := one.h.quarter(ctx, stack, model.Likely)
			return k - celsius, err
		}
		s := r
		s.Name = one.name + "/left on"
		s.Claim = "hottest terminal when settled, all at likely values"
		s.Note = "fifteen minutes is not settled"
		s.Got = func(ctx context.Context, _ Inputs) (float64, error) {
			steady, err := study.RunSteady(ctx, one.h.stated(one.cover))
			if err != nil {
				return 0, err
			}
			return steady.Hottest.Temp.Celsius(), nil
		}
		closes := r
		closes.Name = one.name + "/what would close it"
		closes.Claim = "fuse drop at rated current with which the likely values give the reading"
		closes.Unit, closes.Want = "mV", 75
		closes.Note = "every other value as likely; the reading may as well come from joints, ripple or the room"
		closes.Got = func(ctx context.Context, _ Inputs) (float64, error) {
			return one.h.closing(ctx, one.cover, one.reading)
		}
		cases = append(cases, r, s, closes)
	}
	return cases, nil
}

// closing is the drop of the fuse at rated current, mV, with which the likely
// values give a reading: by bisection, 20 to 400 mV.
func (h *holder) closing(ctx context.Context, cover string, reading float64) (float64, error) {
	low, high := 0.02, 0.4
	for range 20 {
		mid := (low + high) / 2
		stack, err := h.stated(cover).Stack(map[string]float64{"fuse.drop": mid})
		if err != nil {
			return 0, err
		}
		k, err := h.quarter(ctx, stack, model.Likely)
		if err != nil {
			return 0, err
		}
		if k-celsius < reading {
			low = mid
		} else {
			high = mid
		}
	}
	return 1000 * (low + high) / 2, nil
}
