package validation

import (
	"context"
	"fmt"
	"math"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/scenarios"
)

// This file holds what the torque on a nut does to its joint against the
// world outside. No published table of torque against the ohms of a joint is
// known, so that exponents, ratios and rules of acceptance stand in for one.

const (
	torqueShareIn = "torque over the stated"
	acceptRule    = "ANSI/NETA MTS, acceptance of bolted connections" + fromMemory
)

func torqueCases() ([]Case, error) {
	data, err := scenarios.Example("compact")
	if err != nil {
		return nil, err
	}
	sc, err := scenarios.Read("compact", data)
	if err != nil {
		return nil, err
	}
	feed := &nutStack{sc: sc}
	if feed.stack, err = sc.Stack(nil); err != nil {
		return nil, err
	}
	var cases []Case
	for _, group := range []func() ([]Case, error){feed.scatterCases, feed.acceptanceCases, feed.exponentCases, feed.washerCases, softeningCases} {
		more, err := group()
		if err != nil {
			return nil, err
		}
		cases = append(cases, more...)
	}
	return cases, nil
}

// nutStack is a shipped stack whose nuts are turned. Its holder's nut presses
// two pairs of faces, the nut at its end one.
type nutStack struct {
	sc    *scenarios.Scenario
	stack *model.Stack
}

// The nuts of the stack that are looked at.
const (
	holderNut   = "compact holder, nut"
	inverterNut = "inverter terminal M8, nut"
)

// ohms is the resistance, Ω at 20 °C, of all faces under a nut of a stack at a
// share of its torque, with the faces in a state; "" leaves them.
func (n *nutStack) ohms(from *model.Stack, nut string, share float64, state string) (float64, error) {
	s := *from
	s.Bolts = append([]model.Bolt(nil), s.Bolts...)
	s.Joints = append([]model.Joint(nil), s.Joints...)
	sum := 0.0
	for i := range s.Joints {
		j := &s.Joints[i]
		if j.Kind != model.Bolted || s.Bolts[j.Bolt].Name != nut {
			continue
		}
		s.Bolts[j.Bolt].Torque = from.Bolts[j.Bolt].Torque * share
		if state != "" {
			if err := find(&j.Face.State, materials.LookupFaceState, state); err != nil {
				return 0, err
			}
		}
		f, err := s.JointFigures(i)
		if err != nil {
			return 0, err
		}
		sum += f.Resistance.Likely
	}
	if sum == 0 {
		return 0, fmt.Errorf("the stack has no faces under %q", nut)
	}
	return sum, nil
}

// scatterCases hold the scatter of a torque wrench against a tightening factor
// worked out in print.
func (n *nutStack) scatterCases() ([]Case, error) {
	wrench, err := materials.LookupTightening("torque wrench")
	if err != nil {
		return nil, err
	}
	const most = "greatest clamp, kN"
	return []Case{{
		Group: "torque", Name: "scatter/torque wrench", Kind: Published,
		Claim:  "least clamp of a wrench whose greatest is known",
		Source: "fastener supplier's tables to VDI 2230, tightening factor 1.8 worked out",
		Inputs: Inputs{most: 41.9}, Breaks: most, Unit: "kN", Want: 23.3, Tol: Rel(23.3, 0.11),
		Why: "factors of 1.6 to 2.0 go with a wrench where the friction is estimated: ±11 % about 1.8",
		Got: func(_ context.Context, in Inputs) (float64, error) {
			return in[most] * wrench.ClampFactor.Low / wrench.ClampFactor.High, nil
		},
	}}, nil
}

// acceptanceCases ask a rule of acceptance what it would say: a joint is looked
// into when its ohms are 50 % above those of its best fellow. One tightened to
// the low end of a wrench's scatter should pass, one at half its torque fail.
func (n *nutStack) acceptanceCases() ([]Case, error) {
	got := func(_ context.Context, in Inputs) (float64, error) {
		stated, err := n.ohms(n.stack, holderNut, 1, "")
		if err != nil {
			return 0, err
		}
		less, err := n.ohms(n.stack, holderNut, in[torqueShareIn], "")
		return less / stated, err
	}
	base := Case{Group: "torque", Kind: Published, Source: acceptRule, Unit: "1", Breaks: torqueShareIn, Got: got}
	low, half := base, base
	low.Name, low.Claim = "acceptance/low end of a wrench", "ohms over those at the stated torque: not looked into"
	low.Inputs, low.Want, low.Tol = Inputs{torqueShareIn: 0.7}, 1.25, Abs(0.25, "")
	low.Why = "from the stated joint's to the 1.5 at which the rule asks"
	half.Name, half.Claim = "acceptance/half torque", "ohms over those at the stated torque: looked into"
	half.Inputs, half.Want = Inputs{torqueShareIn: 0.5}, 2
	half.Tol = Tolerance{-0.5, 0.1, "1.5 … 2.1"}
	half.Why = "from the 1.5 at which the rule asks to the inverse of the force, which flat faces reach"
	return []Case{low, half}, nil
}

// exponentCases are the exponents m of R ∝ F^−m that the joint's relations
// come to, from half the stated torque to the stated one.
func (n *nutStack) exponentCases() ([]Case, error) {
	exponent := func(state string) func(context.Context, Inputs) (float64, error) {
		return func(_ context.Context, in Inputs) (float64, error) {
			high, err := n.ohms(n.stack, holderNut, in[torqueShareIn], state)
			if err != nil {
				return 0, err
			}
			low, err := n.ohms(n.stack, holderNut, 1, state)
			return math.Log(high/low) / math.Log(1/in[torqueShareIn]), err
		}
	}
	base := Case{Group: "torque", Kind: Published, Unit: "1", Reported: true, Inputs: Inputs{torqueShareIn: 0.5}}
	var cases []Case
	for _, state := range []string{"brushed", "as received", "tarnished"} {
		c := base
		c.Name = "exponent/handbooks, " + state
		c.Claim = "exponent of clamp for faces of bars, middle of 0.5 to 0.7"
		c.Source = "online reference work on electrical contacts, contact resistance by the power law of Babikov"
		c.Want, c.Got = 0.6, exponent(state)
		c.Note = "The law is stated for 10 to 200 N and bare metals, and for flat faces with 1; here soft tin touches over a good part of the clamped ring, where the crowding falls away"
		cases = append(cases, c)
	}
	c := base
	c.Name, c.Claim = "exponent/bolted bars as measured", "exponent of clamp, middle of the 0.1 to 1.0 measured"
	c.Source = "Slade (ed.), Electrical Contacts, 2nd ed. 2014, chapter 5"
	c.Want, c.Got = 0.55, exponent("as received")
	c.Note = "Measured on bars of aluminium and copper, bare, coated and greased; the span says how far joints differ"
	return append(cases, c), nil
}

// washerCases hold a steel washer between lug and terminal against what was
// read in the field.
func (n *nutStack) washerCases() ([]Case, error) {
	washer := scenarios.Item{Kind: "steel washer", Of: scenarios.Word{Text: "M8", Set: true}}
	spoiled := n.sc.WithItem(len(n.sc.File.Path)-1, washer)
	stack, err := spoiled.Stack(nil)
	if err != nil {
		return nil, err
	}
	return []Case{{
		Group: "torque", Name: "steel washer/lug on a terminal", Kind: Practice, Reported: true,
		Claim:  "ohms of the faces with a wrong washer over those without: 14 µΩ after 1.7 to 3.3 µΩ",
		Source: practiceSource,
		Inputs: Inputs{torqueShareIn: 1}, Unit: "1", Want: 14 / 2.5,
		Note: "Field readings of a few joints of another size, whose washers and torques are not told; the steel's own ohms are not counted here",
		Got: func(_ context.Context, in Inputs) (float64, error) {
			without, err := n.ohms(n.stack, inverterNut, in[torqueShareIn], "")
			if err != nil {
				return 0, err
			}
			with, err := n.ohms(stack, inverterNut, in[torqueShareIn], "")
			return with / without, err
		},
	}}, nil
}

// softeningCases hold the voltages at which the spots of a metal soften
// against the temperatures at which it does.
func softeningCases() ([]Case, error) {
	var cases []Case
	for _, row := range []struct {
		plating string
		softens float64 // °C
	}{
		{"bare copper", 190}, {"silver", 180}, {"tin", 100}, {"bare aluminium", 150}, {"nickel", 520}, {"zinc", 170},
	} {
		p, err := materials.LookupPlating(row.plating)
		if err != nil {
			return nil, err
		}
		const bulk = "bulk, K"
		cases = append(cases, Case{
			Group: "torque", Name: "softening voltage/" + row.plating, Kind: Published, Reported: true,
			Claim:  "spots at the measured softening voltage are as hot as the metal softens",
			Source: holmBook + fromMemory,
			Inputs: Inputs{voltsIn: p.Softening, bulk: materials.ReferenceTemp}, Unit: "K", Want: row.softens + celsius,
			Note: "Voltages to one or two digits, and softening has no sharp point; one Lorenz number for all metals",
			Got: func(_ context.Context, in Inputs) (float64, error) {
				return model.SpotTemperature(in[bulk], in[voltsIn]), nil
			},
		})
	}
	return cases, nil
}
