package scenarios

import (
	"testing"

	"clampheat/model"
)

func TestExamples(t *testing.T) {
	for _, e := range Examples() {
		t.Run(e.Name, func(t *testing.T) {
			s, err := Open(e.Name)
			if err != nil {
				t.Fatal(err)
			}
			for _, w := range s.File.Warnings {
				t.Error(w)
			}
			stack, err := s.Stack(nil)
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range []model.Condition{model.Careful, model.Likely, model.Careless} {
				a, err := stack.Assemble(c, model.Mesh{})
				if err != nil {
					t.Fatal(err)
				}
				for _, r := range a.Rows {
					t.Log(r.Kind, r.Name, r.Limits)
				}
				for _, w := range a.Warnings {
					t.Log("WARN", w)
				}
			}
			for _, a := range s.Assumptions() {
				t.Log(a.ID, "=", a, "|", a.Basis, a.Source, a.Ground)
			}
			for i, j := range stack.Joints {
				f, _ := stack.JointFigures(i)
				t.Logf("%s %.3g µΩ  G %.3g", j.Name, f.Resistance.Likely*1e6, f.Conductance.Likely)
			}
		})
	}
}
