package network

import "math"

// The relations of natural convection. Each is a function of a reduced
// Rayleigh number y = Ra ψ(Pr), in which the whole of its dependence on the
// Prandtl number sits, so that it can be tabulated over one variable.

// family says which ψ a relation needs.
type family uint8

const (
	plain     family = iota // ψ = 1
	plateLike               // ψ = [1 + (0.492/Pr)^(9/16)]^(−16/9), eq. (9)
	roundLike               // the same with 0.559
	stalled                 // ψ = [1 + (1.9/Pr)^(9/10)]^(−10/9), eq. (13)
	families
)

// reduce gives ψ(Pr).
func (f family) reduce(pr float64) float64 {
	switch f {
	case plateLike:
		return math.Pow(1+math.Pow(0.492/pr, 9.0/16), -16.0/9)
	case roundLike:
		return math.Pow(1+math.Pow(0.559/pr, 9.0/16), -16.0/9)
	case stalled:
		return math.Pow(1+math.Pow(1.9/pr, 0.9), -10.0/9)
	}
	return 1
}

// A relation gives Nu(y) and y dNu/dy. Aspect is the length over the diameter
// where the relation has one.
type relation func(y, aspect float64) (nu, slope float64)

// plateJoin is where the laminar relation of a vertical plate hands over to
// that of all Ra: y of Ra = 3·10⁸ in air (ψ = 0.347 at Pr = 0.71). plateSteep
// makes the hand-over take about a decade.
const (
	plateJoin  = 0.347 * 3e8
	plateSteep = 4
)

func verticalPlate(y, _ float64) (nu, slope float64) {
	if y <= 0 {
		return 0.68, 0
	}
	lam, lamSlope := laminarPlate(y)
	all, allSlope := squared(y, 0.825, 0.387)
	// share is of the relation for all Ra; its logarithmic slope follows.
	u := y / plateJoin
	u *= u
	u *= u
	share := u / (1 + u)
	return lam + share*(all-lam),
		lamSlope + share*(allSlope-lamSlope) + plateSteep*share*(1-share)*(all-lam)
}

func laminarPlate(y float64) (nu, slope float64) {
	root := 0.670 * math.Sqrt(math.Sqrt(y))
	return 0.68 + root, root / 4
}

// squared is (a + b y^(1/6))².
func squared(y, a, b float64) (nu, slope float64) {
	root := b * math.Sqrt(math.Cbrt(y))
	nu = a + root
	return nu * nu, nu * root / 3
}

func horizontalCylinder(y, _ float64) (nu, slope float64) {
	if y <= 0 {
		return 0.36, 0
	}
	return squared(y, 0.60, 0.387)
}

// thin turns the Nusselt number of a boundary layer without thickness into
// one of a layer with thickness, c/ln(1 + c/Nu) (Raithby and Hollands).
func thin(nuThin, slopeThin, c float64) (nu, slope float64) {
	if nuThin <= 0 {
		return 0, 0
	}
	z := c / nuThin
	ln := math.Log1p(z)
	nu = c / ln
	return nu, nu / ln * z / (1 + z) * slopeThin / nuThin
}

func verticalCylinder(y, aspect float64) (nu, slope float64) {
	nu, slope = verticalPlate(y, 0)
	if y <= 0 || aspect <= 0 {
		return nu, slope
	}
	zeta := 1.8 * aspect / nu
	ln := math.Log1p(zeta)
	// dζ/ζ = −dNu/Nu of the plate, so that the slope of Nu ζ/ln(1+ζ) keeps only
	// that of the logarithm.
	return nu * zeta / ln, slope * (zeta / ln) * zeta / ((1 + zeta) * ln)
}

// thinPlate is C̄l of Raithby and Hollands less its ψ.
const thinPlate = 0.671

// faceUpTurbulent is 0.14 (y/ψ)^(1/3) with ψ at Pr = 0.71: this relation is
// kept to air.
var faceUpTurbulent = 0.14 / math.Cbrt(plateLike.reduce(0.71))

func faceUp(y, _ float64) (nu, slope float64) {
	if y <= 0 {
		return 0, 0
	}
	lam := 0.835 * thinPlate * math.Sqrt(math.Sqrt(y))
	lam, lamSlope := thin(lam, lam/4, 1.4)
	tur := faceUpTurbulent * math.Cbrt(y)
	// (lam¹⁰ + tur¹⁰)^(1/10) by the ratio, so that nothing overflows.
	ratio := tur / lam
	r10 := math.Pow(ratio, 10)
	if r10 > 1e30 {
		return tur, tur / 3
	}
	nu = lam * math.Pow(1+r10, 0.1)
	return nu, nu / (1 + r10) * (lamSlope/lam + r10/3)
}

func faceDown(y, _ float64) (nu, slope float64) {
	if y <= 0 {
		return 0, 0
	}
	layer := 0.527 * math.Pow(y, 0.2)
	return thin(layer, layer/5, 2.5)
}

func compactBlock(y, _ float64) (nu, slope float64) {
	if y <= 0 {
		return 3.47, 0
	}
	root := 0.51 * math.Sqrt(math.Sqrt(y))
	return 3.47 + root, root / 4
}

// orNone is the answer of a relation: 0, for none, where it has no finite value.
func orNone(nu float64) float64 {
	if !finite(nu) {
		return 0
	}
	return nu
}

// NusseltVerticalPlate is the mean Nusselt number of a vertical plate over its
// height, eq. (9): laminar below, all Ra above, joined over about a decade
// around Ra = 3·10⁸. Stated for Ra ≤ 10¹².
// An Ra below 0 counts as 0; for a Pr below 0 or what is no number it is 0, for none.
//
// Source: Churchill and Chu 1975, Int. J. Heat Mass Transfer 18, 1323.
func NusseltVerticalPlate(ra, pr float64) float64 {
	nu, _ := verticalPlate(ra*plateLike.reduce(pr), 0)
	return orNone(nu)
}

// NusseltHorizontalCylinder is the mean Nusselt number of a horizontal
// cylinder over its diameter, eq. (10). Stated for 10⁻⁵ ≤ Ra ≤ 10¹².
// An Ra below 0 counts as 0; for a Pr below 0 or what is no number it is 0, for none.
//
// Source: Churchill and Chu 1975, Int. J. Heat Mass Transfer 18, 1049.
func NusseltHorizontalCylinder(ra, pr float64) float64 {
	nu, _ := horizontalCylinder(ra*roundLike.reduce(pr), 0)
	return orNone(nu)
}

// NusseltVerticalCylinder is the mean Nusselt number of the side of a vertical
// cylinder over its height, which is aspect times its diameter, eq. (11): the
// plate's, times what the curvature adds. Stated for Ra ≤ 10¹².
// An Ra below 0 counts as 0; for a Pr below 0 or what is no number it is 0, for none.
//
// Source: Nellis and Klein, Heat Transfer, 2009, §6.2, after Sparrow and Gregg
// 1956.
func NusseltVerticalCylinder(ra, pr, aspect float64) float64 {
	nu, _ := verticalCylinder(ra*plateLike.reduce(pr), aspect)
	return orNone(nu)
}

// NusseltFaceUp is the mean Nusselt number of a horizontal face that gives
// heat to the air above it, or takes heat from the air below, over
// area/perimeter, eq. (12). Stated for 1 ≤ Ra ≤ 10¹⁰, here in air.
// An Ra below 0 counts as 0; for a Pr below 0 or what is no number it is 0, for none.
//
// Source: Raithby and Hollands, in Rohsenow et al., Handbook of Heat Transfer,
// 3rd ed. 1998, ch. 4.
func NusseltFaceUp(ra, pr float64) float64 {
	nu, _ := faceUp(ra*plateLike.reduce(pr), 0)
	return orNone(nu)
}

// NusseltFaceDown is the mean Nusselt number of a horizontal face that gives
// heat to the air below it, or takes heat from the air above, over
// area/perimeter, eq. (13). Stated for 10³ ≤ Ra ≤ 10¹⁰.
// An Ra below 0 counts as 0; for a Pr below 0 or what is no number it is 0, for none.
//
// Source: Raithby and Hollands, in Rohsenow et al., Handbook of Heat Transfer,
// 3rd ed. 1998, ch. 4.
func NusseltFaceDown(ra, pr float64) float64 {
	nu, _ := faceDown(ra*stalled.reduce(pr), 0)
	return orNone(nu)
}

// NusseltBlock is the mean Nusselt number of a compact body of any shape in
// air over the square root of its area, eq. (14). Stated for Ra ≤ 10⁸.
// An Ra below 0 counts as 0; for what is no number it is 0, for none.
//
// Source: Yovanovich 1987, AIAA Paper 87-1643.
func NusseltBlock(ra float64) float64 {
	nu, _ := compactBlock(ra, 0)
	return orNone(nu)
}
