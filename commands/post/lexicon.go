package post

import "strings"

// cue is what a word tells about the amounts around it.
type cue uint8

const (
	noCue     cue = iota
	cueDose       // put into the tank
	cueWant       // wished, feared, advised
	cueIf         // supposed
	cueKeep       // wished when a test follows
	cueWhen       // supposed when a test and a verb follow
	cueProc       // cleared by the tank
	cuePerson     // somebody else's
	cueTheir      // somebody else's when a test or tank follows
	cueTap        // water of another place
	cueOwn        // the tank in question
	cueMe         // the writer
	cueSet        // a device's setting
	cueIs         // a state
	cueWas        // a past state
	cueChange     // a change: from the old to the new
	cueFrom
	cueTo
	cueNot
	cueAsk  // may open a question of yes or no
	cueWh   // a question that takes its facts for granted
	cueBoth // shared by several tests
	cueMaybe
	cueJudge // bad, safe, normal
	cueTest  // testing
	cueSure  // "not sure if" is no supposition
	cueSince // takes a point in time as a start
	cueRange // anywhere from .. to
	cueEvent // a water change, a dose: yesterday's is no old reading
	cueAfter
	cueTank // a tank
	cueEvery
	cueFix // what follows puts right what was said
)

// say is one word with a meaning.
type say struct {
	free bool // may stand between a name and its amount
	cue  cue
}

// words holds single words and phrases of up to five words.
var words = map[string]say{}

// labels holds the names of tests.
var labels = map[string]Kind{}

// amounts holds words that stand for an amount.
var amounts = map[string]amountWord{}

type amountWord uint8

const (
	notWord   amountWord = iota
	zeroWord             // zero in any position
	nilWord              // zero, only after the name
	noneLabel            // "no" before a name
	untested             // no reading
	topWord              // the chart's open end
	goneWord             // used up: zero after a name
	traceWord            // too little to tell
	colourWord
	ditto // "so is", "same for": the amount before
	unclear
)

var labelLists = [...]string{
	Ammonia: `ammonia, ammonias, ammonium, ammo, amm, nh, ammoniacal nitrogen, nh3, nh4, tan, total ammonia, total ammonia nitrogen, ammonia nitrogen,
		ammoniak, amonium, amonio, amoniaco, ammoniac, nh3n, nh4n, amoniak, ammonia total, ammonia ammonium`,
	Nitrite:  `nitrite, nitrites, no2, n02, trite, trites, nitri, nitrit, nitriet, nitritos, nitrito, no2n, nitrite nitrogen, nitriti`,
	Nitrate:  `nitrate, nitrates, no3, n03, trate, trates, nitra, nitrat, nitraat, nitratos, nitrato, no3n, nitrate nitrogen, nitrati`,
	PH:       `ph, phs, p h, ph level`,
	KH:       `kh, dkh, alk, alkalinity, carbonate hardness, karbonatharte, total alkalinity, carb hardness, alkalinity kh, akh, carbonate alkalinity`,
	Temp:     `temp, temps, thermometer, temperature, temperatures, temperatur, water temp, water temperature, tank temp, tank temperature, tmp`,
	Chlorine: `chlorine, cl2, fcl, tcl, free chlorine, total chlorine, residual chlorine`,
	other: `gh, dgh, hardness, general hardness, total hardness, water hardness, gesamtharte, tds, po4, phosphate, phosphates, phosphorus, phos, cu, copper,
		salinity, salt, sg, specific gravity, calcium, ca, magnesium, iron, fe, fe2, fe3, potassium, co2, o2, oxygen, dissolved oxygen, ec, conductivity, orp,
		chloride, chlorides, chloramine, chloramines, silicate, silicates, silica, sio2, sio3, sulfate, sulphate, so4, par, flow, gph, lph, flow rate,
		free ammonia, unionized ammonia, unionised ammonia, un ionized ammonia, un ionised ammonia, toxic ammonia, free nh3, unionized nh3, un ionized nh3, sodium, boron, iodine, hco3, bicarbonate,
		bicarbonates, caco3, cyanuric acid, turbidity, redox, tannins, zinc, nickel, aluminium, aluminum, manganese, chlorite, bromine, total nitrogen, lux, phosphat, kupfer, eisen, photoperiod`,
}

// shortLabels are names only next to other names or right before an amount or
// a colon, since they are other words too; strict ones not before an amount.
var shortLabels = map[string]struct {
	kind   Kind
	strict bool
}{
	"am": {Ammonia, false}, "ni": {Nitrite, false}, "na": {Nitrate, false}, "cl": {Chlorine, false}, "nit": {Nitrite, false}, "nitr": {Nitrite, false}, "nits": {Nitrite, false},
	"a": {Ammonia, true}, "n": {Nitrite, true}, "ite": {Nitrite, true}, "ate": {Nitrate, true}, "ites": {Nitrite, true}, "ates": {Nitrate, true},
	"t": {Temp, true}, "mg": {other, true}, "k": {other, true}, "do": {other, true},
}

var amountLists = [...]string{
	zeroWord: `zero, non detecte, non detectee, no detectado, no detectable, niet aantoonbaar, ej detekterbart, nicht messbar, zero, zeros, zeroes, zilch, nada, undetectable, undetected, not detectable, not detected, non detectable, non detect, nondetect, nondetectable, none detected, nothing detected,
		below detection, below detectable, nicht nachweisbar, unmeasurable, not measurable, nill, zip, nought, naught, zippo, goose egg, below detection limit, under detection limit, below the detection limit, below detectable limits, below detectable levels, not a trace, without any trace, undetectible, undectable, undetectably low, no reading above zero`,
	nilWord: `isnt there, isnt there any more, isnt there anymore, no longer there, no longer present, no longer detectable, no longer showing, not there any more, not there anymore, has disappeared, have disappeared, disappeared, vanished, has vanished, nil, none, nothing, nowt, nothing at all, none at all, nil at all, not a thing, nd, n d, no trace, absent, negative, neg, not present, havent appeared, hasnt appeared, havent shown up, hasnt shown up, havent shown, hasnt shown, have not appeared, has not appeared, yet to appear, yet to show, yet to show up, has yet to show up, have yet to show up, hasnt shown up yet, havent shown up yet, not shown up yet, no sign yet, no show, not showing, not there, null`,
	untested: `not tested, untested, didnt test, didnt test for, havent tested, havent tested for, havent tested yet, not tested yet, not testing, dont test, dont test for, dont have a test for, dont have a test,
		not measured, didnt measure, havent measured, havent checked, didnt check, not checked, unchecked, havent got a test for, no test, no kit, no test for, no kit for, not available,
		cant test, cant test for, couldnt test, couldnt test for, unable to test, unable to test for, no idea, unknown, tbd, tba, pending, skipped, skipped testing, ran out of, dont know, dunno, idk, didnt bother with, didnt bother testing, forgot to test, forgot, forgot to test for, not sure yet,
		dont have a kit for, have no test for, have no kit for, no way to test, no way to test for, no way of testing, dont own a test for, still need to test, need to test, will test, to be tested, havent done, didnt do, not done, did not test, have not tested, do not test, never tested, never test for, no results for, no result for, no reading for, no reading, no readings for, did not measure, did not check, have not checked, not yet tested`,
	topWord: `darker than the last square, darker than that last square, darker than its last square, darker than the top square, darker than the last colour, darker than the last color, darker than the top colour, darker than the top color, darker than the darkest, past the last square, past the last colour, past the last color, beyond the last square, beyond the last colour, beyond the last color, above the last square, above the last colour, above the last color, off the chart, off the charts, off chart, off charts, off the scale, off scale, off the card, maxed out, maxed, maxes out, maxing out, max out, pegged, over the top, above the chart, beyond the chart, over the chart, above the scale, over range, above the top,
		higher than the chart, higher than the chart goes, past the chart, highest on the chart, highest on chart, top of the chart, top of chart, top of the scale, top of scale, top of the charts, highest on the scale, highest on the card, highest color on the chart, highest colour on the chart, highest reading on the chart, above the highest, darkest on the chart, darkest color on the chart, darkest colour on the chart, as high as it goes, as high as the chart goes, as high as the test goes, beyond the scale, over the scale, above max, above the max, at max, at the max, max reading, at maximum, higher than the test goes, higher than the card, more than the chart, highest the chart goes, highest it goes, off the top, off the top of the chart, off the top of the scale, outside the chart, exceeds the chart, exceeding the chart, past the top of the chart, beyond the top of the chart, above the top of the chart, over the top of the chart, above chart, over chart, above range, out of range high, too high to read, too high to measure, overrange`,
	goneWord:   `gone, all gone, completely gone, totally gone, cleared out, used up`,
	traceWord:  `trace, traces, a trace, slight trace, hint, a hint, trace amount, trace amounts, a tad, a smidge, tiny bit, a tiny bit, a little bit of, through the roof, thru the roof, sky high, skyhigh, barely there, barely detectable, barely visible, barely any, almost none, hardly any, nearly none, almost nothing, next to nothing, slightly above zero, just above zero, close to zero, near zero, almost zero, nearly zero, barely above zero, not quite zero, close to none`,
	ditto:      `so is, so are, same with, same for, same goes for, the same for, the same with, same story with, ditto for, likewise for, as is, as are, so was, so were, same with the, same for the`,
	colourWord: `purple, yellow, orange, red, pink, green, violet, magenta`,
}

var wordLists = [...]string{
	cueDose:   `enough ammonia, enough for, enough to, nh4cl, ammonium bicarbonate, dose, doses, dosed, dosing, redose, redosed, redosing, add, adds, added, adding, top up, topped up, topping up, top it up, topped it up, topped off, bring it up, brought it up, bring up, brought up, bring it to, brought it to, bring ammonia, bumped it, bump it, bumped up, get it to, get it up to, got it up to, raise, raised, raising, poured, squirted, spike it, spiked it, spiked the, spike the, spiked my, spike my, spiked ammonia, put in, ghost fed, fed, topped ammonia, topping off, get it up, got it up, got it to, dosage, drops of`,
	cueWant:   `should see, be happy with, in a perfect world, in theory, theoretically, would stay, would sit, would read, how do i get, how to get, how can i get, how do you get, come from, comes from, kept them in, keeps them in, selling, for sale, calibrated at, calibrated to, calibrate at, need another, need about another, need around, need roughly, bottle says, label says, box says, packet says, packaging says, leaflet says, manual says, instructions, directions, instructions say, website says, good from, prefer, prefers, thrive, thrives, survive, survives, do best, does best, do well, does well, do fine, does fine, work best, works best, grow best, grows best, good for up to, good up to, effective up to, treats, treats up to, neutralises, neutralizes, detoxifies, comfortable at, comfortable with, happiest at, happiest around, happiest in, suited to, adapted to, fingers crossed, hopefully, presumably, done when, cycled when, finished when, ready when, complete when, over when, done once, cycled once, finished once, ready once, complete once, want, wants, wanted, wanting, goal, goals, target, targets, targeting, target is, aim, aims, aiming, ideal, ideally, supposed to, should give, should make, should bring, would give, will give, would make, will make, should be, should read, should have, should stay, should show, should drop, should hit, should reach, should sit, should i see, should get, should go, shouldnt be, shouldnt have, shouldnt go, shouldnt exceed, should not be, should not exceed, should never, would like, id like, trying to, try to, tried to get, hoping for, hoping to, hoping it, love to see, would love, like to see, want to see, plan, plans, planned, planning, to get roughly, to get about, it takes about, to get to, to get down to, to get it to, to get it down to, plan to, planning to, planning on, will raise, ill raise, gonna raise, going to raise, need to raise, will lower, ill lower, gonna lower, going to lower, thinking of, thinking about, considering, hope its, hoping its, hope theyre, hope for, hope to, hope it, hope they, wish, until, till, unless, anything over, anything above, anything under, anything below, anything more than, anything less than, anything higher than, read that, heard that, i heard, ive heard, read somewhere, heard somewhere, read online, internet says, google says, google said, as long as, needs to, need to be, need to get, need it, need them, has to be, have to be, must be, must stay, expect, expecting, expected, expects, will be, would be, ill be, would have, could have been, safe is, safe would be, considered safe, counts as safe, says safe, safe level, safe levels, safe limit, safe range, safe at, safe below, safe up to, limit, limits, recommended, recommend, recommends, recommendation, recommendations, normal range, ideal range, acceptable, wait for, waiting for, waiting for it, waiting for the, waiting on, how long, how fast, how quickly, toxic above, toxic at, toxic over, harmful above, dangerous above, deadly above, dont let, never let, make sure, aim for, shoot for, shooting for, reach , need at least, in case, imagine, suppose, lets say, say you have, for example, e g, eg, rule of thumb, rule is, the rule, optimum, optimal, optimally, threshold, allowed, tolerate, tolerates, tolerated, inhibits, inhibit, stall, stalls, stalled by, before it hits, before it reaches, guide, guides, guideline, article, chart goes up to, chart goes to, chart only goes, chart only goes to, goes up to, kit goes up to, kit goes to, chart stops at, to reach, in order to, max dose, predict, predicting, tomorrow, next week, will hit, will reach, will drop, will read, gets to, got to get`,
	cueIf:     `if, whether, even if, only if, what if`,
	cueKeep:   `keep, keeping, maintain, maintaining, hold it`,
	cueWhen:   `when, once, after that, as soon as, before, whenever`,
	cueProc:   `process, processes, processed, processing, convert, converts, converted, converting, consume, consumes, consumed, consuming, to clear, can clear, will clear, clears, cleared, clearing, eat, eats, eating, ate, eaten, chew, chews, chewing, chewed, burn, burns, burning, burned, handle, handles, handled, handling, oxidize, oxidizes, oxidise, oxidises, digest, digests, take care of, takes care of, took care of, get through, gets through, go through, goes through, went through, going through, got through, get rid of, gets rid of, got rid of, cycle through, cycles through, eliminate, eliminates, eliminated, knock out, knocks out, capable of, dealing with, deal with, deals with, metabolize, metabolise`,
	cuePerson: `my friend, my friends, a friend, friend, friends, buddy, buddys, my buddy, my buddys, neighbour, neighbor, neighbors, neighbours, people keep saying, people say, people tell me, everyone says, everybody says, people keep telling me, hes at, shes at, his is at, hers is at, other people, someone, someones, somebody, coworker, colleague, brother, brothers, sister, sisters, cousin, cousins, uncle, uncles, aunt, aunts, nephew, my mate, mates, my mates, other members, another member, you have, youre at, you said, you wrote, others, dads pond, dads tank, mums tank, mums pond, out of a tank, from a tank, yours, its tank, its tanks, on here has, club mate, clubmate, clubmates`,
	cueTheir:  `your, his, her, their, theirs, another, somebodys`,
	cueTap:    `leitung, leitungswasser, kranvatten, kranvattnet, kraanwater, leidingwater, grifo, agua del grifo, robinet, eau du robinet, tap, tap water, tapwater, my tap, source water, well water, ro water, rodi water, rodi, city water, municipal water, mains water, faucet, bottled water, bucket, a bucket, new water, change water, rain water, rainwater, spring water, lfs water, store water, shop water, other tank, my other, other tanks, donor tank, old tank, established tank, mature tank, water company, water report, supply report, quality report, water companys, city report, water supplier, supplier, tap has, from the tap, out of the tap, straight from the tap, out of tap, replacement water, makeup water, prepared water, rain, the shop tank, shop tank, store tank, shops tank, shops display tank, shops display, stores tank, stores display tank, lfs tank, lfs display tank, ro, second tank, quarantine tank, hospital tank, qt, pond, buckets, supply, our supply, clubs display aquarium, clubs aquarium, clubs tank, shops aquarium, shop aquarium, raw water, hose`,
	cueOwn:    `my tank, our tank, this tank, the tank, tank water, mine, aquarium, aquarium water, my aquarium, the aquarium, in tank, tank reads, tank is, new tank, tank has, tank at, main tank, display, dt, display tank, tank itself, the new one, this one, this ones, the new ones, the new tank, in the tank, our aquarium, this aquarium, here, over here`,
	cueMe:     `i, my, im, ive, we, were at, our, id, me`,
	cueSet:    `dial is on, dial is at, dial says, dial is set to, dial set to, heater dial is on, heater dial is at, heater dial, thermostat dial, heater setpoint, set to, set at, set for, set on, dialled to, dialed to, dialled in at, turned to, set it to, thermostat, heater at, heater to, heater on, turned up to, turn up to, room temp, room temperature, room is, the room, room, ambient, outside, rated for, rated at, house is, my house, the house, in the house`,
	cueIs:     `seems, seem, seemed, seems to be, is, are, s, its, it is, theyre, they are, reads, read, reading, readings, shows, showing, show, sits, sitting, at, still, remain, remains, remained, registering, registers, stays, staying, stay, holding, holds, hovering, hovers, stuck, hanging, has, have, tests, detecting, appears, looks, looking, seems, measuring, measures, measure, got, getting, came, come, coming, saying, says, say, said, gives, gave, giving, comes, hit, hits, hitting, reached, reaches, thats, around, stands, standing, equals, result, results, came back, came up, came up as, came up at, comes up, comes up as, came out, comes back, comes out, coming out, ended up, ended, sind, ist, liegt, steady, there is, theres, there are, constant, has been, have been, been, being, turned out, came in, finally, peaking, kept reading`,
	cueWas:    `was, were, which told me, used to read, had, had been, showed, measured, war, wasnt`,
	cueChange: `went, go, goes, going, drop, drops, dropped, dropping, fell, fall, fallen, falling, rise, rises, rose, risen, rising, climb, climbs, climbed, climbing, jump, jumps, jumped, jumping, spike, spikes, spiked, spiking, moved, move, moving, down, up, increase, increased, increasing, increases, decrease, decreased, decreasing, decreases, changed, change, changes, shot, shot up, crept, creeping, creep, slid, dipped, dip, lowered, reduced, swung, swings, plummeted, crashed, doubled, halved, quadrupled, tripled, declined, declining, progressed, bounced, inched, down to, up to, dwindled, sank, soared, skyrocketed, grown, grew, nosedived, turned, budged, budge, cut, brought down, come down, came down, gone down, gone up, went down, went up, dropped down`,
	cueFrom:   `from`,
	cueTo:     `to, into, to get, to about, to around`,
	cueNot:    `not, isnt, arent, never, aint, wont, cant, cannot, couldnt, unable, cant be, refuses, refuse, refusing, doesnt, hasnt, havent`,
	cueAsk:    `does, do, should, would, could, can, will, did`,
	cueWh:     `what, why, how, any, anyone, anybody, thoughts, ideas, where, who, whats, hows, which, opinions, suggestions, advice, normal, whys`,
	cueBoth:   `both, all, each, every one, all three, all of them, respectively, all reading, all at, across the board, alike, the same, as well, too, also`,
	cueMaybe:  `maybe, perhaps, possibly, might be, could be, probably, likely, could even be, may be, possibly even, maybe even, might even be, if not, or maybe, or perhaps, or possibly, or even, bordering on, verging on, leaning towards, leaning toward, leaning, closer to, more like, but could be, but maybe, but might be`,
	cueJudge:  `bad, ok, okay, safe, dangerous, toxic, harmful, too high, too much, high, fine, enough, deadly, lethal, good, problem, worry, worrying, hurt, kill, harm, acceptable level, alright`,
	cueTest:   `test, tested, testing, retested, retest, redid, redo, redone, check, checked, checking, took, measured it, i measured, testkit, test kit, kit, kits, strip, strips, params, parameters, parameter, numbers, stats, levels, level, values, value, update, log, results are, water, tests are`,
	cueSure:   `not sure, sure, tell, know, unsure, see, deciding, decide, figure out`,
	cueSince:  `since, for, over the, in the, within, every, during, throughout, past, for the, over the past, in the past, in the last, over the last, for the last, for the past, within the, of the last`,
	cueRange:  `anywhere, somewhere, ranging, ranges, range, varies, varying, fluctuates, fluctuating, between, bouncing, bounces`,
	cueEvent:  `water change, water changes, wc, pwc, waterchange, feeding, outage, rinse, clean, cleaning, trim, fill`,
	cueAfter:  `after, following, post`,
	cueTank:   `tank, tanks`,
	cueFix:    `was actually, is actually, no wait, wait no, no sorry, sorry no, no wait sorry, or rather, oh wait, actually no, no actually, hang on, no hang on, typo, typos, oops, ooops, whoops, woops, edit, edited, correction, correcting, i meant, meant to say, meant to write, meant to type, meant, i mean, scratch that, strike that, ignore that, misread, misread it, misread that, read it wrong, read that wrong, wrong tank, wrong card, wrong chart, wrong column, make that, should say, should have said, mistyped, typed wrong, my mistake, wrote it wrong, wrong number`,
	cueEvery:  `a day, per day, daily, a week, weekly, in a day, every day, each day, each time, every time, each week, every week, per week, in 24 hours, in 24h, in 24 hrs, within 24 hours, overnight`,
}

// freeCues are the cues whose words may stand between a name and its amount.
var freeCues = map[cue]bool{cueIs: true, cueWas: true, cueChange: true, cueTo: true, cueBoth: true, cueMaybe: true, cueTest: true, cueMe: true, cueRange: true, cueOwn: true, cueTank: true, cueFrom: true}

// freeWords have no meaning of their own here.
const freeWords = `the, a, an, of, on, in, for, with, by, currently, about, approx, approximately, roughly, ca, circa, close, nearly, almost, near, like, pretty, much, only, just, barely, exactly, right,
	already, it, this, that, they, back, total, quite, really, very, super, well, so, per, as, around the, loads, lots, plenty, tons, calling it, call it, calling that, calling this, first time, second time, the first time, the second time, the second, def, defo, deffo, prob, probs, prolly, something, some, area, mark, somewhat, solid, good, bright, dark, deep, light, approximate,
	liquid, new, latest, current, final, last, first, most, color, colour, card, chart, according, even, yes, ok, okay, again, detectable, measurable, day, sort, kind, sample, which, definitely, clearly, obviously, certainly, nice, low, high, higher, lower, big, huge, great, happy, sky, tad, bit, little, slightly, possibly, now, today, consistently, constantly, always, usually, actual, actually, est, estimate, estimated, ppm, and climbing, and rising, and falling, wert, wasser, les, el, la, de, de la, is at, following the instructions, followed the instructions, per the instructions, according to the instructions, to the letter, ladies, drumroll, perfect, rock, stable, unchanged, basically, essentially, practically, literally, whopping, measly, mere, full, nothing moves, nothing moved, nothing changes, nothing changed, nothing has changed, nothing happens, nothing happened, nothing is happening, nothing is moving, nothing works, nothing helps, scary, crazy, insane, crept, average, avg, min, max, reader, probe, meter, pen, digital, too high, too much, too low`

func init() {
	list := func(s string, f func(string)) {
		for w := range strings.SplitSeq(s, ",") {
			if w = strings.Join(strings.Fields(w), " "); w != "" {
				f(w)
			}
		}
	}
	for w := range claims {
		words[w] = say{}
	}
	list(freeWords, func(w string) { words[w] = say{free: true} })
	for c, s := range wordLists {
		list(s, func(w string) { words[w] = say{free: words[w].free || freeCues[cue(c)], cue: cue(c)} })
	}
	for k, s := range labelLists {
		list(s, func(w string) { labels[w] = Kind(k) })
	}
	for a, s := range amountLists {
		list(s, func(w string) { amounts[w] = amountWord(a) })
	}
}
