// Package progress shows how far a long computation is: one line that
// overwrites itself on a terminal, and nothing at all elsewhere.
package progress

import (
	"fmt"
	"io"
	"time"
)

// Line is a status line. The zero value, and nil, show nothing.
type Line struct {
	w     io.Writer
	label string
	clock func() time.Time
	start time.Time
	last  time.Time
	shown int
}

const (
	// quiet is how long a computation may take before a line appears.
	quiet = 300 * time.Millisecond
	// between two updates: ten a second are more than an eye can read.
	between = 100 * time.Millisecond
)

// New begins a line on w, which must be a terminal; nil gives a silent one.
func New(w io.Writer, label string) *Line {
	return newLine(w, label, time.Now)
}

func newLine(w io.Writer, label string, clock func() time.Time) *Line {
	return &Line{w: w, label: label, clock: clock, start: clock()}
}

// Show says that the share done, 0 … 1, is behind us.
func (l *Line) Show(done float64) {
	if l == nil || l.w == nil {
		return
	}
	now := l.clock()
	spent := now.Sub(l.start)
	if spent < quiet || now.Sub(l.last) < between {
		return
	}
	l.last = now
	text := fmt.Sprintf("%s %3.0f %%", l.label, 100*done)
	if done > 0.05 && done < 1 {
		left := time.Duration(float64(spent) * (1 - done) / done)
		text += fmt.Sprintf(", %s left", left.Round(time.Second))
	}
	// Blanks wipe what a longer line before left behind. A status line that
	// cannot be written is no reason to stop.
	fmt.Fprintf(l.w, "\r%-*s", l.shown, text)
	l.shown = max(l.shown, len(text))
}

// Done wipes the line.
func (l *Line) Done() {
	if l == nil || l.shown == 0 {
		return
	}
	fmt.Fprintf(l.w, "\r%*s\r", l.shown, "")
	l.shown = 0
}
