package folder

import (
	"headhours/timing/condense"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/tasklog"
)

// Opened is a study with its readings.
type Opened struct {
	Dir      string
	Study    study.Study // zero where there is no study file
	HasStudy bool
	Readings *condense.Condensed // of logs, then of journals; in order of file name, then line
	Journals []stopwatch.State   // what each journal comes to, in order of file name
	Cautions []string            // what makes every answer doubtful, to be said first
	Warnings study.Problems      // what was read but may have been meant otherwise, and files passed over
	Files    []File              // the study file, where there is one, then each log, then each journal

	logs     []*logFile
	minutes  []string               // those of the cautions that are of times that look like minutes
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
	Voided   int      // of its readings, those that are void
}

// How says how a study is opened.
type How struct {
	Filter   condense.Filter          // of the readings
	OnlyLogs bool                     // the journals are not read: who records knows them
	Sums     bool                     // take the files' SHA-256
	Name     func(path string) string // what readings call a file; nil leaves it
	Progress func(done, of int64)     // told, now and then, how many bytes of the logs are read; may be nil
}

// dialectOf is how a log is to be read.
func (o *Opened) dialectOf(l *logFile) tasklog.Dialect {
	dialect := o.dialect
	dialect.Called = o.called(l.path)
	if order, ok := o.orders[l.path]; ok {
		dialect.Dates = order
	}
	return dialect
}

// called is what readings call a file.
func (o *Opened) called(path string) string {
	if o.how.Name == nil {
		return path
	}
	return o.how.Name(path)
}

// has says whether the study has the step of a reading.
func (o *Opened) has(r study.Reading) bool {
	_, ok := o.dialect.OurStep(r.Step)
	return ok
}
