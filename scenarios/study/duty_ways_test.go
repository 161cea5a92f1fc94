package study

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"
)

// unlike are three batteries that share unequally and circulate.
const unlike = `
title: Three unlike batteries
current: 180 A
air: 28 °C
path:
  - batteries: house1 house2 old
    voltage: [13.2 V, 13.35 V, 13.2 V]
    internal resistance: [2 mΩ, 2 mΩ, 6 mΩ]
    each:
      - battery post: M8
        nut: 12 N·m
      - compact holder: generic
        fuse: 150 A
        nut: 8.5 N·m
      - cable: 50 mm²
        length: 0.6 m
        insulation: 105 °C
  - bus bar: copper, tin-plated
    section: 30 × 5 mm
    studs: house1 out house2 old
    spacing: 80 mm
    nuts: 21.5 N·m
  - cable: 70 mm²
    length: 1.2 m
    insulation: 105 °C
  - inverter terminal: M8
    nut: 12 N·m
`

// Unlike batteries share otherwise under load than at rest, so that the rms of each
// is no share of the whole's: by hand √((I²·5 + I₀²·20)/25) of what it carries
// left on, I, and at rest, I₀. Left on it is hotter, which moves the shares by a
// few per cent. The means add up to that of the load, by Kirchhoff's law.
func TestDuty_ways(t *testing.T) {
	d := duty(t, strings.Replace(unlike, "current: 180 A", "duty: [180 A for 5 min, 0 A for 20 min]", 1))
	s := steady(t, read(t, unlike))
	if len(d.Ways) != 3 || len(d.Fuses) != 3 {
		t.Fatalf("%d ways, %d fuses", len(d.Ways), len(d.Fuses))
	}
	mean := 0.0
	for i, w := range d.Ways {
		on, rest := s.Branches[i].Current, s.Circulating[i].Current
		if want := math.Sqrt((on*on*5 + rest*rest*20) / 25); math.Abs(w.Rms-want) > 0.03*want {
			t.Errorf("%s: rms %g A, by hand %g A", w.Name, w.Rms, want)
		}
		if d.Fuses[i].Sustained != w.Rms {
			t.Errorf("%s: its fuse is judged at %g A, it carries %g A", w.Name, d.Fuses[i].Sustained, w.Rms)
		}
		mean += w.Mean
	}
	if math.Abs(mean-180.0/5) > 1e-6 {
		t.Errorf("the means add up to %g A, drawn are %g A", mean, 180.0/5)
	}
}

// A log with too many breaks for rows of their own is read at each of them.
func TestDuty_waysOfLog(t *testing.T) {
	var steps []string
	for range 210 {
		steps = append(steps, "\n  - 180 A for 1 s\n  - 0 A for 4 s")
	}
	text := strings.Replace(unlike, "current: 180 A", "duty:"+strings.Join(steps, ""), 1)
	d := duty(t, text)
	mean := 0.0
	for _, w := range d.Ways {
		mean += w.Mean
	}
	if math.Abs(mean-36) > 0.05 {
		t.Errorf("the means add up to %g A, drawn are 36 A", mean)
	}
}

// In moving air the rules are taken in the air of the peak.
func TestDuty_ruleAir(t *testing.T) {
	d := duty(t, strings.NewReplacer("current: 140 A", "duty: [140 A for 10 min, 140 A for 5 min]",
		"air: 25 °C", "air:\n  - 15 °C to 35 °C over 12 h\n  - 35 °C to 15 °C over 12 h").Replace(feed))
	// A load that stays is its own rms: what is short is the lag behind the air.
	if air := d.ByRms.Air.Celsius(); air < 32 || air > 35 || math.Abs(d.ByRms.Short) > 1.5 {
		t.Errorf("short by %g K in air at %g °C", d.ByRms.Short, air)
	}
}

func TestDuty_circuits(t *testing.T) {
	_, err := RunDuty(context.Background(), read(t, strings.Replace(circuits, "current: 15 A", "current: [15 A for 10 min, 5 A]", 1)))
	var input *InputError
	if !errors.As(err, &input) || !strings.Contains(input.Text, "circuits do not repeat") {
		t.Errorf("%v", err)
	}
}
