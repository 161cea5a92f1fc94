package network

import "math"

// This file passes bare conductors whose surface follows a law of the fourth
// root: where a chain of links, resistors of one node and surfaces lie on the
// same nodes, one loop does the work of three. The roots take their time
// anyhow, and the rest hides in it.

// A bareRun is m nodes from node on; its links, resistors and surfaces stand in
// their arrays from links, own and loss on.
type bareRun struct {
	node, m          int
	links, own, loss int
	seen             int // the loss run that knows what the surfaces see
}

// arrangeBare takes what one loop can do out of the lists of chains, own runs
// and losses. Surfaces keep their place for who reads them.
func (n *Network) arrangeBare() {
	for i := range n.losses {
		l := &n.losses[i]
		m := l.to - l.from
		if l.kind != quarterLoss || m < 2 {
			continue
		}
		c := covering(n.chains, l.node, m-1)
		o := covering(n.ownRuns, l.node, m)
		if c < 0 || o < 0 {
			continue
		}
		b := bareRun{node: l.node, m: m, loss: l.from, seen: i}
		n.chains, b.links = without(n.chains, c, l.node, m-1)
		n.ownRuns, b.own = without(n.ownRuns, o, l.node, m)
		l.fused = true
		n.bare = append(n.bare, b)
	}
}

// covering finds the run that has the things of m nodes from node on, −1 where
// there is none.
func covering(runs []run, node, m int) int {
	for k, r := range runs {
		if r.node <= node && node+m <= r.node+r.to-r.from {
			return k
		}
	}
	return -1
}

// without cuts the things of m nodes from node on out of a run, and says where
// they stand.
func without(runs []run, k, node, m int) (rest []run, from int) {
	r := runs[k]
	from = r.from + node - r.node
	rest = append(rest, runs[:k]...)
	if from > r.from {
		rest = append(rest, run{r.node, r.from, from})
	}
	if from+m < r.to {
		rest = append(rest, run{node + m, from + m, r.to})
	}
	return append(rest, runs[k+1:]...), from
}

// quarter gives the loss of a surface, W.
func quarter(conv, rad, t, air, tr, tr2 float64) float64 {
	d := t - air
	return conv*math.Sqrt(math.Sqrt(math.Abs(d)))*d + rad*(t-tr)*((t+tr)*(t*t+tr2))
}

// quarterSlope gives the loss of a surface, W, and its derivative, W/K.
func quarterSlope(conv, rad, t, air, tr, tr2 float64) (q, slope float64) {
	d, t2 := t-air, t*t
	h := conv * math.Sqrt(math.Sqrt(math.Abs(d)))
	return h*d + rad*(t-tr)*((t+tr)*(t2+tr2)), 1.25*h + 4*rad*(t2*t)
}

func (n *Network) passBare(b *bareRun, x, f []float64, room ambient, w float64) Flow {
	g := n.fixed[b.links:][:b.m-1]
	m := len(g) + 1
	air, tr := room.air, n.losses[b.seen].seen(room)
	tr2 := tr * tr
	x, f = x[b.node:][:m], f[b.node:][:m]
	r0, r1 := n.r0[b.own:][:m], n.r1[b.own:][:m]
	conv, rad := n.conv[b.loss:][:m], n.rad[b.loss:][:m]
	here, in := x[0], 0.0
	made, lost := 0.0, 0.0
	for i, gi := range g {
		next := x[i+1]
		out := gi * (here - next)
		p := w * (r0[i] + r1[i]*here)
		q := quarter(conv[i], rad[i], here, air, tr, tr2)
		f[i] += ((in - out) + p) - q
		made += p
		lost += q
		here, in = next, out
	}
	last := m - 1
	p := w * (r0[last] + r1[last]*here)
	q := quarter(conv[last], rad[last], here, air, tr, tr2)
	f[last] += (in + p) - q
	return Flow{Made: made + p, Lost: lost + q}
}

func (n *Network) passBareSlope(b *bareRun, x, f, diag []float64, room ambient, w float64) Flow {
	g := n.fixed[b.links:][:b.m-1]
	m := len(g) + 1
	air, tr := room.air, n.losses[b.seen].seen(room)
	tr2 := tr * tr
	x, f, diag = x[b.node:][:m], f[b.node:][:m], diag[b.node:][:m]
	r0, r1 := n.r0[b.own:][:m], n.r1[b.own:][:m]
	conv, rad := n.conv[b.loss:][:m], n.rad[b.loss:][:m]
	here, in := x[0], 0.0
	made, lost := 0.0, 0.0
	for i, gi := range g {
		next := x[i+1]
		out := gi * (here - next)
		s := w * r1[i]
		p := w*r0[i] + s*here
		q, slope := quarterSlope(conv[i], rad[i], here, air, tr, tr2)
		f[i] += ((in - out) + p) - q
		diag[i] += s - slope
		made += p
		lost += q
		here, in = next, out
	}
	last := m - 1
	s := w * r1[last]
	p := w*r0[last] + s*here
	q, slope := quarterSlope(conv[last], rad[last], here, air, tr, tr2)
	f[last] += (in + p) - q
	diag[last] += s - slope
	return Flow{Made: made + p, Lost: lost + q}
}
