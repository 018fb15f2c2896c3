package stopwatch

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"headhours/timing/words"
)

// disk is what a journal needs of its file; a test puts one in its place whose
// disk is full.
type disk interface {
	io.WriteCloser
	Sync() error
	Stat() (fs.FileInfo, error)
	Truncate(size int64) error
}

// openFile opens a journal to append to, and makes it, and its folder, where
// they are missing, so that both last through a power cut.
func openFile(path string) (disk, error) {
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o644)
	if err != nil {
		return nil, err
	}
	syncFolder(dir)
	syncFolder(filepath.Dir(dir))
	return appending{f}, nil
}

// appending is a file that is open to append to. Some systems cut such a file
// only by its name.
type appending struct{ *os.File }

func (a appending) Truncate(size int64) error { return os.Truncate(a.Name(), size) }

// syncFolder makes a new name in a folder last, where the file system can.
func syncFolder(dir string) {
	if d, err := os.Open(dir); err == nil {
		_ = d.Sync()
		d.Close()
	}
}

// inPlainWords says why a journal cannot be written.
func inPlainWords(path string, err error) error {
	if pe, ok := errors.AsType[*fs.PathError](err); ok {
		err = pe.Err // the name stands in front already
	}
	if errors.Is(err, errGrown) || errors.Is(err, errReplaced) {
		return fmt.Errorf("%s %w", path, err)
	}
	if why := words.WhyNotWritten(err); why != "" {
		return fmt.Errorf("%s cannot be written: %s (%w)", path, why, err)
	}
	return fmt.Errorf("%s cannot be written: %w", path, err)
}

// errGrown is the error of a journal that has grown since it was opened: another
// recorder writes to it.
var errGrown = errors.New("has changed since it was opened: another recorder writes to it")
