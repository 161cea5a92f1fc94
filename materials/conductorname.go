package materials

// This file reads the name of a conductor as people write it: "1/0 AWG",
// "AWG 2", "50 mm²", "50mm2 tinned", "250 kcmil", "25 mm² class 2".

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// system is a way to name sizes.
type system int

const (
	gauge system = iota
	kcmil
	metric
	metricStranded // class 2; plain metric is class 5
)

// size is a conductor's size in one system: gauge number, kcmil or mm².
type size struct {
	system system
	value  float64
}

func (s size) conductor(tinned bool) (Conductor, error) {
	switch s.system {
	case gauge:
		return AWG(int(s.value), tinned)
	case kcmil:
		return Kcmil(s.value, tinned)
	case metric:
		return Metric(s.value, 5, tinned)
	default:
		return Metric(s.value, 2, tinned)
	}
}

func (s size) name() string {
	switch s.system {
	case gauge:
		return gaugeName(int(s.value))
	case kcmil:
		return strconv.FormatFloat(s.value, 'g', -1, 64) + " kcmil"
	case metric:
		return metricName(s.value, 5)
	default:
		return metricName(s.value, 2)
	}
}

func (s size) area() float64 {
	switch s.system {
	case gauge:
		return gaugeArea(int(s.value))
	case kcmil:
		return kcmilArea(s.value)
	default:
		return s.value * 1e-6
	}
}

// gaugeName writes gauge 0 and below as the trade does: 1/0, 2/0, 3/0, 4/0.
func gaugeName(n int) string {
	if n <= 0 {
		return fmt.Sprintf("%d/0 AWG", 1-n)
	}
	return fmt.Sprintf("%d AWG", n)
}

// metricName names class 2; a metric size without a class is of class 5.
func metricName(mm2 float64, class int) string {
	name := strconv.FormatFloat(mm2, 'g', -1, 64) + " mm²"
	if class != 5 {
		name += fmt.Sprintf(" class %d", class)
	}
	return name
}

// tradeSizes lists what is sold, in the order in which it is shown.
func tradeSizes() []size {
	var list []size
	for _, n := range tradeGauges {
		list = append(list, size{gauge, float64(n)})
	}
	for _, k := range tradeKcmil {
		list = append(list, size{kcmil, k})
	}
	sizes, _ := metricSizes()
	for _, s := range sizes {
		if s.class == 2 {
			list = append(list, size{metricStranded, s.nominal})
		} else {
			list = append(list, size{metric, s.nominal})
		}
	}
	return list
}

// LookupConductor returns the copper conductor of a name such as "1/0 AWG",
// "AWG 2", "50 mm²", "50mm2", "250 kcmil", with the words "tinned" or "plain"
// and "class 2" or "class 5" where wanted. A metric size without a class is
// flexible, class 5.
//
// What it cannot read or does not know, it answers with an *UnknownError that
// holds the nearest sizes.
func LookupConductor(name string) (Conductor, error) {
	s, tinned, ok := parseConductor(name)
	if !ok {
		return Conductor{}, unknownConductor(name)
	}
	c, err := s.conductor(tinned)
	if miss := (*UnknownError)(nil); errors.As(err, &miss) {
		miss.Name = name
	}
	return c, err
}

// parseConductor splits a name into its size and the word "tinned".
func parseConductor(name string) (s size, tinned, ok bool) {
	text := strings.ToLower(name)
	units := []struct{ spelling, word string }{
		{"mm²", " mm² "}, {"mm^2", " mm² "}, {"mm2", " mm² "}, {"sq mm", " mm² "}, {"sqmm", " mm² "}, {"mm ²", " mm² "},
		{"awg", " awg "}, {"kcmil", " kcmil "}, {"mcm", " kcmil "}, {"#", " awg "},
	}
	for _, u := range units {
		if strings.Contains(text, u.spelling) {
			text = strings.Replace(text, u.spelling, u.word, 1)
			break
		}
	}
	number, unit, class := "", "", 0
	words := strings.Fields(text)
	for i := 0; i < len(words); i++ {
		switch w := words[i]; w {
		case "tinned":
			tinned = true
		case "plain", "bare", "copper", "cu", "flexible":
		case "mm²", "awg", "kcmil":
			if unit != "" && !(unit == "awg" && w == "awg") {
				return size{}, false, false
			}
			unit = w
		case "class":
			i++
			if i == len(words) || class != 0 || (words[i] != "2" && words[i] != "5") {
				return size{}, false, false
			}
			class = int(words[i][0] - '0')
		default:
			if number != "" {
				return size{}, false, false
			}
			number = w
		}
	}
	s, ok = readSize(number, unit, class)
	return s, tinned, ok
}

// readSize reads the number of a size in its unit; "2/0" needs none.
func readSize(number, unit string, class int) (size, bool) {
	if aught, is := strings.CutSuffix(number, "/0"); is && (unit == "" || unit == "awg") && class == 0 {
		n, err := strconv.Atoi(aught)
		return size{gauge, float64(1 - n)}, err == nil && n >= 1 && n <= 1-widestGauge
	}
	if unit == "awg" && number != "" && strings.Trim(number, "0") == "" && class == 0 { // 00 is 2/0
		return size{gauge, float64(1 - len(number))}, len(number) <= 1-widestGauge
	}
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || !(x > 0) || math.IsInf(x, 0) {
		return size{}, false
	}
	switch {
	case unit == "awg" && class == 0 && x == math.Trunc(x) && x < 100:
		return size{gauge, x}, true
	case unit == "kcmil" && class == 0:
		return size{kcmil, x}, true
	case unit == "mm²" && class == 2:
		return size{metricStranded, x}, true
	case unit == "mm²":
		return size{metric, x}, true
	}
	return size{}, false
}

// unknownSize answers a size that is not made with those of the same system
// whose area is nearest by ratio.
func unknownSize(s size, name string) *UnknownError {
	e := &UnknownError{Kind: "conductor", Name: name}
	sizes := tradeSizes()
	for _, t := range sizes {
		e.All = append(e.All, t.name())
	}
	apart := func(t size) float64 { return math.Abs(math.Log(t.area() / s.area())) }
	kin := slices.DeleteFunc(sizes, func(t size) bool { return t.system != s.system })
	slices.SortStableFunc(kin, func(a, b size) int {
		switch d := apart(a) - apart(b); {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	for _, t := range kin[:min(mostNear, len(kin))] {
		e.Near = append(e.Near, t.name())
	}
	return e
}

// unknownConductor answers a name that cannot be read as a size; a bare
// number is answered with the sizes of that number.
func unknownConductor(name string) error {
	var groups [][]string
	var same []string
	for _, s := range tradeSizes() {
		groups = append(groups, []string{s.name()})
		if strings.HasPrefix(s.name(), strings.TrimSpace(name)+" ") {
			same = append(same, s.name())
		}
	}
	e := unknown("conductor", name, groups)
	if len(same) > 0 {
		e.Near = same[:min(mostNear, len(same))]
	}
	return e
}

// area reads the column "size" of a data file as the metal of a conductor, m².
func (r *row) area() float64 {
	s, _, ok := parseConductor(r.text("size"))
	if !ok {
		r.fail("size", fmt.Errorf("%q is no conductor size", r.text("size")))
		return 0
	}
	return s.area()
}
