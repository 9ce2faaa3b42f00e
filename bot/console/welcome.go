package console

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"ripen/bot/page"
	"ripen/commands"
)

// firstWords greet someone who has no tank yet. %s is the nickname.
const firstWords = `
A new aquarium has to grow the bacteria that make its water safe. Tell me about
the tank, note what your test kits show, and I say when it will likely be ready
for animals, how sure that is, and what slows it down.

Type this first, with your own numbers:
  /tank new name:"first tank" volume:60L ph:7.4 kh:5dKH temp:25C
and whenever you have tested the water:
  /reading ammonia:2 nitrite:0.25 nitrate:5
Then ask:
  /outlook   when will it be ready, and how sure is that
  /why       what slows it down, and what to do about it

/help lists every command. The Tab key completes what you type. Ctrl-D ends.
`

// welcome prints the first screen.
func (c *Console) welcome(ctx context.Context) error {
	who := "You are " + c.Member
	if c.Moderator {
		who += ", a moderator"
	}
	head := "Ripen - a chat on this computer; nothing you type leaves it.\n" + who + "."
	if c.Place != "" {
		head += " Your record: " + c.Place
	}
	tanks, err := c.Tanks(ctx)
	if err != nil {
		return fmt.Errorf("listing the tanks of %s: %w", c.Member, err)
	}
	if len(tanks) == 0 {
		return c.print(page.Wrap(head, page.Width, ""), firstWords)
	}
	const most = 6
	names := strings.Join(tanks[:min(len(tanks), most)], ", ")
	if more := len(tanks) - most; more > 0 {
		names += fmt.Sprintf(" and %d more", more)
	}
	next := "Type /reading with what your kits show, then /outlook or /why; /help lists every command. Ctrl-D ends."
	return c.print(page.Wrap(head+"\nYour tanks: "+names+".\n"+next, page.Width, ""), "")
}

// hint answers a line that is neither a command nor an !add.
func (c *Console) hint(line string) string {
	first := strings.ToLower(strings.Trim(strings.Fields(line)[0], ".,:;!?"))
	if slices.ContainsFunc(c.Book.Specs(), func(s commands.Spec) bool { return s.Name == first && !s.Post }) {
		return fmt.Sprintf("Commands start with a slash: did you mean /%s? Nothing was stored.", first)
	}
	if strings.ContainsAny(line, "0123456789") {
		return "Nothing was stored. To have the readings taken from your words, put !add before them: !add " + page.Typed(line)
	}
	return "Nothing was stored. Commands start with a slash (/help lists them); !add before a post takes the readings from it."
}
