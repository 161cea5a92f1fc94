package study

import (
	"context"
	"errors"
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/interp"

	"clampheat/materials"
	"clampheat/model"
)

// This file solves the stack over the torques of one nut.

// try settles a stack at likely ohms and reads the faces under the nut. A
// torque that has no lasting state is a point that says so.
func (q *torqueQuestion) try(ctx context.Context, stack *model.Stack) (TorquePoint, error) {
	return q.tryAt(ctx, stack, model.Likely)
}

func (q *torqueQuestion) tryAt(ctx context.Context, stack *model.Stack, c model.Condition) (TorquePoint, error) {
	b := &stack.Bolts[q.bolt]
	f, err := stack.BoltFigures(q.bolt)
	if err != nil {
		return TorquePoint{}, err
	}
	p := TorquePoint{Torque: b.Torque, Clamp: f.Clamp.Likely, Share: f.Utilisation}
	s, err := settle(ctx, stack, c, model.Mesh{})
	var none *NoAnswerError
	if errors.As(err, &none) {
		p.Ends = none.Text
		return p, nil
	}
	if err != nil {
		return TorquePoint{}, err
	}
	for i, r := range s.assembly.Rows {
		if r.Kind != model.JointRow || r.Bolt != q.bolt {
			continue
		}
		reading := s.assembly.ReadRow(i, 0, s.x)
		p.Resistance += reading.Ohm
		p.Drop += reading.Drop
		p.Heat += reading.Heat
		if reading.Ohm > p.FaceResistance {
			p.FaceResistance, p.FaceDrop = reading.Ohm, reading.Drop
		}
	}
	hot, err := s.hottest()
	if err != nil {
		return TorquePoint{}, err
	}
	names := rowNames(s.assembly)
	p.Hottest, p.Place = temp(s.temp(hot)), names[hot]
	_, margins := tightest(bounds(q.sc, s.assembly, stack.Surroundings.Air), func(i int) string { return names[i] }, s.temp, s.temp)
	if m := least(margins); m != nil {
		p.Tightest = &NearLimit{Place: m.Place, Name: m.Name, Source: m.Source, Limit: m.Limit, Left: m.Left}
	}
	return p, nil
}

// sweptFaces are the states that a curve is drawn for.
var sweptFaces = []string{"brushed", "as received", "tarnished"}

// sweep fills in the curves and all that is read off them.
func (q *torqueQuestion) sweep(ctx context.Context, out *Torque) error {
	states, own, err := q.states()
	if err != nil {
		return err
	}
	out.Own = own
	marks := torqueMarks(out)
	torques := sweptTorques(marks, out.Highest)
	for _, s := range states {
		out.Curves = append(out.Curves, TorqueCurve{Faces: s.name, Points: make([]TorquePoint, len(torques))})
	}
	err = abreast(len(states)*len(torques), func(k int) error {
		c, i := k/len(torques), k%len(torques)
		p, err := q.try(ctx, q.with(q.bolt, func(b *model.Bolt) { b.Torque = torques[i] }, states[c].state))
		if err != nil {
			return err
		}
		p.Name = marks[p.Torque]
		out.Curves[c].Points[i] = p
		return nil
	})
	if err != nil {
		return err
	}
	ownState := states[own].state
	for c := range out.Curves {
		out.Curves[c].Enough = enough(out.Curves[c].Points)
	}
	err = abreast(len(states), func(c int) error {
		return q.leastTorque(ctx, &out.Curves[c], states[c].state)
	})
	if err != nil {
		return err
	}
	if err := q.changes(ctx, out); err != nil {
		return err
	}
	if err := q.scatter(ctx, out, ownState); err != nil {
		return err
	}
	return q.spoil(ctx, out, ownState)
}

// faceCase is a state that the faces under the nut are put in; nil leaves
// them as the file has them.
type faceCase struct {
	name  string
	state *materials.FaceState
}

// states are the swept states, and the faces as in the file where they are in
// none of them; own is the index of those.
func (q *torqueQuestion) states() (list []faceCase, own int, err error) {
	for _, name := range sweptFaces {
		s, err := materials.LookupFaceState(name)
		if err != nil {
			return nil, 0, err
		}
		list = append(list, faceCase{name, &s})
	}
	inFile := map[string]float64{}
	for _, j := range q.stack.Joints {
		if j.Kind == model.Bolted && j.Bolt == q.bolt {
			inFile[j.Face.State.Name] = j.Face.State.Film.Likely
		}
	}
	if len(inFile) == 1 {
		for i, c := range list {
			if film, is := inFile[c.name]; is && film == c.state.Film.Likely {
				return list, i, nil
			}
		}
		for name := range inFile {
			return append(list, faceCase{name, nil}), len(list), nil
		}
	}
	return append(list, faceCase{"as in the file", nil}), len(list), nil
}

// torqueMarks names the torques that a table shows.
func torqueMarks(out *Torque) map[float64]string {
	marks := map[float64]string{}
	add := func(torque float64, name string) {
		if torque <= out.Highest && (out.Finger == 0 || torque >= out.Finger) {
			marks[torque] = name
		}
	}
	add(out.Stated/4, "quarter torque")
	add(out.Stated*0.75, "three quarters")
	add(out.Highest, "end of the sweep")
	add(out.Stated*1.2, AFifthMore)
	add(out.Stated/2, HalfTorque)
	if out.Finger > 0 {
		add(out.Finger, FingerTight)
	}
	add(out.Stated, StatedTorque)
	return marks
}

// sweepSteps is how many torques of equal ratio a sweep has besides the marked
// ones.
const sweepSteps = 12

// sweptTorques are the marked torques and those between, rising. None lies so
// near another that an interpolation between them would be noise.
func sweptTorques(marks map[float64]string, highest float64) []float64 {
	var list []float64
	for t := range marks {
		list = append(list, t)
	}
	sort.Float64s(list)
	lowest := list[0]
	for i := 1; i < sweepSteps; i++ {
		t := lowest * math.Pow(highest/lowest, float64(i)/sweepSteps)
		if !slices.ContainsFunc(list, func(other float64) bool { return math.Abs(math.Log(t/other)) < 0.03 }) {
			list = append(list, t)
		}
	}
	sort.Float64s(list)
	return list
}

// A torque gains little where a tenth more of it cools the hottest terminal
// by less than this, K.
const (
	littleGain = 1.0
	tenthMore  = 1.1
)

// enough is the torque past which 10 % more gains less than 1 K: its beginning
// where it is so all the way, 0 where it is not so before the end. Between the
// points the temperature runs as a monotone cubic over the logarithm of the
// torque (Fritsch and Butland 1984).
func enough(points []TorquePoint) float64 {
	var x, y []float64
	for _, p := range points {
		if !p.Lasts() {
			x, y = nil, nil // only what lasts to the end counts
			continue
		}
		x, y = append(x, math.Log(p.Torque)), append(y, float64(p.Hottest))
	}
	if len(x) < 3 {
		return 0
	}
	var curve interp.FritschButland
	if err := curve.Fit(x, y); err != nil {
		return 0
	}
	step := math.Log(tenthMore)
	gain := func(at float64) float64 { return curve.Predict(at) - curve.Predict(at+step) }
	last := x[len(x)-1] - step
	if gain(last) >= littleGain {
		return 0
	}
	// Down from the end to where the gain is first large, then between the two.
	const fine = 200
	low, high := x[0], last
	for i := range fine + 1 {
		at := last - (last-x[0])*float64(i)/fine
		if gain(at) >= littleGain {
			low = at
			break
		}
		high = at
	}
	if high <= x[0] {
		return math.Exp(x[0])
	}
	for range 40 {
		mid := (low + high) / 2
		if gain(mid) >= littleGain {
			low = mid
		} else {
			high = mid
		}
	}
	return math.Exp(high)
}

// limitTol is how near a limit the torque below which it is passed is sought, K.
const limitTol = 0.01

// leastTorque finds the torque below which a limit is passed, by halving
// between two points of the sweep until the hottest side is within limitTol of
// the limit.
func (q *torqueQuestion) leastTorque(ctx context.Context, c *TorqueCurve, state *materials.FaceState) error {
	last := -1
	for i, p := range c.Points {
		if p.Passes() {
			last = i
		}
	}
	if last < 0 {
		return nil
	}
	low := c.Points[last]
	c.Passed = low.Tightest
	if last == len(c.Points)-1 {
		c.Always = true
		return nil
	}
	high := c.Points[last+1]
	for range 40 {
		if high.Tightest == nil || high.Tightest.Left < limitTol {
			break
		}
		p, err := q.try(ctx, q.with(q.bolt, func(b *model.Bolt) { b.Torque = between(low, high) }, state))
		if err != nil {
			return err
		}
		if p.Passes() {
			low = p
		} else {
			high = p
		}
	}
	c.Least = high.Torque
	if high.Tightest != nil {
		c.Passed = high.Tightest
	}
	return nil
}

// between is where, in the logarithm of the torque, the straight line between
// two margins of unlike sign meets zero, kept off both ends; the middle where
// one end has no margin.
func between(low, high TorquePoint) float64 {
	share := 0.5
	if low.Tightest != nil && low.Lasts() {
		share = low.Tightest.Left / (low.Tightest.Left - high.Tightest.Left)
	}
	share = math.Min(math.Max(share, 0.02), 0.98)
	return low.Torque * math.Pow(high.Torque/low.Torque, share)
}

// changes tells the torques that the first lines name: the likely change off
// the file's curve, the careless one by solving with the ranges of the file.
func (q *torqueQuestion) changes(ctx context.Context, out *Torque) error {
	own := out.OwnCurve()
	base := own.Stated()
	named := []TorquePoint{base}
	for _, name := range []string{HalfTorque, FingerTight, AFifthMore} {
		for _, p := range own.Points {
			if p.Name == name {
				named = append(named, p)
			}
		}
	}
	careless := make([]TorquePoint, len(named))
	err := abreast(len(named), func(i int) error {
		var err error
		careless[i], err = q.tryAt(ctx, q.with(q.bolt, func(b *model.Bolt) { b.Torque = named[i].Torque }, nil), model.Careless)
		return err
	})
	if err != nil {
		return err
	}
	for i, p := range named[1:] {
		change := TorqueChange{Name: p.Name, Torque: p.Torque, Ends: p.Ends, CarelessEnds: careless[i+1].Ends}
		if p.Lasts() && base.Lasts() {
			change.Change = float64(p.Hottest - base.Hottest)
		}
		switch {
		case !careless[0].Lasts():
			change.CarelessEnds = careless[0].Ends
		case careless[i+1].Lasts():
			change.Careless = float64(careless[i+1].Hottest - careless[0].Hottest)
		}
		out.Changes = append(out.Changes, change)
	}
	out.Meter, out.MeterCareless = base.FaceDrop, careless[0].FaceDrop
	return nil
}

// scatter solves both ends of what a wrench and the hand alone may give.
func (q *torqueQuestion) scatter(ctx context.Context, out *Torque, state *materials.FaceState) error {
	for _, name := range []string{"torque wrench", "by feel"} {
		t, err := materials.LookupTightening(name)
		if err != nil {
			return err
		}
		source := t.Source.Cite
		if t.Ground != "" {
			source += "; " + t.Ground
		}
		out.Bands = append(out.Bands, TorqueBand{Name: t.Name, Low: t.ClampFactor.Low, High: t.ClampFactor.High, Source: source})
	}
	return abreast(2*len(out.Bands), func(k int) error {
		band := &out.Bands[k/2]
		factor, at := band.Low, &band.Loose
		if k%2 == 1 {
			factor, at = band.High, &band.Tight
		}
		p, err := q.try(ctx, q.with(q.bolt, func(b *model.Bolt) { b.Tightening.ClampFactor = materials.Exactly(factor) }, state))
		*at = p
		return err
	})
}
