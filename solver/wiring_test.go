package solver

// wiring is a system of branches between junctions: each carries a current
// through cells that it heats, whose resistances rise with their temperatures;
// the unknowns besides the temperatures are the currents and the potentials of the
// junctions but the first, which is earth.
type wiring struct {
	c, h     []float64 // a node each: J/K, W/K to the air
	r        []float64 // a node each: ohms at the air's temperature
	alpha    float64
	air      float64
	links    [][2]int // heat, nodes
	g        []float64
	branches []arm
	joints   int       // junctions
	drawn    []float64 // a junction each: current taken out of it, A; earth gives it back
	load     float64
	wave     func(t float64) float64 // by which the current drawn goes with time; nil = constant
}

// arm is a branch from one junction to another, with cells first … first+cells−1.
type arm struct {
	from, to     int
	first, cells int
	emf, ohms    float64
}

func (p *wiring) globals() (currents, potentials int) {
	return len(p.c), len(p.c) + len(p.branches)
}

func (p *wiring) Structure() Structure {
	i0, v0 := p.globals()
	s := Structure{Nodes: len(p.c), Links: append([][2]int(nil), p.links...), Globals: len(p.branches) + p.joints - 1}
	for k, b := range p.branches {
		for n := range b.cells {
			s.Links = append(s.Links, [2]int{b.first + n, i0 + k})
		}
		if b.from > 0 {
			s.Links = append(s.Links, [2]int{i0 + k, v0 + b.from - 1})
		}
		if b.to > 0 {
			s.Links = append(s.Links, [2]int{i0 + k, v0 + b.to - 1})
		}
	}
	return s
}

func (p *wiring) Capacities(dst []float64) { copy(dst, p.c) }
func (p *wiring) SetLoad(lambda float64)   { p.load = lambda }

func (p *wiring) Balance(t float64, x, f []float64) Flow { return p.evaluate(t, x, f, nil) }
func (p *wiring) Linearize(t float64, x, f []float64, j *Jacobian) Flow {
	clear(j.Diag)
	return p.evaluate(t, x, f, j)
}

func (p *wiring) evaluate(t float64, x, f []float64, j *Jacobian) (flow Flow) {
	clear(f)
	i0, v0 := p.globals()
	volts := func(k int) float64 {
		if k == 0 {
			return 0
		}
		return x[v0+k-1]
	}
	for i, h := range p.h {
		out := h * (x[i] - p.air)
		f[i] -= out
		flow.Lost += out
		if j != nil {
			j.Diag[i] -= h
		}
	}
	for l, pair := range p.links {
		a, b := pair[0], pair[1]
		on := p.g[l] * (x[a] - x[b])
		f[a] -= on
		f[b] += on
		if j != nil {
			j.Diag[a] -= p.g[l]
			j.Diag[b] -= p.g[l]
			j.Up[l], j.Down[l] = p.g[l], p.g[l]
		}
	}
	l := len(p.links)
	for k, b := range p.branches {
		cur := x[i0+k]
		total := b.ohms
		for n := b.first; n < b.first+b.cells; n++ {
			r, slope := p.r[n]*(1+p.alpha*(x[n]-p.air)), p.r[n]*p.alpha
			total += r
			f[n] += cur * cur * r
			flow.Made += cur * cur * r
			if j != nil {
				j.Diag[n] += cur * cur * slope
				j.Up[l], j.Down[l] = 2*cur*r, -cur*slope
			}
			l++
		}
		f[i0+k] = volts(b.from) - volts(b.to) + b.emf - total*cur
		if j != nil {
			j.Diag[i0+k] = -total
		}
		if b.from > 0 {
			f[v0+b.from-1] -= cur
			if j != nil {
				j.Up[l], j.Down[l] = 1, -1
			}
			l++
		}
		if b.to > 0 {
			f[v0+b.to-1] += cur
			if j != nil {
				j.Up[l], j.Down[l] = -1, 1
			}
			l++
		}
	}
	for k, out := range p.drawn {
		if k > 0 {
			f[v0+k-1] -= p.load * out * p.at(t)
		}
	}
	return flow
}

func (p *wiring) at(t float64) float64 {
	if p.wave == nil {
		return 1
	}
	return p.wave(t)
}

func (p *wiring) Drift(float64, []float64, []float64) bool { return false }

func (p *wiring) LoadDerivative(t float64, x, df []float64) {
	clear(df)
	_, v0 := p.globals()
	for k, out := range p.drawn {
		if k > 0 {
			df[v0+k-1] = -out * p.at(t)
		}
	}
}

func (p *wiring) start() []float64 {
	s := p.Structure()
	x := make([]float64, s.Nodes+s.Globals)
	for i := range s.Nodes {
		x[i] = p.air
	}
	return x
}

// cellsOf adds a run of cells to the nodes and returns its first.
func (p *wiring) cellsOf(n int, ohms, heat, loss, g float64) int {
	first := len(p.c)
	for i := range n {
		p.c, p.h, p.r = append(p.c, heat), append(p.h, loss), append(p.r, ohms)
		if i > 0 {
			p.links, p.g = append(p.links, [2]int{first + i - 1, first + i}), append(p.g, g)
		}
	}
	return first
}

// newRungs makes batteries side by side between two rails: branch k runs from
// the lower rail's station k to the upper one's, and sections of rail join the
// stations, all of so many cells; each station is a lump as well, so that the
// network of heat has as many loops as that of currents. The load hangs on the last
// stations.
func newRungs(batteries, cells int) *wiring {
	p := &wiring{alpha: 0.004, air: 300, joints: 2 * batteries, drawn: make([]float64, 2*batteries), load: 1}
	size := float64(cells)
	const upper = 1
	stud := make([]int, p.joints) // a junction each; even: lower rail
	for k := range stud {
		stud[k] = p.cellsOf(1, 0, 50, 0.05, 0)
	}
	add := func(from, to int, emf, ohms, cold float64) {
		first := p.cellsOf(cells, cold/size, 200/size, 0.4/size, 0.3*size)
		p.links = append(p.links, [2]int{stud[from], first}, [2]int{first + cells - 1, stud[to]})
		p.g = append(p.g, 0.6*size, 0.6*size)
		p.branches = append(p.branches, arm{from, to, first, cells, emf, ohms})
	}
	for k := range batteries {
		add(2*k, 2*k+upper, 13, 4e-3, 0.5e-3)
		if k > 0 {
			add(2*k-2, 2*k, 0, 0, 0.05e-3)
			add(2*k-2+upper, 2*k+upper, 0, 0, 0.05e-3)
		}
	}
	// The load takes at the upper end and gives back at the lower.
	p.drawn[p.joints-1], p.drawn[p.joints-2] = 60*float64(batteries), -60*float64(batteries)
	return p
}
