package model

import (
	"fmt"

	"clampheat/model/network"
)

// A Cover encloses surfaces of some parts: a node between them and the room.
type Cover struct {
	Label    string
	Parts    []int   // parts whose exposed surfaces lie under it
	Gap      float64 // m, mean air gap inside
	Inside   float64 // emissivity of the inner side
	Capacity float64 // J/K
	Exposed  float64 // m² of the outer side
	Height   float64 // m
	Outside  float64 // emissivity of the outer side
	LimitTo  float64 // K, of the plastic; 0 = none
}

func (v *Cover) check(parts int) error {
	c := checks{where: v.Label}
	c.positive("air gap", v.Gap)
	c.share("emissivity inside", v.Inside)
	c.share("emissivity outside", v.Outside)
	c.notNegative("heat capacity", v.Capacity)
	c.positive("outer surface", v.Exposed)
	c.positive("height", v.Height)
	c.notNegative("limit", v.LimitTo)
	for _, p := range v.Parts {
		if p < 0 || p >= parts {
			c.fail("list of parts", "names none of the stack's: %d", p)
		}
	}
	return c.err
}

// under is a surface that a cover keeps from the room.
type under struct {
	node network.NodeID
	name string
	exposure
}

// enclosed is the emissivity that counts for the exchange of a body of emissivity
// ε1 and area A1 inside a shell of ε2 and A2, ratio = A1/A2, at most 1:
// 1/(1/ε1 + A1/A2 (1/ε2 − 1)) of A1 (Incropera et al., Fundamentals of Heat and
// Mass Transfer, 6th ed. 2007, eq. (13.25)).
func enclosed(body, shell, ratio float64) float64 {
	if !(body > 0 && shell > 0) {
		return 0
	}
	return 1 / (1/body + min(ratio, 1)*(1/shell-1))
}

// placeCover adds the node of a cover, what leads to it from the surfaces below it
// and its own surface.
func (b *builder) placeCover(v *Cover, below []under) error {
	inside := 0.0
	for _, u := range below {
		inside += u.area
	}
	if inside == 0 {
		return &StackError{Where: v.Label, Reason: "no surface lies under it"}
	}
	if inside > v.Exposed {
		b.warn(v.Label, fmt.Sprintf("the surfaces under it, %.3g cm², are more than its own %.3g cm²", inside*1e4, v.Exposed*1e4))
	}
	boxed := b.boxed[v.Parts[0]]
	for _, p := range v.Parts {
		if b.boxed[p] != boxed {
			return &StackError{Where: v.Label, Reason: "some parts under it are in the box and some are not"}
		}
	}
	n := b.node(-1, v.Label, v.Capacity, 0)
	for _, u := range below {
		effective := enclosed(u.emissivity, v.Inside, inside/v.Exposed)
		name := u.name + " to " + v.Label
		id := b.n.AddGap(name, u.node, n, network.Gap{
			Area: u.area, Distance: v.Gap, Height: v.Height, Emissivity: effective})
		b.a.covered = append(b.a.covered, covered{id, u.node, n, name, u.area})
	}
	b.face(n, v.Label, exposure{
		area: v.Exposed, emissivity: v.Outside,
		shape: network.VerticalPlate{H: v.Height}, flow: network.Along, flowLength: v.Height,
	}, boxed)
	row := b.row(BodyRow, v.Label, -1, n)
	row.Limits = plasticLimits(v.LimitTo)
	b.beside = append(b.beside, row)
	return nil
}
