package model

import "fmt"

// StackError names the part, bolt, joint or cover of a stack and the field of
// it that a figure cannot be made from.
type StackError struct {
	Where  string // "cable 1/0 AWG", as the user calls it
	Field  string // "length"
	Reason string // "must be positive and finite, not -3"
}

func (e *StackError) Error() string {
	switch {
	case e.Where == "":
		return "the stack cannot be worked out: " + e.Reason
	case e.Field == "":
		return fmt.Sprintf("%s cannot be worked out: %s", e.Where, e.Reason)
	}
	return fmt.Sprintf("%s: the %s %s", e.Where, e.Field, e.Reason)
}

// YieldError is the answer to a torque that takes the thread of a fastener
// past its yield figure even at the highest friction of its condition.
type YieldError struct {
	Bolt     string
	Fastener string
	Class    string
	Thread   string
	Torque   float64 // N·m, as asked for
	Yield    float64 // N·m, at which the yield figure is reached at the highest friction
}

func (e *YieldError) Error() string {
	return fmt.Sprintf("%s: %.4g N·m is past what the thread holds: %s of class %s yields at %.3g N·m even at the highest friction of a thread that is %s",
		e.Bolt, e.Torque, e.Fastener, e.Class, e.Yield, e.Thread)
}

// A Warning says where an answer rests on weak ground.
type Warning struct {
	Where, Text string
}

func (w Warning) String() string { return w.Where + ": " + w.Text }

// checks gathers the first complaint about the fields of one thing.
type checks struct {
	where string
	err   error
}

func (c *checks) fail(field, format string, a ...any) {
	if c.err == nil {
		c.err = &StackError{Where: c.where, Field: field, Reason: fmt.Sprintf(format, a...)}
	}
}

func (c *checks) positive(field string, v float64) {
	if !finite(v) || v <= 0 {
		c.fail(field, "must be positive and finite, not %g", v)
	}
}

func (c *checks) notNegative(field string, v float64) {
	if !finite(v) || v < 0 {
		c.fail(field, "must be finite and not negative, not %g", v)
	}
}

// share complains where v is not within 0…1.
func (c *checks) share(field string, v float64) {
	if !(v >= 0 && v <= 1) {
		c.fail(field, "must be between 0 and 1, not %g", v)
	}
}
