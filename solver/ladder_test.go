package solver

import "math"

// ladder is a bare copper rod, 1 m of 8 mm, in n cells, with a warm joint at
// one end and a body held at the air's temperature at the other: written by
// hand, as the measure of what the solver itself costs.
type ladder struct {
	n                        int
	g, gEnd, hc, hr, c       float64
	w, joint, q0, q1, j0, j1 float64
	alpha, current, lambda   float64
}

const ladderAir = 298.15

func newLadder(n int, current, joint float64) *ladder {
	const dia = 0.008
	area, rim, dx := math.Pi*dia*dia/4, math.Pi*dia, 1/float64(n)
	p := &ladder{
		n: n, g: 390 * area / dx, gEnd: 0.5,
		hc: 1.32 * math.Pow(dia, -0.25) * rim * dx,
		hr: 0.4 * 5.670374419e-8 * rim * dx,
		c:  8933 * 385 * area * dx,
		w:  1.7241e-8 * dx / area, joint: joint, alpha: 0.00393, current: current,
	}
	p.SetLoad(1)
	return p
}

func (p *ladder) load(current float64) {
	w, j := current*current*p.w, current*current*p.joint
	p.q1, p.q0 = w*p.alpha, w*(1-p.alpha*293.15)
	p.j1, p.j0 = j*p.alpha, j*(1-p.alpha*293.15)
}

func (p *ladder) Structure() Structure {
	s := Structure{Nodes: p.n, Links: make([][2]int, p.n-1)}
	for i := range s.Links {
		s.Links[i] = [2]int{i, i + 1}
	}
	return s
}

func (p *ladder) Capacities(dst []float64) {
	for i := range dst {
		dst[i] = p.c
	}
	dst[0] += 150
}

func (p *ladder) Drift(float64, []float64, []float64) bool { return false }

func (p *ladder) Balance(_ float64, x, f []float64) Flow {
	n := p.n
	x, f = x[:n], f[:n]
	g, q0, q1, hc, hr := p.g, p.q0, p.q1, p.hc, p.hr
	const a4 = ladderAir * ladderAir * ladderAir * ladderAir
	made, lost := 0.0, 0.0
	before := 0.0 // heat from the cell before
	t := x[0]
	for i, next := range x[1:] {
		d := t - ladderAir
		t2 := t * t
		out := hc*math.Sqrt(math.Sqrt(math.Abs(d)))*d + hr*(t2*t2-a4)
		in := q0 + q1*t
		on := g * (t - next)
		f[i] = in - out + before - on
		before = on
		made += in
		lost += out
		t = next
	}
	d := t - ladderAir
	t2 := t * t
	out := hc*math.Sqrt(math.Sqrt(math.Abs(d)))*d + hr*(t2*t2-a4) + p.gEnd*d
	in := q0 + q1*t
	f[n-1] = in - out + before
	at := p.j0 + p.j1*x[0]
	f[0] += at
	return Flow{Made: made + in + at, Lost: lost + out}
}

func (p *ladder) Linearize(_ float64, x, f []float64, j *Jacobian) Flow {
	n := p.n
	x, f = x[:n], f[:n]
	diag, up, down := j.Diag[:n], j.Up[:n-1], j.Down[:n-1]
	g, q0, q1, hc, hr := p.g, p.q0, p.q1, p.hc, p.hr
	const a4 = ladderAir * ladderAir * ladderAir * ladderAir
	made, lost := 0.0, 0.0
	before := 0.0
	t := x[0]
	for i, next := range x[1:] {
		d := t - ladderAir
		t2 := t * t
		h := hc * math.Sqrt(math.Sqrt(math.Abs(d)))
		out := h*d + hr*(t2*t2-a4)
		in := q0 + q1*t
		on := g * (t - next)
		f[i] = in - out + before - on
		diag[i] = q1 - 1.25*h - 4*hr*t2*t - 2*g
		up[i], down[i] = g, g
		before = on
		made += in
		lost += out
		t = next
	}
	d := t - ladderAir
	t2 := t * t
	h := hc * math.Sqrt(math.Sqrt(math.Abs(d)))
	out := h*d + hr*(t2*t2-a4) + p.gEnd*d
	in := q0 + q1*t
	f[n-1] = in - out + before
	diag[n-1] = q1 - 1.25*h - 4*hr*t2*t - g - p.gEnd
	at := p.j0 + p.j1*x[0]
	f[0] += at
	diag[0] += p.j1 + g
	return Flow{Made: made + in + at, Lost: lost + out}
}

func uniform(n int, t float64) []float64 {
	x := make([]float64, n)
	for i := range x {
		x[i] = t
	}
	return x
}

func (p *ladder) SetLoad(lambda float64) {
	p.lambda = lambda
	p.load(lambda * p.current)
}

func (p *ladder) LoadDerivative(_ float64, x, df []float64) {
	// Made goes with the square of the current.
	scale := 0.0
	if p.lambda != 0 {
		scale = 2 / p.lambda
	}
	for i, t := range x {
		df[i] = scale * (p.q0 + p.q1*t)
	}
	df[0] += scale * (p.j0 + p.j1*x[0])
}

// variant k of 2000: other joints, other currents.
func (p *ladder) variant(k int) {
	p.joint = 0.25e-3 * (0.5 + float64(k)/2000)
	p.current = 160 * (0.9 + 0.2*float64(k*7919%2000)/2000)
	p.SetLoad(1)
}

var ladderTimes = []float64{60, 300, 900, 1800, 3600}
