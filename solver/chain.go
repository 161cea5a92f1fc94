package solver

// The loops over chains, for one chain and for two that go side by side.
// Strides are variables: two ends of a line run towards each other.

// pivotFloor is the smallest share of a node's own diagonal that may be left
// of it as a pivot: below it more than ten of the sixteen digits are gone.
const pivotFloor = 1e-10

// towards gives the off-diagonals of a chain: a from node to next, b back.
func (c *chain) towards(j *Jacobian) (a, b []float64) {
	if c.turned {
		return j.Down, j.Up
	}
	return j.Up, j.Down
}

// factorChain eliminates length nodes of c from its node number from on; carry
// is what the node before leaves to subtract from the diagonal.
func (e *elimination) factorChain(c *chain, j *Jacobian, from int, carry float64) float64 {
	a, b := c.towards(j)
	d, r, lo, hi := e.d, e.r, e.lo, e.hi
	i, l := c.first+from*c.step, c.link+from*c.linkStep
	for range c.length - from {
		p := d[i] - carry
		if !(p > pivotFloor*d[i]) {
			e.weakPivot(p, d[i])
		}
		x := 1 / p
		to, back := a[l], b[l]
		r[i], lo[i], hi[i] = x, back*x, to*x
		carry = (to * back) * x
		i += c.step
		l += c.linkStep
	}
	return carry
}

func (e *elimination) factorPair(c1, c2 *chain, j *Jacobian) {
	a1, b1 := c1.towards(j)
	a2, b2 := c2.towards(j)
	d, r, lo, hi := e.d, e.r, e.lo, e.hi
	i1, l1, s1, t1 := c1.first, c1.link, c1.step, c1.linkStep
	i2, l2, s2, t2 := c2.first, c2.link, c2.step, c2.linkStep
	m := min(c1.length, c2.length)
	carry1, carry2 := 0.0, 0.0
	for range m {
		p1, p2 := d[i1]-carry1, d[i2]-carry2
		if !(p1 > pivotFloor*d[i1]) {
			e.weakPivot(p1, d[i1])
		}
		if !(p2 > pivotFloor*d[i2]) {
			e.weakPivot(p2, d[i2])
		}
		x1, x2 := 1/p1, 1/p2
		to1, to2 := a1[l1], a2[l2]
		back1, back2 := b1[l1], b2[l2]
		// Only the product with x waits for the pivot.
		carry1, carry2 = (to1*back1)*x1, (to2*back2)*x2
		r[i1], lo[i1], hi[i1] = x1, back1*x1, to1*x1
		r[i2], lo[i2], hi[i2] = x2, back2*x2, to2*x2
		i1, l1, i2, l2 = i1+s1, l1+t1, i2+s2, l2+t2
	}
	carry1 = e.factorChain(c1, j, m, carry1)
	carry2 = e.factorChain(c2, j, m, carry2)
	e.take(c1.parent, carry1)
	e.take(c2.parent, carry2)
}

// forwardChain carries the right-hand side along c, from its node number from
// on; v is what the node before it holds, weighed.
func (e *elimination) forwardChain(c *chain, x []float64, from int, carry float64) float64 {
	lo := e.lo[:len(x)]
	i := c.first + from*c.step
	for range c.length - from {
		v := x[i] + carry
		x[i] = v
		carry = lo[i] * v
		i += c.step
	}
	return carry
}

func (e *elimination) forwardPair(c1, c2 *chain, x []float64) {
	lo := e.lo[:len(x)]
	i1, s1 := c1.first, c1.step
	i2, s2 := c2.first, c2.step
	m := min(c1.length, c2.length)
	carry1, carry2 := 0.0, 0.0
	for range m {
		v1, v2 := x[i1]+carry1, x[i2]+carry2
		x[i1], x[i2] = v1, v2
		carry1, carry2 = lo[i1]*v1, lo[i2]*v2
		i1 += s1
		i2 += s2
	}
	carry1 = e.forwardChain(c1, x, m, carry1)
	carry2 = e.forwardChain(c2, x, m, carry2)
	x[c1.parent] += carry1
	x[c2.parent] += carry2
}

// backChain finds the unknowns of c down to its node number to, given that of
// the node that follows.
func (e *elimination) backChain(c *chain, x []float64, to int, v float64) float64 {
	r, hi := e.r[:len(x)], e.hi[:len(x)]
	i := c.last()
	for range c.length - to {
		v = x[i]*r[i] + hi[i]*v
		x[i] = v
		i -= c.step
	}
	return v
}

func (e *elimination) backPair(c1, c2 *chain, x []float64) {
	r, hi := e.r[:len(x)], e.hi[:len(x)]
	m := min(c1.length, c2.length)
	v1 := e.backChain(c1, x, m, x[c1.parent])
	v2 := e.backChain(c2, x, m, x[c2.parent])
	s1, s2 := c1.step, c2.step
	i1, i2 := c1.first+(m-1)*s1, c2.first+(m-1)*s2
	for range m {
		v1 = x[i1]*r[i1] + hi[i1]*v1
		v2 = x[i2]*r[i2] + hi[i2]*v2
		x[i1], x[i2] = v1, v2
		i1 -= s1
		i2 -= s2
	}
}
