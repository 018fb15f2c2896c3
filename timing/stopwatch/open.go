package stopwatch

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"syscall"

	"headhours/timing/study"
)

// errNoFile is the error of what is named like a journal and is none.
var errNoFile = errors.New("is a pipe or a device, not a journal")

// errFolder is the error of a folder that is named like a journal.
var errFolder = errors.New("is a directory, not a journal")

// openToRead opens the file of a journal. What would keep a reader waiting, or never
// ends, is refused: a pipe, a device, a link that leads round, a folder, a file larger
// than 64 MiB. The error is an fs.PathError or study.TooLarge.
func openToRead(path string) (*os.File, error) {
	info, err := os.Stat(path)
	if err == nil {
		err = readable(path, info)
	}
	if err != nil {
		return nil, err
	}
	// It may have become a pipe since: opening one may not wait.
	f, err := os.OpenFile(path, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, err
	}
	if info, err = f.Stat(); err == nil {
		err = readable(path, info)
	}
	if err != nil {
		f.Close()
		return nil, err
	}
	return f, nil
}

func readable(path string, info fs.FileInfo) error {
	switch {
	case info.IsDir():
		return &fs.PathError{Op: "read", Path: path, Err: errFolder}
	case !info.Mode().IsRegular():
		return &fs.PathError{Op: "read", Path: path, Err: errNoFile}
	case info.Size() > maxJournal<<20:
		return study.TooLarge(maxJournal)
	}
	return nil
}

// readNamed reads a journal by the name of its file, whose bytes go to alike too, where
// that is not nil; see readContents and openToRead.
func readNamed(path string, alike io.Writer) (Contents, error) {
	f, err := openToRead(path)
	if err != nil {
		return Contents{}, err
	}
	defer f.Close()
	if alike == nil {
		return readContents(f, path)
	}
	return readContents(io.TeeReader(f, alike), path)
}

// unreadable is the error of a journal that was read, as problems that name its file.
func unreadable(path string, err error) study.Problems {
	if all, ok := errors.AsType[study.Problems](err); ok {
		return all
	}
	text := err.Error()
	if _, large := errors.AsType[study.TooLarge](err); !large {
		if pe, ok := errors.AsType[*fs.PathError](err); ok {
			err = pe.Err // the place names the file already
		}
		text = err.Error()
		if !errors.Is(err, errNoFile) {
			text = "cannot be read: " + text
		}
	}
	return study.Problems{{Place: study.Place{File: path}, Text: text}}
}
