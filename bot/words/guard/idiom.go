package guard

import (
	"regexp"
	"slices"
	"strings"
)

// idiom is a turn of phrase and the plain words that it stands for.
type idiom struct {
	pattern *regexp.Regexp
	has     []string // one of them is in every match
	plain   string
}

// parts are what patterns have in common, written as {name} in them.
var parts = strings.NewReplacer(
	// where a sentence begins
	"{head}", `((?:^|[.!?;:\n)])\s*(?:-\s+)?)`,
	// verbs in front of verbs, that say no more than when
	"{will}", `(?:(?:will|should|would|is going to|are going to|is due to|is set to|is expected to|can be expected to|starts? to|begins? to) (?:then |only |also |just )?)?`,
	"{falls}", `(?:falls?|drops?|goes down|comes down|declines?|decreases?|has fallen|has dropped|is falling|is dropping|is going down|fall|drop|go down|come down)`,
	"{shows}", `(?:comes?|follows?|appears?|arrives?|shows?(?: up)?|turns? up|emerges?)`,
	"{told}", `(?:in |from |of |about |by )?(?:(?:what|anything|all|everything|whatever) (?:that )?you(?: have)? (?:told|tell|said|say|shared|reported)(?: to)?(?: me| us)?(?: so far| about)?)`,
	"{same}", `(?:(?:the|an?) (?:same|identical|very same) (?:tank|set-up)(?: would be| should be)?,? (?:without (?:a |any )?faults?|with no faults?|that has no faults?|with nothing wrong)|(?:where )?(?:the same tank|it|the tank|this tank) (?:would|should|could) be(?: by now| now)?,? (?:without (?:a |any )?faults?|with no faults?))`,
	"{fault}", `(?:faults?|problems?|mistakes?|anything wrong)`,
	"{which}", `(?:(?:that|which|they|these|those|it|both|and|but) )*`,
	"{animals}", `(?:(?:there are |there is |you have )?(?:no|not any) animals(?: are)?(?: in(?:side)?| living in)?(?: there| it| the tank)?(?: yet)?|there are not any animals(?: in)?(?: the tank| it)?(?: yet)?|you do not have (?:any )?animals in(?: the tank| it)?(?: yet)?)`,
)

func idiomsOf(pairs ...string) []idiom {
	var all []idiom
	for i := 0; i < len(pairs); i += 2 {
		pattern := parts.Replace(pairs[i])
		all = append(all, idiom{regexp.MustCompile(pattern), literals(pattern), pairs[i+1]})
	}
	return all
}

// idioms are applied in this order, to drafts and answers alike. What stands for nothing
// is politeness, or a heading that the draft has in other words.
var idioms = slices.Concat(spellings, outlookPhrases, whyPhrases, causePhrases, idiomsOf(

	`[\t ]+`, ` `,

	// politeness, and words that only lead on
	`\b(?:in other words|in short|in fact|of course|after all|as a reminder|just so you know|at present|to date|so to speak|as you can see|on the other hand|on the bright side|that said|having said that|with that|by now|by then)\b,?`, ` `,
	`\b(?:keep|bear|keeping|bearing) in mind(?: that)?\b`, ` `,
	`\b(?:i would|i|we|we would) (?:suggest|recommend|advise)(?: that you| you)?\b`, ` `,
	`\b(?:it is|it would be|it is usually) (?:best|better|a good idea|helpful|useful|important) to\b`, ` `,
	`\byou(?: will| may| might| would)? want to\b`, ` `,
	`\b(?:starts?|begins?|starting|beginning) (?:to )?(fall|drop|show|appear|go down|clear|come|falling|dropping|showing|appearing|going down|clearing|coming)\b`, `$1`,
	`\b(?:please )?(?:don't worry|do not worry|no need to worry)\b`, ` `,
	`\b(?:i have to be|to be) honest\b`, ` `,
	`\b(?:i am|i'm) (?:afraid|sorry)\b`, ` `,
	`{head}(?:sadly|unfortunately|sorry|hello|hi|ok|okay|yes|well|right|good to know)\b`, `$1 `,
	`\b(?:i know )?(?:that )?(?:the )?waiting is hard\b`, ` `,

	// headings
	`{head}(?:do|what to do|my advice|advice|what helps|this helps|to (?:fix|mend) (?:it|this)|to put (?:it|this) right):`, `$1 `,
	`{head}(?:so )?(?:next|your next step|the next step|next step|as a next step|as the next step)(?:,|:| is to\b| is:)`, `$1 `,
	`{head}(?:i see this|here is why|why|this is why|evidence|the signs?):`, `$1 `,
	`\b(?:to be (?:really )?sure|to make (?:really )?sure|to (?:settle|check) (?:it|this)|what would settle (?:it|this)|would make it sure)\b`, ` sure `,
	`\b(?:on|along) the way\b`, ` `,
	`{head}(?:before that|until then),`, `$1 `,
	`{head}(?:about|as for) the cycle itself`, `$1 the cycle itself`,
	`{head}(?:first of all|first|firstly), `, `$1 number-a `,
	`{head}(?:secondly|second), `, `$1 number-b `,
	`{head}(?:thirdly|third|last|lastly), `, `$1 number-c `,

	`\bas (?:it|things|they|all) should\b`, ` as-should `,
	`\b(?:so far|in the meantime|for now|for the moment|at the moment|right now|as of today|remember that|it happens that|next time|a bit of a)\b`, ` `,
	`{head}(?:today is|this is|now is|it has come to|it has reached) (day \d)`, `$1 it is $2`,
	`\b(?:has )?(?:come to|reached) (day \d)`, `is at $1`,
	`\ball this\b`, `this`,
	`\bcomes next\b`, ` `,

	// one meaning in several forms
	`\b(?:as (?:things|it) (?:are|is|stands?)|the way things (?:are|stand)|as things stand)\b`, ` as-is `,
	`\b(?:the )?most likely (?:day|date) for it to be done is (day|\d)`, ` likely done around $1`,
	`\b(?:my|the) best (?:guess|estimate) for it is(?: around)? (day|\d)`, ` likely done around $1`,
	`{head}by (day \d+),? it (?:is|was|has)\b`, `$1 at $2 it is`,
	`\b(\d+ days?) lost\b`, ` $1 cost `,
	`\bmost likely\b`, ` likely `,
	`\b(?:i expect|i think|my best guess is that|is expected to)\b`, ` likely `,
	`\b(?:is|it is|are) likely to\b`, ` likely `,
	`\b(?:be patient|have patience) and wait\b`, ` wait `,
	`\b(?:be patient|have patience|give it|give it time|hang on|hold on)\b`, ` wait `,
	`\b(?:keep an eye out for|keep an eye on|keep looking for|keep watching for|look out for)\b`, ` look `,
	`\bshow(s|ing)? up\b`, ` show `,
	`\bto nothing\b`, ` to-nil `,
	`\b(?:start|begin)(s?) out\b`, ` start$1 `,
	`\b(?:goes|go|going) down\b`, ` falls `,
	`\bgo(?:es)? on (dosing)\b`, ` continue $1 `,
	`\b(?:go on|going on|carry on|continue) as (?:now|you do now)\b`, ` continue as now `,
	`\b(?:has|have) to\b`, ` must `,
	`\bwith no animals in\b`, ` if no animals in `,
	`\bif (?:there are )?no animals (?:are )?in\b`, ` if no animals in `,
	`\b(?:with animals in|(?:there are )?animals (?:are )?in)\b`, ` animals in `,
	`\b(?:if|when) you test on (day \d+),? (?:(?:it|the test|your test) will likely show|you (?:will likely|should|can expect to|are likely to) (?:see|read|find)|you can expect|expect)\b`, ` a test on $1 will likely show `,
	`\bon (day \d+),? (?:your|a) test will likely show\b`, ` a test on $1 will likely show `,
	`\b(?:likely|will likely) (?:see|read|find)\b`, ` likely show `,
	`\bnitrite comes once ammonia falls\b`, `nitrite comes once it falls`,
	`\b(nitrite|ammonia) (is highest|peaks|is clear)([^.;\n]*?) and (clears|peaks)\b`, `$1 $2$3 and $1 $4`,
	`\bnothing (?:that |in what )?you(?: have|'ve)? told(?: me)? (?:so far )?(?:shows|points to|hints at) (?:a|any) fault\b`, ` no fault in what you told `,
	`\b(?:i|we)(?: can)? (?:see|find|found) no fault\b`, ` no fault `,
	`\b(?:there is|is) no (?:sign of a )?fault\b`, ` no fault `,
	`\bno fault shows\b`, ` no fault `,
	`\bshows no fault\b`, ` no fault `,
	`\breach(?:es)? (?:its|the) (?:highest(?: point)?|peak)\b`, ` is highest `,
	`\bthis (?:holds|is true|counts) (?:if|as long as|provided|provided that) you\b`, ` this assumes that you `,
	`\btak(?:e|ing) it that you\b`, ` assume that you `,
	`\b(\d+|one|two|three|four) readings? (?:are|is|stand|stands) behind this\b`, ` it rests on $1 readings `,
	`\b(?:falls|fell|has fallen|lags|lagging|trails|trailing|running)\b((?:[^.;:\n]|\.\d)*?) behind\b`, `$1 behind `,
	`\b(?:all is well|all is fine|everything is fine|there is nothing wrong|nothing at all is wrong)\b`, ` nothing is wrong `,
	`\bto see (what|when|how|whether)\b`, ` $1 `,
	`\bexcept for (?:this|one thing|one reading|one)\b`, ` but for this `,
	`\bthink about\b`, ` think `,
	`\blet me know\b`, ` tell me `,
	`\bre-?test\b`, ` test again `,
	`\b(?:no|not) later than (day|\d)`, ` by $1`,
	`\b(?:earlier|sooner) than (day|\d)`, ` before $1`,
	`\b(?:you can |we can )?expect it to be\b`, ` it is likely `,
	`\bchances are(?: that)?\b`, ` likely `,
	`\bsets? (?:you|it) back\b`, ` costs `,
	`\b(?:a )?delay of\b`, ` costs `,
	`\b(?:avoid)\b`, ` do not `,
	`\b(?:please )?(?:make sure (?:that )?you|be sure to|remember to|go ahead and|you need to|you should|try to)\b`, ` `,
	`\btold me\b`, ` told `,
	`\btell me the result\b`, ` tell me `,
	`\bcompared with\b`, ` behind `,
	`\btoo little\b`, ` too-little `,
	`\btoo (much|hot|cold|many)\b`, ` too-$1 `,
	`\brunning slow\b`, ` slow `,
	`\bas well\b`, ` also `,
	`\bwell together\b`, ` together-well `,
	`\btogether well\b`, ` together-well `,
	`\bat a cost of\b`, ` costs `,
	`\b(?:a |one )?single reading\b`, ` 1 reading `,
	`\bdo nothing\b`, ` nothing `,
	`\bnothing to do\b`, ` nothing `,
	`\b(\d+|one|two|three) (?:likely |possible )?(?:things|causes|cause|reasons|suspects)\b`, ` counted $1 `,
	`\b(?:these|those|the) (\d+|two|three)\b( (?:are|may|might|could))`, ` counted $1 $2 `,
	`\b(?:degrees? )(c|f|celsius)\b`, ` $1 `,
	`\bset up\b`, ` set-up `,
	`\bset-up (?:says|has|gives)\b`, `set-up `,
))

var spaces = regexp.MustCompile(`[ \t]{2,}`)

func idiomatic(s string) string {
	for _, i := range idioms {
		if hasAny(s, i.has) {
			s = spaces.ReplaceAllString(i.pattern.ReplaceAllString(s, i.plain), " ")
		}
	}
	return s
}
