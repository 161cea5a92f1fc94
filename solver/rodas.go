package solver

// The one-step method: RODAS, a Rosenbrock method of six stages, order 4 with
// an embedded formula of order 3, both stiffly accurate and L-stable, made for
// stiff and index-1 problems.
//
// Source: E. Hairer, G. Wanner, Solving Ordinary Differential Equations II,
// 2nd ed., Springer 1996, section IV.7 (form (7.25)) and VI.4; coefficients as in
// their program RODAS, in the transformed variables u = Γk, which need no
// product with the Jacobian:
//
//	(C/(γh) − J) u_i = F(t + α_i h, x + Σ a_ij u_j) + C Σ (c_ij/h) u_j + γ_i h ∂F/∂t
//	x1 = x + Σ_{j≤4} a5j u_j + u5 + u6,   error estimate u6
//	x(θ) = (1−θ) x + θ (x1 + (1−θ) (Σ d_j u_j + θ Σ e_j u_j))
//
// The tests hold them against the order conditions.
const (
	stages = 6

	gamma = 0.25

	alpha2, alpha3, alpha4  = 0.75, 0.21, 0.63
	gamma1, gamma2          = 0.25, -0.5
	gamma3, gamma4          = -0.023504, -0.0362
	a21                     = 3.0
	a31, a32                = 1.831036793486759, 0.4955183967433795
	a41, a42, a43           = 2.304376582692669, -0.05249275245743001, -1.176798761832782
	a51, a52, a53, a54      = -7.170454962423024, -4.741636671481785, -16.31002631330971, -1.062004044111401
	c21                     = -12.0
	c31, c32                = -8.791795173947035, -2.207865586973518
	c41, c42, c43           = 10.81793056857153, 6.780270611428266, 19.53485944642410
	c51, c52, c53, c54      = 34.19095006749676, 15.49671153725963, 54.74760875964130, 14.16005392148534
	c61, c62, c63, c64, c65 = 34.62605830930532, 15.30084976114473, 56.99955578662667, 18.40807009793095, -5.714285714285717
	dense1, dense2, dense3  = 25.09876703708589, 11.62013104361867, 28.49148307714626
	dense4, dense5          = -5.664021568594133, 0.0
	bend1, bend2, bend3     = 1.638054557396973, -0.7373619806678748, 8.477918219238990
	bend4, bend5            = 15.99253148779520, -1.882352941176471
)

// couplings holds c_ij, row by row, for the sums that run over stages.
var couplings = [stages][stages]float64{
	{},
	{c21},
	{c31, c32},
	{c41, c42, c43},
	{c51, c52, c53, c54},
	{c61, c62, c63, c64, c65},
}

var (
	stageTimes  = [stages]float64{0, alpha2, alpha3, alpha4, 1, 1}
	stageDrifts = [stages]float64{gamma1, gamma2, gamma3, gamma4, 0, 0}
	stateSums   = [stages]float64{a51, a52, a53, a54, 1, 1}
	bookWeights = methodWeights()
)

// methodWeights gives b with ∫S dt ≈ h Σ b_i (S_i + (∂S/∂x) u_i + γ_i h ∂S/∂t),
// the weights with which the method itself would integrate a further
// quantity S beside the state: b solves (I − γ c)ᵀ b = γ m.
func methodWeights() (b [stages]float64) {
	for i := stages - 1; i >= 0; i-- {
		b[i] = gamma * stateSums[i]
		for k := i + 1; k < stages; k++ {
			b[i] += gamma * couplings[k][i] * b[k]
		}
	}
	return b
}
