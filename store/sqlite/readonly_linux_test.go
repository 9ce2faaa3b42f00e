package sqlite

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"

	"ripen/store"
)

func TestOpenWithoutPermission(t *testing.T) {
	own := ownFile(t)
	tests := []struct {
		name         string
		content      []byte // nil: no file
		file, folder os.FileMode
		want         error
	}{
		{"NewInReadOnlyFolder", nil, 0, 0o555, store.ErrReadOnly},
		{"OwnInReadOnlyFolder", own, 0o444, 0o555, store.ErrReadOnly},
		{"OwnWritableInReadOnlyFolder", own, 0o666, 0o555, store.ErrReadOnly},
		{"OwnReadOnly", own, 0o444, 0o777, store.ErrReadOnly},
		{"EmptyReadOnly", []byte{}, 0o444, 0o777, store.ErrReadOnly},
		{"FolderNotToBeEntered", own, 0o666, 0o666, store.ErrReadOnly},
		{"Unreadable", own, 0, 0o777, store.ErrNotDatabase},
		{"OtherInReadOnlyFolder", []byte("day 1: ammonia 2 ppm, nitrite 0, nitrate 5, no change since, all well, will look again tomorrow at nine\n"), 0o444, 0o555, store.ErrNotDatabase},
		{"OK", own, 0o666, 0o777, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "ripen.db")
			if tt.content != nil {
				write(t, path, tt.content)
				chmod(t, path, tt.file)
			}
			chmod(t, dir, tt.folder)
			t.Cleanup(func() { chmod(t, dir, 0o777) })
			asOrdinaryUser(t, dir, func() {
				db, err := Open(path)
				if !errors.Is(err, tt.want) {
					t.Errorf("error is %v, want %v", err, tt.want)
				}
				if err == nil {
					db.Close()
				}
			})
		})
	}
}

func TestOpenInAKernelFolder(t *testing.T) {
	if _, err := Open("/proc/ripen.db"); !errors.Is(err, store.ErrReadOnly) {
		t.Errorf("error is %v, want ErrReadOnly", err)
	}
	if _, err := Open("/dev/null"); !errors.Is(err, store.ErrNotDatabase) {
		t.Errorf("error is %v, want ErrNotDatabase", err)
	}
	pipe := filepath.Join(t.TempDir(), "pipe")
	if err := syscall.Mkfifo(pipe, 0o666); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(pipe); !errors.Is(err, store.ErrNotDatabase) {
		t.Errorf("error is %v, want ErrNotDatabase", err)
	}
}

// asOrdinaryUser runs fn as a user whom permissions bind, even if the test is
// run by root, whom they do not. Linux keeps that identity per thread.
func asOrdinaryUser(t *testing.T, dir string, fn func()) {
	t.Helper()
	if os.Getuid() == 0 {
		const nobody = 65534
		chmod(t, filepath.Dir(dir), 0o755)
		runtime.LockOSThread()
		defer runtime.UnlockOSThread()
		syscall.RawSyscall(syscall.SYS_SETFSUID, nobody, 0, 0)
		defer syscall.RawSyscall(syscall.SYS_SETFSUID, 0, 0, 0)
		if _, err := os.Stat(dir); err != nil {
			t.Skipf("an ordinary user cannot get there: %v", err)
		}
	}
	fn()
}

func chmod(t *testing.T, path string, mode os.FileMode) {
	t.Helper()
	if err := os.Chmod(path, mode); err != nil {
		t.Fatal(err)
	}
}
