package study

import (
	"context"
	"errors"
	"math"

	"clampheat/model"
	"clampheat/scenarios"
)

// This file reads a lasting cycle.

// fill copies what the cycle is over its period.
func (d *Duty) fill(c *cycle) {
	r := c.result
	d.Times = r.Times
	for i, t := range r.Times {
		d.Currents = append(d.Currents, currentOf(c.stack, c.assembly, t, r.States[i]))
		if powered(c.stack) {
			d.Powers = append(d.Powers, loadAt(c.stack, t))
		}
		if c.stack.Course != nil {
			d.Airs = append(d.Airs, temp(airAt(c.stack, t)))
		}
	}
	if powered(c.stack) {
		d.Mean, d.Rms = meansOver(d.Times, d.Currents)
	} else {
		d.Mean, d.Rms = means(c.stack.Supply, d.Period)
	}
	for _, i := range d.Currents {
		d.Current = math.Max(d.Current, i)
	}
	d.Made, d.Lost, d.Stored = r.Made, r.Lost, r.Stored
	d.Periods, d.Closes = r.Periods, r.Residual
	if r.Decay > 0 && r.Decay < 1 {
		d.Settles = int(math.Ceil(math.Log(0.01) / math.Log(r.Decay)))
	}
	d.Numerics = Numerics{Nodes: c.assembly.Network.Nodes(), Steps: r.Stats.Steps, Bookkeeping: r.Audit.Bookkeeping, Quadrature: r.Audit.Quadrature}
}

// meansOver are the mean and the root mean square of a current that runs straight
// between its rows; one that jumps has a row on either side.
func meansOver(times, currents []float64) (mean, rms float64) {
	sum, squares, length := 0.0, 0.0, 0.0
	for i := 1; i < len(times); i++ {
		dt, a, b := times[i]-times[i-1], currents[i-1], currents[i]
		sum += dt * (a + b) / 2
		squares += dt * (a*a + a*b + b*b) / 3
		length += dt
	}
	return sum / length, math.Sqrt(squares / length)
}

// places reads each place over the period.
func (d *Duty) places(c *cycle, ways []scenarios.WayInfo) {
	s := &state{stack: c.stack, assembly: c.assembly, x: c.result.X}
	of := rowWays(s, ways)
	d.Aside = leftAside(ways, hottestWays(c.assembly.Rows, of, ways, func(row int) float64 {
		t, _ := c.peak(row)
		return t
	}))
	for _, i := range rowOrder(s, ways) {
		row := c.assembly.Rows[i]
		if row.Kind == model.JointRow {
			continue
		}
		series := Series{Name: c.names[i], Terminal: row.Terminal}
		lowest := math.Inf(1)
		for _, x := range c.result.States {
			t := c.assembly.RowTemp(i, x)
			lowest = math.Min(lowest, t)
			series.Temps = append(series.Temps, temp(t))
		}
		d.Series = append(d.Series, series)
		peak, at := c.peak(i)
		place := DutyPlace{Name: c.names[i], Kind: kinds[row.Kind], Terminal: row.Terminal, Peak: temp(peak), PeakAt: at,
			Mean: temp(c.mean(i)), Lowest: temp(lowest)}
		if of[i] >= 0 {
			place.Way = ways[of[i]].Name
		}
		d.Places = append(d.Places, place)
	}
}

// headline finds the hottest terminal with its range, and judges the limits.
func (d *Duty) headline(ctx context.Context, sc *scenarios.Scenario, likely *cycle) error {
	hot, err := likely.hottest()
	if err != nil {
		return err
	}
	at, when := likely.peak(hot)
	d.Hottest = Span{Place: likely.names[hot], Temp: temp(at), Rise: at - airAt(likely.stack, when)}
	d.PeakAt = when
	ends := [2]*cycle{}
	errs := [2]error{}
	err = abreast(2, func(i int) error {
		ends[i], errs[i] = newCycle(ctx, likely.stack, [2]model.Condition{model.Careful, model.Careless}[i])
		return nil
	})
	if err != nil {
		return err
	}
	var none *NoAnswerError
	for i, err := range errs {
		if err != nil && (i == 0 || !errors.As(err, &none)) {
			return err
		}
	}
	peakOf := func(c *cycle) float64 {
		row, _ := c.hottest() // it has the terminals of the likely one
		t, _ := c.peak(row)
		return t
	}
	d.Hottest.Careful = temp(peakOf(ends[0]))
	if none != nil {
		d.Hottest.CarelessEnds = none.Text
	} else {
		d.Hottest.Careless = temp(peakOf(ends[1]))
	}
	d.Margins = []Margin{}
	for _, b := range bounds(sc, likely.assembly, likely.stack.Surroundings.Air) {
		likelyAt, carelessAt := 0.0, math.Inf(1)
		if b.judgeable() {
			var left float64
			left, b.temp, b.air = likely.left(b)
			likelyAt = b.temp - left
			if none == nil {
				// Of moving air each condition has its own worst moment.
				worst, _, _ := ends[1].left(b)
				carelessAt = b.temp - worst
			}
		}
		d.Margins = append(d.Margins, b.judge(likely.names[b.row], likelyAt, carelessAt))
	}
	d.Tightest = least(d.Margins)
	d.Touch = touchCaution(at)
	return nil
}

// rules settles the stack under the rms and under the mean current, and holds
// them against the cycle. Where the air moves both are taken in the air that there
// is when the hottest terminal peaks, so that no weather is in the difference; by
// the mean air the rules would fall shorter still. The state at the rms current is
// nil where it has none.
func (d *Duty) rules(ctx context.Context, c *cycle) (*state, error) {
	period := c.stack.Period()
	air := airAt(c.stack, d.PeakAt)
	constant := func(current float64, mean func(m, rms float64) float64) *model.Stack {
		if powered(c.stack) {
			return carrying(driven(c.stack, air, func(s model.Supply) model.Supply { return model.Constant(s.Current(0)) }), current)
		}
		return driven(c.stack, air, func(s model.Supply) model.Supply { return model.Constant(mean(means(s, period))) })
	}
	rms, err := d.rule(ctx, &d.ByRms, constant(d.Rms, func(_, rms float64) float64 { return rms }), d.Rms,
		func(p *DutyPlace, t float64) { p.Rms = temp(t) })
	if err != nil {
		return nil, err
	}
	_, err = d.rule(ctx, &d.ByMean, constant(d.Mean, func(m, _ float64) float64 { return m }), d.Mean,
		func(p *DutyPlace, t float64) { p.Even = temp(t) })
	for i := range d.Places {
		if p := &d.Places[i]; p.Kind == kinds[model.ElementRow] && (d.Element == nil || p.Peak > d.Element.Peak) {
			d.Element = p
		}
	}
	return rms, err
}

func (d *Duty) rule(ctx context.Context, r *Rule, stack *model.Stack, current float64, note func(*DutyPlace, float64)) (*state, error) {
	r.Current, r.Air = current, temp(stack.Surroundings.Air)
	s, err := settle(ctx, stack, model.Likely, model.Mesh{})
	var none *NoAnswerError
	if errors.As(err, &none) {
		r.None = none.Text
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	hot, err := s.hottest()
	if err != nil {
		return nil, err
	}
	names := rowNames(s.assembly)
	r.Temp, r.Place = temp(s.temp(hot)), names[hot]
	r.Short = float64(d.Hottest.Temp - r.Temp)
	r.Worst = math.Inf(-1)
	byName := map[string]float64{}
	for i, name := range names {
		byName[name] = s.temp(i)
	}
	for i := range d.Places {
		p := &d.Places[i]
		note(p, byName[p.Name])
		if short := float64(p.Peak) - byName[p.Name]; short > r.Worst {
			r.Worst, r.WorstAt = short, p.Name
		}
	}
	return s, nil
}
