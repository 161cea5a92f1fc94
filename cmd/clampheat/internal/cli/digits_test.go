package cli

import (
	"encoding/json"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestRounded(t *testing.T) {
	text, err := marshal(struct {
		Rise     float64            `json:"rise_K"`
		Heat     float64            `json:"heat_W"`
		Takes    float64            `json:"takes_W_per_K"`
		Times    []float64          `json:"times_s"`
		Lefts    []float64          `json:"lefts_K"`
		Element  map[string]float64 `json:"element_rise_K"`
		Residual float64            `json:"residual"`
		Nodes    int                `json:"nodes"`
		Text     string             `json:"text"`
	}{26.123456789, 16.123456789, 0.0123456789, []float64{0.123456789, 900}, []float64{-1.23456789, -1e-9},
		map[string]float64{"low": 80.123456789}, 3.123456789e-12, 1234567890, `"rise_K": 1.23456789`})
	if err != nil {
		t.Fatal(err)
	}
	want := `{
  "rise_K": 26.123,
  "heat_W": 16.1235,
  "takes_W_per_K": 0.0123457,
  "times_s": [
    0.123457,
    900
  ],
  "lefts_K": [
    -1.235,
    0
  ],
  "element_rise_K": {
    "low": 80.123
  },
  "residual": 3.12346e-12,
  "nodes": 1234567890,
  "text": "\"rise_K\": 1.23456789"
}
`
	if text != want {
		t.Errorf("got\n%s\nwant\n%s", text, want)
	}
}

// Rounding keeps every number within half a unit of its sixth digit, and the
// text a JSON of the same shape.
func TestRoundedNear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.MapOf(rapid.String(), rapid.SliceOf(rapid.Float64Range(-1e12, 1e12))).Draw(t, "in")
		text, err := marshal(map[string]any{"inside": in})
		if err != nil {
			t.Fatal(err)
		}
		var out struct{ Inside map[string][]float64 }
		if err := json.Unmarshal([]byte(text), &out); err != nil {
			t.Fatalf("%v in\n%s", err, text)
		}
		for key, list := range in {
			// Invalid UTF-8 is replaced by the encoder, not by us.
			got, ok := out.Inside[key]
			if !ok {
				continue
			}
			for i, v := range list {
				if slack := 0.5e-3 + 5e-6*math.Abs(v); math.Abs(got[i]-v) > slack {
					t.Fatalf("%q: %g became %g", key, v, got[i])
				}
			}
		}
	})
}
