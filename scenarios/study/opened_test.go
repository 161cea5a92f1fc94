package study

import "testing"

// Ways that share a base can each be taken out: the base goes with what is left.
func TestOpened_sharedBase(t *testing.T) {
	const row = `title: a shared base
air: 25 °C
current: 100 A
path:
  - batteries: A B
    each:
      - {battery post: M8, nut: 12 N·m}
      - {cable: 1/0 AWG, length: 0.4 m}
      - high-capacity holder: generic
        fuse: 110 A
        nuts: 15 N·m
        case: panel
      - {cable: 1/0 AWG, length: 0.2 m}
  - bus bar: copper, tin-plated
    section: 30 x 5 mm
    studs: A out B
    spacing: 80 mm
    nuts: 15 N·m
  - {cable: 2/0 AWG, length: 1.5 m}
  - {inverter terminal: M10, nut: 20 N·m}
`
	s := steady(t, read(t, row))
	for i, other := range []string{"B", "A"} {
		c := s.Opened[i]
		if c.None != "" || c.Largest == nil || c.Largest.Name != other || len(c.Fuses) != 1 || c.Fuses[0].Way != other {
			t.Errorf("with %s opened: %+v", c.Name, c)
		}
	}
}
