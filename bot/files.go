package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"ripen/commands"
)

// attach puts the files that a request names into it, where requests name files.
func (a *app) attach(r *commands.Request) *commands.Error {
	if a.files == nil {
		return nil
	}
	i := slices.IndexFunc(a.Specs(), func(s commands.Spec) bool {
		return strings.EqualFold(s.Name, r.Command) && strings.EqualFold(s.Sub, r.Sub)
	})
	if i < 0 {
		return nil
	}
	for _, o := range a.Specs()[i].Options {
		name, given := r.Options[o.Name]
		if o.Type != commands.TypeFile || !given {
			continue
		}
		data, err := a.files(name)
		if path, ok := errors.AsType[*fs.PathError](err); ok {
			err = path.Err
		}
		if err != nil {
			return &commands.Error{Code: commands.CodeMissing, Option: o.Name, Message: fmt.Sprintf("the file %q can't be read: %s; name one that is there", name, oneLine(err))}
		}
		r.Files = append(r.Files, commands.File{Name: filepath.Base(name), Data: data})
	}
	return nil
}

// filesIn returns a reader of the files of a folder, and of those below it only.
func filesIn(dir string) func(string) ([]byte, error) {
	return func(name string) ([]byte, error) {
		root, err := os.OpenRoot(dir)
		if err != nil {
			return nil, err
		}
		defer root.Close()
		f, err := root.Open(name)
		if err != nil {
			return nil, err
		}
		return readSome(f)
	}
}

// anyFile reads a file of this computer.
func anyFile(name string) ([]byte, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	return readSome(f)
}

// readSome reads a file up to one byte more than is taken, and closes it.
func readSome(f *os.File) ([]byte, error) {
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, commands.MaxFile+1))
}
