package model

import (
	"math"

	"clampheat/materials"
)

// This file holds the relations between the force on two faces and the metal
// that touches: how much of it, what it resists, and how hot it gets.

// hardnessFactor is ξ, the share of the contact hardness that clean metal
// bears: 1 for plastic contact (Holm, Electric Contacts, 4th ed. 1967, §6).
const hardnessFactor = 1.0

// PlasticArea is the area, m², of metal that touches under a force [N] where
// the softer face has a contact hardness [Pa], within an apparent area [m²], eq. (4)
// of the package comment:
//
//	A_c = A_a · p/(1 + p),  p = F/(ξ H A_a)
//
// Under light pressure it is F/(ξH), Holm's plastic contact; it never reaches
// the apparent area, since raised spots persist when all around them flows.
//
// All three arguments are above 0; else nothing touches, and the area is 0.
//
// Source: Pullen & Williamson, On the plastic contact of rough surfaces,
// Proc. R. Soc. A 327 (1972) 159–173 (from memory).
func PlasticArea(force, hardness, apparent float64) float64 {
	if !(force > 0 && hardness > 0 && apparent > 0) {
		return 0
	}
	p := force / (hardnessFactor * hardness * apparent)
	return orNone(apparent * p / (1 + p))
}

// HolmConstriction is the resistance, Ω, of the current's crowding through one
// round spot of plastic contact under a force [N], between metals of
// resistivities rho1 and rho2 [Ω·m]: (ρ1+ρ2)/4·√(πξH/F). With Crowding it is
// eq. (5) of the package comment.
//
// Force and hardness are above 0, resistivities not below it; else, as without
// any force, there is no contact to speak of, and the answer is 0, for none.
//
// Source: Holm, Electric Contacts, 4th ed. 1967, §4 and §6.
func HolmConstriction(force, hardness, rho1, rho2 float64) float64 {
	if !(force > 0 && hardness > 0) {
		return 0
	}
	return orNone((rho1 + rho2) / 4 * math.Sqrt(math.Pi*hardnessFactor*hardness/force))
}

// Crowding is the factor by which a constriction is less where its spots take
// a share of the apparent area that is no longer small: (1−√(A_c/A_a))^1.5.
// Both are areas in the same unit, the apparent one above 0. The factor is 0
// where spots take all of the area or, against sense, more, and 1 where they
// take none.
//
// Source: Cooper, Mikic & Yovanovich, Thermal contact conductance, Int. J.
// Heat Mass Transfer 12 (1969) 279–300: one contact in a tube of flux.
func Crowding(contact, apparent float64) float64 {
	share := contact / apparent
	switch {
	case !(share < 1): // NaN too
		return 0
	case share <= 0:
		return 1
	}
	return math.Pow(1-math.Sqrt(share), 1.5)
}

// SpotTemperature is the temperature, K, of contact spots between metals at a
// bulk temperature [K], with a voltage [V] across the constriction.
//
// Source: Kohlrausch 1900, in Holm, Electric Contacts, 4th ed. 1967, §13:
// T_s² = T_b² + U²/(4L). It is 0 where that is no finite number.
func SpotTemperature(bulk, voltage float64) float64 {
	return orNone(math.Sqrt(bulk*bulk + voltage*voltage/(4*materials.Lorenz)))
}

// MetallicConductance is the thermal conductance, W/K, of a metallic
// connection of a resistance [Ω] at 20 °C, by the law of Wiedemann and Franz,
// G = L·T/R. The resistance is above 0; else the answer is 0, for none.
//
// Source: Wiedemann & Franz 1853, Lorenz 1872; L from materials.Lorenz.
func MetallicConductance(resistance float64) float64 {
	if !(resistance > 0) {
		return 0
	}
	return orNone(materials.Lorenz * materials.ReferenceTemp / resistance)
}

// ClampedArea is the apparent area, m², that a bolt clamps: the ring between
// hole [m] and bearing [m], grown by a cone through a thickness [m] with the
// tangent of its half angle. The bearing is no less than the hole, thickness and
// tangent are not below 0. It is 0 where that is no finite number.
//
// Source: Rötscher, Die Maschinenelemente, 1927 (cone).
func ClampedArea(bearing, hole, thickness, tangent float64) float64 {
	outer := bearing + 2*thickness*tangent
	return orNone(math.Pi / 4 * (outer*outer - hole*hole))
}

// coneTangent is the tangent of the half angle of the cone in which the clamp
// spreads. The likely value is 30°, as textbooks of machine design use
// (Shigley's Mechanical Engineering Design, 10th ed. 2015, §8–5); the high one
// is Rötscher's 45°; the low one the 20° to which the formula of VDI 2230-1
// falls for thin plates. From memory.
var coneTangent = materials.Range{Low: math.Tan(math.Pi / 9), Likely: math.Tan(math.Pi / 6), High: 1}

// outerGap is the mean distance, m, between faces outside the clamped area.
// It is an assumption: the flatness tolerance of ISO 2768-2:1989, class H, for
// lengths to 10, 30 and 100 mm (0.02, 0.05, 0.1 mm; from memory).
var outerGap = materials.Range{Low: 20e-6, Likely: 50e-6, High: 100e-6}
