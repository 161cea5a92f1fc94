package study

import (
	"clampheat/materials"
	"clampheat/scenarios/quantity"
)

// This file declares the one result type of each study. Every output reads
// these: text, CSV, JSON and charts. The unit stands in each JSON key;
// temperatures are kelvin inside and °C in JSON (quantity.Temp).

// Row is one line of the way of the current at a state.
type Row struct {
	Kind       string        `json:"kind"` // part, terminal, element, joint, body
	Name       string        `json:"name"`
	Way        string        `json:"way,omitempty"`       // of several, the one that it lies on
	Current    float64       `json:"current_A,omitempty"` // of its own, where the current divides; negative against the way
	Terminal   bool          `json:"terminal"`
	Temp       quantity.Temp `json:"temp_C"` // of a joint: the mean of its two sides
	Rise       float64       `json:"rise_K"`
	Resistance float64       `json:"resistance_ohm"` // at its temperature; 0 where the row carries none
	Drop       float64       `json:"drop_V"`
	Heat       float64       `json:"heat_W"`
	Limit      *Margin       `json:"limit,omitempty"`
	// Of a joint: its bolt, torque and clamp force; SameNut where the row
	// before it hangs on the same bolt.
	Bolt    string  `json:"bolt,omitempty"`
	Torque  float64 `json:"torque_Nm,omitempty"`
	Clamp   float64 `json:"clamp_N,omitempty"`
	SameNut bool    `json:"same_nut,omitempty"`
	// Spot is the temperature of the contact spots of a joint.
	Spot quantity.Temp `json:"spot_C,omitempty"`
}

// Verdict is what is known of a limit.
type Verdict string

const (
	Holds   Verdict = "holds"
	Passed  Verdict = "passed"
	Unknown Verdict = "UNKNOWN"
)

// Margin is a limit at a place and what is left to it.
type Margin struct {
	Place  string        `json:"place"`
	Name   string        `json:"name"`
	Source string        `json:"source"`
	Limit  quantity.Temp `json:"limit_C"`
	Rise   float64       `json:"limit_rise_K,omitempty"` // where the limit is stated as a rise
	// Over is what the rise counts from: the air, or 40 °C where that is warmer, for
	// which rises are stated.
	Over quantity.Temp `json:"limit_rise_over_C,omitempty"`
	// Capped says that the limit is lower than the air and the rise make it: the
	// rise above the air and what is left do not add up to the rise it states.
	Capped bool    `json:"limit_below_air_and_rise,omitempty"`
	Left   float64 `json:"left_K"`
	// Careless is what is left after careless assembly; nil where that has no
	// lasting state or was not asked for.
	Careless *float64 `json:"left_careless_K,omitempty"`
	Verdict  Verdict  `json:"verdict"`
	Asked    bool     `json:"asked"` // the user asked for it
}

// Span is a temperature with its range from careful to careless assembly.
type Span struct {
	Place    string        `json:"place"`
	Temp     quantity.Temp `json:"temp_C"`
	Rise     float64       `json:"rise_K"`
	Careful  quantity.Temp `json:"careful_C"`
	Careless quantity.Temp `json:"careless_C"`
	// CarelessEnds says in words where careless assembly has no lasting state.
	CarelessEnds string `json:"careless_ends,omitempty"`
}

// Watts is heat by kind or by way.
type Watts struct {
	Name string  `json:"name"`
	Heat float64 `json:"heat_W"`
}

// Telling is an assumption and what its range is worth at the headline.
type Telling struct {
	ID    string  `json:"id"`
	Text  string  `json:"text"` // "fuse drop 75 mV at 300 A"
	Worth float64 `json:"worth_K,omitempty"`
	// Ends says that an end of its range has no lasting state.
	Ends bool `json:"no_lasting_state,omitempty"`
}

// Numerics is how well the numbers are known: the two energy residuals, the
// error of cutting long parts into cells, and what the search cost.
type Numerics struct {
	Nodes       int     `json:"nodes"`
	Bookkeeping float64 `json:"bookkeeping_residual"`
	Quadrature  float64 `json:"quadrature_residual"`
	Cutting     float64 `json:"cutting_error_K"`
	Kirchhoff   float64 `json:"kirchhoff_residual,omitempty"` // of the currents, where they divide
	Steps       int     `json:"steps,omitempty"`
	Iterations  int     `json:"iterations,omitempty"`
}

// Conditions are what a study was asked for.
type Conditions struct {
	Title   string  `json:"title"`
	File    string  `json:"file"`
	Current float64 `json:"current_A"`
	// Power is what is drawn in place of a current, and Voltage what it is drawn
	// at; the current is then what flows at both.
	Power    float64       `json:"power_W,omitempty"`
	Voltage  float64       `json:"voltage_V,omitempty"`
	Ripple   float64       `json:"ripple,omitempty"`
	Air      quantity.Temp `json:"air_C"`
	AirFrom  quantity.Temp `json:"air_lowest_C,omitempty"` // where the air changes; then the other is its highest
	Altitude float64       `json:"altitude_m,omitempty"`
	// Units that the file uses, for text outputs.
	TempUnit   string `json:"-"`
	TorqueUnit string `json:"-"`
}

// Steady is a stack left on until settled.
type Steady struct {
	Conditions
	Hottest  Span     `json:"hottest_terminal"`
	Tightest *Margin  `json:"tightest_limit,omitempty"`
	Margins  []Margin `json:"limits"`
	Rows     []Row    `json:"rows"`
	Aside    []string `json:"-"` // ways side by side that a short table leaves out
	// Branches are the ways side by side, with how evenly they share; Circulating
	// what flows between unlike batteries when nothing is drawn; Opened what
	// becomes of the others where one is opened.
	Branches    []BranchLine  `json:"branches,omitempty"`
	Spreads     []Spread      `json:"spread_of_shares,omitempty"`
	Circulating []Circulating `json:"circulating_without_load,omitempty"`
	Opened      []OpenedCase  `json:"one_opened,omitempty"`
	Box         *BoxState     `json:"enclosure,omitempty"`
	Made        []Watts       `json:"made"`
	Lost        []Watts       `json:"lost"`
	Heat        float64       `json:"heat_W"`
	Drop        float64       `json:"drop_V"`
	DropParts   DropParts     `json:"drop_consists_of"`
	From, To    string        `json:"-"` // first and last part, for the drop
	Element     *ElementState `json:"element,omitempty"`
	Telling     []Telling     `json:"assumptions_most_telling"`
	More        int           `json:"more_assumptions"`
	Profile     []Point       `json:"profile"`
	// Beside are the profiles of the ways side by side with the one that the
	// profile runs along.
	Beside   []WayProfile  `json:"profiles_beside,omitempty"`
	Touch    *TouchCaution `json:"touch_caution,omitempty"`
	Warnings []string      `json:"warnings"`
	Numerics Numerics      `json:"numerics"`
}

// ElementState is the element of the hottest fuse: never a terminal.
type ElementState struct {
	Name string        `json:"name"`
	Temp quantity.Temp `json:"temp_C"`
}

// Point is a place along the path for the profile chart.
type Point struct {
	Along    float64       `json:"along_m"`
	Temp     quantity.Temp `json:"temp_C"`
	Careful  quantity.Temp `json:"careful_C"`
	Careless quantity.Temp `json:"careless_C"`
	Name     string        `json:"name,omitempty"` // named places: terminals
	Way      string        `json:"way,omitempty"`  // of several, the one that it lies on
}

// TouchCaution is how metal at the hottest terminal stands to the burn
// thresholds.
type TouchCaution struct {
	Text   string `json:"text"`
	Source string `json:"source"`
}

// Soak is a stack over time.
type Soak struct {
	Conditions
	Times    []float64       `json:"times_s"`
	Currents []float64       `json:"currents_A"`
	Airs     []quantity.Temp `json:"airs_C,omitempty"`   // where the air changes
	Period   float64         `json:"period_s,omitempty"` // after which all that drives it begins anew
	Series   []Series        `json:"series"`
	Until    float64         `json:"until_s"`
	Hottest  Span            `json:"hottest_terminal_at_end"`
	// Peak is the hottest that any terminal gets on the way, of every step and not
	// of the rows alone.
	Peak Moment `json:"hottest_terminal_on_the_way"`
	// Settling of the hottest terminal; where Lasting is false there is no
	// settled state and the three times are 0.
	Lasting  bool          `json:"lasting_state"`
	Final    quantity.Temp `json:"settled_C,omitempty"`
	To90     float64       `json:"time_to_90_percent_s,omitempty"`
	To99     float64       `json:"time_to_99_percent_s,omitempty"`
	Settled  float64       `json:"time_to_1_K_per_hour_s,omitempty"`
	Limits   []Crossing    `json:"limits"`
	Box      *BoxState     `json:"enclosure_at_end,omitempty"`
	Made     float64       `json:"made_J"`
	Lost     float64       `json:"lost_J"`
	Stored   float64       `json:"stored_J"`
	Measured []Difference  `json:"measured,omitempty"`
	Warnings []string      `json:"warnings"`
	Touch    *TouchCaution `json:"touch_caution,omitempty"`
	Numerics Numerics      `json:"numerics"`
}

// Series is the temperature of one place over the times of the soak.
type Series struct {
	Name     string          `json:"name"`
	Terminal bool            `json:"terminal"`
	Temps    []quantity.Temp `json:"temps_C"`
	Highest  quantity.Temp   `json:"highest_C"` // of every step, at the times or between them
}

// Moment is a place at a time, s after the start.
type Moment struct {
	Place string        `json:"place"`
	Time  float64       `json:"time_s"`
	Temp  quantity.Temp `json:"temp_C"`
}

// Crossing is a limit and when, if ever, the soak passes it.
type Crossing struct {
	Margin
	Time    float64 `json:"passed_at_s,omitempty"`
	Reached bool    `json:"reached"`
}

// Difference compares measured points of one channel with the prediction.
type Difference struct {
	Channel string          `json:"channel"` // the column's name
	Place   string          `json:"place"`   // the series it is held against
	Times   []float64       `json:"times_s"`
	Temps   []quantity.Temp `json:"measured_C"`
	Mean    float64         `json:"mean_K"` // predicted − measured
	Rms     float64         `json:"rms_K"`
	Largest float64         `json:"largest_K"`
	At      float64         `json:"largest_at_s"`
}

// Check is the stack as understood.
type Check struct {
	Conditions
	Parts       []PartCheck       `json:"parts"`
	Bolts       []BoltCheck       `json:"bolts"`
	Joints      []JointCheck      `json:"joints"`
	Fuses       []FuseCheck       `json:"fuses"`
	Nodes       []NodeCheck       `json:"nodes"` // for --detail
	Assumptions []AssumptionCheck `json:"assumptions"`
	Drop        float64           `json:"drop_V"` // cold, at the current
	DropParts   DropParts         `json:"drop_consists_of"`
	Sizing      Sizing            `json:"sizing"`             // settled, where there is a settled state
	Branches    []BranchLine      `json:"branches,omitempty"` // cold
	Spreads     []Spread          `json:"spread_of_shares,omitempty"`
	Box         *BoxCheck         `json:"enclosure,omitempty"`
	Runs        []SideBySide      `json:"side_by_side,omitempty"`
	Warnings    []string          `json:"warnings"`
}

type PartCheck struct {
	Name       string  `json:"name"`
	Mass       float64 `json:"mass_kg"`
	Capacity   float64 `json:"capacity_J_per_K"`
	Area       float64 `json:"surface_m2"`
	Resistance float64 `json:"resistance_20C_ohm"`
}

type BoltCheck struct {
	Name        string          `json:"name"`
	Fastener    string          `json:"fastener"`
	Torque      float64         `json:"torque_Nm"`
	Clamp       materials.Range `json:"clamp_N"`
	Yield       float64         `json:"yield_torque_Nm"`
	Utilisation float64         `json:"share_of_yield"`
	Warnings    []string        `json:"warnings,omitempty"`
}

type JointCheck struct {
	Name        string          `json:"name"`
	Bolt        string          `json:"bolt,omitempty"`
	Kind        string          `json:"kind"` // bolted, crimped, fixed, measured
	Resistance  materials.Range `json:"resistance_20C_ohm"`
	Drop        materials.Range `json:"drop_V"` // a meter's reading at the current
	Conductance float64         `json:"conductance_W_per_K"`
}

type FuseCheck struct {
	Name        string          `json:"name"`
	Rated       float64         `json:"rated_A"`
	Cold        materials.Range `json:"cold_ohm"`
	ElementRise materials.Range `json:"element_rise_in_rig_K"`
}

type NodeCheck struct {
	Name        string        `json:"name"`
	Temp        quantity.Temp `json:"temp_C"`
	Area        float64       `json:"area_m2"`
	Convection  float64       `json:"h_convection_W_per_m2K"`
	Radiation   float64       `json:"h_radiation_W_per_m2K"`
	Conductance float64       `json:"to_room_W_per_K"`
	Biot        float64       `json:"biot"`
	Warnings    []string      `json:"warnings,omitempty"`
}

type AssumptionCheck struct {
	ID     string `json:"id"`
	Where  string `json:"where"`
	What   string `json:"what"`
	Value  string `json:"value"` // with its unit, "9.5 µΩ (6 … 20 µΩ)"
	Basis  string `json:"basis"`
	Source string `json:"source"`
	Ground string `json:"ground,omitempty"`
}

// Exit says which exit status a result asks for: 0 fine, 1 a limit is passed
// at the stated condition or a limit asked for is UNKNOWN.
func (s *Steady) Exit() int { return exit(s.Margins) }

// Exit says which exit status a result asks for, as Steady.Exit.
func (s *Soak) Exit() int {
	margins := make([]Margin, len(s.Limits))
	for i, c := range s.Limits {
		margins[i] = c.Margin
	}
	return exit(margins)
}

func exit(margins []Margin) int {
	for _, m := range margins {
		if m.Verdict == Passed || (m.Asked && m.Verdict == Unknown) {
			return 1
		}
	}
	return 0
}
