package study

import (
	"encoding/json"

	"clampheat/scenarios/quantity"
)

// This file declares the result of RunLevers.

// Levers is what would cool the hottest terminal, what would heat it, and how
// it answers to small changes of anything.
type Levers struct {
	Conditions
	Hottest Span `json:"hottest_terminal"`
	// Cool are the realistic steps that an owner could take, the best first;
	// Hurt is what could get worse, the worst first.
	Cool          []Lever       `json:"cooler"`
	Hurt          []Lever       `json:"hotter"`
	LeftOut       []LeftOut     `json:"left_out,omitempty"`
	Sensitivities Sensitivities `json:"sensitivities"`
	Fuses         int           `json:"-"` // of the stack, for the cautions
	Touch         *TouchCaution `json:"touch_caution,omitempty"`
	Warnings      []string      `json:"warnings"`
}

// Lever is one change and what it does to the hottest terminal, solved anew.
type Lever struct {
	Name  string `json:"name"`
	Kind  string `json:"kind"` // changes of one kind differ in their place only
	Place string `json:"place,omitempty"`
	Write string `json:"write,omitempty"` // what the file would say; "" where no key says it
	// Change is the hottest terminal with the change less that without,
	// wherever both are; Careful and Careless the same at the ends of the
	// range, left out where one of the two has no lasting state.
	Change   float64       `json:"change_K"`
	Careful  *float64      `json:"change_careful_K,omitempty"`
	Careless *float64      `json:"change_careless_K,omitempty"`
	Temp     quantity.Temp `json:"hottest_terminal_C"`
	Where    string        `json:"hottest_place,omitempty"`
	// Ends says in words that there is no lasting state; Change, Temp and Where
	// then mean nothing.
	Ends string `json:"ends,omitempty"`
}

// LeftOut is a change that cannot be made with this stack, and why.
type LeftOut struct {
	Name string `json:"name"`
	Why  string `json:"why"`
}

// Sensitivities are the derivatives of the hottest terminal's temperature by
// everything, at the likely state, from one adjoint solve. A change of any size
// but a small one needs a state solved anew.
type Sensitivities struct {
	Of      string  `json:"of"`
	Current float64 `json:"current_K_per_A"`
	Power   float64 `json:"power_K_per_W,omitempty"` // in its place where power is drawn
	Air     float64 `json:"air_K_per_K"`
	Around  float64 `json:"air_walls_and_bodies_K_per_K"`
	// Rows in the order of the current.
	Rows []RowSensitivity `json:"rows"`
}

// RowSensitivity is the derivatives by one row; 0 where the row has no such
// thing, or where it does not count.
type RowSensitivity struct {
	Name        string  `json:"name"`
	Kind        string  `json:"kind"`
	Watt        float64 `json:"heat_K_per_W"`
	Ohms        float64 `json:"resistance_K_per_percent"`
	Added       float64 `json:"added_resistance_K_per_uohm"`
	Conductance float64 `json:"conductance_K_per_percent"`
	Surface     float64 `json:"surface_K_per_percent"`
}

// MarshalJSON leaves the change out where there is no lasting state.
func (l Lever) MarshalJSON() ([]byte, error) {
	type plain Lever
	if l.Ends == "" {
		return json.Marshal(plain(l))
	}
	return json.Marshal(struct {
		plain
		Change *float64 `json:"change_K,omitempty"`
	}{plain: plain(l)})
}
