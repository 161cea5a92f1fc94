package study

import "clampheat/scenarios/quantity"

// What sets a largest current.
const (
	ByLimit   = "limit"
	ByCeiling = "ceiling" // a material's figures end
	ByFold    = "fold"    // no lasting state beyond
)

// Rated is a current that a stack carries for good, all of its draws together,
// and what sets it. Of the margin, what is left in careless assembly is left out:
// it is not worked out.
type Rated struct {
	Current float64 `json:"current_A"`
	Power   float64 `json:"power_W,omitempty"` // where power is drawn; then the current is what flows at it
	Set     string  `json:"set"`               // limit, ceiling or fold
	By      Margin  `json:"by"`
	// Place and Temp are of the hottest terminal at that current.
	Place string        `json:"hottest_terminal,omitempty"`
	Temp  quantity.Temp `json:"hottest_terminal_C,omitempty"`
}

// Rate is how much current a stack carries.
type Rate struct {
	Conditions
	// Likely is the largest continuous current; careful and careless assembly
	// give its range.
	Likely   Rated `json:"largest_continuous"`
	Careful  Rated `json:"careful"`
	Careless Rated `json:"careless"`
	// Limits are the currents at which each limit just holds, the least first.
	// One that is not reached before the lasting states end is not among them.
	Limits []Rated `json:"limits"`
	// Unknown are the limits that cannot be judged: no pass.
	Unknown []Margin `json:"unknown_limits"`
	// End is where the lasting states end, in words too.
	End      Rated        `json:"end"`
	EndText  string       `json:"end_in_words"`
	OverAir  []AirRating  `json:"over_air"`
	OverTime []TimeRating `json:"time_to_limit"`
	// StartText says where the times begin.
	StartText string       `json:"times_begin"`
	Fuses     []FuseCurve  `json:"fuse_curves,omitempty"`
	Currents  []AtCurrent  `json:"currents,omitempty"`
	Altitudes []AtAltitude `json:"altitudes,omitempty"`
	Warnings  []string     `json:"warnings"`
}

// AirRating is the largest continuous current in air of a temperature.
type AirRating struct {
	Air      quantity.Temp `json:"air_C"`
	Likely   Rated         `json:"likely"`
	Careful  float64       `json:"careful_A"`
	Careless float64       `json:"careless_A"`
	// The same as powers, where power is drawn.
	CarefulPower  float64 `json:"careful_W,omitempty"`
	CarelessPower float64 `json:"careless_W,omitempty"`
}

// AtAltitude is the largest continuous current over the air's temperature at
// one altitude, likely.
type AtAltitude struct {
	Altitude float64         `json:"altitude_m"`
	Airs     []quantity.Temp `json:"air_C"`
	Currents []float64       `json:"current_A"`
	Powers   []float64       `json:"power_W,omitempty"` // where power is drawn
}

// TimeRating is how long a current flows until the first limit is passed.
type TimeRating struct {
	Current float64 `json:"current_A"`
	Time    float64 `json:"time_s"`
	Place   string  `json:"place"`
	Limit   string  `json:"limit"`
	Power   float64 `json:"power_W,omitempty"` // where power is drawn; then the current is that at the end
	// Round marks currents that a table shows.
	Round   bool `json:"-"`
	element bool
}

// FuseCurve is what the file says of when a fuse melts, beside when the first
// limit is passed.
type FuseCurve struct {
	Name string `json:"name"`
	// Share is of what flows in all, cold, where the current divides.
	Share  float64     `json:"share_of_current,omitempty"`
	Points []MeltPoint `json:"points"`
}

// MeltPoint is a point of a fuse's time–current curve. Limit is how long that
// current flows until the first limit is passed, 0 where none ever is.
type MeltPoint struct {
	Current float64 `json:"current_A"`
	Melts   float64 `json:"melts_after_s"`
	Limit   float64 `json:"limit_passed_after_s,omitempty"`
	// Element says that this limit is that of a fuse's own element.
	Element bool `json:"limit_of_element,omitempty"`
}

// AtCurrent is a stack left on at one current. Where it has no lasting state,
// None says so in words.
type AtCurrent struct {
	Current  float64 `json:"current_A"`
	Hottest  *Span   `json:"hottest_terminal,omitempty"`
	Tightest *Margin `json:"tightest_limit,omitempty"`
	None     string  `json:"no_lasting_state,omitempty"`
	// Passed is when the first limit is passed, s; 0 where none is.
	Passed float64 `json:"limit_passed_after_s,omitempty"`
}

// load is the rating in the unit of what is drawn, A or W.
func (r *Rated) load() float64 {
	if r.Power > 0 {
		return r.Power
	}
	return r.Current
}
