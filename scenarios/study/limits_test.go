package study

import (
	"math"
	"strings"
	"testing"

	"clampheat/model"
)

func TestBounds(t *testing.T) {
	find := func(all []bound, a *model.Assembly, row, name string) *bound {
		for i, b := range all {
			if a.Rows[b.row].Name == row && strings.HasPrefix(b.name, name) {
				return &all[i]
			}
		}
		return nil
	}
	sc := read(t, with("air: 25 °C", "air: 25 °C\nlimit: touch 1 s"))
	s := at(t, sc, 100, model.Likely)
	all := bounds(sc, s.assembly, 25+celsius)
	// ISO 13732-1:2006, lower thresholds at 1 s, from memory: bare metal 65 °C,
	// plastic 85 °C.
	for row, want := range map[string]float64{"battery post M8": 65, "cable 1/0 AWG": 85, "compact holder, base, housing": 85} {
		b := find(all, s.assembly, row, "touch 1 s")
		if b == nil || math.Abs(b.temp-celsius-want) > 1e-9 || !b.asked {
			t.Errorf("touch/%s: %+v, want %g °C", row, b, want)
		}
	}
	t.Run("terminal without a figure/UNKNOWN", func(t *testing.T) {
		for i := range s.assembly.Rows {
			if s.assembly.Rows[i].Name == "battery post M8" {
				s.assembly.Rows[i].Limits = nil
			}
		}
		b := find(bounds(sc, s.assembly, 25+celsius), s.assembly, "battery post M8", "rise of the terminal")
		if b == nil || b.judge("", 300, 300).Verdict != Unknown {
			t.Errorf("%+v: what cannot be judged is no pass", b)
		}
	})
}

// In air above 40 °C a rise counts from 40 °C (IEC 60947-1, 7.2.2), and what is told
// adds up: what it counts from and the rise are the limit, temperature and what is
// left are the limit.
func TestMargins_hotAir(t *testing.T) {
	for air, over := range map[string]float64{"25 °C": 25, "50 °C": 40} {
		s := steady(t, read(t, strings.Replace(feed, "air: 25 °C", "air: "+air, 1)))
		seen := false
		for _, r := range s.Rows {
			m := r.Limit
			if m == nil || m.Rise == 0 {
				continue
			}
			seen = true
			if math.Abs(m.Over.Celsius()-over) > 1e-9 || math.Abs(float64(m.Over)+m.Rise-float64(m.Limit)) > 1e-9 ||
				math.Abs(float64(r.Temp)+m.Left-float64(m.Limit)) > 1e-9 || m.Capped != (over == 40) ||
				strings.Contains(m.Name, "over 40 °C at most") != m.Capped {
				t.Errorf("air %s, %s: %+v at %v", air, r.Name, m, r.Temp)
			}
		}
		if !seen {
			t.Errorf("air %s: no rise is judged", air)
		}
	}
}
