package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"os"
	"slices"

	"headhours/timing/condense"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/words"
)

// journals reads the stopwatch's journals, when all logs have been.
func (o *opener) journals(paths []string) {
	for _, path := range paths {
		o.journal(path)
	}
	o.tellStrangers()
	o.lookAtHeld()
	_ = condense.InMemory(o.opened.recorded)(nil, o.gathering.Take) // Take returns no error
}

// journal reads one journal.
func (o *opener) journal(path string) {
	sum := sha256.New()
	contents, state, problems := stopwatch.ReadFile(path, sum)
	o.opened.Warnings = o.opened.Warnings.And(contents.Warnings...)
	if len(problems) > 0 {
		o.problems = o.problems.And(problems...)
		return
	}
	o.leftOut(contents.Failed)
	o.opened.Warnings = o.opened.Warnings.And(state.Warnings...).And(state.Unfinished()...)
	for i := range state.Readings {
		r := &state.Readings[i]
		dialect := &o.opened.dialect
		r.Step, _ = o.ourName(r.Place, "step", r.Step, dialect.OurStep)
		if name, ok := o.ourName(r.Place, "workflow", r.Workflow, dialect.OurWorkflow); ok {
			r.Workflow = name
		} else {
			r.Workflow = ""
		}
		r.Grow, r.Worker = dialect.OurGrow(r.Grow), dialect.OurWorker(r.Worker)
	}
	o.lookAtChanges(state)
	before := len(o.opened.recorded)
	for _, r := range state.Complete() {
		if _, logged := o.held[r.Journal]; !logged && o.opened.has(r) {
			r.Place.File = o.opened.called(path)
			o.opened.recorded = append(o.opened.recorded, r)
		}
	}
	o.opened.Journals = append(o.opened.Journals, state)
	file := File{Name: o.relative(path), Readings: len(o.opened.recorded) - before}
	for _, r := range o.opened.recorded[before:] {
		if !r.Counts() {
			file.Voided++
		}
	}
	if o.opened.how.Sums {
		file.SHA256 = hex.EncodeToString(sum.Sum(nil))
	}
	o.opened.Files = append(o.opened.Files, file)
}

// leftOut has every answer say that lines of a journal are damaged and not used.
func (o *opener) leftOut(failed study.Problems) {
	if len(failed) == 0 {
		return
	}
	at := failed[0].Place
	at.File = o.opened.called(at.File)
	text := "a line of a journal is damaged and not used: %s"
	if n := failed.Count(); n > 1 {
		text = fmt.Sprint(n) + " lines of a journal are damaged and not used: the first is %s"
	}
	o.opened.Cautions = append(o.opened.Cautions, fmt.Sprintf(text+" (headhours check says what stands there)", words.Show(at.String())))
}

// Unlogged gives the readings of the journals that no log holds, voided ones too,
// and how many more a log does. Those of steps that the study lacks stay where they are. A log of the name target, which may be "", is
// passed over: it is about to be written anew. Where it holds what would be lost, that is an
// error; or it is that of reading the logs again.
func (o *Opened) Unlogged(target string) (readings []study.Reading, logged int, err error) {
	recorded, held := o.ofJournals(), map[string]bool{}
	var old *logFile
	var rows []study.Reading // of the target
	for _, l := range o.logs {
		read, err := o.readAgain(l)
		if err != nil {
			return nil, 0, err
		}
		if sameFile(l.path, target) {
			old, rows = l, read
			continue
		}
		for _, r := range read {
			held[r.Journal] = recorded[r.Journal]
		}
	}
	for _, s := range o.Journals {
		for _, r := range s.Complete() {
			if held[r.Journal] {
				logged++
				continue
			}
			if o.has(r) {
				readings = append(readings, r)
			}
		}
	}
	if old != nil {
		err = lossOf(old, slices.DeleteFunc(rows, func(r study.Reading) bool { return held[r.Journal] }), readings)
	}
	return readings, logged, err
}

// ofJournals is what the column journal says of the readings of the journals.
func (o *Opened) ofJournals() map[string]bool {
	recorded := map[string]bool{}
	for _, s := range o.Journals {
		for _, r := range s.Readings {
			recorded[r.Journal] = true
		}
	}
	return recorded
}

func sameFile(a, b string) bool {
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	other, err := os.Stat(b)
	return err == nil && os.SameFile(one, other)
}

// VoidedUncounted lists the journals' readings that are voided and were never counted:
// nothing more is wanted of them, and they are no readings of the models.
func (o *Opened) VoidedUncounted() []condense.VoidedReading {
	var voided []condense.VoidedReading
	for _, s := range o.Journals {
		for _, r := range s.Readings {
			if r.Counts() || r.Lacks() == "" || r.Ended.IsZero() {
				continue
			}
			voided = append(voided, condense.VoidedReading{Step: r.Step, File: o.called(r.Place.File), Line: r.Place.Line, Seconds: r.Basic(), Reason: r.Void})
		}
	}
	return voided
}

// maxNamed is of how many readings a wall clock is reconciled.
const maxNamed = 100_000

// ErrManyClocks says that there are more readings with a start and an end than a wall
// clock is reconciled for.
var ErrManyClocks = fmt.Errorf("more than %d readings have a start and an end: the wall clock is not looked at", maxNamed)

// Named is what has a name of the days that logs and journals tell of, each
// reading once: a journal's by its session, even where a log holds it. The error is
// ErrManyClocks or that of reading the logs again.
func (o *Opened) Named() ([]study.Stretch, error) {
	var stretches []study.Stretch
	clocks := 0
	for _, s := range o.Journals {
		stretches = append(stretches, s.Named()...)
	}
	recorded := o.ofJournals()
	for _, l := range o.logs {
		if clocks += l.clocks; clocks > maxNamed {
			return nil, ErrManyClocks
		}
		if l.clocks == 0 {
			continue
		}
		readings, err := o.readAgain(l)
		if err != nil {
			return nil, err
		}
		for _, r := range readings {
			if n, noted := r.Named(); noted && !recorded[r.Journal] {
				stretches = append(stretches, n)
			}
		}
	}
	return stretches, nil
}
