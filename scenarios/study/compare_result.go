package study

import "clampheat/scenarios/quantity"

// This file declares the result of a comparison.

// Compare is several stacks side by side, each at its largest current left on.
type Compare struct {
	Columns []Column `json:"stacks"`
	// Verdict is about the coolest and the next; nil where fewer than two have
	// a lasting state.
	Verdict *Verdicts `json:"verdict,omitempty"`
	// Against holds each stack but the first against the first.
	Against []Against `json:"against_the_first"`
	// Places are the names of the places that more than one stack has, in the
	// order of the path.
	Places   []string  `json:"shared_places"`
	Times    []float64 `json:"times_s"` // of the soaks
	Tried    int       `json:"conditions_tried"`
	Warnings []string  `json:"warnings"`
}

// Column is one stack of a comparison.
type Column struct {
	Conditions
	Label    string          `json:"label"`
	Ends     string          `json:"no_lasting_state,omitempty"` // in words; then only the sizing counts
	Hottest  Span            `json:"hottest_terminal"`
	Tightest *Margin         `json:"tightest_limit,omitempty"`
	Margins  []Margin        `json:"limits"`
	Places   []PlaceTemp     `json:"places"`
	Spreads  []Spread        `json:"spread_of_shares,omitempty"` // of ways side by side
	After15  quantity.Temp   `json:"15_min_from_cold_C"`
	To90     float64         `json:"time_to_90_percent_s,omitempty"`
	Soak     []quantity.Temp `json:"hottest_place_over_time_C"` // from cold, at Compare.Times
	Worst    *WorseJoint     `json:"worst_joint_three_times,omitempty"`
	Drop     float64         `json:"drop_V,omitempty"`
	Heat     float64         `json:"heat_W,omitempty"`
	Largest  *Bearing        `json:"largest_continuous_current,omitempty"`
	Sizing   Sizing          `json:"sizing"`
	Stated   []Stated        `json:"stated,omitempty"`
	Touch    *TouchCaution   `json:"touch_caution,omitempty"`
}

// PlaceTemp is the settled temperature of a place.
type PlaceTemp struct {
	Name     string        `json:"name"`
	Way      string        `json:"way,omitempty"` // of several side by side, the one that it lies on
	Terminal bool          `json:"terminal"`
	Temp     quantity.Temp `json:"temp_C"`
}

// WorseJoint is the joint that heats the hottest terminal most when it gets
// three times as bad: three times the ohms, a third of the heat conductance.
type WorseJoint struct {
	Joint   string        `json:"joint"`
	Place   string        `json:"hottest_at,omitempty"`
	Temp    quantity.Temp `json:"hottest_terminal_C,omitempty"`
	Ends    string        `json:"no_lasting_state,omitempty"`
	Passing *Margin       `json:"limit_passed,omitempty"` // the one passed by most
}

// Bearing is the largest continuous current and what sets it; see Rating.
type Bearing struct {
	Current float64 `json:"current_A"`
	By      Margin  `json:"set_by"`
}

// Stated is what the file says of a part and no study uses.
type Stated struct {
	Part  string `json:"part"`
	Price string `json:"price,omitempty"`
	Size  string `json:"size,omitempty"`
	Mass  string `json:"mass,omitempty"`
}

// Against is a stack held against another.
type Against struct {
	First  string  `json:"first"`
	Second string  `json:"second"`
	Cooler float64 `json:"second_cooler_by_K"`
	// Agree is in how many of the conditions tried the sign of Cooler is the
	// same; TooClose where it is not all of them.
	Agree    int  `json:"conditions_that_agree"`
	Tried    int  `json:"conditions_tried"`
	TooClose bool `json:"too_close_to_call"`
	// Room names the differences of supply and surroundings, Parts those of the
	// path.
	Room  []string `json:"unlike_supply_and_surroundings"`
	Parts []string `json:"unlike_parts"`
	Why   Why      `json:"why"`
}

// Why shares a difference out among its causes; see explain.go.
type Why struct {
	Total   float64 `json:"second_hotter_by_K"`
	Causes  []Cause `json:"causes"` // the largest first; they add up to Total
	Missing string  `json:"not_known_because,omitempty"`
}

// Cause is one group of figures and its share of a difference.
type Cause struct {
	Name  string  `json:"cause"`
	Worth float64 `json:"hotter_by_K"`
}

// Verdicts is the outcome of a comparison.
type Verdicts struct {
	Coolest  string  `json:"coolest"`
	Next     string  `json:"next"`
	By       float64 `json:"cooler_by_K"`
	Agree    int     `json:"conditions_that_agree"`
	Tried    int     `json:"conditions_tried"`
	TooClose bool    `json:"too_close_to_call"`
	// Holds is whether each limit of every stack is known to hold.
	Holds bool `json:"all_limits_hold"`
}

// Exit says which exit status a comparison asks for: 3 where a stack has no
// lasting state, else 1 where a limit of any is passed or one asked for is
// UNKNOWN.
func (c *Compare) Exit() int {
	worst := 0
	for _, v := range c.Columns {
		if v.Ends != "" {
			return 3
		}
		worst = max(worst, exit(v.Margins))
	}
	return worst
}
