package solver

import (
	"errors"
	"math"
	"testing"
)

// telling is a feed that can tell its current, and notes when it was asked.
type telling struct {
	*feed
	asked []float64 // the loads at which
	mute  bool
}

var errMute = errors.New("it does not say")

func (p *telling) Connect(t float64, x []float64) error {
	p.asked = append(p.asked, p.load)
	if p.mute {
		x[1] = math.NaN() // must not be used
		return errMute
	}
	r, power := p.r*(1+p.alpha*(x[0]-p.air)), p.load*p.power*(1+p.swing*math.Sin(t))
	x[1] = (p.v - math.Sqrt(p.v*p.v-4*r*power)) / (2 * r)
	return nil
}

func TestConnected(t *testing.T) {
	want := (12 - math.Sqrt(144-4*0.02*500)) / 0.04
	// At v/2R the slope of the power by the current is zero: from there Newton's
	// method does not start.
	nowhere := []float64{300, 300}
	for name, mute := range map[string]bool{"steady/asked": false, "steady/asked in vain": true} {
		t.Run(name, func(t *testing.T) {
			p := &telling{feed: &feed{power: 500, v: 12, r: 0.02, h: 4, air: 300, c: 100, load: 1}, mute: mute}
			res := steady(t, p, SteadyOptions{Start: nowhere, Tol: MinSteadyTol})
			within(t, "current", res.X[1], want, 1e-9)
			if len(p.asked) != 1 || p.asked[0] != 1 {
				t.Errorf("asked at the loads %v, not at the whole one once", p.asked)
			}
			if asked := !mute; asked != (res.Stats.Continuation == 0) {
				t.Errorf("%d steps along the load", res.Stats.Continuation)
			}
			p.asked = nil
			steady(t, p, SteadyOptions{Start: []float64{300, 40}})
			if len(p.asked) > 0 {
				t.Error("asked where the guess is good")
			}
		})
	}
	t.Run("soak/from a guess that leads nowhere", func(t *testing.T) {
		f := &feed{power: 500, v: 12, r: 0.02, h: 4, air: 300, c: 100, load: 1}
		opt := SoakOptions{Start: nowhere, Until: 10, Tol: 1e-4}
		if _, err := NewSoaker(f).Run(t.Context(), opt); err == nil {
			t.Fatal("the guess is good after all")
		}
		res := soak(t, &telling{feed: f}, opt)
		within(t, "current", res.X[1], want, 1e-6)
	})
}
