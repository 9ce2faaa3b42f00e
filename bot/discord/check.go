package discord

import (
	"errors"
	"fmt"
	"regexp"

	"github.com/bwmarrin/discordgo"
)

// commandName is what the platform takes as the name of a command or an option.
var commandName = regexp.MustCompile(`^[-_a-z0-9]{1,32}$`)

// maxCommand is how many characters a command may have in all: names,
// descriptions and values.
const maxCommand = 8000

// checkCommands returns what the platform would refuse of commands, nil if
// nothing.
func checkCommands(all []*discordgo.ApplicationCommand) error {
	var errs []error
	most := map[discordgo.ApplicationCommandType]int{discordgo.ChatApplicationCommand: 100, discordgo.UserApplicationCommand: 15, discordgo.MessageApplicationCommand: 15}
	count := map[discordgo.ApplicationCommandType]int{}
	seen := map[string]bool{}
	for _, c := range all {
		fail := func(format string, args ...any) { errs = append(errs, fmt.Errorf(c.Name+": "+format, args...)) }
		if count[c.Type]++; count[c.Type] == most[c.Type]+1 {
			fail("more than %d commands of its type", most[c.Type])
		}
		if key := fmt.Sprint(c.Type, c.Name); seen[key] {
			fail("stands twice")
		} else {
			seen[key] = true
		}
		if c.Type != discordgo.ChatApplicationCommand {
			if n := length(c.Name); n < 1 || n > 32 || c.Description != "" || len(c.Options) > 0 {
				fail("a menu has a name of 1 to 32 characters, no description and no options")
			}
			continue
		}
		if n := length(c.Description); n < 1 || n > maxHint {
			fail("description of %d characters", n)
		}
		if !commandName.MatchString(c.Name) {
			fail("not a name")
		}
		checkOptions(c.Options, fail)
		if n := weight(c.Name, c.Description, c.Options); n > maxCommand {
			fail("%d characters in all, more than %d", n, maxCommand)
		}
	}
	return errors.Join(errs...)
}

func checkOptions(all []*discordgo.ApplicationCommandOption, fail func(string, ...any)) {
	if len(all) > maxChoices {
		fail("%d options, more than %d", len(all), maxChoices)
	}
	seen, optional := map[string]bool{}, false
	for _, o := range all {
		if !commandName.MatchString(o.Name) || seen[o.Name] {
			fail("%s is not a name or stands twice", o.Name)
		}
		seen[o.Name] = true
		if n := length(o.Description); n < 1 || n > maxHint {
			fail("%s has a description of %d characters", o.Name, n)
		}
		if o.Required && optional {
			fail("%s is needed but stands behind one that is not", o.Name)
		}
		optional = optional || !o.Required
		if len(o.Choices) > maxChoices || o.Autocomplete && len(o.Choices) > 0 {
			fail("%s has %d choices, or choices and completion", o.Name, len(o.Choices))
		}
		for _, c := range o.Choices {
			if n, v := length(c.Name), length(fmt.Sprint(c.Value)); n < 1 || n > maxHint || v < 1 || v > maxHint {
				fail("%s has the choice %q, whose length does not fit", o.Name, c.Name)
			}
		}
		if o.Type == discordgo.ApplicationCommandOptionSubCommand {
			checkOptions(o.Options, fail)
		}
	}
}

// weight counts the characters of a command.
func weight(name, description string, options []*discordgo.ApplicationCommandOption) int {
	n := length(name) + length(description)
	for _, o := range options {
		n += weight(o.Name, o.Description, o.Options)
		for _, c := range o.Choices {
			n += length(c.Name) + length(fmt.Sprint(c.Value))
		}
	}
	return n
}
