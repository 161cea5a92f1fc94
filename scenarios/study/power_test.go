package study

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"
)

const drawn = "bank voltage: 12.8 V\nsource resistance: 4 mΩ\npower: 2000 W"

// A power at a source's voltage: P = V I and V = E − I R, R the source's and the
// path's ohms, hot.
func TestPower(t *testing.T) {
	s := steady(t, read(t, with("current: 140 A", drawn)))
	path := 0.0
	for _, r := range s.Rows {
		path += r.Resistance
	}
	if math.Abs(s.Voltage*s.Current-2000) > 1e-6 {
		t.Errorf("%g V × %g A", s.Voltage, s.Current)
	}
	if want := 12.8 - s.Current*(path+4e-3); math.Abs(s.Voltage-want) > 1e-4 {
		t.Errorf("%g V, by the ohms %g V", s.Voltage, want)
	}
	if want := 12.8 - s.Voltage; math.Abs(s.Drop-want) > 1e-9 {
		t.Errorf("drop %g V, want %g V", s.Drop, want)
	}
	if s.Power != 2000 || s.Conditions.Current < 2000/12.8 {
		t.Errorf("%+v", s.Conditions)
	}
	// The same current given is the same state.
	same := at(t, read(t, with("current: 140 A", drawn)), s.Current, 0)
	hot, err := same.hottest()
	if err != nil {
		t.Fatal(err)
	}
	if d := same.temp(hot) - float64(s.Hottest.Temp); math.Abs(d) > 1e-4 {
		t.Errorf("%g K from the state at the same current", d)
	}
}

// Above E²/4R no power is drawn, however cool all stays: an error in words, with
// the most that is.
func TestPower_circuitFold(t *testing.T) {
	weak := strings.Replace(drawn, "4 mΩ", "40 mΩ", 1)
	_, err := RunSteady(context.Background(), read(t, with("current: 140 A", strings.Replace(weak, "2000 W", "1200 W", 1))))
	var none *NoAnswerError
	if !errors.As(err, &none) || !strings.Contains(none.Text, "half of the voltage") || !strings.Contains(none.Text, "highest power that has one") {
		t.Fatalf("%v", err)
	}
	// R of the path is below 1 mΩ cold: the most lies between E²/4R with and without.
	r := rate(t, read(t, with("current: 140 A", strings.Replace(weak, "2000 W", "500 W", 1))), RateOptions{})
	least, most := 12.8*12.8/4/42e-3, 12.8*12.8/4/40e-3
	if r.End.Power < least || r.End.Power > most || !strings.Contains(r.EndText, "half of the voltage") {
		t.Errorf("ends at %g W, %s; E²/4R lies between %g W and %g W", r.End.Power, r.EndText, least, most)
	}
}

// Temperatures end it before where the source is stiff.
func TestPower_ceiling(t *testing.T) {
	_, err := RunSteady(context.Background(), read(t, with("current: 140 A", strings.Replace(drawn, "2000 W", "6000 W", 1))))
	var none *NoAnswerError
	if !errors.As(err, &none) || !strings.Contains(none.Text, "at 6000 W") || !strings.Contains(none.Text, "highest power that has one") {
		t.Errorf("%v", err)
	}
}

// A rating by power says both, and at that power the limit just holds.
func TestRate_power(t *testing.T) {
	sc := read(t, with("current: 140 A", drawn))
	r := rate(t, sc, RateOptions{})
	if r.Likely.Power == 0 || r.Likely.Current == 0 || !(r.Careless.Power < r.Likely.Power && r.Likely.Power < r.Careful.Power) {
		t.Fatalf("%+v", r.Likely)
	}
	plain := rate(t, read(t, feed), RateOptions{})
	if math.Abs(plain.Likely.Current-r.Likely.Current) > 1e-3*plain.Likely.Current {
		t.Errorf("%g A at its power, %g A by current: heat goes with the current", r.Likely.Current, plain.Likely.Current)
	}
	last := 0.0
	for _, p := range r.OverTime {
		if p.Power <= r.Likely.Power || p.Power <= last || p.Current <= 0 {
			t.Errorf("%+v after %g W", p, last)
		}
		last = p.Power
	}
	if len(r.OverTime) < 5 || r.OverTime[len(r.OverTime)-1].Time >= r.OverTime[0].Time {
		t.Errorf("%d times", len(r.OverTime))
	}
}

// A soak of a power that the circuit does not give says so.
func TestSoak_tooWeak(t *testing.T) {
	_, err := RunSoak(context.Background(), read(t, with("current: 140 A", strings.Replace(drawn, "2000 W", "20 kW", 1))), SoakOptions{For: 600})
	var none *NoAnswerError
	if !errors.As(err, &none) || !strings.Contains(none.Text, "does not give") {
		t.Errorf("%v", err)
	}
}

// weakSource is a source that gives E²/4R = 12.4²/(4·12 mΩ) = 3203 W without a path.
const weakSource = "bank voltage: 12.4 V\nsource resistance: 12 mΩ\npower: "

// Above what the circuit gives there are no figures of the circuit either, and
// what ends it is the circuit and not a fuse.
func TestCheck_aboveFold(t *testing.T) {
	_, err := RunCheck(context.Background(), read(t, with("current: 140 A", weakSource+"3500 W")), Options{})
	var none *NoAnswerError
	if !errors.As(err, &none) || !strings.Contains(none.Text, "no current gives that power") || !strings.Contains(none.Text, "highest power that has one") {
		t.Errorf("%v", err)
	}
	_, err = RunSteady(context.Background(), read(t, with("current: 140 A", weakSource+"20 kW")))
	if !errors.As(err, &none) || !strings.Contains(none.Text, "at 20000 W: no current") {
		t.Errorf("%v", err)
	}
}

// A power that the circuit gives cold and no more when warm: the soak ends in words
// with the state there, and no row has a current beyond half of the short-circuit
// current E/R, which is that at the end of P = (E − I R) I.
func TestSoak_givesOut(t *testing.T) {
	r, err := RunSoak(context.Background(), read(t, with("current: 140 A", weakSource+"3000 W")), SoakOptions{For: 600})
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(strings.Join(r.Warnings, "\n"), "does not give the power any more") || r.Until >= 600 {
		t.Errorf("until %g s: %v", r.Until, r.Warnings)
	}
	for i, a := range r.Currents {
		if a <= 0 || a > 12.4/12e-3/2 {
			t.Errorf("%g A after %g s", a, r.Times[i])
		}
	}
	_, err = RunDuty(context.Background(), read(t, with("current: 140 A", strings.Replace(weakSource, "power: ", "duty: [3000 W for 5 min, 0 W for 20 min]", 1))))
	var none *NoAnswerError
	if !errors.As(err, &none) || !strings.Contains(none.Text, "does not give") {
		t.Errorf("%v", err)
	}
}
