package study

import "clampheat/scenarios/quantity"

// This file declares the result of RunDuty.

// Duty is a stack whose load repeats, once each period is like the one before.
// Of its conditions, current and power are the largest of the period.
type Duty struct {
	Conditions
	Period float64 `json:"period_s"`
	// Rms is the steady current that heats as much, Mean the mean one, A; of all
	// draws together.
	Rms  float64 `json:"rms_current_A"`
	Mean float64 `json:"mean_current_A"`
	// Hottest is the hottest terminal at its peak, which it has at PeakAt of each
	// period; rises are above the air of that moment.
	Hottest  Span         `json:"hottest_terminal"`
	PeakAt   float64      `json:"hottest_terminal_at_s"`
	Tightest *Margin      `json:"tightest_limit,omitempty"`
	Margins  []Margin     `json:"limits"` // judged at the peaks
	ByRms    Rule         `json:"rms_rule"`
	ByMean   Rule         `json:"mean_rule"`
	Places   []DutyPlace  `json:"places"`
	Aside    []string     `json:"-"`                 // ways side by side that a short table leaves out
	Element  *DutyPlace   `json:"element,omitempty"` // the hottest of a fuse
	Fuses    []FuseSizing `json:"fuses"`             // each at the rms of its own current
	Ways     []DutyWay    `json:"branches,omitempty"`
	Times    []float64    `json:"times_s"` // over one period
	Currents []float64    `json:"currents_A"`
	// Powers and Airs are given where they count.
	Powers []float64       `json:"powers_W,omitempty"`
	Airs   []quantity.Temp `json:"airs_C,omitempty"`
	Series []Series        `json:"series"`
	// Made, Lost and Stored are over one period.
	Made   float64 `json:"made_J"`
	Lost   float64 `json:"lost_J"`
	Stored float64 `json:"stored_J"`
	// Periods is how many were followed to find the cycle. Settles is how many a
	// stack that is switched on takes until 1 % of the way to it is left, 0 where
	// the first does it.
	Periods  int           `json:"periods_followed"`
	Settles  int           `json:"periods_until_1_percent_left"`
	Closes   float64       `json:"closes_to_K"` // the largest change over the period
	Touch    *TouchCaution `json:"touch_caution,omitempty"`
	Warnings []string      `json:"warnings"`
	Numerics Numerics      `json:"numerics"`
}

// DutyPlace is a place over a period.
type DutyPlace struct {
	Name     string        `json:"name"`
	Kind     string        `json:"kind"`
	Terminal bool          `json:"terminal"`
	Way      string        `json:"way,omitempty"`
	Peak     quantity.Temp `json:"peak_C"`
	PeakAt   float64       `json:"peak_at_s"`
	Mean     quantity.Temp `json:"mean_C"`
	Lowest   quantity.Temp `json:"lowest_C"`
	// Rms and Even are its settled temperatures under the rms and the mean
	// current; 0 where that has no lasting state.
	Rms  quantity.Temp `json:"settled_at_rms_C,omitempty"`
	Even quantity.Temp `json:"settled_at_mean_C,omitempty"`
}

// Rule is what one steady current in place of the cycle would say.
type Rule struct {
	Current float64 `json:"current_A"`
	// Air is that in which it is taken: of air that changes, that of the hottest
	// terminal's peak.
	Air quantity.Temp `json:"air_C"`
	// Temp is the hottest terminal, at Place, left on at that current.
	Temp  quantity.Temp `json:"hottest_terminal_C,omitempty"`
	Place string        `json:"hottest_terminal,omitempty"`
	// Short is by how much the rule falls short of the peak of the hottest
	// terminal, negative where it says more; Worst by how much at the place, WorstAt,
	// where it falls short most.
	Short   float64 `json:"short_K"`
	Worst   float64 `json:"short_at_worst_K"`
	WorstAt string  `json:"worst_place,omitempty"`
	// None says in words that the current has no lasting state.
	None string `json:"no_lasting_state,omitempty"`
}

// Exit says which exit status a result asks for, as Steady.Exit.
func (d *Duty) Exit() int { return exit(d.Margins) }
