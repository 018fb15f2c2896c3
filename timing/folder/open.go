package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"headhours/timing"
	"headhours/timing/stopwatch"
	"headhours/timing/tasklog"
)

// ErrNoStudy is the error of a folder without a study.toml.
var ErrNoStudy = errors.New("no study.toml")

const studyFile = "study.toml"

// Opened is a study with its readings.
type Opened struct {
	Dir      string
	Study    timing.Study // zero where there is no study file
	HasStudy bool
	Readings []timing.Reading  // voided ones too: of logs, then of journals; in order of file name, then line
	Journals []stopwatch.State // what each journal comes to, in order of file name
	Warnings []timing.Problem  // what was read but may have been meant otherwise, and files passed over
	Files    []File            // the study file, where there is one, then each log, then each journal
	logged   int               // how many readings are of logs
}

// File is a file that a study was read from.
type File struct {
	Name     string // relative to the study folder, with slashes
	SHA256   string // of its bytes, in hex
	Readings int    // how many it gives, voided ones too: of a journal, those that no log holds; 0 for the study file
}

// Open reads the study folder dir: study.toml, then every .csv, .tsv, .xlsx and
// .ods file of timings/ and every .jsonl file of journal/ that is not hidden, in
// order of file name. logs, where given, are read instead of the study's own logs and journals,
// and study.toml may then be missing. A step or workflow that a log or journal
// names must be the study's; without a study any may.
//
// A journal's reading that a log holds, by the log's column journal, is not taken
// again. One that has not ended or lacks its count is a warning and no reading.
//
// Places name files as dir/timings/name, and those of logs as given, cleaned.
// The error is timing.Problems, everything that is wrong with all the files;
// then of what was read only the warnings are given. Without a study.toml, and
// without logs, it is ErrNoStudy.
func Open(dir string, logs []string) (Opened, error) {
	o := opener{opened: Opened{Dir: dir}}
	if err := o.study(len(logs) == 0); err != nil {
		return Opened{}, err
	}
	if len(logs) > 0 {
		o.logs(given(logs))
	} else {
		o.logs(o.own(taskLogs))
		o.journals(o.own(journals))
	}
	if err := o.problems.Err(); err != nil {
		return Opened{Dir: dir, Warnings: o.opened.Warnings}, err
	}
	return o.opened, nil
}

// opener gathers what the files of a study hold and what is wrong with them.
type opener struct {
	opened   Opened
	names    tasklog.Names
	problems timing.Problems
}

// study reads study.toml; the error is ErrNoStudy where it is needed and
// missing.
func (o *opener) study(needed bool) error {
	path := filepath.Join(o.opened.Dir, studyFile)
	if isFolder(path) {
		o.problem(path, "is a folder, want a file")
		return nil
	}
	src, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist) && needed:
		return fmt.Errorf("%w in %q", ErrNoStudy, o.opened.Dir)
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		o.unreadable(path, err)
		return nil
	}
	d := decode(src, path)
	sum := sha256.Sum256(src)
	o.opened.Study, o.opened.HasStudy = d.study, true
	o.opened.Warnings = append(o.opened.Warnings, d.warnings...)
	o.opened.Files = append(o.opened.Files, File{Name: studyFile, SHA256: hex.EncodeToString(sum[:])})
	o.problems = append(o.problems, d.problems...)
	if !d.cut { // else names may stand below the fault
		o.names = tasklog.Names{Steps: d.names.steps.list(), Workflows: d.names.workflows.list()}
	}
	return nil
}

func (o *opener) problem(path, text string) {
	o.problems = append(o.problems, timing.Problem{Place: timing.Place{File: path}, Text: text})
}

func (o *opener) warn(path, text string) {
	o.opened.Warnings = append(o.opened.Warnings, timing.Problem{Place: timing.Place{File: path}, Text: text})
}

// unreadable is the problem of a file or folder that the system will not read.
func (o *opener) unreadable(path string, err error) {
	if pe, ok := errors.AsType[*fs.PathError](err); ok {
		err = pe.Err // the place names the file already
	}
	o.problem(path, "cannot be read: "+err.Error())
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}
