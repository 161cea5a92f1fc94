package network

// This file holds the one kind of error that a network gives.

import "fmt"

// SetupError says what is wrong with a network as it was put together. Item
// is the name that its maker gave to the node, link, resistor or surface; Err,
// where not nil, is what lies beneath.
type SetupError struct {
	Item   string
	Reason string
	Err    error
}

func (e *SetupError) Error() string {
	if e.Err != nil {
		return fmt.Sprintf("heat network: %s %s: %v", e.Item, e.Reason, e.Err)
	}
	return fmt.Sprintf("heat network: %s %s", e.Item, e.Reason)
}

// Unwrap gives what lies beneath.
func (e *SetupError) Unwrap() error { return e.Err }
