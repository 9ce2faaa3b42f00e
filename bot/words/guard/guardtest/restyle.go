package guardtest

import (
	"regexp"
	"strings"
)

// styles is how many answers the templates make of each draft.
const styles = 8

// aTemplate puts what matches in other words; which ones, the half and the style say.
type aTemplate struct {
	pattern   string
	dev, held []string
}

// templates are applied in this order, each to what the ones before left.
var templates = []aTemplate{
	{`Most likely done around (day \d+), that is (\d+ \w+ \d+) \(one chance in ten: before (day \d+); nine in ten: by (day \d+)\)\.`,
		[]string{
			"TANK is most likely done around $1, that is $2. There is one chance in ten that it is done before $3, and nine in ten that it is done by $4.",
			"Most likely TANK will be done around $2 ($1). One chance in ten: before $3. Nine chances in ten: by $4.",
			"I expect TANK to be done around $1, which is $2. It is done before $3 with one chance in ten, and by $4 with nine chances in ten.",
		}, []string{
			"The most likely day for TANK to be done is $1 ($2). With one chance in ten it is done before $3; with nine chances in ten it is done by $4.",
			"Around $1, on $2, TANK is most likely done. The chance that it is done before $3 is one in ten, and the chance that it is done by $4 is nine in ten.",
			"TANK should be done around $2, most likely on $1. There is a 10 % chance that it is done before $3 and a 90 % chance that it is done by $4.",
		}},
	{`Most likely done around (day \d+), that is (\d+ \w+ \d+) \(one chance in ten: before (day \d+); more than one in ten: not within 180 days of the start\)\.`,
		[]string{"TANK is most likely done around $1, that is $2. There is one chance in ten that it is done before $3, and more than one in ten that it is not done within 180 days of the start."},
		[]string{
			"The most likely day for TANK to be done is $1 ($2). There is one chance in ten for before $3, but more than one in ten that it is not done within 180 days of the start.",
			"TANK will most likely be done around $2, $1. One chance in ten: before $3. More than one in ten: not within 180 days of the start.",
		}},
	{`Most likely done around (day \d+), that is (\d+ \w+ \d+) \(it may be done already; nine chances in ten: by (day \d+)\)\.`,
		[]string{"TANK is most likely done around $1 ($2). It may be done already; nine chances in ten that it is done by $3.", "Most likely TANK is done around $2, that is $1. It may be done already, and there are nine chances in ten that it is done by $3."},
		[]string{"The most likely day for TANK to be done is $1 ($2). It may be done already, and with nine chances in ten it is done by $3."}},
	{`Hardly done within (180 days) of the start as things are\. Ask /why what holds it up\.`,
		[]string{"As things are, TANK is hardly done within $1 of the start. Please ask /why what holds it up.", "TANK will hardly be done within $1 of the start, as things are. Ask /why what holds it up."}, nil},
	{`Most likely not done within (180 days) of the start; one chance in ten that it is done before (day \d+) \((\d+ \w+ \d+)\)\.`,
		nil, []string{
			"TANK is most likely not done within $1 of the start. One chance in ten that it is done before $2 ($3).",
			"TANK will most likely not be done within $1 of the start, but there is one chance in ten that it is done before $2, that is $3.",
		}},
	{`By (day \d+) \((\d+ \w+ \d+)\) the chance that it is done is (\d+) %\.`,
		nil, []string{"The chance that it is done by $1 ($2) is $3 %.", "By $2, that is $1, there is a $3 % chance that it is done."}},
	{`TANK is at (day \d+)\. (First|Second|Last) stage: `,
		[]string{"It is at $1 now. $2 stage: ", "TANK is at $1, in its $2 stage: ", "We are at $1, the $2 stage: "},
		[]string{"Today is $1. This is the $2 stage: ", "TANK has come to $1 and is in the $2 stage: ", "At $1 it is still in the $2 stage: "}},
	{`what eats ammonia is still growing; ammonia stands, and nitrite comes once it falls\.`,
		[]string{"what eats ammonia is still growing. Ammonia stands, and nitrite comes once it falls.", "what eats ammonia still grows; ammonia stands, and nitrite comes once ammonia falls."},
		[]string{"what eats ammonia is still growing, so ammonia stands, and nitrite comes once it falls.", "what eats the ammonia is still growing. For now ammonia stands; nitrite comes once it falls."}},
	{`ammonia goes down by itself now; what eats nitrite is still growing\. This is often the longest part\.`,
		nil, []string{"ammonia goes down by itself now, but what eats nitrite is still growing. This is often the longest part.", "now ammonia goes down by itself, while what eats nitrite is still growing. Often this is the longest part."}},
	{`Chance that it is done within 7 days: (\d+) %, 14 days: (\d+) %, 30 days: (\d+) %, 60 days: (\d+) %\.`,
		[]string{
			"The chance that it is done is $1 % within 7 days, $2 % within 14 days, $3 % within 30 days and $4 % within 60 days.",
			"Chance of being done: $1% within 7 days, $2% within 14 days, $3% within 30 days, $4% within 60 days.",
			"Within 7 days it is done with a chance of $1 %, within 14 days with $2 %, within 30 days with $3 %, and within 60 days with $4 %.",
		}, []string{
			"The chance that it is done within a week is $1 %, within two weeks $2 %, within 30 days $3 % and within 60 days $4 %.",
			"There is a $1 % chance that it is done within 7 days, a $2 % chance within 14 days, a $3 % chance within 30 days and a $4 % chance within 60 days.",
			"Within seven days the chance that it is done is $1 %; within fourteen days it is $2 %, within thirty days $3 % and within sixty days $4 %.",
		}},
	{`Not within 180 days of the start: (\d+) %\.`,
		[]string{"The chance that it is not done within 180 days of the start is $1 %.", "Not done within 180 days of the start: $1 %."},
		[]string{"There is a $1 % chance that it is not done within 180 days of the start.", "The chance for not within 180 days of the start is $1 %."}},
	{`On the way: `, []string{"On the way, ", "Along the way: "}, []string{"Before that, ", "On the way "}},
	{`nitrite is highest around`, []string{"nitrite is highest around", "nitrite peaks around"}, []string{"nitrite reaches its highest around", "nitrite will be highest around"}},
	{`(ammonia|nitrite) clears around`, []string{"$1 clears around", "$1 will clear around"}, []string{"$1 is clear around", "$1 should clear around"}},
	{`\((day \d+) to (\d+)\)`, []string{"($1 to $2)", "(from $1 to $2)", "(between $1 and $2)"}, []string{"(between $1 and day $2)", "($1 to day $2)", "(anywhere from $1 to $2)"}},
	{`A test on (day \d+) will likely show ammonia (\S+) (\(.*?\)), nitrite (\S+) (\(.*?\)), nitrate (\S+) (\(.*?\)) mg/L\.`,
		[]string{
			"If you test on $1, you will likely see ammonia $2 $3, nitrite $4 $5 and nitrate $6 $7 mg/L.",
			"A test on $1 will likely show $2 mg/L of ammonia $3, $4 mg/L of nitrite $5 and $6 mg/L of nitrate $7.",
		}, []string{
			"On $1 your test will likely show ammonia at $2 mg/L $3, nitrite at $4 mg/L $5 and nitrate at $6 mg/L $7.",
			"When you test on $1, expect ammonia around $2 $3, nitrite around $4 $5 and nitrate around $6 $7 mg/L.",
		}},
	{`This assumes that you go on as now, `, []string{"All this assumes that you go on as now, ", "I assume that you go on as now, "}, []string{"This holds if you go on as now, ", "I take it that you go on as now, "}},
	{`It rests on (\d+) readings, which fit well together\.`, []string{"It rests on $1 readings, and they fit well together.", "This rests on $1 readings, which fit together well."}, []string{"It rests on your $1 readings, which fit well together.", "$1 readings are behind this, and they fit well together."}},
	{`It rests on 1 reading\.`, []string{"It rests on one reading.", "It rests on just 1 reading."}, nil},
	{`Next: test again on (day \d+) and tell me with /reading\. If it seems slow, ask /why\.`,
		[]string{"Next, test again on $1 and tell me with /reading. If it seems slow, ask /why.", "Please test again on $1, then tell me with /reading. If it seems slow, just ask /why."},
		[]string{"As a next step, test again on $1 and tell me with /reading; if it seems slow, ask /why.", "Please do test again on $1 and tell me the result with /reading. If it seems slow to you, ask /why."}},
	{`Next: `, []string{"Next, please ", "As a next step, "}, []string{"Your next step: ", "So next, "}},

	{`^TANK is slow at (day \d+), about (\d+) days behind the same tank without a fault\.`,
		[]string{"TANK is slow at $1; it is about $2 days behind the same tank without a fault.", "At $1, TANK is slow, about $2 days behind the same tank without a fault."},
		[]string{"TANK is running slow at $1: about $2 days behind the same tank without a fault.", "By $1 TANK is slow and has fallen about $2 days behind the same tank without a fault."}},
	{`^TANK is slow at (day \d+), and as things are it will hardly be done`,
		[]string{"At $1 TANK is slow, and as things are it will hardly be done", "TANK is slow at $1. As things are, it will hardly be done"},
		[]string{"TANK is running slow at $1, and as things stand it will hardly be done", "At $1, TANK is a slow one; as things are it will hardly be done"}},
	{`No fault shows in what you told: some tanks simply begin with few bacteria\.`,
		[]string{"No fault shows in what you told me; some tanks simply begin with few bacteria.", "What you told me shows no fault. Some tanks simply begin with few bacteria."},
		[]string{"There is no fault in what you told me. Some tanks simply begin with few bacteria.", "I can find no fault in what you told; some tanks just begin with few bacteria."}},
	{`Wait until about (day \d+) \((\d+ \w+ \d+)\) and look for`,
		[]string{"Please wait until about $1 ($2) and look for", "Wait until about $2, that is $1, and watch for"},
		[]string{"Be patient until about $1, $2, and look for", "You can wait until around $1 ($2); look for"}},
	{`Nothing is wrong: TANK is on track at (day \d+)\.`, []string{"Nothing is wrong, and TANK is on track at $1.", "TANK is on track at $1; nothing is wrong."}, []string{"All is well: TANK is on track at $1."}},
	{`(?m)^(\d\. [^:\n]+): (\d+) % likely, costs (about \d+ days?|less than a day)\.$`,
		[]string{"$1: this is $2 % likely and costs $3.", "$1 is $2% likely and costs $3."},
		[]string{"$1, with a chance of $2 %, costs $3.", "$1 ($2% likely): it costs $3."}},
	{`(?m)^   - (.*)$`, []string{"   - $1.", "   $1."}, []string{"   I see this: $1.", "   Here is why: $1."}},
	{`(?m)^   Do: `, []string{"   What to do: ", "   My advice: "}, []string{"   To put it right: ", "   This helps: "}},
	{`(?m)^   Do not `, []string{"   Please do not ", "   Don't "}, []string{"   But do not ", "   And please don't "}},
	{`(?m)^   To be sure: `, []string{"   To make sure: ", "   To be sure, look at this: "}, []string{"   What would settle it: ", "   To be really sure: "}},
}

// restyle puts a draft's body in the words of a style.
func restyle(d Draft, style int) string {
	text := d.Body
	for n, t := range templates {
		words := t.dev
		if d.Set != Development {
			words = t.held
		}
		if len(words) == 0 {
			continue
		}
		at := style>>(n%3) + n // so that styles mix
		pattern := regexp.MustCompile(t.pattern)
		text = pattern.ReplaceAllStringFunc(text, func(m string) string {
			at++
			return pattern.ReplaceAllString(m, words[at%len(words)])
		})
	}
	for _, stage := range []string{"First", "Second", "Last"} {
		text = strings.ReplaceAll(text, "its "+stage, "its "+strings.ToLower(stage))
		text = strings.ReplaceAll(text, "the "+stage, "the "+strings.ToLower(stage))
	}
	return text
}
