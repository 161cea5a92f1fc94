package network

// This file passes what gives its heat to enclosed air, and the vents of that
// air. In a space the air's temperature is one of the unknowns, so that each
// surface acts on three nodes.

import (
	"cmp"
	"math"
	"slices"
)

// innerSurface is a surface in a space. Pairs are −1 where the two are one node
// or no heat goes between them.
type innerSurface struct {
	law
	node, air, wall int
	toAir, toWall   int
	conv, rad       float64
}

// innerRun is a run of surfaces of one space that all, or none, give heat to its
// air, and to its wall: those of inner from first on. As a loss run it has their
// convection and no radiation.
type innerRun struct {
	lossRun
	first int
}

// opening is a vent.
type opening struct {
	node          int
	flow, buoyant float64
}

// faces says whether a surface gives heat to the air of its space, and to the
// wall.
func (n *Network) faces(s *surface) (air, wall bool) {
	if s.In == 0 || s.Area == 0 {
		return false, false
	}
	return s.Shape != nil, s.Emissivity > 0 && s.node != n.spaces[s.In-1].wall
}

// facingPairs are those of surfaces with the air and the wall of their spaces.
func (n *Network) facingPairs() (pairs [][2]int) {
	for i := range n.surfaces {
		s := &n.surfaces[i]
		air, wall := n.faces(s)
		if air {
			pairs = append(pairs, ordered(s.node, n.spaces[s.In-1].air))
		}
		if wall {
			pairs = append(pairs, ordered(s.node, n.spaces[s.In-1].wall))
		}
	}
	return pairs
}

// arrangeInner puts the surfaces of spaces in runs.
func (n *Network) arrangeInner(all []sorted) {
	apart := func(e *sorted) (k int) {
		air, wall := n.faces(&n.surfaces[e.id])
		if air {
			k++
		}
		if wall {
			k += 2
		}
		return k
	}
	slices.SortStableFunc(all, func(x, y sorted) int {
		return cmp.Or(cmp.Compare(n.surfaces[x.id].In, n.surfaces[y.id].In), x.run.law.compare(y.run.law),
			cmp.Compare(apart(&x), apart(&y)), cmp.Compare(x.node, y.node))
	})
	for i, e := range all {
		from := len(n.conv)
		n.conv, n.rad = append(n.conv, e.conv), append(n.rad, 0)
		n.lossPlace[e.id] = lossPlace{-1, i}
		n.inner = append(n.inner, n.innerSurface(&n.surfaces[e.id], e.run.law, e.conv))
		last := len(n.innerRuns) - 1
		if last >= 0 && n.surfaces[all[i-1].id].In == n.surfaces[e.id].In && apart(&all[i-1]) == apart(&e) && n.innerRuns[last].goesOn(e) {
			n.innerRuns[last].to = from + 1
			continue
		}
		e.run.run = run{e.node, from, from + 1}
		n.innerRuns = append(n.innerRuns, innerRun{e.run, i})
	}
}

func (n *Network) innerSurface(s *surface, l law, conv float64) innerSurface {
	in := n.spaces[s.In-1]
	out := innerSurface{law: l, node: int(s.node), air: int(in.air), wall: int(in.wall), toAir: -1, toWall: -1}
	air, wall := n.faces(s)
	if air {
		out.conv, out.toAir = conv, n.pairOf(out.node, out.air)
	}
	if wall {
		out.rad, out.toWall = s.radiance(), n.pairOf(out.node, out.wall)
	}
	return out
}

// loseInside passes the surfaces in spaces: nothing is lost by it.
func (n *Network) loseInside(x, f []float64) {
	for i := range n.innerRuns {
		r := &n.innerRuns[i]
		m := r.to - r.from
		surfaces := n.inner[r.first:][:m]
		s := &surfaces[0]
		own, net := x[r.node:][:m], f[r.node:][:m]
		if s.toAir >= 0 {
			f[s.air] += n.lose(&r.lossRun, own, net, ambient{air: x[s.air]})
		}
		if s.toWall >= 0 {
			f[s.wall] += glow(surfaces, own, net, x[s.wall])
		}
	}
}

// glow adds the radiation of a run to a wall and returns its sum.
func glow(surfaces []innerSurface, x, f []float64, tr float64) (sum float64) {
	x, f = x[:len(surfaces)], f[:len(surfaces)]
	tr2 := tr * tr
	for i := range surfaces {
		t := x[i]
		q := surfaces[i].rad * (t - tr) * ((t + tr) * (t*t + tr2))
		f[i] -= q
		sum += q
	}
	return sum
}

// loseInsideSlope does what loseInside does and stores the derivatives.
func (n *Network) loseInsideSlope(x, f []float64, j *Jacobian) {
	for i := range n.inner {
		s := &n.inner[i]
		if s.toAir >= 0 {
			q, byOwn, byAir := s.slopes(n.film, s.conv, x[s.node], x[s.air])
			f[s.node] -= q
			f[s.air] += q
			give(j, s.node, s.air, s.toAir, byOwn, byAir)
		}
		if s.toWall >= 0 {
			t, w := x[s.node], x[s.wall]
			q := radiation(s.rad, t, w)
			f[s.node] -= q
			f[s.wall] += q
			give(j, s.node, s.wall, s.toWall, 4*s.rad*t*t*t, -4*s.rad*w*w*w)
		}
	}
}

// give stores the derivatives of a heat from a to b by the temperatures of both.
func give(j *Jacobian, a, b, pair int, byA, byB float64) {
	j.Diag[a] -= byA
	j.Diag[b] += byB
	if a < b {
		j.Up[pair] -= byB
		j.Down[pair] += byA
	} else {
		j.Up[pair] += byA
		j.Down[pair] -= byB
	}
}

// out is the heat, W, that a vent takes from air at t to the room's at air, K,
// and its derivatives by both, W/K, eq. (22).
func (v *opening) out(t, air float64) (q, byTemp, byAir float64) {
	d := t - air
	h := v.buoyant * math.Sqrt(math.Abs(d)/max(t, air))
	q, byTemp, byAir = (v.flow+h)*d, v.flow+1.5*h, -v.flow-1.5*h
	if d > 0 {
		byTemp -= 0.5 * h * d / t
	} else {
		byAir -= 0.5 * h * d / air
	}
	return q, byTemp, byAir
}
