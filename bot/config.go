package main

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"github.com/alecthomas/kong"

	"ripen/bot/talk"
)

// Config is what the command line asks for.
type Config struct {
	Console ConsoleConfig `cmd:"" default:"withargs" help:"Chat in this terminal (what happens without a command and without a token in $$RIPEN_DISCORD_TOKEN)."`
	Replay  ReplayConfig  `cmd:"" help:"Run a script of commands and print the answers."`
	Demo    DemoConfig    `cmd:"" help:"Walk through the job with an invented club; nothing is kept."`
	Serve   ServeConfig   `cmd:"" help:"Serve clubs on Discord; the token is in $$RIPEN_DISCORD_TOKEN."`
	Check   ServeConfig   `cmd:"" help:"Say what keeps the bot from serving on Discord, and where to invite it."`
	Learn   LearnConfig   `cmd:"" help:"Learn from the tanks of a database, as serve does once a day, and say what."`
	Study   StudyConfig   `cmd:"" help:"Ask how well the engine does, on simulated tanks."`
	Help    HelpConfig    `cmd:"" help:"Show this help, or that of one command."`
}

// ConsoleConfig asks for the local chat.
type ConsoleConfig struct {
	DB        string `name:"db" placeholder:"FILE" help:"Database file, made when it is not there. Default: $$RIPEN_DB, else ripen/ripen.db in your configuration folder."`
	Member    string `placeholder:"NAME" help:"Your nickname: letters, digits, - and _. Default: your user name on this computer."`
	Moderator bool   `help:"Chat with the rights of a moderator."`
	Pictures  string `placeholder:"DIR" help:"Save pictures of replies in this folder, and say where."`
}

// ReplayConfig asks for a script.
type ReplayConfig struct {
	DB     string `name:"db" placeholder:"FILE" help:"Database file, made when it is not there. Default: a fresh one that is thrown away."`
	JSON   bool   `name:"json" help:"Answer each command with one JSON object on one line."`
	Words  bool   `help:"Let the language model of $$RIPEN_LLM_URL phrase replies; they then differ from run to run."`
	Script string `arg:"" optional:"" default:"-" help:"The script; - is the standard input."`
}

// Help tells what a script looks like.
func (ReplayConfig) Help() string {
	return `A script has one command a line, with its time and its member:

  2026-03-01T09:00:00Z @wren /tank new name:"moss bowl" volume:60L
  2026-03-04T09:00:00Z @wren !add day 3: ammonia 2, nitrite 0.25
  2026-03-04T09:05:00Z @tern+moderator /outlook member:wren

Blank lines and lines that start with # are skipped. A line without a slash is an ordinary post and has no answer, unless !add stands before it. \n in an !add stands for a line break. A line that was taken before on the same database adds nothing.`
}

// DemoConfig asks for the guided demonstration.
type DemoConfig struct {
	Stay bool `help:"Chat on in the invented club afterwards."`
}

// HelpConfig asks for help.
type HelpConfig struct {
	Command string `arg:"" optional:"" help:"The command to explain."`
}

// usageError is a command line that can't be understood.
type usageError struct{ err error }

func (e *usageError) Error() string { return e.err.Error() + "; bot help lists what there is" }
func (e *usageError) Unwrap() error { return e.err }

// errHelpShown is what ParseArgs returns after it printed help.
var errHelpShown = errors.New("help shown")

// ParseArgs reads a command line. command is "console", "replay", "demo",
// "serve", "check", "learn", "help", or "study" with the name of a study after it. The error is a usageError, or errHelpShown when help was asked for and printed
// to out.
func ParseArgs(args []string, out io.Writer) (c Config, command string, err error) {
	helped := false
	parser, err := kong.New(&c,
		kong.Name("bot"),
		kong.Description("Tells keepers of new aquariums when their tank will be ready for animals, how sure that is, and what slows it.\n\nWithout a command it is a chat in this terminal, on a database on this computer; type /help there. With a token in RIPEN_DISCORD_TOKEN it serves Discord instead."),
		kong.Writers(out, out),
		kong.Exit(func(int) { helped = true }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, WrapUpperBound: 80}),
	)
	if err != nil {
		return c, "", err
	}
	parsed, err := parser.Parse(args)
	switch {
	case helped:
		return c, "", errHelpShown
	case err != nil:
		return c, "", &usageError{err}
	}
	command = parsed.Selected().Name
	if over := parsed.Selected().Parent; over != nil && over.Type == kong.CommandNode {
		command = over.Name + " " + command
	}
	if c.Console.Member != "" {
		if err := talk.CheckName(c.Console.Member); err != nil {
			return c, "", &usageError{fmt.Errorf("--member: %w", err)}
		}
	}
	if command == "help" {
		ask := []string{"--help"}
		if c.Help.Command != "" {
			ask = []string{c.Help.Command, "--help"}
		}
		return ParseArgs(ask, out)
	}
	return c, command, nil
}

// DatabasePath returns the file of the local chat: the option, else the
// variable RIPEN_DB, else ripen/ripen.db in the user's configuration folder.
// standard says that it is the last, whose folder may have to be made.
func DatabasePath(option string, m Machine) (path string, standard bool, err error) {
	if option != "" {
		return option, false, nil
	}
	if path := m.Getenv("RIPEN_DB"); path != "" {
		return path, false, nil
	}
	dir, err := m.ConfigDir()
	if err != nil {
		return "", false, fmt.Errorf("no place for the database: %w; name one with --db FILE", err)
	}
	return filepath.Join(dir, "ripen", "ripen.db"), true, nil
}
