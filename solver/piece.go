package solver

import (
	"slices"

	"gonum.org/v1/gonum/floats"
)

// A piece is eliminated as a whole: with A its own part of the matrix, B its
// columns of the unknowns of the core that it is tied to and C their rows, it
// leaves on these the Schur complement −C W, W = A⁻¹ B. That is solved by the
// loops over its chains, a column a tie; nothing of it reaches beyond its nodes.
type piece struct {
	rounds []round
	runs   []run
	ties   []tie
	places []int // ties × ties: place of M[a, b], unless a = b
}

// run is a range of numbers. It may hold nodes of twigs and of the core between
// those of the piece, for which columns and rows are zero.
type run struct{ from, to int }

// tie is an unknown of the core that nodes of the piece are linked with.
type tie struct {
	unknown  int
	to, from star // links from a node to it, and from it to a node
	// few says that for so few links the row is kept as a list, from short on in
	// elimination.short, and not written out.
	few   bool
	short int
}

// star lists links and the nodes at their ends.
type star struct{ links, nodes []int32 }

func (s *star) add(link, node int) {
	s.links, s.nodes = append(s.links, int32(link)), append(s.nodes, int32(node))
}

func (t *tie) size() int { return len(t.to.links) + len(t.from.links) }

const (
	// longGap is the number of nodes of others that a run passes over at most.
	longGap = 4
	// fewLinks is the share of a piece's nodes below which a tie has few links: to
	// gather takes about so many times as long as to run through.
	fewLinks = 0.25
)

// tiePieces lists the pieces with their nodes, in peeling order, and their ties.
func (p *plan) tiePieces(f *forest, order []int) {
	var nodes [][]int
	for _, i := range order {
		k := f.place[i]
		if k < 0 {
			continue
		}
		for len(nodes) <= k {
			nodes = append(nodes, nil)
		}
		nodes[k] = append(nodes[k], i)
	}
	p.pieces = make([]piece, len(nodes))
	for l, pair := range f.s.Links {
		a, b := pair[0], pair[1]
		switch {
		case f.place[a] >= 0 && f.core[b]:
			p.pieces[f.place[a]].tie(b).to.add(l, a)
		case f.place[b] >= 0 && f.core[a]:
			p.pieces[f.place[b]].tie(a).from.add(l, b)
		}
	}
	for k := range p.pieces {
		c := &p.pieces[k]
		c.rounds = f.schedule(nodes[k], k)
		p.mostTies = max(p.mostTies, len(c.ties))
		for t := range c.ties {
			tie := &c.ties[t]
			if n := tie.size(); float64(n) <= fewLinks*float64(len(nodes[k])) {
				tie.few, tie.short = true, p.shortRows
				p.shortRows += n
			}
		}
		slices.Sort(nodes[k])
		for _, i := range nodes[k] {
			if n := len(c.runs); n > 0 && f.passable(c.runs[n-1].to, i) {
				c.runs[n-1].to = i + 1
			} else {
				c.runs = append(c.runs, run{i, i + 1})
			}
		}
	}
}

// passable says whether a run may go from one number to another.
func (f *forest) passable(from, to int) bool {
	if to-from > longGap {
		return false
	}
	for i := from; i < to; i++ {
		if f.place[i] >= 0 {
			return false
		}
	}
	return true
}

func (c *piece) tie(unknown int) *tie {
	t := slices.IndexFunc(c.ties, func(t tie) bool { return t.unknown == unknown })
	if t < 0 {
		t = len(c.ties)
		c.ties = append(c.ties, tie{unknown: unknown})
	}
	return &c.ties[t]
}

// enter notes the places at which what the piece leaves is added up.
func (c *piece) enter(o *ordering) {
	n := len(c.ties)
	c.places = make([]int, n*n)
	for a := range c.ties {
		for b := range c.ties {
			if a != b {
				c.places[a*n+b] = o.place(c.ties[a].unknown, c.ties[b].unknown)
			}
		}
	}
}

// load stores the tie's column B and its row C.
func (t *tie) load(w, row, short []float64, j *Jacobian) {
	if t.few {
		short = short[t.short:]
		for q, l := range t.to.links {
			w[t.to.nodes[q]], short[q] = j.Up[l], j.Down[l]
		}
		short = short[len(t.to.links):]
		for q, l := range t.from.links {
			w[t.from.nodes[q]], short[q] = j.Down[l], j.Up[l]
		}
		return
	}
	t.to.scatter(w, row, j.Up, j.Down)
	t.from.scatter(w, row, j.Down, j.Up)
}

func (s *star) scatter(w, row, column, back []float64) {
	nodes := s.nodes[:len(s.links)]
	row, back = row[:len(w)], back[:len(column)]
	for q, l := range s.links {
		i := nodes[q]
		w[i], row[i] = column[l], back[l]
	}
}

// factorPiece eliminates a piece.
func (e *elimination) factorPiece(c *piece, j *Jacobian) {
	e.factorRounds(c.rounds, j)
	for t := range c.ties {
		w, row := e.w[t], e.rows[t]
		for _, r := range c.runs {
			clear(w[r.from:r.to])
			if !c.ties[t].few {
				clear(row[r.from:r.to])
			}
		}
		c.ties[t].load(w, row, e.short, j)
		e.forward(c.rounds, w)
		e.back(c.rounds, w)
	}
	n := len(c.ties)
	for a := range c.ties {
		for b := range c.ties {
			v := e.along(c, a, e.w[b])
			if a == b {
				e.take(c.ties[a].unknown, v)
			} else {
				e.off[c.places[a*n+b]] += v
			}
		}
	}
}

// along is the product of the row of tie t with x.
func (e *elimination) along(c *piece, t int, x []float64) (sum float64) {
	tie := &c.ties[t]
	if !tie.few {
		return c.dot(e.rows[t], x)
	}
	short := e.short[tie.short:]
	for q, i := range tie.to.nodes {
		sum += short[q] * x[i]
	}
	short = short[len(tie.to.nodes):]
	for q, i := range tie.from.nodes {
		sum += short[q] * x[i]
	}
	return sum
}

// spread adds y times the row of tie t to x.
func (e *elimination) spread(c *piece, t int, y float64, x []float64) {
	tie := &c.ties[t]
	if !tie.few {
		c.add(x, y, e.rows[t])
		return
	}
	short := e.short[tie.short:]
	for q, i := range tie.to.nodes {
		x[i] += y * short[q]
	}
	short = short[len(tie.to.nodes):]
	for q, i := range tie.from.nodes {
		x[i] += y * short[q]
	}
}

func (c *piece) dot(a, b []float64) (sum float64) {
	for _, r := range c.runs {
		sum += floats.Dot(a[r.from:r.to], b[r.from:r.to])
	}
	return sum
}

// add adds y times a column to x.
func (c *piece) add(x []float64, y float64, column []float64) {
	for _, r := range c.runs {
		floats.AddScaled(x[r.from:r.to], y, column[r.from:r.to])
	}
}
