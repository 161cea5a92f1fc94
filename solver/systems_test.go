package solver

import "math"

// Small systems with known answers.

// source is heat made in a node and its derivatives by T, t and λ.
type source func(t, temp, load float64) (q, dT, dt, dLoad float64)

// lumps are nodes with own sources and losses h (T − air), joined by
// conductances; given massless nodes have no capacity.
type lumps struct {
	c, h    []float64
	air     float64
	links   [][2]int
	g       []float64
	sources []source
	load    float64
	// jump, unless 0, spoils every answer from that time on.
	brokenFrom float64
}

func (p *lumps) Structure() Structure     { return Structure{Nodes: len(p.c), Links: p.links} }
func (p *lumps) Capacities(dst []float64) { copy(dst, p.c) }
func (p *lumps) SetLoad(lambda float64)   { p.load = lambda }

func (p *lumps) Balance(t float64, x, f []float64) Flow {
	return p.Linearize(t, x, f, NewJacobian(p.Structure()))
}

func (p *lumps) Linearize(t float64, x, f []float64, j *Jacobian) (flow Flow) {
	for i, temp := range x {
		q, dT, _, _ := p.sources[i](t, temp, p.load)
		if p.brokenFrom > 0 && t >= p.brokenFrom {
			q = math.NaN()
		}
		out := p.h[i] * (temp - p.air)
		f[i] = q - out
		j.Diag[i] = dT - p.h[i]
		flow.Made += q
		flow.Lost += out
	}
	for l, pair := range p.links {
		a, b := pair[0], pair[1]
		on := p.g[l] * (x[a] - x[b])
		f[a] -= on
		f[b] += on
		j.Diag[a] -= p.g[l]
		j.Diag[b] -= p.g[l]
		j.Up[l], j.Down[l] = p.g[l], p.g[l]
	}
	return flow
}

func (p *lumps) Drift(t float64, x, df []float64) bool {
	some := false
	for i, temp := range x {
		_, _, df[i], _ = p.sources[i](t, temp, p.load)
		some = some || df[i] != 0
	}
	return some
}

func (p *lumps) LoadDerivative(t float64, x, df []float64) {
	for i, temp := range x {
		_, _, _, df[i] = p.sources[i](t, temp, p.load)
	}
}

// given is a source of fixed heat.
func given(q float64) source {
	return func(_, _, load float64) (float64, float64, float64, float64) { return q * load, 0, 0, q }
}

// warming is a resistance heated by a current scaled with the load.
func warming(power, alpha, cold float64) source {
	return func(_, temp, load float64) (float64, float64, float64, float64) {
		r := power * (1 + alpha*(temp-cold))
		return load * load * r, load * load * power * alpha, 0, 2 * load * r
	}
}

func lump(c, h, air float64, s source) *lumps {
	return &lumps{c: []float64{c}, h: []float64{h}, air: air, sources: []source{s}, load: 1}
}

// feed is a resistance R(T) between a source of voltage v and a load that draws
// a constant power: one global, the current I, with P = I (v − I R). A node
// without mass, its skin, hangs on it where skin > 0.
type feed struct {
	power, v, r, alpha, h, air, c float64
	skin                          float64 // W/K
	swing                         float64 // relative, of the power, by sin t
	load                          float64
}

func (p *feed) Structure() Structure {
	s := Structure{Nodes: 1, Globals: 1}
	if p.skin > 0 {
		s.Nodes, s.Links = 2, [][2]int{{0, 1}}
	}
	s.Links = append(s.Links, [2]int{0, s.Nodes})
	return s
}

func (p *feed) Capacities(dst []float64) {
	clear(dst)
	dst[0] = p.c
}

func (p *feed) SetLoad(lambda float64) { p.load = lambda }

func (p *feed) Balance(t float64, x, f []float64) Flow {
	return p.Linearize(t, x, f, NewJacobian(p.Structure()))
}

func (p *feed) Linearize(t float64, x, f []float64, j *Jacobian) Flow {
	n := p.Structure().Nodes
	i, temp := x[n], x[0]
	r := p.r * (1 + p.alpha*(temp-p.air))
	made := i * i * r
	out := p.h * (x[n-1] - p.air)
	f[0] = made
	j.Diag[0] = i * i * p.r * p.alpha
	if p.skin > 0 {
		on := p.skin * (temp - x[1])
		f[0] -= on
		f[1] = on - out
		j.Diag[0] -= p.skin
		j.Diag[1] = -p.skin - p.h
		j.Up[0], j.Down[0] = p.skin, p.skin
	} else {
		f[0] -= out
		j.Diag[0] -= p.h
	}
	last := len(j.Up) - 1
	j.Up[last] = 2 * i * r
	f[n] = p.load*p.power*(1+p.swing*math.Sin(t)) - i*(p.v-i*r)
	j.Down[last] = i * i * p.r * p.alpha
	j.Diag[n] = -(p.v - 2*i*r)
	return Flow{Made: made, Lost: out}
}

func (p *feed) Drift(t float64, x, df []float64) bool {
	clear(df)
	df[len(df)-1] = p.load * p.power * p.swing * math.Cos(t)
	return p.swing != 0
}

func (p *feed) LoadDerivative(t float64, x, df []float64) {
	clear(df)
	df[len(df)-1] = p.power * (1 + p.swing*math.Sin(t))
}
