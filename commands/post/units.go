package post

import "strings"

// unitOf is the unit written with an amount.
type unitOf uint8

const (
	noUnit unitOf = iota
	ppm           // mg/L
	ppb           // ug/L
	gramL         // g/L, too much for any of ours
	celsius
	fahrenheit
	degrees // of something
	german  // dKH, °dH
	meq
	sameN    // mg N/L
	ppt      // salinity
	dgh      // of general hardness
	measure  // of something that is no reading: gallons, days, percent
	duration // of time
	clock    // am, pm
	dropsKit // drops of a kit
	counted  // things
)

// gluedOnly are units that are other words when a blank stands before them.
var gluedOnly = map[string]bool{"in": true, "m": true, "k": true, "w": true, "v": true, "d": true, "st": true, "nd": true, "rd": true, "th": true, "a": true, "us": true}

// fits reports whether an amount of the unit can be a reading of the kind.
func (u unitOf) fits(k Kind) bool {
	switch u {
	case noUnit:
		return true
	case ppm, ppb, gramL, sameN:
		return k != PH && k != Temp
	case celsius, fahrenheit:
		return k == Temp
	case degrees:
		return k == Temp || k == KH || k == other
	case german, meq:
		return k == KH || k == other
	case dropsKit:
		return k == KH || k == other
	case ppt, dgh:
		return k == other
	}
	return false
}

// unitWords are units of one to three tokens, blanks between.
var unitWords = map[string]unitOf{}

var unitLists = [...]string{
	ppm:        "ppm,p p m,ppms,ppn,pppm,ppmm,mg / l,mg l,mgl,mg / ltr,mg / liter,mg / litre,mg per liter,mg per litre,mg per l,mg,mgs,mg ; l,mg ; l - 1,mg l - 1,parts per million,part per million,milligrams per liter,milligrams per litre,milligram per litre,milligram per liter,pmm,pp m,mg \\ l,mg - l,mg / lt,ppm caco3,ppm as caco3,mg / l caco3,mg / l as caco3,mg l caco3,mgl caco3",
	ppb:        "ppb,ug / l,mcg / l,ug per l,ug per liter,ug per litre,micrograms per liter,micrograms per litre,parts per billion,ugl",
	gramL:      "g / l,grams per liter,grams per litre",
	celsius:    "c,° c,celsius,° celsius,degrees c,degrees celsius,deg c,degree celsius,degree c,centigrade,degrees centigrade,deg celsius,celcius,° celcius,degrees celcius,degc,grad celsius",
	fahrenheit: "f,° f,fahrenheit,° fahrenheit,degrees f,degrees fahrenheit,deg f,degree f,degree fahrenheit,farenheit,fahrenheight,farenheight,degrees farenheit,deg fahrenheit,degf,° farenheit,degs f,faranheit",
	degrees:    "°,degrees,degree,deg,degs,grad",
	german:     "dkh,° dkh,dh,° dh,° kh,german degrees,degrees dkh,degrees german,deg dkh,d kh,dkhs,° d kh,° d,degrees kh,degrees of kh,deg kh,degree kh,degree dkh",
	meq:        "meq,meq / l,meq / litre,meq / liter,meql,mmol,mmol / l,milliequivalents,meq per liter,meq per litre,meq l,meq / ltr",
	sameN:      "mg / l n,mg n / l,mgn / l,ppm n,ppm - n,mg / l - n,mg / l as n,ppm as n,ppm as nitrogen,mg n l",
	ppt:        "ppt,psu,sg,us,us / cm,ms,ms / cm",
	dgh:        "dgh,° dgh,° gh,degrees gh,degrees of gh,deg gh",
	duration:   `day,days,hour,hours,hr,hrs,h,week,weeks,wk,wks,month,months,mo,mos,min,mins,minute,minutes,year,years,yr,yrs,night,nights,sec,seconds,second,d,yo,month old,week old,day old`,
	dropsKit:   "drops,drop",
	clock:      "am,pm,a . m,p . m,o clock,oclock,uhr",
	measure: `gallon,gallons,gal,gals,g,gl,l,litre,litres,liter,liters,ltr,ltrs,lt,ml,mls,cc,tsp,teaspoon,teaspoons,tbsp,tablespoon,tablespoons,cap,caps,capful,capfuls,pump,pumps,oz,ounce,ounces,cup,cups,gram,grams,kg,lb,lbs,pound,pounds,
		%,percent,pct,per cent,in,inch,inches,",cm,mm,ft,feet,foot,footer,m,metre,metres,meter,meters,w,watt,watts,v,volts,hz,kw,x,×,times,time,gph,lph,l / h,gpm,rpm,k,usd,$,£,€,eur,euro,euros,bucks,dollars,quid,cents,pence,rupees,
		us gal,us gallons,imp gal,imperial gallons,uk gallons,usg,gallon tank,st,nd,rd,th,bps,bpm,lumens,lm,kelvin,par,psi,pcs,pieces,bubbles,squirts,squirt,scoops,scoop,pinch,pinches,flakes,pellets,sticks,tabs,tablet,tablets,bags,bag,bottles,bottle,doses,dose,pages,page,fold`,
	counted: `fish,fishes,fry,snail,snails,shrimp,shrimps,tetra,tetras,neon,neons,guppy,guppies,cory,corys,cories,corydoras,danio,danios,barb,barbs,betta,bettas,molly,mollies,platy,platies,platys,rasbora,rasboras,
		otos,oto,otocinclus,angelfish,angels,goldfish,pleco,plecos,cichlid,cichlids,amano,amanos,nerites,nerite,loach,loaches,gourami,gouramis,plants,plant,tanks,people,members,kits,changes,water changes,clowns,clownfish,koi,
		rocks,stems,sponges,sponge,filters,filter,strips,vials,pwc,wc,cherry shrimp,neon tetras,ember tetras,nerite snails,cardinal tetras,new fish,small fish,little fish,rows,posts,types,kinds,out of,in 1,in one,adults,juveniles,babies`,
}

func init() {
	for u, s := range unitLists {
		for w := range strings.SplitSeq(s, ",") {
			if w = strings.Join(strings.Fields(w), " "); w != "" {
				unitWords[w] = unitOf(u)
			}
		}
	}
}

// unitAt reads the longest unit at tokens i, at most six tokens on one line.
func (p *parser) unitAt(i int) (u unitOf, n int) {
	key := ""
	for j := i; j < min(len(p.toks), i+6); j++ {
		t := p.toks[j]
		if t.text == "\n" || t.text == "\t" || t.text == "|" || t.kind == oddNum {
			break
		}
		if key != "" {
			key += " "
		}
		key += t.text
		if (t.text == "kh" || t.text == "gh") && j > i && (p.kindAt(j+1) == number || p.text(j+1) == ":" || p.text(j+1) == "=") {
			break // "6° GH 10°": the name of the next
		}
		if t.text == "dkh" && j == i && t.gap > 0 && p.kindAt(j+1) == number && !p.near(KH) {
			break // "pH 7 dKH 4"
		}
		if v, ok := unitWords[key]; ok && !(j == i && t.gap > 0 && gluedOnly[key] && p.src.text[t.from:t.to] != "W") {
			u, n = v, j-i+1
		}
	}
	return u, n
}
