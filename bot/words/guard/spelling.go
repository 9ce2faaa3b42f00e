package guard

// spellings bring numbers, times and hedges in the form in which they are read.
var spellings = idiomsOf(
	`[\t ]+`, ` `,
	`\bsetup\b`, `set-up`,
	`\b([a-z]+|\d+)-in-(ten|10|five|5|four|4|100)\b`, `$1 in $2`,
	`\b(ammonia|nitrite|salt|fresh|tap|water|tank)-(\w)`, `$1 $2`,
	`\b(\d+|\w+)-(day|week|hour)s?\b`, `$1 $2`,

	// units
	`\b(?:mg/l|ppm) (?:of |as )?(?:caco3|calcium carbonate)\b`, `mg-calcium`,
	`\bus gal(?:lons?)?\b`, `gal`,
	`\bdegrees? (c|f|celsius|fahrenheit)\b`, `$1`,

	// ranges
	`\b(?:any(?:where|thing)|somewhere) (between|from)\b`, `$1`,
	`\bbetween (?:days? )?(\d+) and (?:day )?(\d+) days\b`, `$1 to $2 days`,
	`\bdays (\d+)( to | - | and )(?:day )?(\d+)`, `day $1$2$3`,
	`\bbetween days? ([\d.]+)(?: c)? and (?:day )?([\d.]+)`, `day $1 to $2`,
	`\bbetween (day )?([\d.]+)( c| mg/l| days?| ?%)? and (day )?([\d.]+)`, `$1$2 to $4$5`,
	`\bbetween (one|two|three|four|five|six|seven|eight|nine|ten) and (\w+ (?:days|weeks|months))\b`, `$1 to $2`,
	`\bfrom (day )?(\d[\d.]*) to (day )?(\d)`, `$1$2 to $3$4`,
	`\bfrom day (\d+)( to | - )(?:day )?(\d+)`, `day $1$2$3`,
	`\b(?:or )?with an? (?:likely |possible |usual )?(?:range|spread) (?:of|from) (?:about )?(\d)`, `$1`,
	`\b(?:the )?(?:likely |possible )?range(?: is|:)? (day \d|\d)`, `$1`,
	`\bor (\d+ to \d+ days)\b`, `$1`,
	`, or (\w+ (?:weeks?|days?))\b,?`, `, $1,`,

	// about
	`\b(day \d+|\d+(?: days?| c| g| l| mg/l)?) or so\b`, `about $1`,
	`\b(?:somewhere )?around about\b`, `about`,
	`\b(?:of )?some (\d+ days)\b`, `about $1`,
	`\bup to (about |around |roughly )?(\d)`, `to $1$2`,

	`\bat once\b`, `at-once`,
	`\bin order to\b`, `to`,
	`\b(told|tell)( me)? about\b`, `$1 of`,

	// times
	`\b(\w+) days? away\b`, `in $1 days`,
	`\bweeks' time\b`, `weeks`,
	`\b(?:within|in|over|during) the (?:next|coming) (\w+(?: days?| weeks?)?)\b`, `within $1`,
	`\b(?:which |that |this |it )?(?:falls|is) on an? (monday|tuesday|wednesday|thursday|friday|saturday|sunday)\b`, ` $1 `,
	`\b(?:which |that |it )?falls on (monday|tuesday|wednesday|thursday|friday|saturday|sunday|\d)`, ` $1`,
	`\b(?:this|next|the|a) (monday|tuesday|wednesday|thursday|friday|saturday|sunday)\b`, ` $1 `,
	`\bdaily\b`, `every day`,
	`\bevery (?:other|second) day\b`, `every 2 days`,
	`\b([\d.]+ ?[cf]) (?:each|every|per) day\b`, `$1 a day`,
	`\bat (?:that|this) (?:point|time|moment|stage)\b`, ` then `,
	`\b(?:after that|after this|afterwards)\b`, ` then `,

	// fractions
	`\bone third\b`, `a third`,
	`\bhalf of it\b`, `half`,
	`\b(?:an? )?(?:even|fifty-fifty|50-50) chance\b`, `50 % chance`,
	`\b(?:a|one) quarter (of a chance|chance)\b`, `25 % chance`,
)
