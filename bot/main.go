// Command bot tells keepers of new aquariums when their tank will be ready for
// animals, how sure that is, and what slows it. Without arguments it is a chat
// in this terminal, on a database on this computer.
//
// This file alone knows the machine: its clock, its user, its terminal.
package main

import (
	"context"
	"crypto/rand"
	"io"
	"os"
	"os/signal"
	"os/user"
	"syscall"
	"time"

	"golang.org/x/term"
)

// Machine is what the program needs to know of the machine that it runs on.
type Machine struct {
	In        io.Reader
	Out, Err  io.Writer
	Terminal  bool                   // In and Out are a terminal
	Now       func() time.Time       // the clock of the local chat
	ConfigDir func() (string, error) // where programs keep their files
	Getenv    func(string) string
	User      string // the local user's name, as the system has it
	Session   string // sets this run apart from all others
}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	m := Machine{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr,
		Terminal:  term.IsTerminal(int(os.Stdin.Fd())) && term.IsTerminal(int(os.Stdout.Fd())),
		Now:       time.Now,
		ConfigDir: os.UserConfigDir,
		Getenv:    os.Getenv,
		Session:   rand.Text(),
	}
	if u, err := user.Current(); err == nil {
		m.User = u.Username
	}
	code := Run(ctx, m, os.Args[1:])
	stop()
	os.Exit(code)
}
