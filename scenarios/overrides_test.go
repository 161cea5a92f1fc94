package scenarios

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"clampheat/materials"
	"clampheat/model"
)

// What the file states reaches the stack and is no assumption.
func TestOverrides(t *testing.T) {
	const rest = "  - cable: 1/0 AWG\n    length: 1 m\n"
	post := func(s *model.Stack) *model.Post { return s.Parts[0].(*model.Post) }
	base := func(s *model.Stack) *model.Block { return s.Parts[1].(*model.Block) }
	fuse := func(s *model.Stack) *model.Fuse { return s.Parts[2].(*model.Fuse) }
	tests := []struct {
		key    string // of the post, or of the holder behind a tab
		got    func(*model.Stack) any
		want   any
		absent string // assumption that it replaces
	}{
		{"class: 8.8", func(s *model.Stack) any { return s.Bolts[0].Class.Name }, "8.8", "battery post M8.stud class"},
		{"diameter: 20 mm", func(s *model.Stack) any { return post(s).Diameter }, 0.02, "battery post M8.boss over thread"},
		{"length: 12 mm", func(s *model.Stack) any { return post(s).Length }, 0.012, "battery post M8.boss length"},
		{"metal: copper", func(s *model.Stack) any { return post(s).Metal.Name }, "annealed copper", "battery post M8.metal"},
		{"plating: silver", func(s *model.Stack) any { return post(s).Plating.Name }, "silver", "battery post M8.plating"},
		{"body takes: 0.07 W/K", func(s *model.Stack) any { return post(s).Body.To }, materials.Exactly(0.07), "battery post M8.body takes"},
		{"body heat capacity: 9 kJ/K", func(s *model.Stack) any { return post(s).Body.Capacity }, 9000.0, "battery post M8.body heat capacity"},
		{"resistance: 10 µΩ", func(s *model.Stack) any { return post(s).Resistance.Likely }, 10e-6, ""},
		{"clamp kept: 80 %", func(s *model.Stack) any { return s.Bolts[0].Kept }, materials.Exactly(0.8), ""},
		{"thread: lubricated", func(s *model.Stack) any { return s.Bolts[0].Thread.Name }, "lubricated", ""},
		{"tightened: by feel", func(s *model.Stack) any { return s.Bolts[0].Tightening.Name }, "by feel", ""},
		{"faces: corroded", func(s *model.Stack) any { return faceBetween(s, 0, 1).Face.State.Name }, "corroded", ""},
		{"measured: 2.1 mV at 140 A", func(s *model.Stack) any { return faceBetween(s, 0, 1).Measured.Resistance }, 2.1e-3 / 140, ""},
		{"\tfuse drop: 22 W at 280 A", func(s *model.Stack) any { return [2]float64{fuse(s).Hot.Power.Likely, fuse(s).Hot.Current} }, [2]float64{22, 280}, "fuse.drop"},
		{"\tfuse drop: 0.21 mΩ", func(s *model.Stack) any { return fuse(s).Cold }, materials.Exactly(0.21e-3), "fuse.drop"},
		{"\tsection: 22 × 3 mm", func(s *model.Stack) any { return [2]float64{base(s).Width, base(s).Thickness} }, [2]float64{0.022, 0.003}, "compact holder.base width"},
		{"\texposed: 50 %", func(s *model.Stack) any { return base(s).Exposed }, 2.5e-4, ""},
		{"\tinterrupting rating: 10 kA", func(s *model.Stack) any { return fuse(s).Interrupting }, 10e3, ""},
		{"\tcover: closed", func(s *model.Stack) any { return s.Covers[0].Parts }, []int{1, 2, 4}, "compact holder.cover"},
		{"\tlimit: 95 °C", func(s *model.Stack) any { return []any{len(s.Limits), s.Limits[0].Temp} }, []any{2, 95 + 273.15}, ""},
		{"\tlimit: 50 K", func(s *model.Stack) any { return s.Limits[1].Rise }, 50.0, ""},
	}
	for _, test := range tests {
		t.Run(strings.TrimSpace(test.key), func(t *testing.T) {
			ofPost, ofHolder := "", ""
			if key, is := strings.CutPrefix(test.key, "\t"); is {
				ofHolder = "    " + key + "\n"
			} else {
				ofPost = "    " + key + "\n"
			}
			s, stack := understood(t, written("  - battery post: M8\n    nut: 12 N·m\n"+ofPost+
				"  - compact holder: generic\n    fuse: 300 A\n    nut: 8.5 N·m\n"+ofHolder+rest))
			if got := test.got(stack); !alike(got, test.want) {
				t.Errorf("got %v, want %v", got, test.want)
			}
			for _, a := range s.Assumptions() {
				if a.ID == test.absent {
					t.Errorf("%s is stated and still assumed", a.ID)
				}
			}
		})
	}
}

// faceBetween finds the joint of two parts.
func faceBetween(s *model.Stack, a, b int) model.Joint {
	for _, j := range s.Joints {
		if j.A.Part == a && j.B.Part == b {
			return j
		}
	}
	return model.Joint{}
}

// alike compares, numbers to the rounding of their units.
func alike(a, b any) bool {
	x, isA := a.(float64)
	y, isB := b.(float64)
	if isA && isB {
		return math.Abs(x-y) <= 1e-12*math.Abs(y)
	}
	u, isA := a.(materials.Range)
	v, isB := b.(materials.Range)
	if isA && isB {
		return alike(u.Low, v.Low) && alike(u.Likely, v.Likely) && alike(u.High, v.High)
	}
	return reflect.DeepEqual(a, b)
}
