package validation

import (
	"context"
	"math"
	"testing"
)

// results are computed once for all tests of the table.
func results(t *testing.T) []Result {
	t.Helper()
	all, err := Run(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func TestCases(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range results(t) {
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
	if r.Reported {
		if r.Note == "" {
			t.Error("reported without saying why it is not judged")
		}
		t.Logf("reported: expected %.6g, got %.6g %s", r.Want, r.Value, r.Unit)
		return
	}
	if !r.Passed {
		t.Errorf("expected %.6g %s, %s, got %.6g (%+.3g %%)", r.Want, r.Unit, r.Tol.Text, r.Value, 100*(r.Value/r.Want-1))
		return
	}
	if r.Why == "" || r.Tol.Text == "" {
		t.Errorf("tolerance %q without a reason (%q)", r.Tol.Text, r.Why)
	}
	if _, ok := r.Inputs[r.Breaks]; !ok {
		t.Errorf("no input is called %q", r.Breaks)
	}
	switch {
	case math.IsInf(r.Break, 0):
		t.Errorf("no change of %s turns it red", r.Breaks)
	case r.Exact && r.Break > 0.01:
		t.Errorf("exact, but %s may change by %.2g %%", r.Breaks, 100*r.Break)
	}
	t.Logf("expected %.6g, got %.6g %s (%+.3g %%), noticed from %.2g %% of %s",
		r.Want, r.Value, r.Unit, 100*(r.Value/r.Want-1), 100*r.Break, r.Breaks)
}
