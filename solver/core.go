package solver

import (
	"math"
	"slices"
)

// The core: unknowns that touch many others, eliminated one by one in the order
// of least degree (George & Liu 1981, chapter 5), with the fill that this brings.
// A global waits for the globals of lower number that it is linked with.

// coreUnknown is one of the core: its neighbours at its turn are
// core.near[from:to].
type coreUnknown struct{ unknown, from, to, pairs int }

// core is the order of the core. Off-diagonals live in an array of their own,
// two directed values an entry: for p < q, 2e holds M[p,q] and 2e+1 holds M[q,p].
type core struct {
	order     []coreUnknown
	near      []int    // neighbours of the core's unknowns
	nearAt    []int    // a neighbour each: place of M[unknown, neighbour]
	targets   []int    // a pair of neighbours a < b each: place of M[a, b]
	coreLinks [][2]int // link and the place of M[its first, its second]
	entries   int
}

// ordering is what is known while the core is put in order.
type ordering struct {
	at      map[[2]int]int // a pair p < q each: place of M[p,q]
	near    [][]int        // neighbours, also those that are done
	done    []bool
	degree  []int // neighbours that are not done
	waits   []int // lower ones that a global waits for
	follow  [][]int
	ready   [][]int // by degree; passed over where out of date
	entries int
}

// place of M[a, b], entered if it is not there.
func (o *ordering) place(a, b int) int {
	lo, hi := min(a, b), max(a, b)
	e, ok := o.at[[2]int{lo, hi}]
	if !ok {
		e = 2 * o.entries
		o.entries++
		o.at[[2]int{lo, hi}] = e
		o.near[a], o.near[b] = append(o.near[a], b), append(o.near[b], a)
		o.degree[a]++
		o.degree[b]++
	}
	if a > b {
		e++
	}
	return e
}

func (o *ordering) offer(i int) {
	if o.waits[i] > 0 {
		return
	}
	for len(o.ready) <= o.degree[i] {
		o.ready = append(o.ready, nil)
	}
	o.ready[o.degree[i]] = append(o.ready[o.degree[i]], i)
}

// next is the unknown whose turn it is, −1 if all are done.
func (o *ordering) next() int {
	for d := 0; d < len(o.ready); d++ {
		for n := len(o.ready[d]); n > 0; n = len(o.ready[d]) {
			i := o.ready[d][n-1]
			o.ready[d] = o.ready[d][:n-1]
			if !o.done[i] && o.degree[i] == d {
				return i
			}
		}
	}
	return -1
}

// orderCore puts the core in order and finds the places of all that it holds.
func (p *plan) orderCore(f *forest) {
	if !slices.Contains(f.core, true) {
		return
	}
	size := len(f.core)
	o := &ordering{at: make(map[[2]int]int), near: make([][]int, size), done: make([]bool, size),
		degree: make([]int, size), waits: make([]int, size), follow: make([][]int, size)}
	for l, pair := range f.s.Links {
		a, b := pair[0], pair[1]
		if !f.core[a] || !f.core[b] {
			continue
		}
		p.coreLinks = append(p.coreLinks, [2]int{l, o.place(a, b)})
		if lo, hi := min(a, b), max(a, b); lo >= f.s.Nodes {
			o.waits[hi]++
			o.follow[lo] = append(o.follow[lo], hi)
		}
	}
	for k := range p.pieces {
		p.pieces[k].enter(o)
	}
	for i := size - 1; i >= 0; i-- {
		if f.core[i] {
			o.offer(i)
		}
	}
	for i := o.next(); i >= 0; i = o.next() {
		c := coreUnknown{unknown: i, from: len(p.near), pairs: len(p.targets)}
		for _, q := range o.near[i] {
			if !o.done[q] {
				p.near = append(p.near, q)
			}
		}
		c.to = len(p.near)
		o.done[i] = true
		around := p.near[c.from:c.to]
		slices.Sort(around)
		for k, a := range around {
			p.nearAt = append(p.nearAt, o.place(i, a))
			for _, b := range around[k+1:] {
				p.targets = append(p.targets, o.place(a, b))
			}
		}
		for _, q := range o.follow[i] {
			o.waits[q]--
		}
		for _, q := range around {
			o.degree[q]--
			o.offer(q)
		}
		for _, q := range o.follow[i] { // neighbours too: a link is an entry
			o.offer(q)
		}
		p.order = append(p.order, c)
	}
	p.entries = o.entries
}

// take subtracts from q's diagonal what an eliminated neighbour leaves there.
func (e *elimination) take(q int, v float64) {
	before := e.d[q]
	e.d[q] = before - v
	if n := e.structure.Nodes; q >= n {
		e.top[q-n] = max(e.top[q-n], math.Abs(e.d[q]))
		return
	}
	if !(e.d[q] > pivotFloor*before) {
		e.weakDiagonal(e.d[q], before)
	}
}

// weakDiagonal notes a diagonal of which too little is left to count on; its
// sign is judged when it is a pivot.
func (e *elimination) weakDiagonal(after, before float64) {
	if !(math.Abs(after) > pivotFloor*math.Abs(before)) {
		e.weak++
	}
}

// judgeGlobal looks at the pivot of a global, whose own diagonal may have been
// zero at first and may have any sign: it is held against the largest that it
// ever was.
func (e *elimination) judgeGlobal(i int, p float64) {
	if !(math.Abs(p) > pivotFloor*e.top[i-e.structure.Nodes]) || math.IsInf(p, 0) {
		e.weak++
	}
	e.against[i-e.structure.Nodes] = p < 0
}

func (e *elimination) loadCore(j *Jacobian) {
	clear(e.off)
	for _, c := range e.coreLinks {
		e.off[c[1]], e.off[c[1]^1] = j.Up[c[0]], j.Down[c[0]]
	}
}

func (e *elimination) factorCore() {
	nodes := e.structure.Nodes
	for k := range e.order {
		c := &e.order[k]
		p := e.d[c.unknown]
		if c.unknown >= nodes {
			e.judgeGlobal(c.unknown, p)
		} else if !(p > 0) {
			e.weakPivot(p, p)
		}
		x := 1 / p
		e.r[c.unknown] = x
		near, at := e.near[c.from:c.to], e.nearAt[c.from:c.to]
		lo, hi := e.nearLo[c.from:c.to], e.nearHi[c.from:c.to]
		t := c.pairs
		for a, q := range near {
			out, in := e.off[at[a]], e.off[at[a]^1]
			lo[a], hi[a] = in*x, out*x
			e.take(q, in*out*x)
		}
		for a := range near {
			for b := a + 1; b < len(near); b++ {
				e.off[e.targets[t]] += lo[a] * e.off[at[b]]
				e.off[e.targets[t]^1] += lo[b] * e.off[at[a]]
				t++
			}
		}
	}
}

func (e *elimination) solveCore(x []float64) {
	for k := range e.order {
		c := &e.order[k]
		v := x[c.unknown]
		lo := e.nearLo[c.from:c.to]
		for a, q := range e.near[c.from:c.to] {
			x[q] += lo[a] * v
		}
	}
	for k := len(e.order) - 1; k >= 0; k-- {
		c := &e.order[k]
		v := x[c.unknown] * e.r[c.unknown]
		hi := e.nearHi[c.from:c.to]
		for a, q := range e.near[c.from:c.to] {
			v += hi[a] * x[q]
		}
		x[c.unknown] = v
	}
}
