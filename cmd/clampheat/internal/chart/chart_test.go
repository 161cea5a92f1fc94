package chart

import (
	"bytes"
	"math"
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
