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

	alpha2, alpha3, alpha4  = 0.386, 0.21, 0.63
	gamma1, gamma2          = 0.25, -0.1043
	gamma3, gamma4          = 0.1035, -0.03620000000000023
	a21                     = 1.544
	a31, a32                = 0.9466785280815826, 0.2557011698983284
	a41, a42, a43           = 3.314825187068521, 2.896124015972201, 0.9986419139977817
	a51, a52, a53, a54      = 1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950
	c21                     = -5.6688
	c31, c32                = -2.430093356833875, -0.2063599157091915
	c41, c42, c43           = -0.1073529058151375, -9.594562251023355, -20.47028614809616
	c51, c52, c53, c54      = 7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160
	c61, c62, c63, c64, c65 = 8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054
	dense1, dense2, dense3  = 10.12623508344586, -7.487995877610167, -34.80091861555747
	dense4, dense5          = -7.992771707568823, 1.025137723295662
	bend1, bend2, bend3     = -0.6762803392801253, 6.087714651680015, 16.43084320892478
	bend4, bend5            = 24.76722511418386, -6.594389125716872
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
