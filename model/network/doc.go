// Package network is a heat network: lumps of one temperature (nodes), links
// that conduct between them, resistors that make heat from a current, and
// surfaces by which the heat leaves for the room or for the air of a box. Where
// the current divides, its branches are part of the network too. It evaluates
// the heat balance of every node, the circuit's equations and the exact
// derivatives of both, fast enough to be the inner loop of a time integration,
// and reads the parts of a balance back.
//
// A network is put together by hand or by package model, finished once, and
// handed to a solver. It knows no fuses and no bolts.
//
// # Equations
//
// SI units and absolute temperatures throughout. The balance of node i:
//
//	(1)  F_i = Σ P/2 + Σ S + Σ G (T_j − T_i) − Σ G (T_i − T_held) − Σ (Q_conv + Q_rad) − Σ Q_gap − Σ Q_vent
//
// S is heat that other things make. A resistor carries the current I of the
// supply or of a branch, whose heating is that of its root mean square, and is as
// hot as the mean T of its two nodes. Each of them gets half of its heat P = I²R,
// unless that is made elsewhere:
//
//	(2)  R = R20 [1 + α (T − 293.15)] + R_film
//	(3)  R = R20 [1 + α (T − 293.15)] [1 + ⅔ α (Ts − T)] + R_film,  Ts² = T² + (I R_k)²/(4 L)
//
// (3) is for the spots of a contact, R_k being R without film, L the Lorenz
// number 2.45·10⁻⁸ V²/K² (Kohlrausch's relation and Holm's ⅔, Holm, Electric
// Contacts, 4th ed. 1967). It is a quadratic in Ts − T and solved as such.
//
// A surface of area A at T, in air at Ta, which may change with time, seeing Tr,
// ΔT = T − Ta:
//
//	(4)  Q_rad  = ε σ A (T⁴ − Tr⁴)
//	(5)  Q_conv = h A ΔT
//	(6)  h = Nu k / L,  Ra = g β |ΔT| L³/(ν α),  β = 1/Tf,  figures of air at Tf = (T + Ta)/2
//	(7)  h = C (|ΔT|/L)^m, or a given number, where so asked
//
// The relations of natural convection depend on the Prandtl number only
// through a reduced Rayleigh number y:
//
//	(8)   y = Ra ψ,  ψ = [1 + (c/Pr)^(9/16)]^(−16/9)
//	(9)   vertical plate over its height, c = 0.492 (Churchill and Chu 1975):
//	      Nu = 0.68 + 0.670 y^(1/4), laminar; Nu = (0.825 + 0.387 y^(1/6))², all Ra
//	(10)  horizontal cylinder over its diameter, c = 0.559 (Churchill and Chu 1975):
//	      Nu = (0.60 + 0.387 y^(1/6))²
//	(11)  vertical cylinder over its height H: Nu = Nu_plate ζ/ln(1 + ζ), ζ = 1.8 (H/D)/Nu_plate
//	      (Sparrow and Gregg 1956 as given by Nellis and Klein, Heat Transfer, 2009)
//	(12)  level face, warm up or cold down, over area/perimeter, c = 0.492 (Raithby and Hollands,
//	      Handbook of Heat Transfer, 3rd ed. 1998, ch. 4, as given by Nellis and Klein):
//	      Nu_l = 1.4/ln(1 + 1.4/(0.835 · 0.671 y^(1/4))), Nu_t = 0.14 Ra^(1/3),
//	      Nu = (Nu_l¹⁰ + Nu_t¹⁰)^(1/10)
//	(13)  level face, warm down or cold up, over area/perimeter (the same):
//	      Nu = 2.5/ln(1 + 2.5/(0.527 y^(1/5))),  ψ = [1 + (1.9/Pr)^(9/10)]^(−10/9)
//	(14)  compact body over the square root of its area (Yovanovich 1987, AIAA Paper
//	      87-1643, for air; from memory, not looked up): Nu = 3.47 + 0.51 Ra^(1/4)
//
// The source of (9) gives the laminar relation for Ra ≤ 10⁹ and prefers it
// there; at 10⁹ the two are a quarter apart. They are joined smoothly by a
// weight that passes ½ at Ra = 3·10⁸, so that below 10⁸ the first holds within
// half a percent and above 10⁹ the second. In (12) the source's turbulent
// coefficient has a factor that is 1.0005 in air; it is left out, and y^(1/3)
// is used with ψ at Pr = 0.71, which is within 0.5 percent between 200 and
// 1000 K.
//
// Moving air: the natural and the forced coefficient work together by
//
//	(15)  h³ = h_n³ + h_f³
//
// with the sign for air that moves across or level, or upwards along a warm
// face (Incropera et al., Fundamentals of Heat and Mass Transfer, 6th ed.
// 2007, §9.9). Air blown down a warm face would lessen it; rooms do not tell.
//
//	(16)  across a cylinder (Churchill and Bernstein 1977):
//	      Nu = 0.3 + 0.62 Re^½ Pr^⅓ [1 + (0.4/Pr)^⅔]^(−¼) [1 + (Re/282000)^⅝]^⅘
//	(17)  along a plate: Nu = 0.664 Re^½ Pr^⅓ up to Re = 5·10⁵, from there
//	      (0.037 Re^⅘ − 871) Pr^⅓, with 871 worked out so that they meet
//
// An enclosed upright layer of air, w wide and H high, between two nodes:
//
//	(18)  Nu = max(Nu₁, Nu₂, Nu₃) over w (ElSherbiny, Raithby and Hollands 1982):
//	      Nu₁ = 0.0605 Ra^⅓, Nu₂ = {1 + [0.104 Ra^0.293/(1 + (6310/Ra)^1.36)]³}^⅓,
//	      Nu₃ = 0.242 (Ra w/H)^0.272
//
// with radiation ε σ A (T_a⁴ − T_b⁴) across it, ε that of both faces together;
// or a conductance that rises evenly with the mean temperature, as a standard
// states one. Two upright plates with air between them that is open below and
// above, S apart and L high, have over S (Bar-Cohen and Rohsenow 1984, file
// channel.go)
//
//	Nu = (576/El² + 2.873/El^½)^(−½),  El = Ra S/L
//
// # Currents that divide
//
// Branches lead from junction to junction, each with a current I, of which the
// mean makes the drop and the root mean square the heat. Of a branch with the
// voltage E, the resistors R(T, I) of (2) or (3) and R_out outside the network;
// of a draw that takes the power P; and at each junction but one of those that
// hang together, whose potential V is 0:
//
//	(19)  0 = V_from − V_to + E − (R_out + Σ R) I
//	(20)  0 = P − (V_from − V_to) I
//	(21)  0 = Σ I_in − Σ I_out
//
// Given currents that are drawn stand in (21). The currents and potentials
// follow the temperatures in the state, in an order in which none of the three
// needs an exchange of rows: (19) has its own current in it, and a potential comes
// after the currents that it meets.
//
// Source of (19) and (21): Kirchhoff 1847, Annalen der Physik und Chemie 148, 497;
// as an unknown for every current, the modified nodal analysis of Ho, Ruehli and
// Brennan 1975, IEEE Trans. Circuits Syst. 22, 504. Both from memory.
//
// # Boxes
//
// In a space Ta and Tr of a surface are the temperatures of the two nodes that
// are its air and its wall, and these get Q_conv and Q_rad; the emissivity is
// that of surface and wall together. All air of a space is at one temperature.
// A vent carries heat from a node to the room's air, ΔT over it:
//
//	(22)  Q_vent = (C + B (|ΔT|/T)^½) ΔT
//
// C for a flow that is given. The flow that the air's own warmth drives through
// two openings goes with the root of ΔT/T, T of the warmer air (stack effect;
// ASHRAE Handbook of Fundamentals 1997, p. 25.13, eq. 37, as quoted by others),
// which is B.
//
// # Tables
//
// Figures of air are dear, so k and g β ψ/(ν α) are kept as cubics over film
// temperature, and h/k of a shape as cubics over g β ψ |ΔT|/(ν α), with
// continuous derivatives; the derivatives given to the solver are those of the
// cubics. The heat flow is within 10⁻⁵ of the relations. A shape shared by
// many surfaces has one table.
//
// # Left out
//
// Conductances and capacities that change with temperature; inductance;
// ripple that divides in another way than the mean; air of a box that is hotter
// above than below; gaps that lie level; surfaces that see one another; humid air.
package network
