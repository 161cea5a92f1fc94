package study

// This file shares a difference out among its causes.

// Shapley shares v[all] − v[none] out among n causes, where v holds the outcome
// for each set of causes that are in place, by the bits of its index, 2ⁿ in all: the mean,
// over all orders in which the causes could be put in place, of what each one
// adds when its turn comes. The shares add up to the difference but for
// rounding, a cause that never changes anything gets nothing, and two that do
// the same get the same.
//
// Source: L. S. Shapley, A value for n-person games, Contributions to the
// Theory of Games II, Annals of Mathematics Studies 28, 1953, eq. (12) (from
// memory).
func Shapley(n int, v []float64) []float64 {
	// weight of a set of k causes that stand before one: k! (n−k−1)! / n!.
	weight := make([]float64, n)
	for k := range weight {
		weight[k] = 1 / float64(n)
		for i := 1; i <= k; i++ {
			weight[k] *= float64(i) / float64(n-i)
		}
	}
	shares := make([]float64, n)
	for set := range v {
		size := 0
		for g := range n {
			size += set >> g & 1
		}
		for g := range n {
			if set>>g&1 == 0 {
				shares[g] += weight[size] * (v[set|1<<g] - v[set])
			}
		}
	}
	return shares
}
