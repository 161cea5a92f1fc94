// Package solver finds how the temperatures of a system of nodes and links
// move in time (Soak), where they come to rest (Steady) and what cycle they
// settle into where what drives them repeats (Periodic). It knows numbers only:
// what makes heat, what carries it off and where the figures come from is the
// business of the System that is handed to it.
//
// # Equations
//
// A system has n nodes with temperatures T [K], heat capacities C ≥ 0 [J/K], and m
// globals g, algebraic unknowns such as the currents of branches and the
// potentials of the points at which they meet; x = (T, g):
//
//	C dT/dt = F(t, x)                                              (1)
//	      0 = r(t, x)                                              (2)
//
// F_i [W] is what node i gains: heat made, less heat lost, plus what its links
// bring. A node with C = 0 is algebraic like a global; (1) and (2) must then be
// solvable for these unknowns (index 1). A link joins any two unknowns that act on
// one another, J holding ∂F_i/∂x_j and ∂F_j/∂x_i for it with r counted on in F. A
// steady state solves
//
//	F(t, x) = 0,  r(t, x) = 0                                      (3)
//
// at a frozen time. It lasts where all eigenvalues of the Jacobian J of (1), with
// (2) solved, have negative real parts. With links that carry heat from warm to
// cold, −J is a Z-matrix, and that is so exactly where the pivots of its
// elimination are positive (Berman & Plemmons 1994). With globals the signs of the
// pivots are held against those of the state without load; where they differ and
// the determinant does not, eigenvalues with positive real parts are looked for by
// Arnoldi's method (departures.go).
//
// # In time
//
// Soak takes one step after another with RODAS (rodas.go), a Rosenbrock method
// of order 4, L-stable and stiffly accurate, with the exact J and ∂F/∂t: each
// step factorises one matrix C/(γh) − J and solves with it six times. Step lengths
// follow the error estimate
//
//	err = sqrt(1/n Σ (T_i − T̂_i)²) ≤ Tol,
//	10 K · max |g_k − ĝ_k| / max |g_k| ≤ Tol                       (4)
//
// T̂ and ĝ being the embedded formula of order 3, T and g, the better one, being
// kept. Tol is absolute and in kelvin.
//
// How to choose Tol: the error of the result is what counts, and is found by a
// second run at a tenth of the tolerance. On the rod of the tests it is a
// fiftieth of Tol at 0.5 K, a tenth at 1e-3 K and a fifth below. The default of
// 0.05 K leaves 2 mK there. A mean over many nodes says little of a single one:
// where one small part among hundreds of cells matters, take a tenth. Below 1e-7 K
// rounding takes over.
//
// Values between the ends of steps come from the method's own continuous formula
// of order 3, events are located on it, and steps end at wanted times where that
// costs little. In the states handed out the balances of the unknowns without mass
// are closed by Newton's method where there are globals (settle.go). Jumps of the
// supply are Breaks: steps end there, seeing what comes before, and start anew,
// unknowns without mass solved for, from what comes after.
//
// # At rest
//
// Steady uses Newton's method, damped by the natural monotonicity test (Deuflhard
// 2004). Its Tol bounds the correction that would come next, which is looked at
// and not only foreseen. A state that cannot last is not an answer: where the
// direct search finds none that can, or one with a node above its ceiling, and
// the system is Loaded, the branch of states is followed from no load on
// (path.go), to the full load, a ceiling (*CeilingError) or a fold (*FoldError).
// Rate follows the same branch past the full load and solves for the loads at
// which nodes reach given temperatures (rate.go).
// Folds and ceilings are located to 1e-6 in the load.
//
// # Sensitivities
//
// A steady state follows a parameter p by dx/dp = −J⁻¹ ∂F/∂p. Adjoint solves
//
//	−Jᵀ w = ∂φ/∂x                                                  (5)
//
// once for an output φ, after which dφ/dp = w · ∂F/∂p for every parameter: w_i is
// what a watt more in node i adds to φ (adjoint.go).
//
// # Cycles
//
// Where the supply repeats after a time τ, the lasting cycle is the fixed point
//
//	T(τ; y) = y                                                    (6)
//
// over the states y of the nodes with mass at its beginning. Periodic keeps the
// steps of one period and seeks the fixed point of the map that they make, by a
// correction with the mean of J over the period, which takes bodies of any
// slowness at once, and by Anderson mixing of the guesses (mixing.go): about ten
// periods are followed, where by themselves the temperatures may take thousands to
// settle. A cycle is judged to last where a departure of the slowest kind has
// faded a little after a period.
//
// # Linear systems
//
// Networks are eliminated without exchange of rows in an order worked out once
// (plan.go): trees from their ends without fill, long runs of consecutive nodes and
// links in tight loops from both ends at a time; the cells of a branch between two
// studs as one piece, with a column for each of the few unknowns that they share,
// as their current (piece.go); and what is left, globals, studs and the air in a box,
// by minimum degree (core.go). The cost grows with the number of nodes. A system
// is solved fast where the cells of a long part, and the links between them, are
// numbered in even steps.
//
// The pivots tell of stability, the chains make most of the speed, and neither is
// to be had from a general library: of those in Go for sparse unsymmetric systems
// none was both kept up and settled at the time of writing (November 2026). Gonum,
// whose matrices are dense or banded, is the judge in the tests.
//
// # Audit
//
// Every result carries two residuals of its energy balance (Audit). They tell of
// slips, not of steps that are too long: how near a soak is to the true course, only
// a second one with a smaller Tol shows.
//
// Nothing that is not a finite number leaves this package: steps that meet one
// are made shorter, and then the run ends with an error. The solver does not bound
// temperatures where a model's figures end; give Ceilings or an Event with Stop.
//
// # Sources
//
// Numbers of sections, equations and tables, here and in the files, are cited from
// memory.
//
//   - E. Hairer, G. Wanner, Solving Ordinary Differential Equations II, 2nd ed.,
//     Springer 1996: IV.7, VI.4 (RODAS), IV.8 (step control).
//   - P. Deuflhard, Newton Methods for Nonlinear Problems, Springer 2004: 3.3.
//   - Y. Saad, Numerical Methods for Large Eigenvalue Problems, 2nd ed., SIAM 2011:
//     chapter 6 (Arnoldi's method).
//   - E. L. Allgower, K. Georg, Numerical Continuation Methods, Springer 1990.
//   - A. Berman, R. J. Plemmons, Nonnegative Matrices in the Mathematical
//     Sciences, SIAM 1994: chapter 6.
//   - D. G. Anderson, Iterative procedures for nonlinear integral equations, J.
//     ACM 12 (1965) 547; H. F. Walker, P. Ni, Anderson acceleration for fixed-point
//     iterations, SIAM J. Numer. Anal. 49 (2011) 1715.
//   - A. George, J. W. H. Liu, Computer Solution of Large Sparse Positive Definite
//     Systems, Prentice-Hall 1981: chapter 5 (minimum degree).
package solver
