package scenarios

import (
	"fmt"
	"math"
	"slices"

	"clampheat/scenarios/quantity"
)

// This file checks that a file says once what its stack carries, and that what
// goes with it is there.

// loadKeys are the keys that say what the stack carries.
var loadKeys = []string{"current", "power", "duty", "log"}

// loads checks that the file says once what the stack carries.
func (r *reader) loads(root *node) {
	f := r.file
	var have []string // load keys and those that may be slips of them
	for _, p := range root.pairs {
		if p.key.shape != scalar || r.full() {
			continue
		}
		key := p.key.text
		if _, known := fieldNamed(fileFields(), key); known && !slices.Contains(loadKeys, key) || slices.Contains(have, key) {
			continue
		}
		if other := slices.IndexFunc(have, func(k string) bool { return slices.Contains(loadKeys, k) }); other >= 0 && slices.Contains(loadKeys, key) {
			r.mistake(p.key.pos, "%q stands beside %q: a stack carries one of them", key, have[other])
		}
		if slices.Contains(loadKeys, key) && f.hasCircuits() {
			r.mistake(p.key.pos, "%q stands beside circuits, which have currents of their own", key).hint("leave it out: the circuits' currents are added")
		}
		have = append(have, key)
	}
	stated := slices.ContainsFunc(loadKeys, func(key string) bool {
		return slices.Contains(have, key) || mistyped(key, have, fileFields())
	})
	if !stated && !f.hasCircuits() && !f.dropped && !r.full() {
		current, _ := fieldNamed(fileFields(), "current")
		r.mistake(root.pos, "the file needs %q", "current").hint("%s Or write \"power\", \"duty\" or \"log\".", current.doc)
	}
	if f.Repeats.Set && !slices.Contains(have, "log") {
		r.mistake(f.Repeats.Pos, "%q goes with %q", "repeats", "log").hint("a duty repeats by itself; a current does not")
	}
	for _, s := range []struct {
		supply *Supply
		hint   string
	}{{&f.Current, currents.example}, {&f.Power, powers.example}, {&f.Duty, dutyHint}, {&f.Log.Supply, logHint}} {
		r.flowing(s.supply, s.hint)
	}
	for w := range f.Ways {
		if own := &f.Ways[w].Current; own.Set && own.highest() == 0 {
			r.mistake(own.Pos, "the circuit %q draws no current at all", f.Ways[w].Name).hint("leave it out, or write its current")
		}
	}
	r.drawn(root)
	r.together()
}

// drawn checks what goes with a power.
func (r *reader) drawn(root *node) {
	f := r.file
	batteries := slices.IndexFunc(f.Ways, func(w Way) bool { return w.Kind == BatteryWay })
	load := f.Load()
	if load == nil || load.Kind != quantity.Power {
		if f.SourceOhms.Set && (load != nil || f.hasCircuits()) {
			r.mistake(f.SourceOhms.Pos, "%q has an effect only where a power is drawn", "source resistance").hint("leave it out")
		}
		return
	}
	if batteries >= 0 && f.SourceOhms.Set {
		r.mistake(f.SourceOhms.Pos, "each battery has its %q", "internal resistance").hint("leave %q out", "source resistance")
	}
	own := batteries >= 0 && f.Ways[batteries].Voltage.Set
	switch {
	case own && f.BankVoltage.Set:
		r.note(r.file.warningAt(f.BankVoltage.Pos, "the power is drawn at the batteries' own voltages, not at the %q", "bank voltage").hint("it counts for drops in %% only"))
	case own || root.get("bank voltage") != nil:
	case batteries >= 0:
		r.mistake(load.Pos, "a power needs the voltage that it is drawn at").hint("write below \"batteries:\" for example \"voltage: 12.8 V\", one for all or a list")
	default:
		r.mistake(load.Pos, "a power needs the voltage that it is drawn at").hint("write for example \"bank voltage: 12.8 V\"")
	}
}

// together checks that a course of the air and a duty can repeat together.
func (r *reader) together() {
	f := r.file
	load, air := f.Load(), f.Air.Course
	if load == nil || !load.Repeats || !air.Set {
		return
	}
	if !air.Repeats {
		r.mistake(air.Pos, "the load repeats, the air does not").hint("give the last step of the air a time as well, so that it begins anew")
		return
	}
	day, cycle := air.length(), load.length()
	if whole := math.Round(day / cycle); whole < 1 || math.Abs(day-whole*cycle) > 1e-9*day {
		r.mistake(air.Pos, "the air repeats after %s, the load after %s", forTime(day), forTime(cycle)).
			hint("the course of the air is to take a whole number of times as long")
	}
}

// forTime writes a time in the unit that reads best.
func forTime(s float64) string {
	switch {
	case s >= 3600:
		return fmt.Sprintf("%.4g h", s/3600)
	case s >= 60:
		return fmt.Sprintf("%.4g min", s/60)
	}
	return fmt.Sprintf("%.4g s", s)
}
