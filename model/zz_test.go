package model_test

import (
	"fmt"
	"hash/fnv"
	"os"
	"testing"
	"time"

	"clampheat/model"
)

func many(n int) *model.Stack {
	var names []string
	var studs []float64
	for i := range n {
		names = append(names, fmt.Sprint("B", i))
		studs = append(studs, 0.05+0.05*float64(i))
	}
	studs = append(studs, 0.05+0.05*float64(n))
	return bank(names, studs, n)
}

func TestZZ(t *testing.T) {
	for name, s := range map[string]*model.Stack{"bank4": bank([]string{"A", "B", "C", "D"}, []float64{0.05, 0.15, 0.25, 0.35, 0.45}, 4), "boxed": boxedBank("A", "B", "C"), "compact": compact(), "many": many(12), "two": twoCables(1, 2)} {
		a, err := s.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			t.Fatal(name, err)
		}
		x := make([]float64, a.Network.Unknowns())
		for i := range x {
			x[i] = 300 + float64(i)*0.1
		}
		f := make([]float64, len(x))
		fl := a.Network.Balance(3, x, f)
		h := fnv.New64()
		fmt.Fprintf(h, "%v %v %v %v %v", a.Rows, a.Branches, a.Path, a.Parts, a.Warnings)
		g := fnv.New64()
		fmt.Fprintf(g, "%v %x %x", a.Network.Structure(), f, fl)
		fmt.Fprintln(os.Stderr, "ZZ", name, h.Sum64(), g.Sum64())
	}
	for _, n := range []int{40, 80, 160, 320} {
		s := many(n)
		best := time.Hour
		for range 3 {
			b := time.Now()
			if _, err := s.Assemble(model.Likely, model.Mesh{}); err != nil {
				t.Fatal(err)
			}
			best = min(best, time.Since(b))
		}
		fmt.Fprintln(os.Stderr, "ZZt", n, best)
	}
	var ps []model.Piece
	for i := range 20000 {
		ps = append(ps, model.Piece{From: float64(i % 100), To: float64(i % 100), For: 10})
	}
	s := bank([]string{"A", "B", "C", "D"}, []float64{0.05, 0.15, 0.25, 0.35, 0.45}, 4)
	s.Supply, _ = model.NewSchedule(ps...)
	b := time.Now()
	if _, err := s.Assemble(model.Likely, model.Mesh{}); err != nil {
		t.Fatal(err)
	}
	fmt.Fprintln(os.Stderr, "ZZlog", time.Since(b))
}
