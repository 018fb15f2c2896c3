package folder

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
)

// WriteFile writes a file whole or not at all: what fill writes goes to a
// temporary file beside it, which is synced and then renamed into place, so that
// a failed or broken-off run leaves the old file as it was, and no other. The error is
// fill's or the file system's; one that cannot sync is written to all the same. A link is followed; what is no regular file, such as a pipe
// or a device, is written to as it is.
func WriteFile(name string, fill func(io.Writer) error) (err error) {
	if target, err := filepath.EvalSymlinks(name); err == nil {
		name = target
	}
	switch info, err := os.Stat(name); {
	case err == nil && info.IsDir():
		return &fs.PathError{Op: "write", Path: name, Err: errIsFolder}
	case err == nil && !info.Mode().IsRegular():
		return writeThrough(name, fill)
	}
	temporary, err := os.CreateTemp(filepath.Dir(name), "."+filepath.Base(name)+".*")
	if err != nil {
		return about(name, err)
	}
	defer removedAtInterrupt(temporary.Name())()
	defer func() {
		if err != nil {
			temporary.Close()
			os.Remove(temporary.Name())
		}
		if fault, ok := errors.AsType[*fs.PathError](err); ok && fault.Path == temporary.Name() {
			err = about(name, err)
		}
	}()
	if err = fill(temporary); err != nil {
		return err
	}
	if err = temporary.Chmod(0o644); err != nil {
		return err
	}
	if err = temporary.Sync(); err != nil && !cannotSync(err) {
		return err
	}
	if err = temporary.Close(); err != nil {
		return err
	}
	if err = os.Rename(temporary.Name(), name); err != nil {
		return about(name, err)
	}
	syncFolder(filepath.Dir(name))
	return nil
}

var errIsFolder = errors.New("is a folder, want a file")

// about is an error of the temporary file as one of the file that was asked for.
func about(name string, err error) error {
	if path, ok := errors.AsType[*fs.PathError](err); ok {
		err = path.Err
	}
	if link, ok := errors.AsType[*os.LinkError](err); ok {
		err = link.Err
	}
	return &fs.PathError{Op: "write", Path: name, Err: err}
}

// cannotSync tells a file system that has no way to sync from one that failed to.
func cannotSync(err error) bool {
	return errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.EINVAL)
}

// writeThrough writes to what is there already and is no regular file.
func writeThrough(name string, fill func(io.Writer) error) error {
	f, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	if err := fill(f); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}

// syncFolder makes a rename last through a power cut where the file system can;
// where it cannot, the file itself is still whole.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		d.Close()
	}
}
