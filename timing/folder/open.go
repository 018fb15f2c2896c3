package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"headhours/timing/answer"
	"headhours/timing/condense"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// ErrNoStudy is the error of a folder without a study.toml.
var ErrNoStudy = errors.New("no study.toml")

const studyFile = "study.toml"

// Opened is a study with its readings.
type Opened struct {
	Dir      string
	Study    study.Study // zero where there is no study file
	HasStudy bool
	Models   *answer.Models    // of its readings: of logs, then of journals; in order of file name, then line
	Journals []stopwatch.State // what each journal comes to, in order of file name
	Cautions []string          // what makes every answer doubtful, to be said first
	Warnings study.Problems    // what was read but may have been meant otherwise, and files passed over
	Files    []File            // the study file, where there is one, then each log, then each journal

	logs     []*logFile
	recorded []study.Reading        // those of the journals, voided ones too, that no log holds
	held     map[string]study.Place // where logs hold readings of journals
	dialect  tasklog.Dialect
	orders   map[string]tasklog.DateOrder // of logs whose dates show it, by their paths
	how      How
}

// File is a file that a study was read from.
type File struct {
	Name     string   // relative to the study folder, with slashes
	SHA256   string   // of its bytes, in hex; "" where it was not asked for
	Readings int      // how many it gives, voided ones too: of a journal, those that no log holds; 0 for the study file
	Unused   []string // of a log, the names of columns that are kept and not used
}

// How says how a study is opened.
type How struct {
	Options  answer.Options           // of the models
	OnlyLogs bool                     // the journals are not read: who records knows them
	Sums     bool                     // take the files' SHA-256
	Name     func(path string) string // what the models call a file; nil leaves it
	Progress func(done, of int64)     // told, now and then, how many bytes of the logs are read; may be nil
}

// Open reads the study folder dir: study.toml, then every .csv, .tsv, .xlsx and
// .ods file of timings/ and every .jsonl file of journal/ that is not hidden, in
// order of file name. logs, where given, are read instead of the study's own logs and journals,
// and study.toml may then be missing. A step or workflow that a log or journal
// names must be the study's; without a study any may. A journal's reading of a step that is
// not is a caution and is left out. Of a journal one that is not is a
// caution, and its readings are left out.
//
// Logs are read once, in as much memory for ten million readings as for a few
// thousand, and once more for what needs the readings themselves.
//
// A journal's reading that a log holds, by the log's column journal, is not taken
// again. One that has not ended or lacks its count is a warning and no reading.
//
// Places name files as dir/timings/name, and those of logs as given, cleaned.
// The error is study.Problems, everything that is wrong with all the files, the first
// study.MaxProblems of it by name; then of what was read only the warnings are given. Without a study.toml, and
// without logs, it is ErrNoStudy.
func Open(dir string, logs []string, how How) (Opened, error) {
	o, err := open(dir, logs, how, nil)
	if len(o.orders) > 0 {
		o, err = open(dir, logs, how, o.orders)
	}
	if err != nil {
		return Opened{Dir: o.opened.Dir, Warnings: o.opened.Warnings}, err
	}
	again := o.opened.again
	readings := o.gathering.Condensed(func(take func(*condense.Batch) error) error { return again(take) })
	o.opened.Models = answer.NewModels(readings, how.Options)
	o.opened.Cautions = append(o.opened.Cautions, o.opened.Models.FarFromEstimates()...)
	for _, caution := range o.opened.Cautions {
		o.opened.Models.Remark(caution)
	}
	return o.opened, nil
}

// open reads the files of a study. It finds the orders of dates that logs show and that
// were not given, and then is to be called again with them.
func open(dir string, logs []string, how How, orders map[string]tasklog.DateOrder) (*opener, error) {
	o := &opener{opened: Opened{Dir: dir, how: how, orders: orders}}
	if err := o.study(len(logs) == 0); err != nil {
		return &opener{}, err
	}
	if o.opened.HasStudy {
		o.gathering = condense.Gather(&o.opened.Study, how.Options.Filter)
	} else {
		o.gathering = condense.Gather(nil, how.Options.Filter)
	}
	switch {
	case len(logs) > 0:
		o.named = true
		o.logs(namedLogs(logs))
	case how.OnlyLogs:
		o.logs(o.own(taskLogs))
	default:
		o.logs(o.own(taskLogs))
		o.journals(o.own(journals))
	}
	o.opened.held = o.held
	o.checkHeadings()
	return o, o.problems.Err()
}

// opener gathers what the files of a study hold and what is wrong with them.
type opener struct {
	named     bool // logs are, in place of the study's own
	opened    Opened
	gathering *condense.Gathering
	held      map[string]study.Place // where logs hold readings of journals
	total     int64                  // bytes of all logs
	done      int64
	problems  study.Problems
	strangers []stranger                   // names of journals that the study lacks
	headings  []heading                    // that the study file names
	orders    map[string]tasklog.DateOrder // found in this go
}

// study reads study.toml; the error is ErrNoStudy where it is needed and
// missing.
func (o *opener) study(needed bool) error {
	path := filepath.Join(o.opened.Dir, studyFile)
	switch {
	case isFolder(path):
		o.problem(path, "is a folder, want a file")
		return nil
	case isPipe(path): // reading it would wait for someone to write, or never end
		o.problem(path, "is a pipe or a device, want a file")
		return nil
	}
	src, err := readFile(path, maxStudy)
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
	o.opened.Study, o.opened.HasStudy = d.study, true
	o.opened.Warnings = o.opened.Warnings.And(d.warnings...)
	o.opened.Files = append(o.opened.Files, File{Name: studyFile, SHA256: o.sum(src)})
	o.problems = o.problems.And(d.problems...)
	if !d.cut { // else names may stand below the fault
		o.opened.dialect, o.headings = d.dialect(), d.log.headings
	}
	return nil
}

// sum is the SHA-256 of a file's bytes, where it is asked for.
func (o *opener) sum(data []byte) string {
	if !o.opened.how.Sums {
		return ""
	}
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
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

// maxStudy is how many MiB of a study file are read.
const maxStudy = 16

// readFile reads a file of no more than so many MiB.
func readFile(path string, mib int) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return study.ReadAtMost(f, mib)
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}
