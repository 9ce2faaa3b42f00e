package console

import (
	"slices"
	"testing"

	"ripen/commands"
)

var specs = []commands.Spec{
	{Name: "tank", Sub: "new", Options: []commands.Option{{Name: "name"}, {Name: "volume"}, {Name: "method", Choices: []string{"dosed", "dark-start"}}}},
	{Name: "tank", Sub: "show", Options: []commands.Option{{Name: "tank", Type: commands.TypeTank}}},
	{Name: "outlook", Options: []commands.Option{{Name: "tank", Type: commands.TypeTank}, {Name: "on"}, {Name: "member", Moderator: true}}},
	{Name: "club", Sub: "slow", Moderator: true},
	{Name: "add", Post: true},
	{Name: "help"},
}

func TestCompleter_Complete(t *testing.T) {
	tests := []struct {
		reason, line string
		moderator    bool
		head         string
		words        []string
	}{
		{reason: "all commands, each once", line: "/", words: []string{"/tank ", "/outlook ", "/help "}},
		{reason: "a command", line: "/ta", words: []string{"/tank "}},
		{reason: "capitals", line: "/OUT", words: []string{"/outlook "}},
		{reason: "moderators' commands", line: "/c", moderator: true, words: []string{"/club "}},
		{reason: "not for others", line: "/c"},
		{reason: "a post", line: "!", words: []string{"!add "}},
		{reason: "sub-commands", line: "/tank ", head: "/tank ", words: []string{"new ", "show "}},
		{reason: "options that are not there yet", line: "/tank new volume:60L ", head: "/tank new volume:60L ", words: []string{"name:", "method:"}},
		{reason: "an option", line: "/tank new me", head: "/tank new ", words: []string{"method:"}},
		{reason: "choices", line: "/tank new method:d", head: "/tank new ", words: []string{"method:dosed ", "method:dark-start "}},
		{reason: "a choice", line: "/tank new method:da", head: "/tank new ", words: []string{"method:dark-start "}},
		{reason: "blanks inside quotes", line: `/tank new name:"my own" me`, head: `/tank new name:"my own" `, words: []string{"method:"}},
		{reason: "the member's tanks, quoted where they must", line: "/outlook tank:", head: "/outlook ", words: []string{"tank:reef ", `tank:"moss \"big\" bowl" `}},
		{reason: "a tank inside its quotes", line: `/outlook tank:"moss`, head: "/outlook ", words: []string{`tank:"moss \"big\" bowl" `}},
		{reason: "moderators' options", line: "/outlook m", moderator: true, head: "/outlook ", words: []string{"member:"}},
		{reason: "words of help", line: "/help tank ", head: "/help tank ", words: []string{"new ", "show "}},
		{reason: "nothing fits", line: "/tank new zzz", head: "/tank new "},
		{reason: "an unknown command", line: "/zzz ", head: "/zzz "},
	}
	for _, tt := range tests {
		t.Run(tt.reason, func(t *testing.T) {
			c := Completer{Specs: specs, Moderator: tt.moderator, Tanks: func() []string { return []string{"reef", `moss "big" bowl`} }}
			head, words, tail := c.Complete(tt.line+" tail", len(tt.line))
			if head != tt.head || !slices.Equal(words, tt.words) || tail != " tail" {
				t.Errorf("got %q %q %q, want %q %q", head, words, tail, tt.head, tt.words)
			}
		})
	}
}
