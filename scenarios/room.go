package scenarios

import (
	"math"

	"clampheat/model"
	"clampheat/scenarios/quantity"
)

// This file sets what drives a stack: the air of the room and the supply.

// room sets the surroundings.
func (r *resolver) room() {
	f, s := r.file, &r.stack.Surroundings
	s.Air, s.Radiant = f.Air.Value, f.Radiant.Value
	if !f.Radiant.Set {
		s.Radiant = s.Air
		r.defaultWord("surroundings", "surroundings", "radiant")
	}
	if f.Air.Course.Set {
		// What is added to the highest temperature is added to all of the course.
		course := f.Air.Course
		r.stack.Course = r.overTime(&course, f.Air.Value-course.highest())
		if !f.Radiant.Set {
			s.Radiant = 0 // the walls follow the air
		}
	}
	s.AirSpeed = f.AirSpeed.Value
	if !f.AirSpeed.Set {
		r.defaultWord("surroundings", "surroundings", "air")
	}
	s.Altitude = f.Altitude.Value
	if !f.Altitude.Set {
		s.Altitude = r.spanOf("surroundings", "surroundings", "altitude", quantity.Altitude).Likely
	}
}

// highest is the highest value of a supply.
func (s *Supply) highest() float64 {
	most := math.Inf(-1)
	for _, step := range s.Steps {
		most = math.Max(most, math.Max(step.From, step.To))
	}
	return most
}

// supply sets the ripple and the current over time; of a power the current at
// the voltage of the bank, and of circuits the sum.
func (r *resolver) supply() {
	f := r.file
	r.stack.Ripple = f.Ripple.Value
	if !f.Ripple.Set {
		r.stack.Ripple = r.spanOf("supply", "supply", "ripple", quantity.Share).Likely
	}
	load := f.Load()
	switch {
	case load != nil && load.Kind == quantity.Power:
		if v := r.sourceVoltage(); v > 0 {
			r.stack.Supply = model.Scaled(r.overTime(load, 0), 1/v)
		}
	case load != nil:
		r.stack.Supply = r.overTime(load, 0)
	case f.hasCircuits():
		var all []model.Supply
		for w := range f.Ways {
			if own := &f.Ways[w].Current; own.Set && !f.taken[w] {
				all = append(all, r.overTime(own, 0))
			}
		}
		r.stack.Supply = model.Sum(all...)
	}
}

// overTime makes a supply of steps, each with more added.
func (r *resolver) overTime(s *Supply, more float64) model.Supply {
	if len(s.Steps) == 1 && s.Steps[0].From == s.Steps[0].To && math.IsInf(s.Steps[0].For, 1) {
		return model.Constant(s.Steps[0].To + more)
	}
	pieces := make([]model.Piece, len(s.Steps))
	for i, step := range s.Steps {
		pieces[i] = model.Piece{From: step.From + more, To: step.To + more, For: step.For}
	}
	var schedule model.Supply
	var err error
	if s.Repeats {
		schedule, err = model.NewCycle(pieces...)
	} else {
		schedule, err = model.NewSchedule(pieces...)
	}
	if err != nil {
		r.complain(r.file.problemAt(s.Pos, "%v", err))
		return model.Constant(0)
	}
	return schedule
}
