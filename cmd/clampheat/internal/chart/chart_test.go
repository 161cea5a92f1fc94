package chart

import (
	"bytes"
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/plot/vg"
	"pgregory.net/rapid"

	"clampheat/scenarios/quantity"
	"clampheat/scenarios/study"
)

func celsius(c float64) quantity.Temp { return quantity.Temp(c + 273.15) }

func soak() *study.Soak {
	margin := study.Margin{Place: "lug", Name: "tin-plated terminal", Limit: celsius(90), Verdict: study.Holds}
	return &study.Soak{
		Conditions: study.Conditions{Title: "A title", Current: 140, Air: celsius(25), TempUnit: "°C"},
		Lasting:    true, Until: 900, Times: []float64{0, 300, 900}, Hottest: study.Span{Place: "lug"},
		Series: []study.Series{
			{Name: "lug", Terminal: true, Temps: []quantity.Temp{celsius(25), celsius(40), celsius(50)}},
			{Name: "cable", Temps: []quantity.Temp{celsius(25), celsius(41), celsius(52)}},
			{Name: "post", Terminal: true, Temps: []quantity.Temp{celsius(25), celsius(30), celsius(35)}},
		},
		Measured: []study.Difference{{Channel: "post_C", Place: "post", Times: []float64{600}, Temps: []quantity.Temp{celsius(33)}}},
		Limits: []study.Crossing{{Margin: margin}, {Margin: margin}, {Margin: study.Margin{Name: "silver-plated terminal", Limit: celsius(90)}},
			{Margin: study.Margin{Name: "insulation", Limit: celsius(200)}}, {Margin: study.Margin{Name: "no figure", Verdict: study.Unknown}}},
	}
}

func path() *study.Steady {
	r := &study.Steady{Conditions: study.Conditions{Title: "A title", Current: 140, Air: celsius(25), TempUnit: "°F"},
		Hottest: study.Span{Place: "lug", Temp: celsius(66)}}
	for _, p := range []study.Point{
		{Along: 0, Temp: celsius(49), Name: "post"}, {Along: 0, Temp: celsius(66), Name: "lug"},
		{Along: 0.75, Temp: celsius(55)}, {Along: 1, Temp: celsius(44), Name: "end"},
	} {
		p.Careful, p.Careless = p.Temp-5, p.Temp+9
		r.Profile = append(r.Profile, p)
	}
	return r
}

func TestSoakData(t *testing.T) {
	f := Soak(soak())
	if len(f.Lines) != 2 || f.Lines[0].Name != "lug" || f.Lines[1].Name != "post" {
		t.Fatalf("lines are not the terminals: %+v", f.Lines)
	}
	if !f.Lines[0].Hot || f.Lines[1].Hot {
		t.Error("the hottest terminal is not marked alone")
	}
	if x, y := f.Lines[0].X[2], f.Lines[0].Y[2]; x != 15 || math.Abs(y-50) > 1e-9 {
		t.Errorf("the curve ends at %g min, %g °C, want 15 min, 50 °C", x, y)
	}
	if c := f.Clouds[0]; c.Of != 1 || c.X[0] != 10 || math.Abs(c.Y[0]-33) > 1e-9 {
		t.Errorf("measured point: %+v, want 33 °C at 10 min over the line of the post", c)
	}
	if len(f.Levels) != 1 || f.Levels[0].Name != "tin-plated terminal, silver-plated terminal" {
		t.Errorf("levels: %+v, want one of 90 °C with both names", f.Levels)
	}
	if f.Foot != "Limits above the picture: 200 °C  insulation" {
		t.Errorf("foot: %q", f.Foot)
	}
}

// In air that changes a rise has no level of its own; a temperature keeps its.
func TestSoakMovingAir(t *testing.T) {
	r := soak()
	for i := range r.Limits[:2] {
		r.Limits[i].Rise = 65
	}
	r.AirFrom = celsius(10)
	f := Soak(r)
	if len(f.Levels) != 1 || f.Levels[0].Name != "silver-plated terminal" {
		t.Errorf("levels: %+v, want the one that is no rise", f.Levels)
	}
	if !strings.Contains(f.Foot, "moves with the air, is a limit of a rise: tin-plated terminal (65 K).") {
		t.Errorf("foot: %q", f.Foot)
	}
	r.AirFrom = 0
	if f := Soak(r); f.Levels[0].Name != "tin-plated terminal, silver-plated terminal" {
		t.Errorf("levels in still air: %+v", f.Levels)
	}
}

// A place that is no terminal is drawn where it was measured.
func TestSoakMeasuredPart(t *testing.T) {
	r := soak()
	r.Measured[0].Place = "cable"
	if f := Soak(r); len(f.Lines) != 3 || f.Clouds[0].Of != 1 {
		t.Errorf("%d lines, points over line %d; want 3 lines, points over the cable's", len(f.Lines), f.Clouds[0].Of)
	}
}

func TestPathData(t *testing.T) {
	f := Path(path())
	if len(f.Stops) != 3 || f.Stops[1].Name != "lug  151 °F" || !f.Stops[1].Hot || f.Stops[0].Hot {
		t.Fatalf("stops: %+v", f.Stops)
	}
	x := f.Lines[0].X
	if x[0] != 0 || x[3] != 1 {
		t.Errorf("the path reaches from %g to %g, want 0 to 1", x[0], x[3])
	}
	// The joint, of no length, is drawn as 5 mm; the cable as a metre.
	if want := math.Cbrt(0.005) / (1 + math.Cbrt(0.005)); math.Abs(x[1]-want) > 1e-12 {
		t.Errorf("the joint ends at %g, want %g", x[1], want)
	}
	if want := x[1] + 0.75*(1-x[1]); math.Abs(x[2]-want) > 1e-12 {
		t.Errorf("three quarters of the cable lie at %g, want %g", x[2], want)
	}
	if f.Band == nil || math.Abs(f.Band.High[0]-(49+9)*1.8-32) > 1e-9 {
		t.Errorf("band: %+v", f.Band)
	}
	r := path()
	r.Hottest.CarelessEnds = "no lasting state"
	if Path(r).Band != nil {
		t.Error("a band is drawn though careless assembly has no lasting state")
	}
}

// Names never touch and keep their order; those with room stay where they are.
func TestApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const low, high = 0, 400
		n := rapid.IntRange(1, 25).Draw(t, "n")
		wanted, room := make([]vg.Length, n), make([]vg.Length, n)
		at := 400.0
		for i := range wanted {
			at -= rapid.Float64Range(0, 40).Draw(t, "step")
			wanted[i] = vg.Length(max(at, 0))
			room[i] = vg.Length(rapid.Float64Range(5, 15).Draw(t, "room"))
		}
		got := apart(wanted, room, low, high)
		for i := range got {
			if got[i] > high+1e-9 || got[i] < low-1e-9 {
				t.Fatalf("%v leaves the page", got)
			}
			if i > 0 && got[i-1]-got[i] < (room[i-1]+room[i])/2-1e-9 {
				t.Fatalf("%v from %v: two names touch", got, wanted)
			}
		}
	})
	got := apart([]vg.Length{300, 200, 195, 100}, []vg.Length{10, 10, 10, 10}, 0, 400)
	want := []vg.Length{300, 202.5, 192.5, 100}
	for i := range want {
		if math.Abs(float64(got[i]-want[i])) > 1e-9 {
			t.Fatalf("got %v, want %v", got, want)
		}
	}
}

func TestTicks(t *testing.T) {
	got := ticks(23, 92)
	want := []float64{40, 60, 80}
	if len(got) != len(want) || got[0] != want[0] || got[2] != want[2] {
		t.Errorf("got %v, want %v", got, want)
	}
}

// A long row of terminals keeps its names apart and on the page, with the
// hottest always among them.
func TestStopsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := path()
		r.Profile = nil
		n := rapid.IntRange(1, 45).Draw(t, "n")
		for i := range n {
			length := rapid.Float64Range(0, 0.3).Draw(t, "length")
			at := celsius(rapid.Float64Range(25, 90).Draw(t, "temp"))
			p := study.Point{Along: float64(i) * length, Temp: at, Careful: at, Careless: at,
				Name: rapid.StringMatching("[a-z]{1,9}( [a-z]{1,12}){0,5}").Draw(t, "name")}
			if i > 0 {
				p.Along = r.Profile[i-1].Along + length
			}
			r.Profile = append(r.Profile, p)
		}
		f := Path(r)
		hottest := 0.0
		for _, s := range f.Stops {
			hottest = max(hottest, s.Y)
		}
		p := &page{f: f}
		p.layout()
		found := false
		for i, s := range p.named {
			if s.at-s.left < 0 || s.at > pageWidth || p.area.Min.Y-leader-s.below < 0 {
				t.Fatalf("%q ends at %v and runs off the page", s.Name, s.at)
			}
			if i > 0 && s.at-p.named[i-1].at < stopRoom-1e-9 {
				t.Fatalf("%q and %q touch", p.named[i-1].Name, s.Name)
			}
			found = found || s.Y == hottest
		}
		if !found {
			t.Fatal("the hottest has no name")
		}
		if left := len(f.Stops) - len(p.named); left > 0 && !strings.Contains(p.foot, fmt.Sprintf("%d cooler places", left)) {
			t.Fatalf("%d names are left out, and the foot says %q", left, p.foot)
		}
	})
}

// Names at the right are broken into lines that fit.
func TestBroken(t *testing.T) {
	style := writing(textSize, ink, 0, 0)
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching("[a-zA-Z,]{1,40}( [a-z]{1,9}){0,20}").Draw(t, "s")
		lines := broken(style, s, widestLimit)
		if len(lines) > mostLines {
			t.Fatalf("%d lines", len(lines))
		}
		for _, line := range lines {
			if style.Width(line) > widestLimit {
				t.Fatalf("%q is too wide", line)
			}
		}
	})
	got := broken(style, "203 °F  tin-plated terminal, 65 K rise", widestLimit)
	if strings.Join(got, "|") != "203 °F  tin-plated terminal,|65 K rise" {
		t.Errorf("broken into %q", got)
	}
}

// The element is drawn where it is what a soak runs away with, and not else.
func TestSoakElement(t *testing.T) {
	r := soak()
	r.Lasting = false
	if f := Soak(r); len(f.Lines) != 3 || f.Lines[1].Name != "cable (inside)" {
		t.Errorf("lines: %+v, want the hottest part among them", f.Lines)
	}
	r.Series[1].Temps[2] = celsius(49) // now a terminal is the hottest
	if f := Soak(r); len(f.Lines) != 2 {
		t.Errorf("%d lines, want the 2 terminals", len(f.Lines))
	}
}

// A path that has no lasting state after careless assembly says so.
func TestPathCareless(t *testing.T) {
	r := path()
	r.Hottest.CarelessEnds = "no lasting state below 500 °C"
	if f := Path(r); !strings.Contains(f.Subtitle, "NO LASTING STATE") {
		t.Errorf("subtitle: %q", f.Subtitle)
	}
}

// Each format begins as its standard says.
func TestWrite(t *testing.T) {
	begins := map[string]string{"png": "\x89PNG", "svg": "<?xml", "pdf": "%PDF"}
	for _, format := range Formats() {
		for name, f := range map[string]*Figure{"soak": Soak(soak()), "path": Path(path()), "empty": Soak(&study.Soak{})} {
			t.Run(name+"/"+format, func(t *testing.T) {
				var w bytes.Buffer
				if err := f.Write(&w, format); err != nil {
					t.Fatal(err)
				}
				if !bytes.HasPrefix(w.Bytes(), []byte(begins[format])) {
					t.Errorf("begins with %q", w.Bytes()[:8])
				}
			})
		}
	}
	if err := Soak(soak()).Write(&bytes.Buffer{}, "bmp"); err == nil {
		t.Error("an unknown format is no error")
	}
}
