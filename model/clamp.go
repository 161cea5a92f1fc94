package model

import (
	"math"

	"clampheat/materials"
)

// This file holds the relations between the torque on a fastener, its clamp
// force and the stress in its thread.

// ClampShort is the clamp force, N, of a torque [N·m] by the short form
// F = T/(K·d), eq. (1) of the package comment, with the nut factor K and the
// nominal diameter d [m], both above 0; else the answer is 0, for none.
//
// Source: Bickford, Introduction to the Design and Behavior of Bolted Joints,
// 4th ed. 2007, ch. 7 (from memory).
func ClampShort(torque, nutFactor, diameter float64) float64 {
	if !(nutFactor > 0 && diameter > 0) {
		return 0
	}
	return orNone(torque / (nutFactor * diameter))
}

// ClampLong is the clamp force, N, of a torque [N·m] on a fastener with the
// friction coefficients of thread and head, eq. (2) of the package comment. The
// fastener has a size and the coefficients are not below 0; else the answer is 0,
// for none.
//
// Source: VDI 2230-1:2015 eq. (R13/1), with its factors as printed.
func ClampLong(torque float64, f materials.Fastener, thread, head float64) float64 {
	arm := leverArm(f, thread, head)
	if !(arm > 0) {
		return 0
	}
	return orNone(torque / arm)
}

// TighteningTorque is the torque, N·m, that gives a clamp force [N]: the
// reverse of ClampLong, of the same domain and from the same source.
func TighteningTorque(clamp float64, f materials.Fastener, thread, head float64) float64 {
	return orNone(clamp * leverArm(f, thread, head))
}

// leverArm is torque over clamp force, m.
func leverArm(f materials.Fastener, thread, head float64) float64 {
	return threadArm(f, thread) + head*headDiameter(f)/2
}

// threadArm is the part of the torque that twists the shank, over the clamp
// force, m.
func threadArm(f materials.Fastener, thread float64) float64 {
	return pitchFactor*f.Pitch + flankFactor*thread*f.PitchDiameter
}

// pitchFactor and flankFactor are 1/(2π) and 1/(2·cos 30°) as VDI 2230-1:2015
// rounds them, and its tables with them; unrounded, torques fall by 0.5 %.
const (
	pitchFactor = 0.16
	flankFactor = 0.58
)

// headDiameter is the mean diameter of the ring on which a head or nut rubs, m.
// Source: VDI 2230-1:2015, D_Km = (d_w + d_h)/2.
func headDiameter(f materials.Fastener) float64 {
	return (f.HeadDiameter + f.HoleDiameter) / 2
}

// FrictionFor is the friction coefficient, the same in thread and under the
// head, at which the long form gives the clamp force of a nut factor. It is
// not negative, and 0 for a fastener without a size.
func FrictionFor(nutFactor float64, f materials.Fastener) float64 {
	slope := flankFactor*f.PitchDiameter + headDiameter(f)/2
	if !(slope > 0) {
		return 0
	}
	return orNone(max(0, (nutFactor*f.Diameter-pitchFactor*f.Pitch)/slope))
}

// ThreadStress is the von Mises stress, Pa, of pull and twist together in the
// thread of a fastener that was tightened to a clamp force [N] with a friction
// coefficient in the thread. The stress section is a full round bar at the
// onset of flow over all of it, so that the twist counts with 3/2·d2/d0 where
// d0 is the diameter of the stress area: eq. (3) of the package comment. The
// fastener has a size; else the answer is 0, for none.
//
// Source: VDI 2230-1:2015, 5.4.3.1, which its tables A1 to A4 rest on.
func ThreadStress(clamp float64, f materials.Fastener, thread float64) float64 {
	d0 := math.Sqrt(4 * f.StressArea / math.Pi)
	twist := 1.5 * f.PitchDiameter / d0 *
		(f.Pitch/(math.Pi*f.PitchDiameter) + thread/math.Cos(math.Pi/6))
	return orNone(clamp / f.StressArea * math.Sqrt(1+3*twist*twist))
}

// YieldClamp is the clamp force, N, at which the stress in the thread reaches
// a share of Rp0.2 [Pa]: with the share 0.9 the assembly preload of the VDI
// 2230 tables. It is 0, for none, for a fastener without a size.
func YieldClamp(f materials.Fastener, rp02, share, thread float64) float64 {
	stress := ThreadStress(1, f, thread)
	if !(stress > 0) {
		return 0
	}
	return orNone(share * rp02 / stress)
}

// YieldTorque is the torque, N·m, at which the stress in the thread reaches
// Rp0.2 [Pa] for a nut factor. The friction in the thread is that which the
// nut factor asks for. It is 0, for none, for a fastener without a size.
func YieldTorque(f materials.Fastener, rp02, nutFactor float64) float64 {
	return orNone(YieldClamp(f, rp02, 1, FrictionFor(nutFactor, f)) * nutFactor * f.Diameter)
}
