package model_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"testing"

	"clampheat/materials"
	"clampheat/model"
	"clampheat/model/network"
	"clampheat/solver"
)

// boltedTo and crimped are joints of the fixtures.
func boltedTo(name string, a, b model.Port, bolt int) model.Joint {
	return model.Joint{Name: name, A: a, B: b, Bolt: bolt, Face: face(tin)}
}

func crimped(name string, a, b model.Port) model.Joint {
	return model.Joint{Name: name, A: a, B: b, Kind: model.Crimped, Resistance: materials.Exactly(6e-6)}
}

// bank is some batteries, each with a fuse on its post and a cable to a bus bar
// of its own studs, with a load's cable on the last of them. The negative sides
// meet in one point outside.
func bank(names []string, studs []float64, load int) *model.Stack {
	bar := &model.Bar{Label: "bus bar", Metal: copper, Plating: tin, Finish: finish, Width: 0.025, Thickness: 0.006,
		Length: studs[len(studs)-1] + 0.02, Exposed: 0.9, Studs: studs}
	s := &model.Stack{
		Title: "bank", Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(50 * float64(len(names))),
		Bolts: []model.Bolt{bolt("post nut", m8, 12), bolt("bar nut", m8, 15)},
	}
	add := func(p model.Part) int {
		s.Parts = append(s.Parts, p)
		return len(s.Parts) - 1
	}
	stud := 0
	bus := 4 * len(names)
	for i, name := range names {
		if stud == load {
			stud++
		}
		post := add(&model.Post{Label: name + ": post", Metal: copper, Plating: tin, Finish: finish, Diameter: 8e-3, Length: 10e-3, Exposed: 3e-4,
			Body: &model.Body{Name: name + ": battery", Capacity: 12000, To: materials.Exactly(0.1), Loss: 2}})
		f := fuse()
		f.Label = name + ": fuse"
		add(f)
		l := lug(name + ": lug")
		add(l)
		add(cable(name+": cable", 0.5))
		s.Joints = append(s.Joints,
			boltedTo(name+": post nut", model.Port{Part: post, Port: 1}, model.Port{Part: post + 1}, 0),
			boltedTo(name+": fuse nut", model.Port{Part: post + 1, Port: 1}, model.Port{Part: post + 2}, 0),
			crimped(name+": crimp", model.Port{Part: post + 2, Port: 1}, model.Port{Part: post + 3}),
			crimped(name+": bar", model.Port{Part: post + 3, Port: 1}, model.Port{Part: bus, Port: stud}))
		s.Wires = append(s.Wires, model.Wire{Name: name, A: model.Port{Part: model.Outside}, B: model.Port{Part: post}, EMF: 13.2, Resistance: 2e-3})
		stud++
		if i == len(names)-1 {
			add(bar)
		}
	}
	out := add(cable("load", 1))
	s.Joints = append(s.Joints, crimped("load on bar", model.Port{Part: bus, Port: load}, model.Port{Part: out}))
	s.Draws = []model.Draw{{Name: "inverter", From: model.Port{Part: out, Port: 1}, To: model.Port{Part: model.Outside}}}
	return s
}

// fine settles a stack to a tight tolerance.
func fine(t testing.TB, s *model.Stack) (*model.Assembly, []float64) {
	t.Helper()
	a, err := s.Assemble(model.Likely, model.Mesh{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := solver.Steady(context.Background(), a.Network, solver.SteadyOptions{
		Start: a.Start(nil), Ceilings: a.Network.Ceilings(), Tol: 1e-10})
	if err != nil {
		t.Fatal(err)
	}
	return a, r.X
}

// branchOf finds the branch that a part lies on.
func branchOf(t testing.TB, a *model.Assembly, s *model.Stack, part string) network.BranchID {
	t.Helper()
	for _, b := range a.Branches {
		for _, p := range b.Parts {
			if s.Parts[p].Name() == part {
				return b.ID
			}
		}
	}
	t.Fatalf("no branch holds %s", part)
	return 0
}

func current(t testing.TB, a *model.Assembly, s *model.Stack, part string, x []float64) float64 {
	t.Helper()
	return a.Network.ReadBranch(branchOf(t, a, s, part), 0, x).Current
}

// TestSymmetric: batteries that lie as mirror images of one another share
// exactly, and all together carry what is drawn.
func TestSymmetric(t *testing.T) {
	s := bank([]string{"A", "B", "C", "D"}, []float64{0.02, 0.06, 0.1, 0.14, 0.18}, 2)
	a, x := fine(t, s)
	var shares []float64
	all := 0.0
	for _, name := range []string{"A", "B", "C", "D"} {
		shares = append(shares, current(t, a, s, name+": post", x))
		all += shares[len(shares)-1]
	}
	near(t, "A and D, A", shares[0], shares[3], 1e-10)
	near(t, "B and C, A", shares[1], shares[2], 1e-10)
	near(t, "all, A", all, 200, 1e-10)
	if !(shares[1] > shares[0]) {
		t.Errorf("the nearer batteries carry %g A, the farther %g A", shares[1], shares[0])
	}
	if k := a.Network.Kirchhoff(0, x); k > 1e-9 {
		t.Errorf("Kirchhoff's laws hold to %g", k)
	}
}

// TestLadder: the shares of four equal batteries of r each, with links of x
// between neighbours in both rails, by hand. Around the loop of the batteries k
// and k+1, with feed and return at the first one, both rails carry what comes
// from beyond:
//
//	r i_k = r i_k+1 + 2x (i_k+1 + … + i_4)
//
// so that for x = r they are as 1, 1+2 = 3, 3+2·4 = 11, 11+2·15 = 41 from the far
// end. With the return at the last one its rail carries what comes from before,
//
//	r i_k = r i_k+1 + x (i_k+1 + … + i_4) − x (i_1 + … + i_k)
//
// and by symmetry i_1 = i_4, i_2 = i_3: i_1 = (1 + 2x/r) i_2.
func TestLadder(t *testing.T) {
	ladder := func(x float64, diagonal bool) []float64 {
		plus := func(k int) model.Port { return model.Port{Part: model.Outside, Port: k} }
		minus := func(k int) model.Port { return model.Port{Part: model.Outside, Port: 10 + k} }
		const r = 2e-3
		s := &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(100),
			Parts: []model.Part{cable("feed", 1)}}
		for k := range 4 {
			s.Wires = append(s.Wires, model.Wire{Name: fmt.Sprint("battery ", k), A: minus(k), B: plus(k), EMF: 13, Resistance: r})
			if k > 0 {
				s.Wires = append(s.Wires, model.Wire{Name: "link", A: plus(k - 1), B: plus(k), Resistance: x * r},
					model.Wire{Name: "return", A: minus(k - 1), B: minus(k), Resistance: x * r})
			}
		}
		s.Wires = append(s.Wires, model.Wire{Name: "lead", A: plus(0), B: model.Port{Part: 0}})
		to := minus(0)
		if diagonal {
			to = minus(3)
		}
		s.Draws = []model.Draw{{Name: "load", From: model.Port{Part: 0, Port: 1}, To: to}}
		a, y := fine(t, s)
		var out []float64
		for _, b := range a.Branches {
			if len(b.Parts) == 0 && slices.ContainsFunc(b.Wires, func(w int) bool { return s.Wires[w].EMF > 0 }) {
				out = append(out, a.Network.ReadBranch(b.ID, 0, y).Current)
			}
		}
		return out
	}
	for _, c := range []struct {
		name     string
		x        float64
		diagonal bool
		want     [4]float64
		of       float64
	}{
		{"same end/x = r", 1, false, [4]float64{41, 11, 3, 1}, 56},
		{"diagonal/x = r", 1, true, [4]float64{3, 1, 1, 3}, 8},
		{"diagonal/x = r over 10", 0.1, true, [4]float64{12, 10, 10, 12}, 44},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := ladder(c.x, c.diagonal)
			if len(got) != 4 {
				t.Fatalf("%d batteries", len(got))
			}
			for k := range got {
				near(t, "share, A", math.Abs(got[k]), 100*c.want[k]/c.of, 1e-9)
			}
		})
	}
}

// twoCables is a path that parts into two cables and comes together again.
func twoCables(lengths ...float64) *model.Stack {
	s := &model.Stack{
		Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(200),
		Parts: []model.Part{lug("first"), lug("last")},
	}
	for i, l := range lengths {
		s.Parts = append(s.Parts, cable(string(rune('a'+i)), l))
		s.Joints = append(s.Joints, crimped("crimp", model.Port{Part: 0, Port: 1}, model.Port{Part: 2 + i}),
			crimped("crimp", model.Port{Part: 2 + i, Port: 1}, model.Port{Part: 1}))
	}
	return s
}

// TestTwoCables: two cables between the same lugs divide the supply's current as
// their hot resistances do, and alike ones evenly; each is as hot as one that
// carries its part alone.
func TestTwoCables(t *testing.T) {
	t.Run("unlike/by resistance", func(t *testing.T) {
		s := twoCables(0.8, 2)
		a, x := fine(t, s)
		one := a.Network.ReadBranch(branchOf(t, a, s, "a"), 0, x)
		two := a.Network.ReadBranch(branchOf(t, a, s, "b"), 0, x)
		near(t, "a, A", one.Current, 200*two.Ohm/(one.Ohm+two.Ohm), 1e-10)
		near(t, "b, A", two.Current, 200*one.Ohm/(one.Ohm+two.Ohm), 1e-10)
		cold := a.Network.ReadBranch(branchOf(t, a, s, "a"), 0, a.Start(nil))
		if !(one.Ohm > cold.Ohm*1.05) {
			t.Errorf("%g Ω hot, %g Ω cold", one.Ohm, cold.Ohm)
		}
		near(t, "drop, V", a.Drop(0, x), one.Drop+a.RowDrop(0, 0, x)+a.RowDrop(1, 0, x), 1e-9)
	})
	t.Run("alike/evenly", func(t *testing.T) {
		s := twoCables(1, 1, 1)
		a, x := fine(t, s)
		for _, name := range []string{"a", "b", "c"} {
			near(t, name+", A", current(t, a, s, name, x), 200.0/3, 1e-11)
		}
	})
	t.Run("long/like one alone", func(t *testing.T) {
		s := twoCables(6, 6)
		a, x := fine(t, s)
		alone := &model.Stack{Surroundings: s.Surroundings, Supply: model.Constant(100), Parts: []model.Part{cable("a", 6)}}
		b, y := fine(t, alone)
		near(t, "middle, K", middle(a, 2, x), middle(b, 0, y), 1e-5)
	})
}

// middle is the temperature in the middle of a part.
func middle(a *model.Assembly, part int, x []float64) float64 {
	var on []model.Place
	for _, p := range a.Path {
		if p.Part == part {
			on = append(on, p)
		}
	}
	return x[on[len(on)/2].Node]
}

func rowOf(t testing.TB, a *model.Assembly, name string) int {
	t.Helper()
	i := slices.IndexFunc(a.Rows, func(r model.Row) bool { return r.Name == name })
	if i < 0 {
		t.Fatalf("no row %q", name)
	}
	return i
}

// TestTwin: two alike ways side by side between two points at twice the
// current are what one is at once.
func TestTwin(t *testing.T) {
	way := func(name string) ([]model.Part, []model.Joint) {
		parts := []model.Part{cable(name+"a", 0.7), lug(name + "b"), fuse(), lug(name + "c"), cable(name+"d", 0.9)}
		return parts, []model.Joint{
			crimped("c", model.Port{Part: 0, Port: 1}, model.Port{Part: 1}),
			boltedTo("j", model.Port{Part: 1, Port: 1}, model.Port{Part: 2}, 0),
			boltedTo("j", model.Port{Part: 2, Port: 1}, model.Port{Part: 3}, 0),
			crimped("c", model.Port{Part: 3, Port: 1}, model.Port{Part: 4})}
	}
	parts, joints := way("")
	one := &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(140),
		Parts: parts, Joints: joints, Bolts: []model.Bolt{bolt("nut", m8, 12)}}
	a, x := fine(t, one)

	two := *one
	two.Supply = model.Constant(280)
	more, between := way("")
	two.Parts = append(slices.Clone(parts), more...)
	two.Joints = slices.Clone(joints)
	for _, j := range between {
		j.A.Part, j.B.Part = j.A.Part+5, j.B.Part+5
		two.Joints = append(two.Joints, j)
	}
	in, out := model.Port{Part: model.Outside}, model.Port{Part: model.Outside, Port: 1}
	for _, first := range []int{0, 5} {
		two.Wires = append(two.Wires, model.Wire{Name: "in", A: in, B: model.Port{Part: first}},
			model.Wire{Name: "out", A: model.Port{Part: first + 4, Port: 1}, B: out})
	}
	two.Draws = []model.Draw{{Name: "load", From: out, To: in}}
	b, y := fine(t, &two)
	for i, r := range b.Rows {
		if r.Kind == model.BodyRow {
			continue
		}
		near(t, r.Name+", K", b.RowTemp(i, y), a.RowTemp(i%11, x), 1e-10)
		near(t, r.Name+", A", b.RowCurrent(i, 0, y), 140, 1e-10)
	}
}

// TestCirculating: two batteries of unlike voltage drive a current through one
// another where none is drawn: that of both voltages over all ohms on the way.
func TestCirculating(t *testing.T) {
	s := bank([]string{"A", "B"}, []float64{0.02, 0.06, 0.1}, 2)
	s.Supply = model.Constant(0)
	s.Wires[0].EMF = 13.6
	a, x := fine(t, s)
	one, two := branchOf(t, a, s, "A: post"), branchOf(t, a, s, "B: post")
	i := a.Network.ReadBranch(one, 0, x).Current
	near(t, "B, A", a.Network.ReadBranch(two, 0, x).Current, -i, 1e-10)
	ohm := a.Network.ReadBranch(one, 0, x).Ohm + a.Network.ReadBranch(two, 0, x).Ohm
	near(t, "A, A", i, 0.4/ohm, 1e-9)
	// The bar's section between the studs A and B lies on A's branch.
	if got := a.RowDrop(rowOf(t, a, "B: cable"), 0, x); !(got < 0) {
		t.Errorf("%g V over a cable that carries %g A", got, a.RowCurrent(rowOf(t, a, "B: cable"), 0, x))
	}
	open := a.Open(0, x)
	near(t, "without load, A", a.Network.ReadBranch(one, 0, open).Current, i, 1e-9)
}

// TestPower: an inverter that takes a power draws the current at which that is
// its own voltage times it, of a battery with all its ohms: (E − √(E² − 4PR))/2R.
func TestPower(t *testing.T) {
	s := bank([]string{"A"}, []float64{0.02, 0.06}, 1)
	s.Supply = model.Constant(0)
	s.Draws[0].Power = model.Constant(1500)
	a, x := fine(t, s)
	ohm := a.Network.ReadBranch(1, 0, x).Ohm
	near(t, "current, A", a.Network.ReadDraw(a.Draws[0], 0, x).Current, (13.2-math.Sqrt(13.2*13.2-4*1500*ohm))/(2*ohm), 1e-9)
	near(t, "drop, V", a.Drop(0, x), a.Network.ReadDraw(a.Draws[0], 0, x).Current*ohm, 1e-3) // the spots are colder without load
	t.Run("more than there is/no answer", func(t *testing.T) {
		s.Draws[0].Power = model.Constant(1e5)
		a, err := s.Assemble(model.Likely, model.Mesh{})
		if err != nil {
			t.Fatal(err)
		}
		_, err = solver.Steady(context.Background(), a.Network, solver.SteadyOptions{Start: a.Start(nil), Ceilings: a.Network.Ceilings()})
		var fold *solver.FoldError
		var ceiling *solver.CeilingError
		if !errors.As(err, &fold) && !errors.As(err, &ceiling) {
			t.Errorf("got %v", err)
		}
	})
}

// TestLike: a wire that is like a cable has its ohms, hot as it is, and makes no
// heat in the stack.
func TestLike(t *testing.T) {
	s := &model.Stack{Surroundings: model.Surroundings{Air: 298.15}, Supply: model.Constant(150), Parts: []model.Part{cable("feed", 1)},
		Wires: []model.Wire{
			{Name: "battery", A: model.Port{Part: model.Outside, Port: 1}, B: model.Port{Part: 0}, EMF: 13, Resistance: 1e-3},
			{Name: "negative", A: model.Port{Part: model.Outside}, B: model.Port{Part: model.Outside, Port: 1}, Like: &model.Section{Part: 0, From: 1, To: 0}}},
		Draws: []model.Draw{{Name: "load", From: model.Port{Part: 0, Port: 1}, To: model.Port{Part: model.Outside}}}}
	a, x := fine(t, s)
	row := a.ReadRow(0, 0, x)
	near(t, "ohms, Ω", a.Network.ReadBranch(1, 0, x).Ohm, 1e-3+2*row.Ohm, 1e-12)
	near(t, "heat, W", a.Made(0, x)[0].Heat, 150*150*row.Ohm, 1e-12)
	plain := *s
	plain.Wires, plain.Draws = nil, nil
	b, y := fine(t, &plain)
	near(t, "cable, K", a.RowTemp(0, x), b.RowTemp(0, y), 1e-10)
}
