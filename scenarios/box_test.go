package scenarios

import (
	"fmt"
	"slices"
	"testing"

	"clampheat/model"
)

// A cable between two parts in the box is in it too, and the file is told so; not
// where the list of the box names cables.
func TestBox_cableBetween(t *testing.T) {
	const file = `current: 100 A
air: 25 °C
enclosure: {width: 30 cm, height: 20 cm, depth: 15 cm, wall: steel%s}
path:
  - battery post: M8
    nut: 12 N·m
  - compact holder: generic
    fuse: 200 A
    nut: 8 N·m
  - cable: 50 mm²
    length: 1.2 m
  - battery switch: generic
    nuts: 20 N·m
  - cable: 35 mm²
    length: 2 m
  - inverter terminal: M8
    nut: 12 N·m
`
	for _, test := range []struct {
		name, holds string
		inside      bool
	}{
		{"not listed", "", true},
		{"both ends listed", ", holds: [compact holder, battery switch]", true},
		{"one end listed", ", holds: [battery switch]", false},
		{"another cable listed", ", holds: [compact holder, battery switch, cable 35 mm²]", false},
	} {
		t.Run(test.name, func(t *testing.T) {
			s, stack := understood(t, []byte(fmt.Sprintf(file, test.holds)))
			part := slices.IndexFunc(stack.Parts, func(p model.Part) bool { return p.Name() == "cable 50 mm²" })
			assumed := slices.ContainsFunc(s.Assumptions(), func(a Assumption) bool { return a.ID == "box.cable 50 mm²" })
			if in := slices.Contains(stack.Enclosure.Parts, part); in != test.inside || assumed != test.inside {
				t.Errorf("in the box %v, assumed %v; want %v", in, assumed, test.inside)
			}
		})
	}
}
