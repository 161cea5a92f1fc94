package validation

import (
	"context"
	"fmt"
	"math"
	"slices"

	"clampheat/model"
	"clampheat/model/network"
	"clampheat/scenarios"
	"clampheat/solver"
)

// This file holds the state that a repeated duty settles into. A body of one
// temperature with heat capacity C and loss k is a first-order system of time
// constant τ = C/k. Under P for the time a out of every period T it settles,
// with θ = P/k, between
//
//	peak = θ (1 − e^(−a/τ))/(1 − e^(−T/τ)),  lowest = peak e^(−(T−a)/τ),  mean = θ a/T
//
// The rms current makes the mean heat, so that its settled rise is the mean.

const (
	inOn     = "time on, s"
	inPeriod = "period, s"
	inLoss   = "loss, W/K"

	firstOrder = closedForm + ", first-order system under a square wave"
	dutyTol    = 1e-4 // K, of a step
)

// squareWave is a current that is on for a time at the beginning of each period.
func squareWave(in Inputs) (*model.Cycle, error) {
	amps := in[inCurrent]
	return model.NewCycle(
		model.Piece{From: amps, To: amps, For: in[inOn]},
		model.Piece{For: in[inPeriod] - in[inOn]})
}

// lasting is the first node in the state that repeats: the rise over the room, K, at
// the beginning of the period, the highest and the mean, and the time of the
// highest, s. A square wave begins at the lowest.
type lasting struct{ first, highest, mean, when float64 }

func lastingState(ctx context.Context, n *network.Network, period float64, breaks []float64) (lasting, error) {
	air := n.Room().Air
	res, err := solver.Periodic(ctx, n, solver.PeriodicOptions{Period: period, Breaks: breaks, Tol: dutyTol, Start: even(n, air)})
	if err != nil {
		return lasting{}, err
	}
	return lasting{res.X[0] - air, res.Peak[0] - air, res.Mean[0] - air, res.PeakTime[0]}, nil
}

// dutyBody is one body under a square wave.
func dutyBody(ctx context.Context, in Inputs) (lasting, error) {
	n := network.New(network.Surroundings{Air: standardRoom})
	id := n.AddNode(network.Node{Name: "body", Capacity: in[inCapacity]})
	n.AddResistor(network.Resistor{Name: "heater", A: id, B: id, R20: in[inOhm]})
	n.AddHoldToAir("room", id, in[inLoss])
	wave, err := squareWave(in)
	if err != nil {
		return lasting{}, err
	}
	n.SetSupply(wave, 0)
	if err := n.Finish(); err != nil {
		return lasting{}, err
	}
	return lastingState(ctx, n, wave.Period(), wave.Breaks())
}

// wavePeak is the peak over the rise that would settle with the current on for
// good.
func wavePeak(on, period, tau float64) float64 { return math.Expm1(-on/tau) / math.Expm1(-period/tau) }

func dutyCases() ([]Case, error) {
	// 30 W on 0.5 W/K are 60 K; 600 J/K make a time constant of 20 min.
	given := Inputs{inCapacity: 600, inLoss: 0.5, inOhm: 3e-3, inCurrent: 100, inOn: 300, inPeriod: 900}
	const continuous, tau = 60.0, 1200.0
	peak := continuous * wavePeak(300, 900, tau)
	common := Case{Group: "duty", Kind: Analytic, Exact: true, Source: firstOrder, Inputs: given, Breaks: inCurrent,
		Unit: "K", Tol: Abs(1e-2, "K"), Why: "a hundred times the tolerance of a step"}
	var cases []Case
	for _, part := range []struct {
		name string
		want float64
		of   func(lasting) float64
	}{
		{"peak", peak, func(l lasting) float64 { return l.highest }},
		{"lowest", peak * math.Exp(-600/tau), func(l lasting) float64 { return l.first }},
		{"mean", continuous / 3, func(l lasting) float64 { return l.mean }},
	} {
		c := common
		c.Name = "5 min on, 10 min off/" + part.name
		c.Claim = part.name + " rise of a body of 20 min in the state that repeats, 100 A"
		c.Want = part.want
		c.Got = func(ctx context.Context, in Inputs) (float64, error) {
			l, err := dutyBody(ctx, in)
			return part.of(l), err
		}
		cases = append(cases, c)
	}
	cases = append(cases, rmsCases(common)...)
	cases = append(cases, pairCases(common)...)
	cases = append(cases, dayCases()...)
	more, err := holderDuty()
	return append(cases, more...), err
}

// rmsCases show for which cycles the rms current tells the hottest that a body
// gets, and for which it does not.
func rmsCases(common Case) []Case {
	const tau = 1200.0
	var cases []Case
	for _, r := range []struct {
		name   string
		period float64
	}{{"a hundredth of the body's time constant", tau / 100}, {"the body's time constant", tau}, {"ten times the body's time constant", 10 * tau}} {
		c := common
		c.Inputs = with(common.Inputs, Inputs{inOn: r.period / 4, inPeriod: r.period})
		c.Name = "rms rule/period " + r.name
		c.Claim = "peak rise over that which the rms current would settle at, on for a quarter of the time"
		c.Unit, c.Want = "1", 4*wavePeak(r.period/4, r.period, tau)
		c.Tol, c.Why = Rel(c.Want, 1e-3), "the tolerance of a step over a rise of 15 K, and more"
		c.Got = func(ctx context.Context, in Inputs) (float64, error) {
			l, err := dutyBody(ctx, in)
			if err != nil {
				return 0, err
			}
			settled := common.Inputs[inCurrent] * common.Inputs[inCurrent] * in[inOhm] / in[inLoss] * in[inOn] / in[inPeriod]
			return l.highest / settled, nil
		}
		cases = append(cases, c)
	}
	// Duty type S3 runs in cycles of 10 min. At 25 % on, the rms rule would allow
	// twice the continuous current, and a body of 5 min bears
	// √((1 − e^(−T/τ))/(1 − e^(−a/τ))) = 1.482 times.
	s3 := Inputs{inCapacity: 150, inLoss: 0.5, inOhm: 3e-3, inCurrent: 200, inOn: 150, inPeriod: 600}
	cases = append(cases, Case{
		Group: "duty", Name: "rms rule/S3 25 %, 10 min", Kind: Published, Reported: true,
		Claim:  "peak rise of a body of 5 min at the current that the rms rule allows, twice the continuous, against its continuous rise",
		Source: "IEC 60034-1, duty type S3" + fromMemory, Inputs: s3, Unit: "K", Want: 60,
		Note: "the duty is the standard's, the body an example: the rule holds for bodies that are slow against the cycle",
		Got: func(ctx context.Context, in Inputs) (float64, error) {
			l, err := dutyBody(ctx, in)
			return l.highest, err
		},
	})
	allowed := 1 / root(wavePeak(150, 600, 300))
	bears := common
	bears.Name = "overload/S3 25 %, 10 min"
	bears.Claim = fmt.Sprintf("peak rise of the same body at %.4f times the continuous current", allowed)
	bears.Inputs = with(s3, Inputs{inCurrent: 100 * allowed})
	bears.Want = 60
	bears.Got = func(ctx context.Context, in Inputs) (float64, error) {
		l, err := dutyBody(ctx, in)
		return l.highest, err
	}
	return append(cases, bears)
}

// pairCases are two linked bodies, one of them heated: sum and difference are
// first-order systems with losses k and k + 2 g. At the end of the time on the
// heated one is at its peak.
func pairCases(common Case) []Case {
	in := with(common.Inputs, Inputs{inLink: 0.4})
	on, period := in[inOn], in[inPeriod]
	half := in[inCurrent] * in[inCurrent] * in[inOhm] / 2
	mode := func(loss float64) float64 { return half / loss * wavePeak(on, period, in[inCapacity]/loss) }
	c := common
	c.Name, c.Inputs = "two bodies/heated, peak", in
	c.Claim = "peak rise of the heated one of two linked bodies in the state that repeats"
	c.Source = closedForm + ", sum and difference of the two"
	c.Want = mode(in[inLoss]) + mode(in[inLoss]+2*in[inLink])
	c.Got = func(ctx context.Context, in Inputs) (float64, error) {
		n := network.New(network.Surroundings{Air: standardRoom})
		for range 2 {
			id := n.AddNode(network.Node{Name: "body", Capacity: in[inCapacity]})
			n.AddHoldToAir("room", id, in[inLoss])
		}
		n.AddResistor(network.Resistor{Name: "heater", A: 0, B: 0, R20: in[inOhm]})
		n.AddLink("between", 0, 1, in[inLink])
		wave, err := squareWave(in)
		if err != nil {
			return 0, err
		}
		n.SetSupply(wave, 0)
		if err := n.Finish(); err != nil {
			return 0, err
		}
		l, err := lastingState(ctx, n, wave.Period(), wave.Breaks())
		return l.highest, err
	}
	return []Case{c}
}

// day is an air temperature that swings about a mean, K.
type day struct{ mean, swing, period float64 }

func (d day) Current(t float64) float64 {
	return d.mean + d.swing*math.Sin(2*math.Pi*t/d.period)
}

func (d day) Slope(t float64) float64 {
	return d.swing * 2 * math.Pi / d.period * math.Cos(2*math.Pi*t/d.period)
}

func (d day) Breaks() []float64 { return nil }

const (
	inSwing = "swing of the air, K"
	dayLong = 86400.0
)

// dayCases are a body in air that swings by the day. Of a first-order system the
// swing is 1/√(1 + (ωτ)²) of the air's and comes atan(ωτ)/ω later.
func dayCases() []Case {
	in := Inputs{inCapacity: 2000, inLoss: 0.2, inSwing: 8}
	const tau = 2000 / 0.2
	omega := 2 * math.Pi / dayLong
	course := func(ctx context.Context, in Inputs) (lasting, error) {
		n := network.New(network.Surroundings{Air: standardRoom})
		id := n.AddNode(network.Node{Name: "body", Capacity: in[inCapacity]})
		n.AddHoldToAir("room", id, in[inLoss])
		n.SetAir(day{standardRoom, in[inSwing], dayLong})
		if err := n.Finish(); err != nil {
			return lasting{}, err
		}
		return lastingState(ctx, n, dayLong, nil)
	}
	swing, lag := in[inSwing]/math.Hypot(1, omega*tau), math.Atan(omega*tau)/omega
	common := Case{Group: "duty", Kind: Analytic, Exact: true, Inputs: in,
		Source: closedForm + ", frequency response of a first-order system"}
	damping := common
	damping.Name, damping.Breaks = "a day's course/swing", inSwing
	damping.Claim = "swing of a body of 2.8 h in air that swings by 8 K over the day"
	damping.Unit, damping.Want, damping.Tol, damping.Why = "K", swing, Abs(1e-2, "K"), "a hundred times the tolerance of a step"
	damping.Got = func(ctx context.Context, in Inputs) (float64, error) {
		l, err := course(ctx, in)
		return l.highest, err
	}
	later := common
	later.Name, later.Breaks, later.Exact = "a day's course/lag", inLoss, false
	later.Claim = "time from the warmest air to the warmest body"
	later.Unit, later.Want, later.Tol, later.Why = "h", lag/3600, Abs(0.02, "h"), "a flat top: within a minute it stays within the tolerance of a step, 1e-4 K"
	later.Got = func(ctx context.Context, in Inputs) (float64, error) {
		l, err := course(ctx, in)
		return (l.when - dayLong/4) / 3600, err
	}
	return []Case{damping, later}
}

// holderDuty is what the rms rule makes of a whole stack: a shipped one whose
// battery takes hours to warm and whose fuse takes seconds.
func holderDuty() ([]Case, error) {
	const example, times = "compact", "current over that of the example"
	sc, err := scenarios.Open(example)
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, place := range []struct {
		name string
		row  func(*model.Assembly, []float64) int
	}{
		{"hottest terminal", func(a *model.Assembly, x []float64) int { return a.HottestTerminal(x) }},
		{"fuse's element", func(a *model.Assembly, _ []float64) int {
			return slices.IndexFunc(a.Rows, func(r model.Row) bool { return r.Kind == model.ElementRow })
		}},
	} {
		cases = append(cases, Case{
			Group: "duty", Name: "rms rule/compact holder, " + place.name, Kind: Practice, Reported: true,
			Claim:  "peak rise of the " + place.name + " over that settled at the rms current, 5 min on with twice the current and 10 min off",
			Source: practiceSource, Inputs: Inputs{times: 2, inOn: 300, inPeriod: 900}, Unit: "1", Want: 1,
			Note: "the rule counts heat and not time: what is quick follows the current up",
			Got: func(ctx context.Context, in Inputs) (float64, error) {
				stack, err := sc.Stack(nil)
				if err != nil {
					return 0, err
				}
				a, err := stack.Assemble(model.Likely, model.Mesh{})
				if err != nil {
					return 0, err
				}
				wave, err := squareWave(with(in, Inputs{inCurrent: in[times] * stack.Supply.Current(0)}))
				if err != nil {
					return 0, err
				}
				n, air := a.Network, stack.Surroundings.Air
				n.SetSupply(network.Constant(wave.Current(0)*root(in[inOn]/in[inPeriod])), 0)
				settled, err := solver.Steady(ctx, n, solver.SteadyOptions{Start: a.Start(nil)})
				if err != nil {
					return 0, err
				}
				row := place.row(a, settled.X)
				n.SetSupply(wave, 0)
				res, err := solver.Periodic(ctx, n, solver.PeriodicOptions{Period: wave.Period(), Breaks: wave.Breaks(), Start: settled.X})
				if err != nil {
					return 0, err
				}
				return (a.RowTemp(row, res.Peak) - air) / (a.RowTemp(row, settled.X) - air), nil
			},
		})
	}
	return cases, nil
}
