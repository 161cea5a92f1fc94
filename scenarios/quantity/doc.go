// Package quantity turns what people type, "12 N·m", "1/0 AWG" or "25 degC",
// into numbers in SI and back into one canonical spelling.
//
// Each [Kind] has its own units. A temperature and a rise are different kinds:
// "25 °C" as a temperature is 298.15 K, as a rise 25 K. A number without a
// unit is an error ([NoUnitError]), as is a unit of another kind
// ([WrongKindError]); a decimal comma and thousands separators are refused
// ([NumberError]), because 1,500 means two things in two countries.
//
// Spellings accepted beyond the canonical ones: any of · ⋅ ∙ • * - . or a
// space, or nothing, between the parts of a product (N·m, N*m, Nm, in-lb);
// both code points of µ, or u, or "micro"; Ω, the ohm sign or "ohm"; "deg" or
// nothing for °; 2 or ^2 for ²; no space after the number. Symbols whose
// letter case carries meaning (mΩ, Nm) must be typed in that case; words (AWG,
// ohm, inch, in-lb) in any.
//
// SI inside: K, m, m², N·m, A, V, Ω, W, W/K, J/K, s, m/s; a share is a
// fraction, so that 70 % is 0.7.
//
// Not here: prefixes beyond those that the trade uses, arithmetic with units,
// and fractions of an inch.
//
// Sources: BIPM, The International System of Units, 9th edition (2019), called
// SI brochure below; NIST Special Publication 811 (Thompson and Taylor, 2008),
// appendix B; ASTM B258 for the wire gauge.
package quantity
