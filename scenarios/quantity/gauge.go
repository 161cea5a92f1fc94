package quantity

import (
	"math"
	"strconv"
	"strings"
)

// This file knows the wire gauge, the one unit that is no multiple of another:
// AWG n has the diameter 0.127 mm · 92^((36−n)/39) (ASTM B258, 0.005 in for
// gauge 36 and 0.46 in for 4/0). Sizes above 1 are written 1/0, 2/0, 3/0, 4/0,
// which are n = 0, −1, −2, −3.

const (
	gauge36      = 0.005 * inch // m, ASTM B258
	gaugeRatio   = 92
	gaugeSteps   = 39
	thickest     = -3 // 4/0
	thinnest     = 40
	gaugeRounded = 1e-6 // of a step: an area this near a gauge is that gauge
)

// gaugeArea returns the metal area of gauge n, m².
func gaugeArea(n int) float64 {
	d := gauge36 * math.Pow(gaugeRatio, float64(36-n)/gaugeSteps)
	return math.Pi / 4 * d * d
}

// gaugeOf returns the gauge of an area, and whether it is one.
func gaugeOf(area float64) (n int, ok bool) {
	if !(area > 0) {
		return 0, false
	}
	d := math.Sqrt(area * 4 / math.Pi)
	steps := 36 - gaugeSteps*math.Log(d/gauge36)/math.Log(gaugeRatio)
	rounded := math.Round(steps)
	if rounded < thickest || rounded > thinnest || math.Abs(steps-rounded) > gaugeRounded {
		return 0, false
	}
	return int(rounded), true
}

// gaugeName writes gauge n as the trade does.
func gaugeName(n int) string {
	if n <= 0 {
		return strconv.Itoa(1-n) + "/0"
	}
	return strconv.Itoa(n)
}

// gaugeNumber reads "2", "1/0" or "000".
func gaugeNumber(text string) (n int, ok bool) {
	switch {
	case strings.HasSuffix(text, "/0") && len(text) == 3 && '1' <= text[0] && text[0] <= '4':
		return 1 - int(text[0]-'0'), true
	case text != "" && strings.Trim(text, "0") == "" && len(text) <= 4:
		return 1 - len(text), true
	}
	n, err := strconv.Atoi(text)
	return n, err == nil && n >= 1 && n <= thinnest && !strings.HasPrefix(text, "+")
}

// splitGauge takes "1/0 AWG" or "AWG 1/0" apart; ok says that text names a
// gauge, whether or not the number is one.
func splitGauge(text string) (number string, ok bool) {
	t := strings.ToLower(strings.TrimSpace(text))
	for _, word := range []string{"awg", "gauge"} {
		if rest, found := strings.CutSuffix(t, word); found && strings.TrimSpace(rest) != "" {
			return strings.TrimRight(strings.TrimSpace(rest), "- "), true
		}
		if rest, found := strings.CutPrefix(t, word); found && strings.TrimSpace(rest) != "" {
			return strings.TrimLeft(strings.TrimSpace(rest), "-# "), true
		}
	}
	return "", false
}
