// Package chem is the chemistry of aquarium water: equilibria, stoichiometry and
// published limits, as pure functions of readings.
//
// Temperatures are unit.Celsius, salinities grams of salt per kilogram (S, 0 in
// fresh water), pH is -log10 of the hydrogen-ion activity, nitrogen is mg N/L,
// alkalinity mg/L as CaCO3, oxygen and chlorine mg/L, carbon dioxide mol/L. One
// litre is taken as one kilogram of water, which costs at most 0.5 % in fresh water
// at 0 to 32 C.
//
//	topic         source                                            file
//	ammonia       Emerson et al. 1975; Hampson 1977                 ammonia.go
//	nitrous acid  Anthonisen et al. 1976                            nitrous.go
//	oxygen        Benson & Krause 1984                              oxygen.go
//	CO2, pH, KH   Plummer & Busenberg 1982; Nordstrom et al. 1990   carbonate.go
//	pH after KH   the same, carbon dioxide held                     shift.go
//	calcite       Plummer & Busenberg 1982                          calcite.go
//	activities    Davies 1962                                       activity.go
//	amounts       atomic masses                                     stoichiometry.go
//	chlorine      atomic masses                                     chlorine.go
//	limits        US EPA 1985 and 2013; British Columbia 2006       limits.go
//
// # Outside the valid range
//
// The functions return no errors, since they run while a simulation is set up; the
// ranges of what people enter are checked before. Each function states its valid
// range. Outside it the formula is continued as it stands (extrapolated), unless the
// function says that it holds an input at a bound (clamps). A NaN gives a NaN, but
// for a step table, which then gives its strictest row.
package chem
