package cli

import (
	"errors"
	"strings"
	"testing"

	"clampheat/scenarios/study"
)

// sampleTorque is an answer with every figure invented.
func sampleTorque() *study.Torque {
	r := &study.Torque{
		Conditions: sampleConditions(), Nut: "compact holder, nut", Fastener: "M8", Class: "8.8", Thread: "dry",
		Stated: 8.5, Yield: 25, Share: 0.34, Highest: 12.75, Finger: 0.9, Own: 0,
		Hottest:  sampleSteady().Hottest,
		Tightest: sampleMargin("fuse 300 A, nut side", 66.2),
		Changes: []study.TorqueChange{
			{Name: study.HalfTorque, Torque: 4.25, Change: 3, Careless: 7},
			{Name: study.FingerTight, Torque: 0.9, Change: 19, CarelessEnds: "no lasting state at 140 A"},
			{Name: study.AFifthMore, Torque: 10.2, Change: -0.03, Careless: -0.04}},
		Others:  []study.NutWorth{{Nut: "battery post M8, nut", Half: 0.01}, {Nut: "inverter terminal M8, nut", NoLast: true}},
		Spoiled: []study.SpoiledJoint{},
		Meter:   2.5e-3, MeterCareless: 9e-3,
	}
	for i, faces := range []string{"as received", "tarnished"} {
		c := study.TorqueCurve{Faces: faces, Enough: 4}
		for k, torque := range []float64{0.9, 4.25, 6, 8.5, 10.2} {
			c.Points = append(c.Points, study.TorquePoint{
				Name: []string{study.FingerTight, study.HalfTorque, "", study.StatedTorque, study.AFifthMore}[k], Torque: torque,
				Clamp: 620 * torque, Resistance: 300e-6 / torque, Drop: 42e-3 / torque, Heat: 6 / torque,
				FaceDrop: 21e-3 / torque, FaceResistance: 150e-6 / torque, Hottest: celsius(64 + 16*float64(i+1)/torque)})
		}
		r.Curves = append(r.Curves, c)
	}
	dirty := &r.Curves[1]
	dirty.Least, dirty.Passed = 2, &study.NearLimit{Name: "tin-plated terminal, 65 K rise", Place: "lug", Limit: celsius(90), Left: 0.005}
	dirty.Points[0].Tightest = &study.NearLimit{Name: "tin-plated terminal, 65 K rise", Left: -9.6}
	own := r.Curves[0].Points
	r.Bands = []study.TorqueBand{{Name: "torque wrench", Low: 0.7, High: 1.3, Loose: own[2], Tight: own[4]}, {Name: "by feel", Low: 0.6, High: 1.45, Loose: own[1], Tight: own[4]}}
	r.Spoiled = []study.SpoiledJoint{
		{Name: "corroded", Change: 14.1, Point: own[0]},
		{Name: "thread lubricated, same wrench setting", Breaks: "the thread yields"},
		{Name: "half torque and tarnished", Point: study.TorquePoint{Clamp: 2600, Ends: "no lasting state at 140 A"}}}
	return r
}

// flat undoes the breaking of lines.
func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

func TestTorqueText(t *testing.T) {
	t.Run("answer first", func(t *testing.T) {
		text := torqueText(sampleTorque())
		narrow(t, text)
		has(t, flat(text), "compact holder, nut: tighten to 8.5 N·m (75 in·lb), as stated. Half of that costs 3 K (7 K if",
			"finger-tight costs 19 K (assembled carelessly: no lasting state)", "20 % more would gain less than 0.1 K: do not.",
			"<- stated", "do not", "half torque", "LIMIT 99.6", "Faces tarnished: LIMIT passed below 2 N·m", "Past 4 N·m, a tenth more torque gains less than 1 K",
			"Torque wrench, clamp ±30 %:", "By feel, clamp −40 … +45 %:", "the thread yields", "no lasting state", "+14.1 K",
			"2.5 mV across the worst face", "up to 9.0 mV", "34 % of what the thread holds", "It is the nut whose half torque costs most",
			"inverter terminal M8, nut (no lasting state)", "clampheat cautions")
		if strings.Contains(text, "6 N·m") || strings.Contains(text, "hardly sees") {
			t.Errorf("says too much:\n%s", text)
		}
	})
	t.Run("inch pounds and fahrenheit", func(t *testing.T) {
		r := sampleTorque()
		r.TempUnit, r.TorqueUnit = "°F", "in·lb"
		text := torqueText(r)
		narrow(t, text)
		has(t, flat(text), "tighten to 75.2 in·lb (8.5 N·m)", "costs 5 °F", "150.6", "less than 2 °F")
	})
	t.Run("dirty faces", func(t *testing.T) {
		for change, want := range map[float64]string{0.5: "more than half the torque", 1.88: "about as much as half the torque", 9: "less than half the torque"} {
			r := sampleTorque()
			r.Changes[0].Change = change
			if got := dirtVersusTorque(dressed(r.Conditions), r); !strings.Contains(got, want) {
				t.Errorf("half torque costs %g K: %q", change, got)
			}
		}
	})
	t.Run("no room for more", func(t *testing.T) {
		r := sampleTorque()
		r.Changes = r.Changes[:2]
		r.Finger, r.Asked, r.Meter = 0, true, 0.1e-3
		text := torqueText(r)
		has(t, flat(text), "20 % more is past what the thread holds: do not", "fingers alone give as much as half of it", "hardly sees")
		if strings.Contains(text, "It is the nut") {
			t.Error("a nut that was asked for is said to be chosen")
		}
	})
	t.Run("passed all along", func(t *testing.T) {
		r := sampleTorque()
		for i := range r.Curves {
			c := &r.Curves[i]
			c.Least, c.Always, c.Passed = 0, true, &study.NearLimit{Name: "own limit, 30 °C", Place: "lug", Left: -34}
		}
		text := torqueText(r)
		has(t, flat(text), "Faces as received, tarnished: LIMIT passed at every torque: own limit, 30 °C, at lug.")
		if strings.Contains(text, "LIMIT 9") {
			t.Errorf("every cell is marked:\n%s", text)
		}
	})
}

func TestTorqueTable(t *testing.T) {
	rows := torqueTable(sampleTorque())
	if want := 1 + 2*5 + 2*2 + 3; len(rows) != want {
		t.Fatalf("%d rows, want %d", len(rows), want)
	}
	for _, row := range rows {
		if len(row) != len(torqueHeader) {
			t.Errorf("%d cells in %v", len(row), row)
		}
	}
	// 8.5 N·m are 75.23 in·lb: 0.1129848 N·m to one (SI brochure, BIPM 2019;
	// pound-force and inch as defined).
	if got := rows[4]; got[2] != "stated" || got[3] != "8.5" || !strings.HasPrefix(got[4], "75.23") {
		t.Errorf("%v", got)
	}
	if got := rows[len(rows)-1]; got[12] != "" || got[len(got)-1] == "" {
		t.Errorf("no lasting state: %v", got)
	}
}

func TestNutError(t *testing.T) {
	nuts := []string{"battery post M8, nut", "compact holder, nut"}
	var usage *usageError
	if err := nutError(&study.UnknownNutError{Name: "compct holder", Nuts: nuts}); !errors.As(err, &usage) || !strings.Contains(usage.hint, `"compact holder"`) {
		t.Errorf("%v", err)
	}
	if err := nutError(&study.UnknownNutError{Name: "zzz", Nuts: nuts}); !errors.As(err, &usage) || usage.hint != "" {
		t.Errorf("%v, %q", err, usage.hint)
	}
	var input *inputError
	if err := nutError(&study.UnknownNutError{}); !errors.As(err, &input) {
		t.Errorf("%v", err)
	}
}
