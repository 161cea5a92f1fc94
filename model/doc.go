// Package model is one terminal stack as physics: pieces of metal through which a
// direct current passes, the contacts where it crosses from piece to piece, what
// clamps these, and the air about it all. Assemble turns a Stack into a heat network
// (package network), which a solver takes from there.
//
// All figures are SI: m, m², s, A, V, Ω, W, J, N, N·m, Pa, and temperatures in
// K. A Range is low, likely, high.
//
// # Bolt
//
// A torque T gives a clamp force by the nut factor K and the nominal diameter
// d, or by the long form with the pitch P, the pitch diameter d2, the mean
// diameter D of the rubbing ring and the friction coefficients µ of thread and
// head (VDI 2230-1:2015):
//
//	F = T/(K d)                                                   (1)
//	F = T/(0.16 P + 0.58 d2 µ_t + D/2 µ_h)                        (2)
//
// The thread bears pull and twist together; its stress over Rp0.2 is the
// utilisation, and past 1 even at the highest friction there is no answer:
//
//	σ_v = F/A_s √(1 + 3 [3/2 d2/d0 (P/(π d2) + µ_t/cos 30°)]²)    (3)
//
// The friction of (3) is the one at which (2) gives the force of (1).
//
// # Joint
//
// Metal touches over an area A_c of the clamped area A_a, which is the ring
// under the washer, grown by a cone through the parts, and at most the face
// (H: contact hardness of the softer face):
//
//	A_c = A_a p/(1 + p),  p = F/(ξ H A_a),  ξ = 1                 (4)
//	R_k = (ρ1 + ρ2)/4 √(π/A_c) (1 − √(A_c/A_a))^1.5               (5)
//	R_f = σ_f/A_c                                                 (6)
//	R_b = e l/(2 w) (ρ1/t1 + ρ2/t2)                               (7)
//
// (4) Pullen & Williamson 1972: F/(ξH) under light pressure, never all of the
// face. (5) Holm 1967, with the factor of Cooper, Mikic & Yovanovich 1969. A
// plated face has the plating's hardness and its base metal's resistivity. (6)
// is the film of the face's state, (7) the crowding through the overlap of two
// bars with the streamline factor e. Heat takes the same spots, with 1/k for
// ρ, is not held up by the film, and crosses the air between:
//
//	G = 1/R_k(ρ → 1/k) + k_air ((A_a − A_c)/δ + (A − A_a)/δ_o)    (8)
//
// For like metals the first part is ρk/R_k. A crimp conducts by Wiedemann and
// Franz, G = L T/R. With temperature R_k follows its metal and the spots' own
// excess, which the network's resistors work out. Half of a joint's heat goes
// to either side.
//
// Low, likely and high ohms follow from the ranges of clamp (nut factor,
// scatter of tightening, share kept), hardness, film, gaps and cone, as
// JCGM 100:2008 §5.1.2 adds independent effects (file ranges.go).
//
// # Parts
//
// A long part is cut into cells that are fine against its fin length and finer
// at its ends; the outermost nodes sit on the end faces. A cable's jacket is a
// layer of R' = ln(D/d)/(2πk), of whose heat capacity conductor and surface each
// get a part by Van Wormer (IEC 60853-2), the share p with the conductor:
//
//	p = 1/(2 ln(D/d)) − 1/((D/d)² − 1)                            (9)
//
// A lug or pad is two halves with its own metal between them, a switch two
// lumps, a post one. A fuse is two caps, an element and a body; its cold
// resistance is solved from a hot figure in the rig that the figure belongs
// to, where the caps were at T_t and the element gave its heat off by a
// conductance G:
//
//	R_e20 = U_e/I / (1 + α (T_t + U_e I/G − 293.15))              (10)
//
// # Side by side
//
// Of cables that touch or share a conduit a stack carries one, the hottest: its
// part of the hull around them, what the heat of the others adds on the way
// out of a bunch, and its part of the conduit (files bundle.go, conduit.go).
// What else they share, a cover or a box, has the heat of the one alone. Bars
// side by side are one conductor whose inner faces look at one another across a
// channel of air (file parallel.go).
//
// # Branches
//
// Between two neighbouring ports of a part, and across each joint and wire, one
// current flows. Where more than two of these meet, or something draws a current,
// is a junction, and what lies in series between two junctions is a branch.
// Joints that meet at one port share its node and its potential. A battery is a
// wire with a voltage and its inner resistance, outside the stack: it takes part
// in how currents divide, and its heat is made elsewhere. What leads to nowhere
// carries nothing. A bar with studs is one rod with a port at each stud, its
// current differing from section to section. The currents are unknowns beside the
// temperatures, solved together with them: see package network. A stack of one way
// is solved without (files points.go, branches.go).
//
// # Box
//
// A box has its air, of one temperature, and the inner and the outer face of its
// wall as nodes. The parts in it give heat to the air by the relations of their
// shapes and to the wall by radiation, as under a cover; the air gives it to the
// wall's inner face, and the outer face to the room, by those of upright plates and
// level faces. Vents and a fan carry air through, with ρ c of the room's
// (file box.go):
//
//	q = ρ c V ΔT,  V = C_d A √(2 g H ΔT/T),  1/A² = 1/A_in² + 1/A_out²  (11)
//
// with T of the warmer air, the box's, and ρ of the room's.
// Warm air gathers at the top: by how much is told by empirical figures (file
// boxrise.go). What a stated power adds as other heat is all given to the air.
//
// # Not modelled
//
// How the air moves in a box; skin effect and inductance, for the current is
// direct; the spreading of current within a lug, pad or cap, which are of one
// temperature across the way of the current; conduction along the bolt and its
// nut, whose metal and surface count only where a part's figures include them;
// the temperature coefficient of films and of given ohms; creep and ageing, but
// for the share of clamp kept; heat between parts that see each other, in a box
// too.
//
// # Sources
//
// Holm, Electric Contacts, 4th ed. 1967. VDI 2230-1:2015. Pullen & Williamson,
// Proc. R. Soc. A 327 (1972) 159. Cooper, Mikic & Yovanovich, Int. J. Heat Mass
// Transfer 12 (1969) 279. JCGM 100:2008. IEC 60853-2:1989. IEC 60947-1 Table 2.
// Each relation names its own.
package model
