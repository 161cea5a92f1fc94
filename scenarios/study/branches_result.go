package study

import "clampheat/scenarios/quantity"

// This file declares what is told of ways side by side.

// BranchLine is one of several ways side by side at a state: a battery with its
// parts, a branch between two studs, a circuit with a current of its own.
type BranchLine struct {
	Name    string  `json:"name"`
	Kind    string  `json:"kind"`  // battery, branch or circuit
	Group   int     `json:"group"` // ways of one group stand side by side
	Current float64 `json:"current_A"`
	Share   float64 `json:"share"`  // of what the group carries together
	Drop    float64 `json:"drop_V"` // over its parts and joints; inside a battery is not in it
	// Place and Temp are of its hottest terminal.
	Place string        `json:"hottest_terminal,omitempty"`
	Temp  quantity.Temp `json:"hottest_terminal_C,omitempty"`
	// Fuse is the one that is loaded most for its rating.
	Fuse  string  `json:"fuse,omitempty"`
	Rated float64 `json:"fuse_rated_A,omitempty"`
	Load  float64 `json:"fuse_share_of_rating,omitempty"` // with the ripple
}

// Spread is how evenly the ways of a group share.
type Spread struct {
	Group int    `json:"group"`
	Kind  string `json:"kind"`
	Ways  int    `json:"ways"`
	// Ratio is the largest current over the smallest, 0 where one of them flows
	// backwards or none flows; OverEven the largest over what an even share would
	// be.
	Ratio    float64 `json:"largest_over_smallest,omitempty"`
	OverEven float64 `json:"largest_over_even_share"`
	Largest  string  `json:"largest"`
	Smallest string  `json:"smallest"`
}

// Circulating is the current of a battery when nothing is drawn, negative where
// the others charge it.
type Circulating struct {
	Name    string  `json:"name"`
	Current float64 `json:"current_A"`
}

// OpenedCase is the stack left on with one of its ways opened: its fuse has
// blown, a lug came loose. What is drawn stays.
type OpenedCase struct {
	Name string `json:"opened"`
	Kind string `json:"kind"`
	// None says in words that there is no lasting state, or no way left for the
	// current; the rest is then empty.
	None    string  `json:"no_lasting_state,omitempty"`
	Current float64 `json:"current_A,omitempty"` // of all together
	// Largest is the one of the others that carries most.
	Largest  *BranchLine   `json:"largest_of_the_others,omitempty"`
	Place    string        `json:"hottest_terminal,omitempty"`
	Temp     quantity.Temp `json:"hottest_terminal_C,omitempty"`
	Tightest *Margin       `json:"tightest_limit,omitempty"`
	Passed   []Margin      `json:"limits_passed,omitempty"`
	New      []Margin      `json:"limits_newly_passed,omitempty"` // those that hold with all ways on
	Fuses    []FollowFuse  `json:"fuses,omitempty"`               // those loaded over what may be drawn for good
	Branches []BranchLine  `json:"branches,omitempty"`
}

// FollowFuse is a fuse that carries more after another way was opened.
type FollowFuse struct {
	Name    string  `json:"name"`
	Way     string  `json:"way"`
	Current float64 `json:"current_A"` // with the ripple
	Load    float64 `json:"share_of_rating"`
	// Follows says that the current is above its rating, so that it opens sooner
	// or later; Melts after how long, s, where the file gives points of its curve
	// around that current.
	Follows bool    `json:"follows"`
	Melts   float64 `json:"melts_after_s,omitempty"`
}

// WayProfile is the temperature along a way beside the one that the profile runs
// along.
type WayProfile struct {
	Name string `json:"name"`
	// Along is the way that the profile runs along beside it.
	Along  string  `json:"along"`
	Points []Point `json:"points"`
}
