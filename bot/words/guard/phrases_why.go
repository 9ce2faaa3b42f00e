package guard

// whyPhrases are what advisers say for the verdict of a diagnosis.
var whyPhrases = idiomsOf(
	// how slow
	`\b(?:a (?:bit|little|touch)(?: of a)?|on the|somewhat|rather|going|moving|progressing|developing) slow(?: side| one)?\b`, ` slow `,
	`\b(?:which|that|this) puts (?:it|you)\b`, ` it is `,
	`\b(\d+ days|\w+ weeks) (?:slower|later) than {same}`, `$1 behind healthy-twin`,
	`\b(?:compared (?:with|to)|than|measured against) {same}`, ` behind healthy-twin `,
	`\b{same}`, ` healthy-twin `,
	`\b(?:as far )(?:along |on )as (?:its|the) set-up (?:allows?|lets it(?: be| get)?|permits?)\b`, ` as far as its set-up allows `,
	`\bfor its set-up,? it is as far (?:along )?as it can be(?: at)? (day \d+)`, ` it is as far at $1 as its set-up allows `,
	`\bas far along\b`, ` as far `,
	`\b(?:as it is set-up|as it is set up|with (?:this|its|the|your) set-up|the way it is set up|the way it is set-up|as set up|set up (?:as it is|like this|this way))\b`, ` as-is set-up `,
	`\b(?:as (?:it|things|this|that|everything) (?:is|are|stands?|looks?|goes|go)(?: right)?(?: now| at present)?|the way (?:it|things) (?:is|are|stands?|goes|go|looks?)(?: right)?(?: now)?|as matters stand)\b`, ` as-is `,
	`\bas-is it is set-up\b`, ` as-is set-up `,
	`\b(?:is|are|be|will be|be|most)? ?(?:very |quite )?unlikely (?:to (?:be|get)|it will be|that it will be|that it is)\b`, ` will hardly be `,
	`\b(?:you |we )?(?:can|could|should) hardly expect it to be\b`, ` it will hardly be `,
	`\bhardly (?:going to|expected to|likely to) be\b`, ` will hardly be `,
	`\b(?:almost|nearly) no (progress|ammonia)\b`, ` hardly any $1 `,

	// no fault
	`\bnothing wrong {told}`, ` no fault in what you told `,
	`\bnothing (?:that )?you(?: have)? (?:told|tell|said|shared)(?: to)?(?: me| us)?(?: so far)? (?:shows|points to|hints at|suggests|indicates|speaks of|looks like)(?: to)? (?:(?:a|any) )?{fault}\b`, ` no fault in what you told `,
	`\bnothing {told} (?:shows|points to|hints at|suggests|indicates|speaks of|looks like) (?:(?:a|any) )?{fault}\b`, ` no fault in what you told `,
	`\b(?:you(?: have)? told me nothing|nothing you told me) that (?:shows|points to|suggests) (?:(?:a|any) )?{fault}\b`, ` no fault in what you told `,
	`\b(?:i|we)? ?(?:can not|can hardly|do not|could not|did not) (?:see|find|spot|detect|notice) (?:(?:a|any) )?(?:sign of (?:a |any )?)?{fault} (?:anywhere )?{told}`, ` no fault in what you told `,
	`\b(?:i|we)? ?(?:can |could )?(?:see|find|spot|detect|found|saw) no (?:sign of (?:a |any )?)?{fault} (?:anywhere )?{told}`, ` no fault in what you told `,
	`\bthere (?:is|seems to be|appears to be) (?:no|not a|not any) (?:sign of (?:a |any )?)?{fault} (?:showing |visible |to be (?:seen|found) )?{told}`, ` no fault in what you told `,
	`\bno (?:sign of (?:a |any )?)?{fault} (?:shows(?: up)?|is showing|can be seen|can be found|appears|stands out|is visible) {told}`, ` no fault in what you told `,
	`{told} (?:shows|contains|has|holds) no (?:sign of (?:a |any )?)?{fault}\b`, ` no fault in what you told `,
	`{told} does not (?:show|point to|suggest) (?:a|any) (?:sign of (?:a |any )?)?{fault}\b`, ` no fault in what you told `,
	`{told},? (?:i|we)(?: can)? (?:see|find|spot) no (?:sign of (?:a |any )?)?{fault}\b`, ` no fault in what you told `,
	`\b(?:it is just that|it is simply that|it happens that|the reason is that|it may be that)? ?some tanks(?: just| simply)? (?:begin|start)(?: out| off)? with (?:very |only |only a |just a )?few\b`, ` some tanks begin with few `,

	`\bsome tanks(?: just| simply)? have (?:very |only )?few bacteria (?:to (?:begin|start) with|at (?:the|their) (?:start|beginning|outset))\b`, ` some tanks begin with few bacteria `,

	// wait
	`\b(?:and |then |by then |by that time |then )*you should (?:then )?(?:see|be seeing|notice|start seeing|find) (?:that )?(?:the )?(ammonia|nitrite|no ammonia)\b`, ` look for $1 `,
	`\b(?:the |your )?(?:signs?|things?) to (?:look|watch)(?: out)? for (?:is|are)\b`, ` look for `,
	`\b(?:sit tight|bear with it|hold out|hold on|hang on|hang in there|stay patient|be patient|have (?:a little |some |a bit of )?patience|give it time|give it)\b`, ` wait `,
	`\btill\b`, ` until `,
	`\b(?:when you should |and then |then |and )?(?:look|watch)(?: out)? (?:for )?(?:the |your )?(nitrite|ammonia) (?:to have fallen|having fallen)\b`, ` look for $1 to fall `,
	`\b(?:falls?|falling|drops?|dropping|fallen|goes|going|comes|coming|go|come) (?:away |off |down )?(?:all the way )?(?:down )?to (?:nothing|zero|nil|none|0)\b`, ` falls to nothing `,
	`\b(?:be|is) (?:gone|all gone)\b`, ` falls to nothing `,
	`\bzero (ammonia|nitrite)\b`, ` no $1 `,
	`\b(?:one|1) day (after|later)\b`, ` a day $1`,
	`\bthe day after a (full|whole)\b`, ` a day after a $1`,
	`\b(?:it is |that is |that has |this is |it has )?(?:also |perfectly |quite |just |simply |always )*normal for (this|the nitrite) stage to take (?:this|that|so) long\b`, ` $1 stage takes this long `,
	`\b(?:it is |that is |this is |which is )?(?:just |simply |also )*how long (this|the|the nitrite|that) stage takes\b`, ` $1 stage takes this long `,
	`\b(?:this|that|so) long is (?:how long|what) (this|the nitrite|the) stage takes\b`, ` $1 stage takes this long `,
	`\bit takes (?:this|that|so) long, (this|the nitrite) stage\b`, ` $1 stage takes this long `,
	`\bit is (the nitrite) stage,? (?:and|which) (?:it )?takes\b`, ` $1 stage takes `,

	// nothing wrong
	`\bright on (?:track|course)\b`, ` on track `,
	`\bon course\b`, ` on track `,
	`\bcycle itself is (?:fine|ok|okay|all right|going well)[.,:;]* (?:so |and |as )?nothing\b`, ` cycle itself: nothing `,
	`\b(?:as for|as to|about|regarding|for|in|with|now,?) the cycle itself\b`, ` the cycle itself `,
	`\bin the (?:usual|normal) range\b`, ` within the usual range `,
	`\b(?:first things first|first of all|most importantly|above all)[:,]`, ` `,
	`\bbefore (?:changing|you change) anything(?: at all)?\b`, ` before you change anything `,
	`\btake (?:up )?(most|the bulk) of the ammonia(?: up)?\b`, ` take $1 of the ammonia `,
	`\b(?:the )?(most) of the ammonia (?:is|gets) taken(?: up)? by (?:the |your )?plants\b`, ` plants take $1 of the ammonia `,
	`\byou may see no nitrite(?: at all)? in this cycle\b`, ` this cycle may show no nitrite at all `,
)
