package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
)

// TorqueOptions says which nut is asked about.
type TorqueOptions struct {
	// Nut is the name of a nut, or of the part that owns it where that has
	// one nut only. "" takes the nut whose half torque costs most.
	Nut string
}

// UnknownNutError is a nut that the stack does not have, or a name that fits
// several.
type UnknownNutError struct {
	Name string
	Nuts []string // all of the stack, or those that the name fits
	Fits bool     // the name fits all of Nuts
}

func (e *UnknownNutError) Error() string {
	switch {
	case len(e.Nuts) == 0:
		return "the stack has no nut: there is no torque to ask about"
	case e.Fits:
		return fmt.Sprintf("%q has several nuts: %s", e.Name, quoted(e.Nuts))
	}
	return fmt.Sprintf("there is no nut %q; the stack has %s", e.Name, quoted(e.Nuts))
}

func quoted(names []string) string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = fmt.Sprintf("%q", n)
	}
	return strings.Join(out, ", ")
}

// RunTorque answers what the torque on one nut does to the hottest terminal:
// over the torques from finger-tight to half as much again as stated, or to
// what the thread holds where that is less, at three states of the faces.
//
// Its errors are *scenarios.Problems for a file that cannot be used,
// *UnknownNutError, *NoAnswerError where the stack has no lasting state as the
// file has it, or the context's.
func RunTorque(ctx context.Context, sc *scenarios.Scenario, opt TorqueOptions) (*Torque, error) {
	stack, err := leftOn(sc, nil)
	if err != nil {
		return nil, err
	}
	if len(stack.Bolts) == 0 {
		return nil, &UnknownNutError{Name: opt.Nut}
	}
	q := &torqueQuestion{sc: sc, stack: stack}
	out := &Torque{Warnings: []string{}}
	likely, err := q.headline(ctx, out)
	if err != nil {
		return nil, err
	}
	if err := q.choose(ctx, opt.Nut, out); err != nil {
		return nil, err
	}
	if len(likely.assembly.Draws) > 0 {
		for i, r := range likely.assembly.Rows {
			if r.Kind == model.JointRow && r.Bolt == q.bolt {
				out.Through = math.Max(out.Through, math.Abs(likely.assembly.RowCurrent(i, 0, likely.x)))
			}
		}
	}
	if err := q.describe(out); err != nil {
		return nil, err
	}
	if err := q.sweep(ctx, out); err != nil {
		return nil, err
	}
	return out, nil
}

// torqueQuestion is one stack and the nut that is asked about.
type torqueQuestion struct {
	sc    *scenarios.Scenario
	stack *model.Stack
	bolt  int
}

// headline solves the stack as the file has it, with its range.
func (q *torqueQuestion) headline(ctx context.Context, out *Torque) (*state, error) {
	var ends [3]*state
	errs := [3]error{}
	each := [3]model.Condition{model.Likely, model.Careful, model.Careless}
	err := abreast(len(each), func(i int) error {
		ends[i], errs[i] = settle(ctx, q.stack, each[i], model.Mesh{})
		return nil
	})
	if err != nil {
		return nil, err
	}
	var none *NoAnswerError
	for i, err := range errs {
		if err != nil && (i < 2 || !errors.As(err, &none)) {
			return nil, err
		}
	}
	likely := ends[0]
	out.Conditions = likely.conditions(q.sc)
	hot, err := likely.hottest()
	if err != nil {
		return nil, err
	}
	air := q.stack.Surroundings.Air
	names := rowNames(likely.assembly)
	out.Hottest = Span{Place: names[hot], Temp: temp(likely.temp(hot)), Rise: likely.temp(hot) - air}
	out.Hottest.Careful = temp(ends[1].temp(ends[1].assembly.HottestTerminal(ends[1].x)))
	careless := func(int) float64 { return math.Inf(1) }
	if none != nil {
		out.Hottest.CarelessEnds = none.Text
	} else {
		out.Hottest.Careless = temp(ends[2].temp(ends[2].assembly.HottestTerminal(ends[2].x)))
		careless = ends[2].temp
	}
	_, margins := tightest(bounds(q.sc, likely.assembly, air), func(i int) string { return names[i] }, likely.temp, careless)
	out.Tightest = least(margins)
	out.Touch = touchCaution(likely.temp(hot))
	return likely, nil
}

// choose finds the nut that is asked about, and what half the torque of each
// would cost.
func (q *torqueQuestion) choose(ctx context.Context, name string, out *Torque) error {
	nuts := make([]string, len(q.stack.Bolts))
	for i, b := range q.stack.Bolts {
		nuts[i] = b.Name
	}
	chosen := -1
	if name != "" {
		fits := fitting(name, nuts)
		switch {
		case len(fits) == 0:
			return &UnknownNutError{Name: name, Nuts: nuts}
		case len(fits) > 1:
			return &UnknownNutError{Name: name, Nuts: pick(nuts, fits), Fits: true}
		}
		chosen, out.Asked = fits[0], true
	}
	base := float64(out.Hottest.Temp)
	worth := make([]NutWorth, len(nuts))
	err := abreast(len(nuts), func(i int) error {
		worth[i].Nut = nuts[i]
		s := q.with(i, func(b *model.Bolt) { b.Torque /= 2 }, nil)
		half, err := settle(ctx, s, model.Likely, model.Mesh{})
		var none *NoAnswerError
		switch {
		case errors.As(err, &none):
			worth[i].Half, worth[i].NoLast = maxLeft, true
		case err != nil:
			return err
		default:
			worth[i].Half = half.temp(half.assembly.HottestTerminal(half.x)) - base
		}
		return nil
	})
	if err != nil {
		return err
	}
	if chosen < 0 {
		chosen = 0
		for i := range worth {
			if worth[i].Half > worth[chosen].Half {
				chosen = i
			}
		}
	}
	q.bolt, out.Nut = chosen, nuts[chosen]
	out.Others = append(append([]NutWorth{}, worth[:chosen]...), worth[chosen+1:]...)
	return nil
}

// fitting lists the nuts that a name means: the one of that name, or those of
// the part of that name; letter case aside.
func fitting(name string, nuts []string) []int {
	want := strings.ToLower(strings.TrimSpace(name))
	var parts []int
	for i, nut := range nuts {
		nut = strings.ToLower(nut)
		// "compact holder, nut, base side" is also "compact holder, base side".
		if nut == want || strings.Replace(nut, nutWord, "", 1) == want {
			return []int{i}
		}
		if part, _, _ := strings.Cut(nut, nutWord); part == want {
			parts = append(parts, i)
		}
	}
	return parts
}

// nutWord parts the name of a nut's part from its side.
const nutWord = ", nut"

func pick(names []string, at []int) []string {
	out := make([]string, len(at))
	for i, k := range at {
		out[i] = names[k]
	}
	return out
}

// describe fills in the nut and the torques of the sweep.
func (q *torqueQuestion) describe(out *Torque) error {
	b := &q.stack.Bolts[q.bolt]
	f, err := q.stack.BoltFigures(q.bolt)
	if err != nil {
		return fmt.Errorf("the clamp force of %s: %w", b.Name, err)
	}
	item := &q.sc.File.Path[q.sc.BoltItems[q.bolt]]
	for _, torque := range append(item.Nuts, item.Nut) {
		if torque.Set {
			out.TorqueUnit = torque.Unit
			break
		}
	}
	out.Fastener, out.Class, out.Thread = b.Fastener.Name, b.Class.Name, b.Thread.Name
	out.Stated, out.Yield, out.Share = b.Torque, f.Yield, f.Utilisation
	out.Highest = math.Max(b.Torque, math.Min(mostTorque*b.Torque, f.Yield))
	if finger := fingerTight(b.Fastener); finger < b.Torque/2 {
		out.Finger = finger
	}
	for _, w := range f.Warnings {
		out.Warnings = append(out.Warnings, w.String())
	}
	reading := 0.0 // Ω, of all faces under the nut
	for i := range q.stack.Joints {
		if j := &q.stack.Joints[i]; j.Bolt == q.bolt && j.Kind == model.Bolted && j.Measured != nil {
			reading += j.Measured.Resistance
		}
	}
	if reading > 0 {
		out.Warnings = append(out.Warnings, fmt.Sprintf(
			"%s: the file's measured %.3g µΩ stands for the stated torque and changes with it as the prediction does; cleaner faces are predicted", b.Name, reading*1e6))
	}
	return nil
}

// mostTorque is the end of the sweep over the stated torque, where the thread
// holds as much.
const mostTorque = 1.5

// pinch is the force of thumb and finger, N: the mean tip pinch of men of 20
// to 59 years is 17 to 18 lb (Mathiowetz et al., Grip and pinch strength:
// normative data for adults, Arch. Phys. Med. Rehabil. 66 (1985) 69–74; from
// memory).
const pinch = 78

// fingerTight is the torque, N·m, that fingers without a tool give a nut: the
// pinch as a couple across its bearing face. That the couple is as large as
// the pinch is an assumption; common practice takes some 1 N·m for M8.
func fingerTight(f materials.Fastener) float64 { return pinch * f.HeadDiameter }

// with is the stack with the bolt changed and, where state is not nil, with
// the faces under it in that state.
func (q *torqueQuestion) with(bolt int, change func(*model.Bolt), state *materials.FaceState) *model.Stack {
	return changedNut(q.stack, bolt, change, state)
}

// changedNut keeps what was measured of a joint for as much as its prediction
// changes; faces cleaner than those that were measured are predicted. A figure
// that cannot be had keeps the measure: its fault shows again where the stack is
// put together.
func changedNut(from *model.Stack, bolt int, change func(*model.Bolt), state *materials.FaceState) *model.Stack {
	s := *from
	s.Bolts = append([]model.Bolt(nil), s.Bolts...)
	s.Joints = append([]model.Joint(nil), s.Joints...)
	if change != nil {
		change(&s.Bolts[bolt])
	}
	for i := range s.Joints {
		j := &s.Joints[i]
		if j.Kind != model.Bolted || j.Bolt != bolt {
			continue
		}
		cleaner := state != nil && state.Film.Likely < j.Face.State.Film.Likely
		if state != nil {
			j.Face.State = *state
		}
		switch {
		case j.Measured == nil:
		case cleaner:
			j.Measured = nil
		default:
			before, errBefore := asPredicted(from, i)
			after, errAfter := asPredicted(&s, i)
			if errBefore == nil && errAfter == nil {
				m := *j.Measured
				m.Resistance *= after / before
				j.Measured = &m
			}
		}
	}
	return &s
}

// asPredicted is the likely resistance, Ω, of a joint as if it were not measured.
func asPredicted(stack *model.Stack, joint int) (float64, error) {
	bare := *stack
	bare.Joints = slices.Clone(stack.Joints)
	bare.Joints[joint].Measured = nil
	f, err := bare.JointFigures(joint)
	return f.Resistance.Likely, err
}

// NutOwners are the parts that the nuts of a list belong to, each once, by
// which a nut may also be named where its part has no other.
func NutOwners(nuts []string) []string {
	var out []string
	for _, nut := range nuts {
		if part, _, _ := strings.Cut(nut, nutWord); !slices.Contains(out, part) {
			out = append(out, part)
		}
	}
	return out
}
