// Package validation is the proof of clampheat against the world outside.
//
// Each Case states a claim, its published source, its inputs, the value
// expected, how far the answer may be off and why that far. It also names one
// input whose change must turn it red: Run looks for the smallest such change,
// so that a case which could not fail shows itself. Inputs are fixed from
// their sources before a comparison is run.
//
// What is judged and what is only reported is told apart: a comparison with a
// relation, a rig or a habit that differs from the model's is printed with its
// difference and never trimmed to a band.
//
// What is not claimed: nobody has published a measured soak of a bolted
// fuse-holder stack, nor a measured table of torque against contact
// resistance, so the joint model rests on the contact formulas and on the
// order of magnitude known from practice. Nor are measured currents of a row of
// batteries on one bar published: how a current divides is held against
// Kirchhoff's laws worked by hand. The published figures for enclosures are read
// from memory and come from switchgear.
package validation
