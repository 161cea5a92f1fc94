package model_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"clampheat/model"
)

// TestBodyOfTwoRooms: posts on one body stand in the box or outside, not here and
// there; on bodies of their own they may.
func TestBodyOfTwoRooms(t *testing.T) {
	for _, first := range []int{0, 4} {
		s := bank([]string{"A", "B"}, []float64{0.02, 0.06, 0.1}, 2)
		s.Enclosure = steelBox()
		s.Enclosure.Parts = []int{first}
		if _, err := s.Assemble(model.Likely, model.Mesh{}); err != nil {
			t.Errorf("part %d in the box, bodies of their own: %v", first, err)
		}
		s.Parts[4].(*model.Post).Body = s.Parts[0].(*model.Post).Body
		var bad *model.StackError
		if _, err := s.Assemble(model.Likely, model.Mesh{}); !errors.As(err, &bad) || bad.Where != "A: battery" {
			t.Errorf("part %d in the box, one body: %v", first, err)
		}
		s.Enclosure.Parts = []int{0, 4}
		if _, err := s.Assemble(model.Likely, model.Mesh{}); err != nil {
			t.Errorf("one body, all in the box: %v", err)
		}
	}
}

// TestAlikeCablesWarn: of alike cables in a box or under a cover only one warms it,
// which is said; of one cable alone, or in the room, there is nothing to say.
func TestAlikeCablesWarn(t *testing.T) {
	for _, c := range []struct {
		name            string
		bundle, conduit int // cables; 0 = none
		in              string
	}{
		{"one/box", 1, 0, "box"}, {"bundle/room", 3, 0, ""}, {"bundle/box", 3, 0, "box"},
		{"bundle/cover", 3, 0, "cover"}, {"conduit/box", 0, 4, "box"}, {"conduit of one/box", 0, 1, "box"}, {"conduit/room", 0, 4, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := cable("loop", 2)
			if c.bundle > 0 {
				p.Bundle = &model.Bundle{Count: c.bundle}
			}
			if c.conduit > 0 {
				p.Conduit = steelConduit(c.conduit)
			}
			s := alone(p, 50)
			where := ""
			switch c.in {
			case "box":
				s.Enclosure = steelBox()
				where = s.Enclosure.Label
			case "cover":
				where = "hood"
				s.Covers = []model.Cover{{Label: where, Parts: []int{0}, Gap: 8e-3, Inside: 0.9, Exposed: 0.5, Height: 0.1, Outside: 0.9}}
			}
			a, err := s.Assemble(model.Likely, model.Mesh{})
			if err != nil {
				t.Fatal(err)
			}
			said := 0
			for _, w := range a.Warnings {
				if w.Where == "loop" && strings.Contains(w.Text, "alike cables") && strings.Contains(w.Text, where) {
					said++
				}
			}
			want := 0
			if c.in != "" && max(c.bundle, c.conduit) > 1 {
				want = 1
			}
			if said != want {
				t.Errorf("said %d times, want %d: %v", said, want, a.Warnings)
			}
		})
	}
}

// TestProportionOfAnyLoad: a current that is out of all proportion is found in
// whichever draw and at whichever time it flows.
func TestProportionOfAnyLoad(t *testing.T) {
	for _, at := range []int{0, 7, 19} {
		s := bank([]string{"A", "B"}, []float64{0.02, 0.06, 0.1}, 2)
		pieces := make([]model.Piece, 20)
		for i := range pieces {
			pieces[i] = model.Piece{From: 50, To: 50, For: 10}
		}
		pieces[at].From, pieces[at].To = 1e200, 1e200
		huge, err := model.NewSchedule(pieces...)
		if err != nil {
			t.Fatal(err)
		}
		s.Draws = append(s.Draws, model.Draw{Name: "huge", From: s.Draws[0].From, To: s.Draws[0].To, Current: huge})
		var bad *model.StackError
		if _, err := s.Assemble(model.Likely, model.Mesh{}); !errors.As(err, &bad) {
			t.Errorf("piece %d: %v", at, err)
		}
	}
}

// manyBatteries is a bank on one bar of as many studs.
func manyBatteries(n int) *model.Stack {
	names, studs := make([]string, n), make([]float64, n+1)
	for i := range names {
		names[i] = fmt.Sprint("B", i)
	}
	for i := range studs {
		studs[i] = 0.05 * float64(i+1)
	}
	return bank(names, studs, n)
}

// BenchmarkAssembleBank is what a bank costs to assemble, by batteries, and a log
// of 20 000 rows.
func BenchmarkAssembleBank(b *testing.B) {
	assemble := func(b *testing.B, s *model.Stack) {
		for b.Loop() {
			if _, err := s.Assemble(model.Likely, model.Mesh{}); err != nil {
				b.Fatal(err)
			}
		}
	}
	for _, n := range []int{40, 80, 160, 320} {
		b.Run(fmt.Sprintf("batteries=%d", n), func(b *testing.B) { assemble(b, manyBatteries(n)) })
	}
	b.Run("rows=20000", func(b *testing.B) {
		s := manyBatteries(4)
		pieces := make([]model.Piece, 20000)
		for i := range pieces {
			amps := 100 * math.Abs(math.Sin(float64(i)))
			pieces[i] = model.Piece{From: amps, To: amps, For: 10}
		}
		s.Supply, _ = model.NewSchedule(pieces...)
		assemble(b, s)
	})
}
