// Package engine is documentation only: it says how the engine is laid out,
// what holds in all of it, and where each equation comes from.
//
// The engine takes what is known of one tank (model.Case) and answers when it
// will be done (outlook.Outlook) and what slows it (diagnose.Diagnosis). It is
// pure: no clock, no files, no network, and the same case gives the same
// answer, bit for bit, on any number of cores. advise.Engine is the way in.
//
// # Chapters, lowest first
//
//	unit      quantities as types; conversions, once, at the edge
//	chem      equilibria, stoichiometry, published limits
//	model     the tank: guilds, water, events, integration, challenge
//	kit       how a test kit turns a concentration into a reading
//	fit       prior, likelihood, sampler: which tanks could have read so
//	outlook   from a fitted tank to a timeline
//	diagnose  what slows a fitted tank, by reruns and evidence ratios
//	advise    the front door
//	par       work on all cores
//
// # Conventions
//
// Nitrogen is in mg N/L, alkalinity in meq/L inside the model and mg/L as CaCO3
// outside, temperature in C, time in days from the tank's start. Kits are on the
// ion scale (NH4, NO2, NO3) unless a reading says otherwise. Capacity is what a
// guild could oxidise with ample substrate at its best pH, mg N/L/d.
//
// # Topic, source, place, check
//
//	un-ionised ammonia       Emerson et al. 1975; Hampson 1977 (salt)     chem      printed tables, testdata/published
//	nitrous acid             Anthonisen et al. 1976                       chem      formula
//	carbonate system         Plummer & Busenberg 1982; Davies 1962        chem      PHREEQC values
//	oxygen saturation        Benson & Krause 1984                         chem      EN 25814 and Standard Methods tables
//	stoichiometry            atomic masses, IUPAC 2021                    chem      published factors
//	ammonia limits           US EPA 2013                                  chem      every printed value
//	nitrite limits           British Columbia 1986                        chem      printed classes
//	growth and temperature   Rosso et al. 1993                            model     limits of the function
//	growth and pH            Rosso et al. 1995                            model     limits of the function
//	guild constants          kinetics.csv and the papers it names         model     published ranges
//	free ammonia, HNO2       Anthonisen et al. 1976; Vadivelu et al. 2007 model     published ranges
//	film capacity            Malone & Pfeiffer 2006; Zhu & Chen 1999      model     cold-start bands
//	chlorine and chloramine  Oldenburg et al. 2002                        model     orders of magnitude
//	feed to ammonia          16 % N in protein, share excreted            model     nitrogen balance
//	plant uptake             Körner & Vermaat 1998 (duckweed)             model     cold-start bands
//	integration              Burchard, Deleersnijder & Meister 2003       model     balance, sign
//	chart steps and errors   common practice, no source                   kit       steps add up to one
//	sampler                  Chopin 2002 (sequential Monte Carlo)         fit       recovery of known tanks
//	seeds, spreads           common practice, no source                   fit       cold-start bands
//
// # What it does not know
//
// One well-mixed volume: no dead corners, no gradients in the film. No predators,
// no heterotrophs that compete for room, no toxins but ammonia, nitrous acid,
// chlorine and an unnamed "medicine". Sea water has its chemistry but no guild
// constants of its own. Comammox and plant numbers are the weakest of all. What
// a tank's bacteria were on day 0 is never known; it is the widest of the priors
// and decides more than everything else.
package engine
