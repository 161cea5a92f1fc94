package quantity_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"testing"

	"clampheat/materials"
	"clampheat/scenarios/quantity"
)

// relative is the difference of two numbers in units of the expected one.
func relative(got, want float64) float64 {
	if want == 0 {
		return math.Abs(got)
	}
	return math.Abs(got-want) / math.Abs(want)
}

// Conversion factors as NIST Special Publication 811 (2008), appendix B.8
// prints them, to its seven digits; those in bold there are exact. Values from
// memory of the printed table unless another source is named.
func TestParse_published(t *testing.T) {
	for _, tc := range []struct {
		name string
		kind quantity.Kind
		text string
		want float64
		tol  float64
	}{
		{"inch/exact", quantity.Length, "1 in", 2.54e-2, 1e-15},
		{"foot/exact", quantity.Length, "1 ft", 3.048e-1, 1e-15},
		{"pound-force inch", quantity.Torque, "1 in·lb", 1.129848e-1, 1e-6},
		{"pound-force foot", quantity.Torque, "1 ft·lb", 1.355818, 1e-6},
		{"circular mil/thousand", quantity.Area, "1 kcmil", 5.067075e-7, 1e-7},
		{"degree Fahrenheit/boiling water", quantity.Temperature, "212 °F", 373.15, 1e-14},
		{"degree Fahrenheit/freezing water", quantity.Temperature, "32 °F", 273.15, 1e-14},
		{"degree Fahrenheit/interval", quantity.Rise, "9 °F", 5, 1e-14},
		{"degree Celsius/absolute zero", quantity.Temperature, "-273.15 °C", 0, 0},
		{"kilometre per hour", quantity.Speed, "1 km/h", 2.777778e-1, 1e-6},
		{"hour/SI brochure table 8", quantity.Time, "1 h", 3600, 0},
		{"minute/SI brochure table 8", quantity.Time, "1 min", 60, 0},
		// Nominal areas of ASTM B258 table 1, in kcmil (values from memory). The
		// table rounds diameters to 0.1 mil before it squares them, and areas to
		// four digits: the tolerance of each row is the sum of both roundings.
		{"gauge/4/0", quantity.Area, "4/0 AWG", 211.6 * 5.067075e-7, 4.6e-4},
		{"gauge/1/0", quantity.Area, "1/0 AWG", 105.6 * 5.067075e-7, 8e-4},
		{"gauge/2", quantity.Area, "2 AWG", 66.36 * 5.067075e-7, 4.7e-4},
		{"gauge/10", quantity.Area, "10 AWG", 10.38 * 5.067075e-7, 1.5e-3},
	} {
		t.Run(tc.name, func(t *testing.T) {
			v, err := quantity.Parse(tc.kind, tc.text)
			if err != nil {
				t.Fatal(err)
			}
			if relative(v.SI, tc.want) > tc.tol {
				t.Errorf("%s = %.10g in SI, want %.10g", tc.text, v.SI, tc.want)
			}
		})
	}
}

// One value, the ways in which people type it: common practice, no source.
func TestParse_spellings(t *testing.T) {
	for _, tc := range []struct {
		kind  quantity.Kind
		want  string // canonical
		typed []string
	}{
		{quantity.Torque, "12 N·m", []string{"12N·m", "12 N⋅m", "12 N*m", "12Nm", "12 N m", "12 N-m", "12 N.m", "+12 Nm", "12.0 Nm", "1.2e1 N·m", "12 newton metres"}},
		{quantity.Torque, "75 in·lb", []string{"75 in-lb", "75 in lb", "75 inlb", "75 in-lbs", "75 lb·in", "75 lbf·in", "75 LBF-IN", "75 In-Lb", "75 inch pounds", "75 in.-lb."}},
		{quantity.Torque, "9 ft·lb", []string{"9 ft-lb", "9 ftlb", "9 lb-ft", "9 lbf·ft", "9 foot-pounds"}},
		{quantity.Temperature, "25 °C", []string{"25°C", "25 C", "25C", "25 degC", "25 deg C", "25 DegC", "25 ℃", "25 ºC", "25 celsius"}},
		{quantity.Temperature, "-10 °C", []string{"−10 °C", "-10°C"}},
		{quantity.Temperature, "77 °F", []string{"77F", "77 deg F"}},
		{quantity.Rise, "50 K", []string{"50K", "50 kelvin"}},
		{quantity.Resistance, "12 µΩ", []string{"12 μΩ", "12 µ\u2126", "12uΩ", "12 uohm", "12 uohms", "12 microohm", "12 micro-ohms", "12 µohm"}},
		{quantity.Resistance, "0.25 mΩ", []string{".25 mohm", "0.25 milliohm", "0.25 mΩ"}},
		{quantity.Area, "1/0 AWG", []string{"1/0AWG", "AWG 1/0", "awg 1/0", "0 AWG", "1/0 awg", "AWG #1/0"}},
		{quantity.Area, "4/0 AWG", []string{"0000 AWG", "AWG4/0"}},
		{quantity.Area, "2 AWG", []string{"AWG 2", "2awg", "2 gauge"}},
		{quantity.Area, "50 mm²", []string{"50 mm2", "50mm^2", "50 sq mm", "50 sqmm"}},
		{quantity.Area, "250 kcmil", []string{"250 MCM", "250kcmil"}},
		{quantity.Length, "80 mm", []string{"80mm", "80 millimetres"}},
		{quantity.Length, "2.5 in", []string{`2.5"`, "2.5 inch"}},
		{quantity.Current, "140 A", []string{"140A", "140 amps", "140 Amp"}},
		{quantity.Share, "70 %", []string{"70%", "70 percent"}},
		{quantity.Time, "15 min", []string{"15min", "15 minutes"}},
		{quantity.Speed, "0.5 m/s", []string{"0.5m/s"}},
		{quantity.Conductance, "0.1 W/K", []string{"0.1 W/°C"}},
	} {
		for _, typed := range append(tc.typed, tc.want) {
			t.Run(string(tc.kind)+"/"+typed, func(t *testing.T) {
				v, err := quantity.Parse(tc.kind, typed)
				if err != nil {
					t.Fatal(err)
				}
				if got := quantity.Format(tc.kind, v.SI, v.Unit, 0); got != tc.want {
					t.Errorf("read as %s, want %s", got, tc.want)
				}
			})
		}
	}
}

func TestParse_refusals(t *testing.T) {
	for _, tc := range []struct {
		kind       quantity.Kind
		text       string
		says, hint string
		as         any
	}{
		{quantity.Torque, "12", `a torque needs a unit after "12"`, `write the unit that is meant, "12 N·m" or "12 in·lb"`, new(*quantity.NoUnitError)},
		{quantity.Share, "0.7", `a share needs a unit after "0.7"`, `write per cent, for example "70 %"`, new(*quantity.NoUnitError)},
		{quantity.Length, "80 um", `"um" is no unit of length`, `write for example "80 mm"`, new(*quantity.UnknownUnitError)},
		{quantity.Torque, "12 nm", `"nm" is no unit of torque`, "did you mean N·m?", new(*quantity.UnknownUnitError)},
		{quantity.Resistance, "2 MΩ", `"MΩ" is no unit of resistance`, "did you mean mΩ?", new(*quantity.UnknownUnitError)},
		{quantity.Length, "12 N·m", "N·m is a torque; a length is wanted", `write for example "80 mm"`, new(*quantity.WrongKindError)},
		{quantity.Torque, "1/0 AWG", "AWG is an area; a torque is wanted", `write for example "12 N·m"`, new(*quantity.WrongKindError)},
		{quantity.Altitude, "5 mm", "mm is a length; an altitude is wanted", `write for example "500 m"`, new(*quantity.WrongKindError)},
		{quantity.Length, "1,5 m", `"1,5 m" has a decimal comma`, `write a point: "1.5 m"`, new(*quantity.NumberError)},
		{quantity.Length, ",5 m", `",5 m" has a comma`, `write a decimal point: "0.5 m"`, new(*quantity.NumberError)},
		{quantity.Length, "0,125 m", `"0,125 m" has a decimal comma`, `write a point: "0.125 m"`, new(*quantity.NumberError)},
		{quantity.Current, "1,000 A", `"1,000 A" has a comma, which may part thousands or decimals`, `write "1000 A" or "1.000 A"`, new(*quantity.NumberError)},
		{quantity.Current, "1 000 A", `"1 000 A" has a gap between digits`, `write the number without a gap: "1000 A"`, new(*quantity.NumberError)},
		{quantity.Current, "1'000 A", `"1'000 A" has a sign between digits`, `write the number without it: "1000 A"`, new(*quantity.NumberError)},
		{quantity.Current, "1_000 A", `"1_000 A" has a sign between digits`, `write the number without it: "1000 A"`, new(*quantity.NumberError)},
		{quantity.Length, "1/2 in", `"1/2 in" is a fraction`, `write "0.5 in"`, new(*quantity.NumberError)},
		{quantity.Area, "1/0", `"1/0" is a fraction`, `a wire gauge ends in AWG: "1/0 AWG"`, new(*quantity.NumberError)},
		{quantity.Area, "5/0 AWG", `"5/0 AWG" is no wire gauge`, `gauges are 4/0, 3/0, 2/0, 1/0, 1, 2 … 40, for example "1/0 AWG"`, new(*quantity.NumberError)},
		{quantity.Temperature, "-300 °C", `"-300 °C" is below absolute zero (-273.15 °C)`, `write for example "25 °C"`, new(*quantity.NumberError)},
		{quantity.Torque, "tight", `"tight" does not begin with a number`, `write for example "12 N·m"`, new(*quantity.NumberError)},
		{quantity.Torque, "NaN N·m", `"NaN N·m" does not begin with a number`, `write for example "12 N·m"`, new(*quantity.NumberError)},
		{quantity.Torque, "", `"" is empty`, `write for example "12 N·m"`, new(*quantity.NumberError)},
		{quantity.Torque, "1.2.3 N·m", `"1.2.3 N·m" has two decimal points`, `write for example "12 N·m"`, new(*quantity.NumberError)},
		{quantity.Torque, "1e999 N·m", `"1e999 N·m" is no number that can be meant`, `write for example "12 N·m"`, new(*quantity.NumberError)},
	} {
		t.Run(string(tc.kind)+"/"+tc.text, func(t *testing.T) {
			v, err := quantity.Parse(tc.kind, tc.text)
			if err == nil {
				t.Fatalf("read as %v", v)
			}
			if err.Error() != tc.says {
				t.Errorf("says %q\nwant %q", err, tc.says)
			}
			if !errors.As(err, tc.as) {
				t.Errorf("is a %T, want %T", err, tc.as)
			}
			if hint := err.(interface{ Hint() string }).Hint(); hint != tc.hint {
				t.Errorf("hints %q\nwant  %q", hint, tc.hint)
			}
		})
	}
}

func TestParsePair(t *testing.T) {
	for _, text := range []string{"30 × 5 mm", "30 x 5 mm", "30mm x 5mm", "30×5mm", "30 mm X 0.5 cm", "30 * 5 mm", "30 by 5 mm"} {
		t.Run(text, func(t *testing.T) {
			w, h, err := quantity.ParsePair(text)
			if err != nil {
				t.Fatal(err)
			}
			if relative(w.SI, 0.03) > 1e-14 || relative(h.SI, 0.005) > 1e-14 {
				t.Errorf("read as %v × %v m", w.SI, h.SI)
			}
		})
	}
	for text, says := range map[string]string{
		"30 mm":      `"30 mm" is not a width and a thickness`,
		"30 × 5":     `a length needs a unit after "5"`,
		"× 5 mm":     `"" is empty`,
		"30 × 5 N·m": "N·m is a torque; a length is wanted",
	} {
		t.Run("refused/"+text, func(t *testing.T) {
			if _, _, err := quantity.ParsePair(text); err == nil || err.Error() != says {
				t.Errorf("says %v, want %q", err, says)
			}
		})
	}
}

// The gauge of package materials and of this package are one formula, written
// in both because this one needs it for any gauge and both ways.
func TestGauge_agrees(t *testing.T) {
	for n, name := range map[int]string{-3: "4/0 AWG", 0: "1/0 AWG", 2: "2 AWG", 14: "14 AWG"} {
		c, err := materials.AWG(n, false)
		if err != nil {
			t.Fatal(err)
		}
		v, err := quantity.Parse(quantity.Area, name)
		if err != nil {
			t.Fatal(err)
		}
		if relative(v.SI, c.Area) > 1e-12 {
			t.Errorf("%s is %.9g m² here and %.9g m² in materials", name, v.SI, c.Area)
		}
	}
}

func TestNumber(t *testing.T) {
	for _, tc := range []struct {
		n      float64
		digits int
		want   string
	}{
		{104.2, 2, "104"}, {0.0471, 2, "0.047"}, {9.96, 2, "10"}, {8.5, 3, "8.50"}, {0, 3, "0"}, {-0.04, 1, "-0.04"},
		{12, 0, "12"}, {0.1 + 0.2, 0, "0.3"}, {1e-9, 0, "1e-09"}, {999.6, 3, "1000"}, {math.Copysign(0, -1), 0, "0"},
	} {
		if got := quantity.Number(tc.n, tc.digits); got != tc.want {
			t.Errorf("Number(%v, %d) = %q, want %q", tc.n, tc.digits, got, tc.want)
		}
	}
}

func TestScaled(t *testing.T) {
	for _, tc := range []struct {
		kind   quantity.Kind
		si     float64
		digits int
		want   string
	}{
		{quantity.Resistance, 12.4e-6, 2, "12 µΩ"},
		{quantity.Resistance, 999.4e-6, 3, "999 µΩ"},
		{quantity.Resistance, 999.6e-6, 3, "1.00 mΩ"},
		{quantity.Resistance, 0.25, 3, "250 mΩ"},
		{quantity.Resistance, 2.5, 3, "2.50 Ω"},
		{quantity.Voltage, 0.117, 3, "117 mV"},
		{quantity.Voltage, 12.8, 3, "12.8 V"},
		{quantity.Length, 0.08, 2, "80 mm"},
		{quantity.Length, 1.5, 2, "1.5 m"},
		{quantity.Time, 45, 2, "45 s"},
		{quantity.Time, 900, 2, "15 min"},
		{quantity.Time, 6 * 3600, 2, "6.0 h"},
		{quantity.Torque, 12, 0, "12 N·m"},
	} {
		if got := quantity.Scaled(tc.kind, tc.si, tc.digits); got != tc.want {
			t.Errorf("Scaled(%s, %v, %d) = %q, want %q", tc.kind, tc.si, tc.digits, got, tc.want)
		}
	}
}

func TestTemp_json(t *testing.T) {
	got, err := json.Marshal([]quantity.Temp{273.15, 339.1500004, 0})
	if err != nil || string(got) != "[0,66,null]" {
		t.Errorf("got %s, %v", got, err)
	}
	if _, err := json.Marshal(quantity.Temp(math.NaN())); err == nil {
		t.Error("NaN was written")
	}
	if f := quantity.Temp(373.15).Fahrenheit(); relative(f, 212) > 1e-13 {
		t.Errorf("water boils at %v °F", f)
	}
}

func TestConvert(t *testing.T) {
	n, err := quantity.Convert(quantity.Torque, 8.5, "in-lb")
	// 8.5 / 0.1129848 (NIST SP 811)
	if err != nil || relative(n, 75.2314) > 1e-6 {
		t.Errorf("8.5 N·m is %v in·lb, %v", n, err)
	}
	var unknown *quantity.UnknownUnitError
	if _, err := quantity.Convert(quantity.Torque, 8.5, "mm"); !errors.As(err, &unknown) {
		t.Errorf("a torque in mm: %v", err)
	}
}

func ExampleParse() {
	v, err := quantity.Parse(quantity.Torque, "75 in-lb")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f N·m, typed in %s\n", v.SI, v.Unit)
	_, err = quantity.Parse(quantity.Length, "75 in-lb")
	fmt.Println(err)
	// Output:
	// 8.47 N·m, typed in in·lb
	// in-lb is a torque; a length is wanted
}
