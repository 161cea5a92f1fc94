// Package materials holds what things are made of: metals, contact faces,
// surface finishes, cable conductors and their insulation, fasteners and
// what makes their torque into a clamp, dry air, and the limits that
// published tables set. It knows nothing of stacks, solvers or files of a user.
//
// # Units
//
// Everything a function takes or returns is in SI units, temperatures in
// kelvin; a rise is in kelvin too, and its name says so. The data files carry
// the units of their sources, each in the heading of its column, and are
// converted as they are read.
//
// # Rows and sources
//
// Figures live in data/*.csv, embedded, one table a file. Each row names its
// source by a key of data/sources.csv, further sources after semicolons, and
// its basis: published, where the source gives the figures; assumed, where at
// least one figure is a choice, with low, likely and high where it has a
// spread and the ground of the choice. A note says what was not looked up but
// written from memory. To add a row, add a line, and a line to sources.csv if
// its source is new; the package's tests check keys, ranges, units and names.
//
// Nothing is typed twice. What follows from a formula is computed and only
// checked against its printed table:
//
//	(1) wire gauge        d = 0.127 mm·92^((36−n)/39)                  ASTM B258
//	(2) thread            d2 = d − 0.6495·P, d3 = d − 1.2269·P,
//	                      As = π/4·((d2 + d3)/2)²                      ISO 724, ISO 898-1
//	(3) adiabatic factor  k = K·√ln((β + θ2)/(β + θ1))                 IEC 60364-5-54
//	(4) friction          K·d = P/2π + μ·(d2/(2·cos 30°) + (dw + dh)/4) VDI 2230
//	(5) resistivity       ρ(T) = ρ20·(1 + α20·(T − 293.15 K))          IEC 60028
//	(6) overlap           e = 1/2 + 0.4997/(l/t), l/t ≥ 4              conformal mapping
//	(7) air               Sutherland's viscosity, ρ = p/(R·T)          U.S. Standard Atmosphere 1976
//
// # Names
//
// A look-up takes a name or one of its aliases; case, spaces, hyphens and the
// degree sign do not count. A name that is not there is answered with an
// [*UnknownError] that holds the near ones.
//
// # What is not here
//
// No figure of a maker's product; no property that changes with temperature,
// but for the resistivity of metals and for air; no moisture in the air; no
// ageing of a face with time.
package materials
