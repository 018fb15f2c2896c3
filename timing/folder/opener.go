package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"headhours/timing/condense"
	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// opener gathers what the files of a study hold and what is wrong with them.
type opener struct {
	named     bool // logs are, in place of the study's own
	several   bool // there is more than one log
	opened    Opened
	gathering *condense.Gathering
	held      map[string]study.Place // where logs hold readings of journals
	count     counting               // of all logs
	problems  study.Problems
	strangers []stranger                   // names of journals that the study lacks
	headings  []heading                    // that the study file names
	orders    map[string]tasklog.DateOrder // found in this go
}

// stranger is a name of journals that the study lacks: told once, with how often.
type stranger struct {
	kind, name string
	at         study.Place
	readings   int
}

func (o *opener) problem(path, text string) {
	o.problems = o.problems.And(study.Problem{Place: study.Place{File: path}, Text: text})
}

func (o *opener) warn(path, text string) {
	o.opened.Warnings = o.opened.Warnings.And(study.Problem{Place: study.Place{File: path}, Text: text})
}

// unreadable is the problem of a file or folder that the system will not read.
func (o *opener) unreadable(path string, err error) {
	if pe, ok := errors.AsType[*fs.PathError](err); ok {
		err = pe.Err // the place names the file already
	}
	text := "cannot be read: " + err.Error()
	if large, ok := errors.AsType[study.TooLarge](err); ok {
		text = large.Error()
	}
	o.problem(path, text)
}

// sum is the SHA-256 of a file's bytes, where it is asked for.
func (o *opener) sum(data []byte) string {
	if !o.opened.how.Sums {
		return ""
	}
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// relative is a path as seen from the study folder, or as it is where there is
// no way from there.
func (o *opener) relative(path string) string {
	if rel, err := filepath.Rel(o.opened.Dir, path); err == nil {
		path = rel
	}
	return filepath.ToSlash(path)
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}
