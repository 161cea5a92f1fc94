package solver

import (
	"fmt"
	"testing"
)

// fill counts the off-diagonal pairs of a plan's factors.
func (p *plan) fill() int {
	links := func(rounds []round) (nodes, links int) {
		for _, r := range rounds {
			for _, q := range r.pairs {
				nodes += q[0].length + q[1].length
			}
			for _, c := range r.solos {
				nodes += c.length
			}
			nodes += len(r.leaves)
			links -= roots(r.leaves)
		}
		return nodes, links + nodes
	}
	_, n := links(p.twigs)
	for k := range p.pieces {
		nodes, own := links(p.pieces[k].rounds)
		n += own + len(p.pieces[k].ties)*nodes
	}
	return n + len(p.near)
}

func roots(leaves []leaf) (n int) {
	for _, f := range leaves {
		if f.parent < 0 {
			n++
		}
	}
	return n
}

// eliminate times factorisation with solution, and tells of it per node and of
// the off-diagonals after it per one before.
func eliminate(b *testing.B, name string, st Structure, j *Jacobian, c []float64) {
	e, x := newElimination(newPlan(st)), make([]float64, st.Nodes+st.Globals)
	b.Run(name, func(b *testing.B) {
		for b.Loop() {
			x[0] = 1
			e.factor(j, c, 0.1)
			e.solve(x)
		}
		if !e.sound() {
			b.Fatal("weak pivots")
		}
		b.ReportMetric(float64(e.fill())/float64(len(st.Links)), "fill")
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(st.Nodes), "ns/node")
	})
}

// Batteries side by side between two rails, in about so many cells: elimination
// and solution, with the off-diagonals after it per one before.
func BenchmarkMesh(b *testing.B) {
	for _, batteries := range []int{5, 20, 200} {
		for _, nodes := range []int{100, 1000, 10000, 100000} {
			sections := 3*batteries - 2
			cells := (nodes - 2*batteries) / sections
			if cells < 1 {
				continue
			}
			p := newRungs(batteries, cells)
			st := p.Structure()
			j, x := NewJacobian(st), p.start()
			for i := range p.branches {
				x[st.Nodes+i] = 60
			}
			p.Linearize(0, x, make([]float64, len(x)), j)
			name := fmt.Sprintf("branches=%d/nodes=%d", batteries, st.Nodes)
			eliminate(b, name, st, j, p.c)
			b.Run(name+"/plan", func(b *testing.B) {
				for b.Loop() {
					newPlan(st)
				}
			})
		}
	}
}

// A path alone; with one current that all its cells touch; five such paths in a
// box, whose air and wall they touch as well; and two cables that touch one
// another all along.
func BenchmarkShapes(b *testing.B) {
	path := func(n, times int) Structure {
		s := Structure{Nodes: n * times}
		for k := range times {
			for i := range n - 1 {
				s.Links = append(s.Links, [2]int{k*n + i, k*n + i + 1})
			}
		}
		return s
	}
	touch := func(s *Structure, unknown, from, to int) {
		for i := from; i < to; i++ {
			s.Links = append(s.Links, [2]int{i, unknown})
		}
	}
	for _, n := range []int{100, 10000} {
		power := path(n, 1)
		power.Globals = 1
		touch(&power, n, 0, n)
		box := path(n/5, 5)
		box.Nodes, box.Globals = n+2, 5
		touch(&box, n, 0, n)
		touch(&box, n+1, 0, n+1)
		for k := range 5 {
			touch(&box, n+2+k, k*(n/5), (k+1)*(n/5))
		}
		bundle := path(n/2, 2)
		for i := range n / 2 {
			bundle.Links = append(bundle.Links, [2]int{i, n/2 + i})
		}
		for _, shape := range []struct {
			name string
			st   Structure
		}{{"path", path(n, 1)}, {"power", power}, {"box", box}, {"bundle", bundle}} {
			j := NewJacobian(shape.st)
			for i := range j.Diag {
				j.Diag[i] = -10 * float64(n)
			}
			for l := range j.Up {
				j.Up[l], j.Down[l] = 1, 1
			}
			eliminate(b, fmt.Sprintf("%s/nodes=%d", shape.name, n), shape.st, j, uniform(shape.st.Nodes, 1))
		}
	}
}
