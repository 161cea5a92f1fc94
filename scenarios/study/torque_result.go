package study

import "clampheat/scenarios/quantity"

// This file declares what the question of one nut's torque is answered with.

// Torque is what the torque on one nut does to the hottest terminal of a
// stack, over the torques that its thread bears and the states of its faces.
type Torque struct {
	Conditions
	Nut      string `json:"nut"`
	Asked    bool   `json:"-"` // the user named the nut
	Fastener string `json:"fastener"`
	Class    string `json:"property_class"`
	Thread   string `json:"thread"`
	// Others are the nuts that were not swept, in the order of the path, with
	// what half their torque would cost.
	Others []NutWorth `json:"other_nuts"`

	// Through is the current in the joints under the nut at the stated torque,
	// where it is not what is drawn: where the current divides, or a power is drawn.
	Through float64 `json:"current_through_nut_A,omitempty"`
	Stated  float64 `json:"stated_torque_Nm"`
	Yield   float64 `json:"yield_torque_Nm"`
	Share   float64 `json:"share_of_yield"`
	Highest float64 `json:"highest_torque_Nm"` // the sweep's end
	// Finger is what fingers without a tool give; 0 where the stated torque is
	// no more than that.
	Finger float64 `json:"finger_tight_torque_Nm,omitempty"`

	Hottest  Span    `json:"hottest_terminal"`
	Tightest *Margin `json:"tightest_limit,omitempty"`
	// Changes of the torque alone, faces as in the file.
	Changes []TorqueChange `json:"changes"`
	// Curves by the state of the faces; Own is the index of the one that the
	// file means. All have the same torques.
	Curves []TorqueCurve `json:"curves"`
	Own    int           `json:"own_curve"`
	Bands  []TorqueBand  `json:"tightening_scatter"`
	// Meter is what a voltmeter across the worst face under the nut shows at
	// the current and the stated torque, likely and at the bad end of what
	// assembly leaves open.
	Meter         float64 `json:"meter_V"`
	MeterCareless float64 `json:"meter_careless_V,omitempty"`
	// Spoiled are other ways in which the same joint is made worse, at the
	// same current.
	Spoiled  []SpoiledJoint `json:"spoiled"`
	Touch    *TouchCaution  `json:"touch_caution,omitempty"`
	Warnings []string       `json:"warnings"`
}

// NutWorth is a nut and by how much half its torque heats the hottest
// terminal, K.
type NutWorth struct {
	Nut    string  `json:"nut"`
	Half   float64 `json:"half_torque_costs_K"`
	NoLast bool    `json:"half_torque_has_no_lasting_state,omitempty"`
}

// The changes of torque that the first lines tell.
const (
	FingerTight  = "finger-tight"
	HalfTorque   = "half torque"
	AFifthMore   = "20 % more torque"
	StatedTorque = "stated"
)

// TorqueChange is a torque beside the stated one and what it changes.
type TorqueChange struct {
	Name   string  `json:"name"`
	Torque float64 `json:"torque_Nm"`
	Change float64 `json:"change_K"` // of the hottest terminal
	// Careless is the change where all joints and the fuse are at the bad end
	// of their ranges; 0 where those have no lasting state, which CarelessEnds
	// then says.
	Careless     float64 `json:"change_careless_K,omitempty"`
	Ends         string  `json:"no_lasting_state,omitempty"` // in words, in place of a change
	CarelessEnds string  `json:"no_lasting_state_careless,omitempty"`
}

// TorqueCurve is the sweep at one state of the faces.
type TorqueCurve struct {
	Faces  string        `json:"faces"`
	Points []TorquePoint `json:"points"` // torques rise
	// Enough is the torque past which 10 % more gains less than 1 K: the
	// sweep's beginning where that is so from there on, 0 where it is not so
	// before its end.
	Enough float64 `json:"little_gained_above_Nm,omitempty"`
	// Least is the torque below which a limit is passed, Passed that limit
	// there; 0 and nil where none is. Always: it is passed at every torque.
	Least  float64    `json:"limit_passed_below_Nm,omitempty"`
	Always bool       `json:"limit_passed_at_every_torque,omitempty"`
	Passed *NearLimit `json:"limit_passed,omitempty"`
}

// TorquePoint is the settled stack at one torque on the nut.
type TorquePoint struct {
	Name   string  `json:"name,omitempty"` // of a point that a table shows
	Torque float64 `json:"torque_Nm"`
	Clamp  float64 `json:"clamp_N"`
	Share  float64 `json:"share_of_yield"`
	// Of all faces under the nut in series, hot; Heat is made in them.
	Resistance float64 `json:"faces_ohm,omitempty"`
	Drop       float64 `json:"faces_V,omitempty"`
	Heat       float64 `json:"faces_W,omitempty"`
	// Of the worst single face, as a meter across it shows them.
	FaceResistance float64       `json:"worst_face_ohm,omitempty"`
	FaceDrop       float64       `json:"worst_face_V,omitempty"`
	Hottest        quantity.Temp `json:"hottest_terminal_C,omitempty"`
	Place          string        `json:"hottest_terminal_at,omitempty"`
	Tightest       *NearLimit    `json:"tightest_limit,omitempty"`
	// Ends says in words why there is no lasting state; the figures of the hot
	// stack are then 0.
	Ends string `json:"no_lasting_state,omitempty"`
}

// NearLimit is the limit with the least left at a point.
type NearLimit struct {
	Place  string        `json:"place"`
	Name   string        `json:"name"`
	Source string        `json:"source"`
	Limit  quantity.Temp `json:"limit_C"`
	Left   float64       `json:"left_K"` // negative where it is passed
}

// Lasts says whether the stack settles at the point.
func (p TorquePoint) Lasts() bool { return p.Ends == "" }

// Passes says whether a limit is passed at the point, or there is no lasting
// state.
func (p TorquePoint) Passes() bool {
	return !p.Lasts() || (p.Tightest != nil && p.Tightest.Left < 0)
}

// TorqueBand is the clamp force that a way of tightening may really give at
// the stated torque, and the stack at its two ends.
type TorqueBand struct {
	Name   string      `json:"tightening"`
	Low    float64     `json:"clamp_factor_low"` // over the clamp force aimed at
	High   float64     `json:"clamp_factor_high"`
	Loose  TorquePoint `json:"least_clamp"`
	Tight  TorquePoint `json:"most_clamp"`
	Source string      `json:"source"`
}

// SpoiledJoint is the joint made worse in one way.
type SpoiledJoint struct {
	Name   string      `json:"name"`
	Point  TorquePoint `json:"point"`
	Change float64     `json:"change_K"` // against the stated torque, faces as in the file
	Source string      `json:"source"`
	// Breaks says in words that the thread would yield.
	Breaks string `json:"thread_yields,omitempty"`
}

// Stated is the point of the stated torque on a curve.
func (c TorqueCurve) Stated() TorquePoint {
	for _, p := range c.Points {
		if p.Name == StatedTorque {
			return p
		}
	}
	return TorquePoint{}
}

// OwnCurve is the curve of the faces as the file has them.
func (t *Torque) OwnCurve() TorqueCurve { return t.Curves[t.Own] }
