// Package engine is a short book on how long a new aquarium takes until its
// filter carries animals. It holds no code: it says what the chapters are, what
// holds in all of them, where each equation comes from and which test holds it
// to that source, and what the engine does not know.
//
// The engine takes what is known of one tank (model.Case) and answers when it
// will be done (outlook.Outlook) and what slows it (diagnose.Diagnosis). It is
// pure: no clock, no files, no network, and the same case gives the same
// answer, bit for bit, on any number of cores.
//
// # Chapters
//
// They build on each other, lowest first; "go doc ./engine/chem" opens one.
//
//	 1  unit      Quantities: nitrogen, ions, hardness, temperature, volume as types
//	 2  chem      Water: equilibria, stoichiometry, published limits
//	 3  safety    What animals bear: water against the limits, how much to change
//	 4  model     The tank: guilds, what surrounds them, events, integration, the challenge
//	 5  kit       Reading a kit: from a concentration to a step on a chart
//	 6  fit       What the readings say: prior, likelihood, sampler
//	 7  outlook   When: from a fitted tank to a timeline
//	 8  diagnose  Why: reruns with a condition put right, evidence for unseen events
//	 9  stocking  How much it carries: food and animals in stages
//	10  nexttest  What to read next: the expected information of a reading to come
//	11  tryout    What if: reruns with something changed from now on
//	12  advise    The front door: a log in, an answer out
//	13  study     How true it is: calibration, and outlooks scored against known tanks
//	14  dosing    How much to add: ammonia, buffer, thiosulfate, new water
//	15  pool      What a club's tanks have in common: partial pooling of its tanks
//	16  par       Appendix: work on all cores
//
// # Conventions
//
// Nitrogen is in mg N/L, alkalinity in meq/L inside the model and mg/L as CaCO3
// outside, temperature in C, salinity in g/kg, altitude in m, time in days from
// the tank's start. Kits are on the ion scale (NH4, NO2, NO3) unless a reading
// says otherwise. Capacity is what a guild could oxidise with ample substrate at
// its best pH, mg N/L/d. Where a formula stands in a comment, so do its range and
// its source; "common practice, no source" marks what aquarists hold to be so.
//
// Ionic strength: the share of free ammonia follows the plain law, which at the
// 0.01 mol/L of hard water reads 8 to 12 % high, on the safe side. The carbonate
// system has activity coefficients after Davies, and meets the pH values of a
// speciation program within 0.004 and their rounding up to 4 meq/L. The model itself
// needs neither: it ties pH to alkalinity by the pH and hardness that were read,
// so that the ionic strength cancels.
//
// # Topic, source, place, check
//
// A check is a test of the place's package unless it names another; a test of
// package bot asks that each place and each check is there.
//
//	topic                    source                                        place                 check
//	un-ionised ammonia       Emerson et al. 1975                           chem/ammonia.go       TestFreeAmmoniaFraction_FreshHandbook
//	the same in salt water   Hampson 1977, as US EPA 1989                  chem/ammonia.go       TestFreeAmmoniaFraction_SalineLimits
//	nitrous acid             Anthonisen et al. 1976                        chem/nitrous.go       TestFreeNitrousFraction_Anthonisen
//	carbonate constants      Plummer & Busenberg 1982                      chem/carbonate.go     TestCarbonateConstants_Published
//	pH and alkalinity        charge balance                                chem/carbonate.go     TestPHFromAlkalinity_Published
//	activity                 Davies 1962; Malmberg & Maryott 1956          chem/activity.go      TestDaviesGamma
//	oxygen saturation        Benson & Krause 1984                          chem/oxygen.go        TestOxygenSaturation_Published
//	oxygen at altitude       U.S. Standard Atmosphere 1976                 chem/oxygen.go        TestPressureAt_StandardAtmosphere
//	stoichiometry            atomic masses, IUPAC 2021                     chem/stoichiometry.go TestStoichiometry_Published
//	chlorine, chloramine     atomic masses, IUPAC 2021                     chem/chlorine.go      TestChloramineNitrogen_WaterSupply
//	ammonia limits           US EPA 2013                                   chem/limits.go        TestAmmoniaCriteria_EPA2013
//	the same in salt water   US EPA 1989                                   chem/limits.go        TestSeaTAN_BritishColumbia
//	nitrite limits           Nordin & Pommen 1986                          chem/limits.go        TestNitriteLimit_BritishColumbia
//	chlorine limits          US EPA 1985                                   chem/limits.go        TestChlorineLimits_EPA
//	the strictest limit      the limits above                              safety/safety.go      TestStrictestWins
//	water to change          mixing                                        safety/change.go      TestChangeReaches
//	chloride against nitrite  Durborow et al. 1997                         chem/limits.go        TestChloridePerNitrite_SRAC
//	every published row      testdata/published                            chem/published_test.go TestEveryRowAccounted
//	conversions              atomic masses; definitions of the units       unit/unit.go          TestConversions_Published
//	growth and temperature   Rosso et al. 1993                             model/guild.go        TestCardinal
//	growth and pH            Rosso et al. 1995                             model/guild.go        TestCardinal
//	guild constants          kinetics.csv and the papers it names          model/guild.go        TestDefaultsArePublished
//	inhibition               Anthonisen et al. 1976; Vadivelu et al. 2007  model/pace.go         TestInhibition
//	seed: way and water      Siegrist et al. 1999; see the place           model/seed.go         TestSurvival_Published
//	cultures by content      kinetics.csv; common practice                 model/seed.go         TestCultureContent
//	food, film, plants       Timmons & Ebeling; Zhu & Chen; Körner & Vermaat  model/env.go       TestDefaultsArePublished
//	harm by chlorine         Oldenburg et al. 2002                         model/env.go          TestChlorineConstants_Published
//	salt, altitude           package chem                                  model/env.go          TestSurroundingsFollowChem
//	pH in sea water          Millero et al. 2006                           model/kin.go          TestSeaWaterPH
//	water nobody told of     US EPA secondary standard; common practice    model/water.go        TestWaterBelieved
//	integration              Hochbruck, Ostermann & Schweitzer 2009        model/step.go         TestOrder
//	the same equations       LSODA                                         model/integrate.go    TestAgreesWithLSODA
//	steps of several runs    those of one, bit for bit                     model/lanes.go        TestAbreast
//	events                   their own time                                model/plan.go         TestEventsAreHit
//	nitrogen balance         conservation of mass                          model/step.go         TestNitrogenBalance180
//	chart steps and errors   common practice, no source                    kit/kit.go            TestStepsAddUp
//	seeds and spreads        common practice, no source                    fit/prior.go          outlook.TestColdStart
//	sampler                  Chopin 2002; Dau & Chopin 2022                fit/move.go           TestRecovers
//	calibration of the fit   Talts et al. 2018                             study/calibrate.go    TestCalibrate
//	truth of the outlook     tanks of other laws than the model's          study/truth.go        TestTruth
//	what no draw knows of    Gott 1993; tanks of other laws                outlook/compute.go    TestBeyond
//	causes                   reruns of the posterior                       diagnose/study.go     TestCauses
//	what is tried            reruns of the posterior                       tryout/tryout.go      TestAloneIsSingle
//	what a logged seed saves  reruns without it                            tryout/gain.go        TestGain
//	expected information     Lindley 1956                                  nexttest/gain.go      TestInformationOfNormals
//	pooling of a club        Gelman et al. 2013; one tank left out         pool/learn.go         TestLearnFindsTheClub
//	what a reading tells     refits with that reading                      nexttest/nexttest.go  TestRefits
//	stages of stocking       reruns of the posterior; limits of chem       stocking/stages.go    TestStagesAddUp
//	food and animals         Timmons & Ebeling; common practice            model/food.go         stocking.TestFoodFactors
//	pH after a buffer        charge balance, carbon dioxide held           chem/shift.go         TestPHAfter_Published
//	how far lime dissolves   Plummer & Busenberg 1982                      chem/calcite.go       TestPKspCalcite_Published
//	density of ammonia       a producer's table; Pharmacopoeia             dosing/density.go     TestAmmoniaDensity_Published
//	ammonia to add           atomic masses, IUPAC 2021                     dosing/ammonia.go     TestAmmonia_Published
//	buffer to add            atomic masses, IUPAC 2021                     dosing/buffer.go      TestRaise_Published
//	thiosulfate to add       atomic masses; texts by end product           dosing/chlorine.go    TestDechlorinate_Published
//	water to replace         conservation of mass                          dosing/dilute.go      TestDilute_Laws
//	stages in known tanks    tanks of the engine's own laws                stocking/stages.go    TestStagesHoldInTruth
//
// # What it does not know
//
// The tank is one well-mixed volume: no dead corners, no gradients in the film, no
// light. There are no predators, no heterotrophs that compete for room and oxygen,
// and no toxins but ammonia, nitrous acid, chlorine and an unnamed "medicine".
// Oxygen demand is counted without growth, 5 to 9 % too high.
//
// What a tank's bacteria were on day 0 is never known. It is the widest of the
// priors and decides more than everything else; an outlook without readings spans
// weeks because of it.
//
// Comammox and plants have the weakest numbers of all guilds. How chlorine kills
// attached bacteria is known to a factor of a thousand between methods.
//
// How many bacteria a seed or a bottle holds is never measured: it is known to a factor
// of three either way, a bottle without a label to a factor of nine. What a step of pH
// takes of a seed, and how it and salt and temperature widen, is common practice or one
// paper each; that they multiply is assumed.
//
// Salt water has its chemistry (free ammonia from 10 g/kg on, oxygen, usual pH and
// hardness) but no bacteria of its own: those of fresh water stand in, with a wider
// prior. Between 0 and 10 g/kg the law for free ammonia is interpolated, nitrous
// acid is that of fresh water throughout. Limits are those of fresh water below 10
// g/kg; above, those of the sea, but for nitrite, for which none was found. No limit
// was made for shrimps or snails kept in tanks.
// The pH of sea water is followed by bicarbonate alone, within 0.1 until three
// fifths of the alkalinity are used up.
//
// Animals are the food they get: no species, no size, no room to swim. What a stage of
// stocking does to a tank is foreseen without anyone looking, so a reading between
// stages makes it safer than it says.
//
// Laws are published from 0 to 30 or 40 C; tanks outside 15 to 35 C are seldom on
// record. Nothing is foretold past 180 days from the start, or 60 from now.
//
// A tank with animals and hardly any ammonia in its readings tells little, and its
// interval says so by being very wide. Two losses of bacteria in one log are taken
// for one. Pressure follows the altitude alone, not the weather.
package engine
