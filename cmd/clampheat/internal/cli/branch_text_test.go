package cli

import (
	"strings"
	"testing"

	"clampheat/scenarios/study"
)

func sampleBranches() *study.Steady {
	r := sampleSteady()
	r.Branches = []study.BranchLine{
		{Name: "A", Kind: "battery", Current: 90, Share: 0.643, Drop: 0.04, Place: "A: fuse 200 A, nut side", Temp: celsius(66), Fuse: "fuse", Rated: 200, Load: 0.45},
		{Name: "B", Kind: "battery", Current: 50, Share: 0.357, Drop: 0.03, Place: "B: lug", Temp: celsius(50)},
	}
	r.Spreads = []study.Spread{{Kind: "battery", Ways: 2, Ratio: 1.8, OverEven: 1.286, Largest: "A", Smallest: "B"}}
	r.Circulating = []study.Circulating{{Name: "A", Current: 20.5}, {Name: "B", Current: -20.5}}
	other := r.Branches[1]
	r.Opened = []study.OpenedCase{
		{Name: "A", Current: 140, Largest: &other, Temp: celsius(95), Place: "B: lug", Branches: []study.BranchLine{{Name: "B", Fuse: "fuse"}},
			Passed: []study.Margin{{Place: "old", Left: -9}, {Place: "B: post", Left: -1}, {Place: "B: lug", Left: -5}},
			New:    []study.Margin{{Place: "B: post", Left: -1}, {Place: "B: lug", Left: -5}},
			Fuses:  []study.FollowFuse{{Name: "fuse", Way: "B", Load: 1.12, Follows: true, Melts: 600}, {Name: "other", Way: "C", Load: 0.9}}},
		{Name: "B", None: "nothing is left that leads the current"},
	}
	r.Aside = []string{"B"}
	r.Rows[0].Way, r.Rows[2].Way = "A", "B"
	return r
}

func TestBranchText(t *testing.T) {
	text := steadyText(sampleBranches())
	narrow(t, text)
	has(t, text, "64.3 %", "fuse 200 A, nut side", "A carries 128.6 % of an even share, 1.800 × as much as B.", "A +20.5 A, B -20.5 A",
		"LIMIT B: lug", "1 FOLLOW: 112 % of", "over 80 %: 90 %", "10 min", "B opened: nothing is left that leads the current.", "Not shown: the places of B")
	if strings.Contains(text, "holder base  ") {
		t.Errorf("a row of a way that is left out is shown in\n%s", text)
	}
}

// A group of which one is charged by the others has no ratio.
func TestSpreadLines(t *testing.T) {
	has(t, spreadLines([]study.Spread{{Ways: 2, OverEven: 2.1, Largest: "A", Smallest: "B"}}), "B carries none or flows backwards")
	has(t, spreadLines([]study.Spread{{Ways: 3, Ratio: 1.0000001, OverEven: 1, Largest: "A", Smallest: "B"}}), "all 3 alike")
}

func TestTogether(t *testing.T) {
	got := together([]study.Watts{{Name: "convection", Heat: 1}, {Name: "into A: battery", Heat: 2}, {Name: "into B: battery", Heat: 3},
		{Name: "into heater: body", Heat: 4}, {Name: "into inverter", Heat: 5}})
	want := []study.Watts{{Name: "convection", Heat: 1}, {Name: "into 2 × battery", Heat: 5}, {Name: "into heater: body", Heat: 4}, {Name: "into inverter", Heat: 5}}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%+v, want %+v", got[i], want[i])
		}
	}
}

func TestBoxLines(t *testing.T) {
	text := boxLines(dress{temp: "°C"}, &study.BoxState{Air: celsius(60), Top: celsius(63), TopRatio: 1.3, Source: "a report", Inner: celsius(50), Outer: celsius(49),
		Parts: 10, Other: 5, Wall: 12, Vents: 3})
	narrow(t, text)
	has(t, text, "air 60 °C", "63 °C (1.3 ×", "parts 10.0, other things 5.0", "wall 12.0, vents 3.0.")
	if boxLines(dress{}, nil) != "" || strings.Contains(text, "bulkhead") {
		t.Error("what is not there is told")
	}
}

func TestDutyText(t *testing.T) {
	d := &study.Duty{Conditions: sampleConditions(), Period: 900, Rms: 81, Mean: 47, PeakAt: 300, Made: 9000, Lost: 9000,
		Hottest: study.Span{Place: "lug", Temp: celsius(66), Rise: 41, Careful: celsius(60), Careless: celsius(78)},
		ByRms:   study.Rule{Current: 81, Temp: celsius(50), Place: "lug", Short: 16, Worst: 30, WorstAt: "fuse"},
		ByMean:  study.Rule{Current: 47, None: "no lasting state"},
		Places: []study.DutyPlace{
			{Name: "lug", Kind: "terminal", Terminal: true, Peak: celsius(66), PeakAt: 300, Mean: celsius(48), Lowest: celsius(30), Rms: celsius(50)},
			{Name: "fuse", Kind: "element", Peak: celsius(90), PeakAt: 300, Mean: celsius(60), Lowest: celsius(31), Rms: celsius(60)},
			{Name: "battery", Kind: "body", Peak: celsius(26), PeakAt: 450, Mean: celsius(26), Lowest: celsius(26)},
		},
		Periods: 8, Settles: 30, Closes: 1e-4, Numerics: study.Numerics{Nodes: 100, Bookkeeping: 1e-13, Quadrature: 1e-7}}
	d.Element = &d.Places[1]
	d.Tightest = sampleMargin("lug", 66)
	text := dutyText(d)
	narrow(t, text)
	has(t, text, "a period of 15 min", "66 °C (151 °F) at its peak, 5 min after a period begins", "81.0 A left on settle at 50 °C", "16.0 K short of the peak",
		"30.0 K, at fuse", "no lasting state", "->", "Beside the path", "none", "10.0 W on average", "1 % of the way is left", "30 periods, 7.5 h")
}

// What circulates is no share of what is drawn.
func TestShareText(t *testing.T) {
	for want, share := range map[string]float64{"–": -20.8, "28.5 %": 0.285, "100.0 %": 1} {
		if got := shareText(study.BranchLine{Kind: "battery", Share: share}); got != want {
			t.Errorf("a share of %g reads %q, not %q", share, got, want)
		}
	}
	if got := shareText(study.BranchLine{Kind: "battery", Share: 21.8}); got != "–" {
		t.Errorf("a share of 21.8 reads %q", got)
	}
	has(t, spreadLines([]study.Spread{{Ways: 2, OverEven: 43, Largest: "A", Smallest: "B"}}), "A carries more than is drawn; B carries none")
	if text := spreadLines([]study.Spread{{Ways: 1, Ratio: 1, OverEven: 1}}); text != "" {
		t.Errorf("one way alone: %s", text)
	}
}

// A limit in air above 40 °C is the temperature that binds.
func TestTightest_hotAir(t *testing.T) {
	m := study.Margin{Place: "lug", Name: "tin-plated terminal, 65 K over 40 °C at most", Limit: celsius(105), Rise: 65, Over: celsius(40), Capped: true, Left: 21, Verdict: study.Holds}
	d := dress{temp: "°C"}
	if got := limitText(d, m); got != "105 °C" {
		t.Errorf("%q", got)
	}
	text := tightest(d, m)
	has(t, text, "65 K over 40 °C at most, 105 °C")
	if strings.Contains(text, "105 °C rise") {
		t.Error(text)
	}
}

// A drop says what is in it and what is not.
func TestDropText(t *testing.T) {
	batteries := study.DropParts{Path: 0.3, In: []string{"inner", "the positive side"}, Out: []string{wayBack}}
	has(t, dropText(0.3, "", true, study.Conditions{}, batteries), "300 mV less at what draws the current", "in it: inner, the positive side; not in it: the way back")
	power := study.DropParts{Source: 0.6, Path: 0.14, Return: 0.08, In: []string{"the positive side"}}
	has(t, dropText(0.82, "", false, study.Conditions{Power: 2400}, power), "820 mV less", ": source 600 mV, path 140 mV, return 80.0 mV")
	has(t, dropText(0.11, ", post to lug", false, study.Conditions{}, study.DropParts{}), "110 mV, post to lug (positive side only)")
	circuits := study.DropParts{Path: 0.2, In: []string{"the positive side"}, Out: []string{wayBack}, Draw: "pump"}
	has(t, dropText(0.2, "cold", true, study.Conditions{}, circuits), "200 mV less, cold, at pump, which loses the most, than with nothing drawn")
}

func TestDutyWays(t *testing.T) {
	text := dutyWays([]study.DutyWay{{Name: "A", Largest: 54.2, Rms: 30.65, Mean: -6.2, Fuse: "fuse", Rated: 150, Load: 0.204}, {Name: "B", Largest: 4, Rms: 3, Mean: 1}})
	has(t, text, "A rms", "30.6", "-6.20", "150 A", "20 %", "charges the battery")
}

func TestPlainAmps(t *testing.T) {
	for a, want := range map[float64]string{67.5545023146: "67.6 A", 140: "140 A", 62.5: "62.5 A"} {
		if got := plainAmps(a); got != want {
			t.Errorf("%g A reads %q, not %q", a, got, want)
		}
	}
}
