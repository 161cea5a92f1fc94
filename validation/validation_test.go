package validation

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"
)

func TestCases(t *testing.T) {
	results, err := Run(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, r := range results {
		name := r.Group + "/" + r.Name
		if seen[name] {
			t.Errorf("%s: two cases of this name", name)
		}
		seen[name] = true
		t.Run(name, func(t *testing.T) { checkResult(t, r) })
	}
}

func checkResult(t *testing.T, r Result) {
	if r.Claim == "" || r.Source == "" || r.Unit == "" {
		t.Errorf("says too little: claim %q, source %q, unit %q", r.Claim, r.Source, r.Unit)
	}
	if math.IsNaN(r.Value) || math.IsInf(r.Value, 0) {
		t.Errorf("got %g", r.Value)
	}
	difference := fmt.Sprintf("expected %.6g, got %.6g %s, %+.3g", r.Want, r.Value, r.Unit, r.Value-r.Want)
	if r.Want != 0 {
		difference += fmt.Sprintf(" (%+.3g %%)", 100*(r.Value-r.Want)/math.Abs(r.Want))
	}
	if r.Reported {
		if r.Note == "" {
			t.Error("reported without saying why it is not judged")
		}
		t.Logf("reported: %s", difference)
		return
	}
	if r.Why == "" || r.Tol.Text == "" {
		t.Errorf("tolerance %q without a reason (%q)", r.Tol.Text, r.Why)
	}
	if _, ok := r.Inputs[r.Breaks]; !ok {
		t.Errorf("no input is called %q", r.Breaks)
	}
	if !r.Passed {
		t.Errorf("%s, allowed %s", difference, r.Tol.Text)
		return
	}
	switch {
	case math.IsInf(r.Break, 0):
		t.Errorf("no change of %s turns it red", r.Breaks)
	case r.Exact && r.Break > 0.01:
		t.Errorf("exact, but %s may change by %.2g %%", r.Breaks, 100*r.Break)
	}
	t.Logf("%s; noticed from %.2g %% of %s", difference, 100*r.Break, r.Breaks)
}

// square is a case whose answer is the square of its input.
func square(tol Tolerance) Case {
	return Case{Group: "test", Name: "square", Want: 4, Tol: tol, Inputs: Inputs{"side": 2, "colour": 1}, Breaks: "side",
		Got: func(_ context.Context, in Inputs) (float64, error) { return in["side"] * in["side"], nil }}
}

func TestRunCase(t *testing.T) {
	ctx := context.Background()
	impossible := errors.New("no such side")
	for _, tt := range []struct {
		name   string
		change func(*Case)
		passed bool
		low    float64 // of the break found
		high   float64
		weak   bool
	}{
		{"break/of a square", func(*Case) {}, true, math.Sqrt(1.02) - 1, 1.02 * (math.Sqrt(1.02) - 1), false},
		{"break/downwards sooner", func(c *Case) { c.Tol = Tolerance{-0.04, 1, ""} }, true, 0.00501, 0.00507, false},
		{"break/only far away", func(c *Case) { c.Tol = Rel(4, 0.5) }, true, 0.2247, 0.2275, true},
		{"break/never", func(c *Case) { c.Breaks = "colour" }, true, math.Inf(1), math.Inf(1), true},
		{"break/where it cannot be computed", func(c *Case) {
			c.Breaks = "colour"
			c.Got = func(_ context.Context, in Inputs) (float64, error) {
				if in["colour"] > 1.05 {
					return 0, impossible
				}
				return 4, nil
			}
		}, true, 0.05, 0.0506, false},
		{"missed", func(c *Case) { c.Want = 5 }, false, 0, 0, false},
		{"missed/not a number", func(c *Case) {
			c.Got = func(context.Context, Inputs) (float64, error) { return math.NaN(), nil }
		}, false, 0, 0, false},
		{"reported", func(c *Case) { c.Want, c.Reported = 5, true }, true, 0, 0, false},
		{"reported/not a number", func(c *Case) {
			c.Reported = true
			c.Got = func(context.Context, Inputs) (float64, error) { return math.Inf(1), nil }
		}, false, 0, 0, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			c := square(Rel(4, 0.02))
			tt.change(&c)
			r, err := c.run(ctx)
			if err != nil {
				t.Fatal(err)
			}
			if r.Passed != tt.passed || r.Weak != tt.weak || r.Break < tt.low || r.Break > tt.high {
				t.Errorf("passed %v, break %g, weak %v; want %v, %g … %g, %v", r.Passed, r.Break, r.Weak, tt.passed, tt.low, tt.high, tt.weak)
			}
			if c.Inputs["side"] != 2 || c.Inputs["colour"] != 1 {
				t.Errorf("inputs changed to %v", c.Inputs)
			}
		})
	}
	t.Run("error/names the case", func(t *testing.T) {
		c := square(Rel(4, 0.02))
		c.Got = func(context.Context, Inputs) (float64, error) { return 0, impossible }
		_, err := c.run(ctx)
		if !errors.Is(err, impossible) || err.Error() != "validation case test/square: no such side" {
			t.Errorf("error %v", err)
		}
	})
	t.Run("error/cancelled", func(t *testing.T) {
		gone, cancel := context.WithCancel(ctx)
		cancel()
		if _, err := Run(gone); !errors.Is(err, context.Canceled) {
			t.Errorf("error %v", err)
		}
	})
}

func TestSources(t *testing.T) {
	results := []Result{
		{Case: Case{Kind: Published, Source: "a book"}},
		{Case: Case{Kind: Published, Source: "a book" + fromMemory}},
		{Case: Case{Kind: Measured, Source: "a rig"}},
		{Case: Case{Kind: CodeCheck, Source: "a formula"}},
		{Case: Case{Kind: Practice, Source: "common practice, no source"}},
	}
	if n := Sources(results); n != 2 {
		t.Errorf("%d sources, want the book and the rig", n)
	}
}

func TestTolerance(t *testing.T) {
	for _, tt := range []struct {
		name string
		tol  Tolerance
		want Tolerance
	}{
		{"share", Rel(-200, 0.01), Tolerance{-2, 2, "±1 %"}},
		{"absolute", Abs(0.5, "K"), Tolerance{-0.5, 0.5, "±0.5 K"}},
		{"absolute/pure number", Abs(0.5, ""), Tolerance{-0.5, 0.5, "±0.5"}},
		{"band", Band(100, -0.03, 0.05), Tolerance{-3, 5, "-3 … +5 %"}},
	} {
		if tt.tol != tt.want {
			t.Errorf("%s: %+v, want %+v", tt.name, tt.tol, tt.want)
		}
	}
}

func TestSheet(t *testing.T) {
	s := &sheet{name: "made up"}
	r := sheetRow{s, 2, map[string]string{"length": "4.30", "word": "long", "inputs": "a=1 b=2e3 size=M8", "status": "memory-high"}}
	t.Run("printed/half a digit", func(t *testing.T) {
		if tol := r.printed("length", 0.001, "m"); math.Abs(tol.High-0.005) > 1e-15 {
			t.Errorf("%+v", tol)
		}
	})
	t.Run("printed/share", func(t *testing.T) {
		if tol := r.printed("length", 0.01, "m"); tol != Rel(4.3, 0.01) {
			t.Errorf("%+v", tol)
		}
	})
	t.Run("inputs", func(t *testing.T) {
		if in := r.inputs("inputs"); len(in) != 2 || in["a"] != 1 || in["b"] != 2000 {
			t.Errorf("%v", in)
		}
	})
	t.Run("source/from memory", func(t *testing.T) {
		if got := r.source("a book"); got != "a book (from memory)" {
			t.Error(got)
		}
	})
	if s.err != nil {
		t.Fatal(s.err)
	}
	t.Run("number/not one", func(t *testing.T) {
		r.number("word")
		if s.err == nil {
			t.Error("no error")
		}
	})
	t.Run("text/no such column", func(t *testing.T) {
		s := &sheet{name: "made up"}
		sheetRow{s, 2, nil}.text("width")
		if s.err == nil || s.err.Error() != `validation table made up has no column "width"` {
			t.Errorf("error %v", s.err)
		}
	})
	t.Run("open/no such table", func(t *testing.T) {
		if _, err := openSheet("nowhere"); err == nil {
			t.Error("no error")
		}
	})
}
