package folder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"headhours/timing/condense"
	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// ErrNoStudy is the error of a folder without a study.toml.
var ErrNoStudy = errors.New("no study.toml")

const studyFile = "study.toml"

// Open reads the study folder dir: study.toml, then every .csv, .tsv, .xlsx and
// .ods file of timings/ and every .jsonl file of journal/ that is not hidden, in
// order of file name. logs, where given, are read instead of the study's own logs and journals,
// and study.toml may then be missing. A step or workflow that a log or journal
// names must be the study's; without a study any may. A journal's reading of a step that is
// not is a caution and is left out. Of a journal one that is not is a
// caution, and its readings are left out.
//
// The filter's worker and grow are names of readings, in any case and with any blanks where
// one alone can be meant; Readings.Filter has them as they stand there.
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
	if err == nil {
		o.condense()
		if meant, other := o.meantBy(how.Filter); other {
			how.Filter = meant
			if o, err = open(dir, logs, how, o.opened.orders); err == nil {
				o.condense()
			}
		}
	}
	if err != nil {
		return Opened{Dir: o.opened.Dir, Warnings: o.opened.Warnings}, err
	}
	o.lookAtNames()
	return o.opened, nil
}

// condense ends the gathering of readings.
func (o *opener) condense() {
	again := o.opened.again
	o.opened.Readings = o.gathering.Condensed(func(look func(*condense.Batch), take func(*condense.Batch) error) error { return again(look, take) })
}

// open reads the files of a study. It finds the orders of dates that logs show and that
// were not given, and then is to be called again with them.
func open(dir string, logs []string, how How, orders map[string]tasklog.DateOrder) (*opener, error) {
	o := &opener{opened: Opened{Dir: dir, how: how, orders: orders}}
	if err := o.study(len(logs) == 0); err != nil {
		return &opener{}, err
	}
	if o.opened.HasStudy {
		o.gathering = condense.Gather(&o.opened.Study, how.Filter)
	} else {
		o.gathering = condense.Gather(nil, how.Filter)
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
		return NoStudy(o.opened.Dir)
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
