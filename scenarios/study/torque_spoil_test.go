package study

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
)

// Each way of spoiling is the stack that a file with those words makes.
func TestTorque_spoiled(t *testing.T) {
	holder := torque(t, read(t, feed), "compact holder")
	// Faces stated on a holder are also those towards the post: a terminal has
	// its one pair.
	terminal := torque(t, read(t, feed), "inverter terminal M8")
	const inverter = "inverter terminal: M8\n    nut: 12 N·m"
	for _, c := range []struct {
		name, text string
		r          *Torque
	}{
		{"steel washer", with("  - cable", "  - steel washer: M8\n  - cable"), holder},
		{"settled", with("nut: 8.5 N·m", "nut: 8.5 N·m\n    clamp kept: 70 %"), holder},
		{"thread lubricated", with("nut: 8.5 N·m", "nut: 8.5 N·m\n    thread: lubricated"), holder},
		{"steel washer", with("  - inverter", "  - steel washer: M8\n  - inverter"), terminal},
		{"half torque and tarnished", with(inverter, "inverter terminal: M8\n    nut: 6 N·m\n    faces: tarnished"), terminal},
		{"corroded", with(inverter, inverter+"\n    faces: corroded"), terminal},
	} {
		t.Run(c.name, func(t *testing.T) {
			settled := steady(t, read(t, c.text))
			want, ohms := settled.Hottest.Temp, 0.0
			for _, row := range settled.Rows {
				if row.Bolt == c.r.Nut {
					ohms += row.Resistance
				}
			}
			for _, s := range c.r.Spoiled {
				if !strings.HasPrefix(s.Name, c.name) {
					continue
				}
				if math.Abs(float64(s.Point.Hottest-want)) > 1e-6 {
					t.Errorf("%v, a file that says so %v", s.Point.Hottest, want)
				}
				if math.Abs(s.Point.Resistance/ohms-1) > 1e-9 {
					t.Errorf("%g Ω, a file that says so %g Ω", s.Point.Resistance, ohms)
				}
				if d := float64(s.Point.Hottest - c.r.OwnCurve().Stated().Hottest); math.Abs(d-s.Change) > 1e-9 {
					t.Errorf("change %g K, want %g K", s.Change, d)
				}
				return
			}
			t.Errorf("is not among %+v", c.r.Spoiled)
		})
	}
	t.Run("lubricated near yield/the thread yields", func(t *testing.T) {
		r := torque(t, read(t, with("nut: 8.5 N·m", "nut: 20 N·m")), "compact holder")
		for _, s := range r.Spoiled {
			if strings.HasPrefix(s.Name, "thread lubricated") && s.Breaks == "" {
				t.Errorf("%+v", s)
			}
		}
	})
	t.Run("corroded already/not shown as worse", func(t *testing.T) {
		for _, s := range torque(t, read(t, dirty("")), "compact holder").Spoiled {
			if s.Name == "corroded" || strings.Contains(s.Name, "tarnished") {
				t.Errorf("%+v", s)
			}
		}
	})
}

func TestTorque_nut(t *testing.T) {
	two := open(t, "high-capacity")
	for _, c := range []struct{ name, want string }{
		{"inverter terminal M8", "inverter terminal M8, nut"},
		{" Inverter Terminal M8, nut ", "inverter terminal M8, nut"},
		{"battery switch, cable side", "battery switch, nut, cable side"},
		{"battery switch, nut, cable side", "battery switch, nut, cable side"},
	} {
		t.Run("fits/"+c.name, func(t *testing.T) {
			if r := torque(t, two, c.name); r.Nut != c.want || !r.Asked || len(r.Others) != 4 {
				t.Errorf("%q, %d others", r.Nut, len(r.Others))
			}
		})
	}
	for _, c := range []struct {
		name, text string
		fits       bool
		nuts       int
	}{{"battery switch", "several", true, 2}, {"batery switch", "no nut", false, 5}} {
		t.Run("error/"+c.name, func(t *testing.T) {
			_, err := RunTorque(context.Background(), two, TorqueOptions{Nut: c.name})
			var unknown *UnknownNutError
			if !errors.As(err, &unknown) || unknown.Fits != c.fits || len(unknown.Nuts) != c.nuts || !strings.Contains(err.Error(), c.text) {
				t.Errorf("%v", err)
			}
		})
	}
}

func TestTorque_errors(t *testing.T) {
	t.Run("no lasting state", func(t *testing.T) {
		_, err := RunTorque(context.Background(), read(t, with("140 A", "3000 A")), TorqueOptions{})
		var none *NoAnswerError
		if !errors.As(err, &none) {
			t.Errorf("%v", err)
		}
	})
	t.Run("cancelled", func(t *testing.T) {
		ctx, cancel := context.WithCancel(context.Background())
		cancel()
		if _, err := RunTorque(ctx, read(t, feed), TorqueOptions{}); !errors.Is(err, context.Canceled) {
			t.Errorf("%v", err)
		}
	})
}

// A current that a clean joint bears and a finger-tight dirty one does not.
func TestTorque_endOfLastingStates(t *testing.T) {
	r := torque(t, read(t, strings.Replace(dirty(""), "190 A", "370 A", 1)), "compact holder")
	first := r.OwnCurve().Points[0]
	if first.Lasts() || first.Hottest != 0 || !first.Passes() {
		t.Fatalf("%+v", first)
	}
	for _, c := range r.Changes {
		if c.Name == FingerTight && (c.Ends == "" || c.Change != 0) {
			t.Errorf("%+v", c)
		}
	}
	if _, err := json.Marshal(r); err != nil {
		t.Error(err)
	}
}
