package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"ripen/bot/console"
	"ripen/bot/demo"
	"ripen/bot/replay"
	"ripen/bot/talk"
	"ripen/bot/words"
	"ripen/commands"
)

// club is the club of everything that runs on this computer.
const club = "local"

// Exit statuses.
const (
	exitOK     = 0
	exitFailed = 1 // the script can't be read, the database failed, ...
	exitUsage  = 2 // the command line can't be understood
)

// Run runs the program with the arguments after its name and returns its exit
// status. A failure is one line on m.Err: what, which value, what to try.
func Run(ctx context.Context, m Machine, args []string) int {
	c, command, err := ParseArgs(args, m.Out)
	if len(args) == 0 && m.Getenv(tokenVariable) != "" {
		command = "serve" // who set a token wants a bot; the chat is there by its name
	}
	switch {
	case errors.Is(err, errHelpShown):
		return exitOK
	case err != nil:
	case command == "replay":
		err = runReplay(ctx, m, c.Replay)
	case command == "demo":
		err = runDemo(ctx, m, c.Demo)
	case command == "serve":
		err = runServe(ctx, m, c.Serve)
	case command == "check":
		err = runCheck(ctx, m, c.Check)
	case command == "learn":
		err = runLearn(ctx, m, c.Learn)
	case strings.HasPrefix(command, "study "):
		err = runStudy(ctx, m, c.Study, command)
	default:
		err = runConsole(ctx, m, c.Console)
	}
	if err == nil {
		return exitOK
	}
	fmt.Fprintln(m.Err, "bot:", oneLine(err))
	if _, ok := errors.AsType[*usageError](err); ok {
		return exitUsage
	}
	return exitFailed
}

// oneLine returns the text of an error on one line.
func oneLine(err error) string { return strings.Join(strings.Fields(err.Error()), " ") }

func runReplay(ctx context.Context, m Machine, c ReplayConfig) (err error) {
	script := m.In
	if c.Script != "-" {
		f, err := openScript(c.Script)
		if err != nil {
			return err
		}
		defer f.Close()
		script = f
	}
	var stage *words.Stage
	var more []commands.Setting
	if c.Words {
		if stage, more, err = (LLMConfig{}).phrased(m, m.Err); err != nil {
			return err
		}
	}
	open := openTemporary
	if c.DB != "" {
		open = func(log io.Writer, more ...commands.Setting) (*app, error) { return openFile(c.DB, log, more...) }
	}
	a, err := open(m.Err, more...)
	if err != nil {
		return err
	}
	a.words = stage
	defer a.closeInto(&err)
	a.files = filesIn(filepath.Dir(c.Script)) // of the standard input: of the folder that it runs in
	show := replay.Transcript(m.Out)
	if c.JSON {
		show = replay.JSON(m.Out)
	}
	if err := replay.Run(ctx, a, club, script, show); err != nil {
		return fmt.Errorf("replaying %s: %w", scriptName(c.Script), err)
	}
	return nil
}

// openScript opens a script, and refuses what is no file before anything else
// is touched.
func openScript(path string) (*os.File, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("%w: %w; name a text file, or - for the standard input", replay.ErrScript, err)
	}
	if info, err := f.Stat(); err == nil && info.IsDir() {
		f.Close()
		return nil, fmt.Errorf("%w: %s is a folder; name a text file in it", replay.ErrScript, path)
	}
	return f, nil
}

func scriptName(path string) string {
	if path == "-" {
		return "the standard input"
	}
	return path
}

func runConsole(ctx context.Context, m Machine, c ConsoleConfig) (err error) {
	path, standard, err := DatabasePath(c.DB, m)
	if err != nil {
		return err
	}
	if standard {
		if err := makeFolder(path); err != nil {
			return err
		}
	}
	stage, more, err := (LLMConfig{}).phrased(m, m.Err)
	if err != nil {
		return err
	}
	a, err := openFile(path, m.Err, more...)
	if err != nil {
		return err
	}
	a.words = stage
	defer a.closeInto(&err)
	a.files = anyFile
	member := c.Member
	if member == "" {
		member = talk.Nickname(m.User)
	}
	return chat(ctx, m, a, chatter{member: member, moderator: c.Moderator, place: path, history: path + ".history", now: m.Now, pictures: c.Pictures})
}

func runDemo(ctx context.Context, m Machine, c DemoConfig) (err error) {
	a, err := openTemporary(m.Err)
	if err != nil {
		return err
	}
	defer a.closeInto(&err)
	if err := demo.Run(ctx, a, club, m.Out); err != nil || !c.Stay {
		return err
	}
	began := m.Now()
	return chat(ctx, m, a, chatter{
		member: demo.Member, moderator: true, place: "a demonstration that is thrown away",
		now: func() time.Time { return demo.Now.Add(m.Now().Sub(began)) },
	})
}

// chatter is who chats, and what they chat on.
type chatter struct {
	member    string
	moderator bool
	place     string
	history   string // file of earlier lines, "" for none
	now       func() time.Time
	pictures  string // folder that pictures are saved in, "" for none
}

// chat runs a console until it ends.
func chat(ctx context.Context, m Machine, a *app, who chatter) error {
	tanks := func(ctx context.Context) ([]string, error) { return a.openTanks(ctx, who.member) }
	var input console.Input = console.NewPlain(m.In, m.Out, !m.Terminal)
	if m.Terminal && console.EditorSupported() {
		editor := console.NewEditor(who.history, console.Completer{
			Specs: a.Specs(), Moderator: who.moderator,
			Tanks: func() []string {
				names, _ := tanks(ctx) // without the database there is nothing to complete
				return names
			},
		})
		defer editor.Close()
		input = editor
	}
	c := console.Console{
		Book: a, Input: input, Output: m.Out, Now: who.now, Club: club, Member: who.member, Moderator: who.moderator,
		Session: m.Session, Tanks: tanks, Place: who.place,
	}
	if who.pictures != "" {
		c.Save = func(f commands.File) (string, error) { return save(who.pictures, f, who.now()) }
	}
	return c.Run(ctx)
}

// save writes a file of a reply into a folder, under a name that tells when.
func save(dir string, f commands.File, at time.Time) (where string, err error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", err
	}
	where = filepath.Join(dir, at.UTC().Format("20060102-150405-")+f.Name)
	return where, os.WriteFile(where, f.Data, 0o644)
}
