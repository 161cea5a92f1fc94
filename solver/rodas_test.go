package solver

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// tableau turns the coefficients back into the method's α, Γ and weights, by
// Γ⁻¹ = I/γ − c, α = aΓ, b = mΓ (Hairer & Wanner II, section IV.7, (7.24)).
type tableau struct {
	alpha, gamma, beta *mat.Dense
	sumA, sumG, sumB   []float64
}

func newTableau(t *testing.T) *tableau {
	inverse, a := mat.NewDense(stages, stages, nil), mat.NewDense(stages, stages, nil)
	rows := [stages][]float64{{}, {a21}, {a31, a32}, {a41, a42, a43}, {a51, a52, a53, a54}, {a51, a52, a53, a54, 1}}
	for i := range stages {
		inverse.Set(i, i, 1/gamma)
		for j, v := range rows[i] {
			a.Set(i, j, v)
			inverse.Set(i, j, -couplings[i][j])
		}
	}
	var g, alpha, beta mat.Dense
	if err := g.Inverse(inverse); err != nil {
		t.Fatal(err)
	}
	alpha.Mul(a, &g)
	beta.Add(&alpha, &g)
	tab := &tableau{alpha: &alpha, gamma: &g, beta: &beta}
	for i := range stages {
		tab.sumA = append(tab.sumA, mat.Sum(alpha.RowView(i)))
		tab.sumG = append(tab.sumG, mat.Sum(g.RowView(i)))
		tab.sumB = append(tab.sumB, tab.sumA[i]+tab.sumG[i])
	}
	return tab
}

// weights turns sums of u into sums of k.
func (tab *tableau) weights(m []float64) []float64 {
	b := make([]float64, stages)
	mat.NewVecDense(stages, b).MulVec(tab.gamma.T(), mat.NewVecDense(stages, m))
	return b
}

// conditions gives, for the trees up to order 4, the sum of the method and
// the number that it should be at θ = 1, and the tree's order.
// Source: Hairer & Wanner II, section IV.7, table 7.1 with eq. (7.11).
func (tab *tableau) conditions(b []float64) (sums, wants []float64, orders []int) {
	square := func(v []float64, p float64) []float64 {
		r := make([]float64, len(v))
		for i := range v {
			r[i] = math.Pow(v[i], p)
		}
		return r
	}
	times := func(m *mat.Dense, v []float64) []float64 {
		r := make([]float64, len(v))
		mat.NewVecDense(stages, r).MulVec(m, mat.NewVecDense(stages, v))
		return r
	}
	dot := func(v []float64) (s float64) {
		for i := range v {
			s += b[i] * v[i]
		}
		return s
	}
	one := []float64{1, 1, 1, 1, 1, 1}
	mixed := times(tab.alpha, tab.sumB)
	for i := range mixed {
		mixed[i] *= tab.sumA[i]
	}
	sums = []float64{
		dot(one), dot(tab.sumB), dot(square(tab.sumA, 2)), dot(times(tab.beta, tab.sumB)),
		dot(square(tab.sumA, 3)), dot(mixed), dot(times(tab.beta, square(tab.sumA, 2))), dot(times(tab.beta, times(tab.beta, tab.sumB))),
	}
	wants = []float64{1, 1. / 2, 1. / 3, 1. / 6, 1. / 4, 1. / 8, 1. / 12, 1. / 24}
	return sums, wants, []int{1, 2, 3, 3, 4, 4, 4, 4}
}

func TestRodas(t *testing.T) {
	tab := newTableau(t)
	near := func(t *testing.T, what string, got, want, tol float64) {
		t.Helper()
		if !(math.Abs(got-want) <= tol) {
			t.Errorf("%s is %.15g, should be %.15g", what, got, want)
		}
	}
	check := func(t *testing.T, b []float64, upTo int, theta float64) {
		t.Helper()
		sums, wants, orders := tab.conditions(b)
		for k, o := range orders {
			if o <= upTo {
				near(t, "an order condition", sums[k], wants[k]*math.Pow(theta, float64(o)), 1e-12)
			}
		}
	}
	t.Run("stages/times and drifts are the row sums", func(t *testing.T) {
		for i := range stages {
			near(t, "α", tab.sumA[i], stageTimes[i], 1e-13)
			near(t, "γ", tab.sumG[i], stageDrifts[i], 1e-13)
			near(t, "diagonal of Γ", tab.gamma.At(i, i), gamma, 1e-13)
		}
	})
	t.Run("solution/order 4", func(t *testing.T) {
		check(t, tab.weights(stateSums[:]), 4, 1)
	})
	t.Run("embedded/order 3", func(t *testing.T) {
		check(t, tab.weights([]float64{a51, a52, a53, a54, 1, 0}), 3, 1)
	})
	t.Run("dense output/order 3 all along", func(t *testing.T) {
		for _, theta := range []float64{0.1, 0.25, 0.5, 0.8, 1} {
			m := make([]float64, stages)
			for k := range m {
				m[k] = theta * stateSums[k]
				if k < len(denseFirst) {
					m[k] += at(k, theta)
				}
			}
			check(t, tab.weights(m), 3, theta)
		}
	})
	t.Run("stiffly accurate/both formulas", func(t *testing.T) {
		b := tab.weights(stateSums[:])
		e := tab.weights([]float64{a51, a52, a53, a54, 1, 0})
		for j := range stages {
			near(t, "last row", tab.beta.At(5, j), b[j], 1e-13)
			near(t, "last row but one", tab.beta.At(4, j), e[j], 1e-13)
		}
		near(t, "α6", tab.sumA[5], 1, 1e-13)
		near(t, "α5", tab.sumA[4], 1, 1e-13)
	})
	t.Run("index 1/order 4 for the algebraic part", func(t *testing.T) {
		// With ω = β⁻¹ the conditions Σ b ω α² = 1 and Σ b ω α³ = 1, Hairer &
		// Wanner II, section VI.4, (4.10) and following; they follow from stiff accuracy.
		var inv mat.Dense
		if err := inv.Inverse(tab.beta); err != nil {
			t.Fatal(err)
		}
		b := mat.NewVecDense(stages, tab.weights(stateSums[:]))
		var row mat.VecDense
		row.MulVec(inv.T(), b)
		for p := 2; p <= 3; p++ {
			s := 0.0
			for j, a := range tab.sumA {
				s += row.AtVec(j) * math.Pow(a, float64(p))
			}
			near(t, "Σ b ω α^p", s, 1, 1e-12)
		}
		// L-stable: R(∞) = 1 − bᵀβ⁻¹1 = 0.
		near(t, "1 − R(∞)", mat.Sum(&row), 1, 1e-12)
	})
	t.Run("bookkeeping/weights integrate a constant", func(t *testing.T) {
		s := 0.0
		for _, b := range bookWeights {
			s += b
		}
		near(t, "their sum", s, 1, 1e-13)
	})
}
