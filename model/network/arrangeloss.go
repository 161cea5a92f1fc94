package network

// This file arranges the surfaces in runs of one law on nodes that follow one
// another.

import (
	"cmp"
	"math"
	"slices"

	"clampheat/materials"
)

// laws works out the law of a surface. A shape shared by many has one table.
type laws struct {
	pressure float64
	shapes   map[string]*still
	key      []byte
}

// of gives the law and its coefficient.
func (l *laws) of(s *Surface) (of law, conv float64) {
	switch shape := s.Shape.(type) {
	case nil:
		return law{kind: steadyLoss}, 0
	case Given:
		return law{kind: steadyLoss}, s.Area * shape.H
	case PowerLaw:
		return law{kind: powerKind(shape.M), exponent: shape.M}, s.Area * shape.C * math.Pow(shape.L, -shape.M)
	default:
		l.key = shape.appendKey(l.key[:0])
		st := l.shapes[string(l.key)]
		if st == nil {
			st = newStill(shape, l.pressure)
			st.order = len(l.shapes)
			l.shapes[string(l.key)] = st
		}
		if st.plainly() {
			return law{kind: curvedLoss, still: st}, s.Area
		}
		return law{kind: tabledLoss, still: st}, s.Area
	}
}

// compare orders laws: tables in the order in which their shapes were met.
func (l law) compare(m law) int {
	order := 0
	if l.still != nil && m.still != nil {
		order = cmp.Compare(l.still.order, m.still.order)
	}
	return cmp.Or(cmp.Compare(l.kind, m.kind), cmp.Compare(l.exponent, m.exponent), order)
}

// A sorted is a surface with what decides its group.
type sorted struct {
	id   int
	node int
	run  lossRun
	conv float64
}

func (n *Network) arrangeLosses() {
	all := make([]sorted, 0, len(n.surfaces))
	var inner []sorted
	laws := laws{pressure: n.room.Pressure, shapes: map[string]*still{}}
	n.lossPlace = make([]lossPlace, len(n.surfaces))
	for i := range n.surfaces {
		s := &n.surfaces[i]
		e := sorted{id: i, node: int(s.node)}
		e.run.law, e.conv = laws.of(&s.Surface)
		if s.In != 0 {
			inner = append(inner, e)
			continue
		}
		e.run.radiant = s.Radiant
		if s.Radiant == 0 {
			e.run.radiant, e.run.follows = n.room.Radiant, n.follows
		}
		all = append(all, e)
	}
	follows := func(e *sorted) int {
		if e.run.follows {
			return 1
		}
		return 0
	}
	slices.SortStableFunc(all, func(x, y sorted) int {
		return cmp.Or(x.run.law.compare(y.run.law), cmp.Compare(x.run.radiant, y.run.radiant),
			cmp.Compare(follows(&x), follows(&y)), cmp.Compare(x.node, y.node))
	})
	n.conv, n.rad = make([]float64, len(all)), make([]float64, len(all))
	for i, e := range all {
		n.conv[i], n.rad[i] = e.conv, n.surfaces[e.id].radiance()
		last := len(n.losses) - 1
		if last >= 0 && n.losses[last].goesOn(e) {
			n.losses[last].to = i + 1
		} else {
			e.run.run = run{e.node, i, i + 1}
			n.losses = append(n.losses, e.run)
			last++
		}
		n.lossPlace[e.id] = lossPlace{last, i}
	}
	n.arrangeInner(inner)
}

// radiance is εσA, W/K⁴.
func (s *Surface) radiance() float64 {
	return s.Area * s.Emissivity * materials.StefanBoltzmann
}

// goesOn says whether a surface can be added to the end of a run.
func (r *lossRun) goesOn(e sorted) bool {
	return r.law == e.run.law && r.radiant == e.run.radiant && r.follows == e.run.follows && r.node+r.to-r.from == e.node
}

func powerKind(m float64) lossKind {
	switch m {
	case 0:
		return steadyLoss
	case 0.25:
		return quarterLoss
	case 1.0 / 3:
		return thirdLoss
	}
	return powerLoss
}
