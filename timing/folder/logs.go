package folder

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"headhours/timing/condense"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
	"headhours/timing/tasklog"
	"headhours/timing/words"
)

// inputKind is a kind of files that a study's readings stand in.
type inputKind struct {
	folder string // where they stand
	name   string // of one of them
	ends   string // in what their names end
	has    func(path string) bool
	ours   string // ends the names of files that stand beside them and are not read
}

var (
	taskLogs = inputKind{"timings", "task log", ".csv, .tsv, .xlsx or .ods", isLog, ""}
	journals = inputKind{"journal", "journal", stopwatch.Extension, isJournal, stopwatch.Torn}
)

// own lists the study's own files of one kind. Whatever else stands beside them,
// save hidden files, is warned of: nothing is passed over in silence.
func (o *opener) own(from inputKind) []string {
	dir := filepath.Join(o.opened.Dir, from.folder)
	entries, err := os.ReadDir(dir) // by name
	if err != nil {
		if !errors.Is(err, fs.ErrNotExist) {
			o.unreadable(dir, err)
		}
		return nil
	}
	var files []string
	for _, e := range entries {
		path := filepath.Join(dir, e.Name())
		switch {
		case isHidden(e.Name()), from.ours != "" && strings.HasSuffix(path, from.ours):
		case from.has(path) && isPipe(path): // reading it would wait for someone to write
			o.problem(path, "is a pipe or a device, not a "+from.name)
		case from.has(path):
			files = append(files, path)
		case isFolder(path):
			o.warn(path, "is not read: "+from.name+"s stand in "+from.folder+" itself, not in a folder of it")
		default:
			o.warn(path, "is not read: the name of a "+from.name+" ends in "+from.ends)
		}
	}
	return files
}

// isHidden says whether a file is none of a person's own: names begin so, and a
// spreadsheet puts the second beside the file that it has open.
func isHidden(name string) bool {
	return strings.HasPrefix(name, ".") || strings.HasPrefix(name, "~$")
}

// LogName is the name that a log of some name has among a study's own, where it is read: one
// that begins or ends otherwise is passed over there.
func LogName(name string) string {
	for isHidden(name) {
		name = strings.TrimPrefix(strings.TrimLeft(name, "."), "~$")
	}
	switch {
	case name == "":
		return "log.csv"
	case !isLog(name):
		return name + ".csv"
	}
	return name
}

func isLog(path string) bool {
	switch strings.ToLower(filepath.Ext(path)) {
	case ".csv", ".tsv", ".xlsx", ".ods":
		return true
	}
	return false
}

func isJournal(path string) bool { return filepath.Ext(path) == stopwatch.Extension }

func isPipe(path string) bool {
	info, err := os.Stat(path)
	return err == nil && !info.Mode().IsRegular() && !info.IsDir()
}

// namedLogs is the logs to read in place of the study's own, in order of file name.
func namedLogs(logs []string) []string {
	paths := make([]string, len(logs))
	for i, log := range logs {
		paths[i] = filepath.Clean(log)
	}
	slices.Sort(paths)
	return paths
}

// logs reads task logs. One that stands twice, under whatever name, is refused:
// its readings would count twice.
func (o *opener) logs(paths []string) {
	o.held, o.several, o.count.tell = map[string]study.Place{}, len(paths) > 1, o.opened.how.Progress
	for _, path := range paths {
		if info, err := os.Stat(path); err == nil && !info.IsDir() {
			o.count.of += info.Size()
		}
	}
	for _, path := range paths {
		info, err := os.Stat(path)
		if err != nil {
			o.unreadable(path, err)
			continue
		}
		same := slices.IndexFunc(o.opened.logs, func(l *logFile) bool { return os.SameFile(l.info, info) })
		switch {
		case info.IsDir():
			o.problem(path, "is a folder, not a task log")
		case same >= 0:
			o.problem(path, "is the same file as "+o.opened.logs[same].path+", want each log once")
		default:
			once := !info.Mode().IsRegular() || info.Size() == 0 // as devices and pipes have it
			l := &logFile{path: path, info: info, keep: once || o.count.of <= maxKept}
			o.opened.logs = append(o.opened.logs, l)
			o.log(l)
		}
	}
	o.lookAtTwins()
}

// log reads one task log.
func (o *opener) log(l *logFile) {
	r, err := l.open()
	if err != nil {
		o.unreadable(l.path, err)
		return
	}
	defer r.Close()
	sum := sha256.New()
	in := o.count.counted(r)
	if o.opened.how.Sums {
		in = io.TeeReader(in, sum)
	}
	var voids voidCells
	take := func(b *condense.Batch) error {
		voids.take(b)
		return o.gathering.Take(b)
	}
	found, err := l.scan(in, o.opened.dialectOf(l), o.digestOf(l), take)
	if !l.keep && errors.Is(l.same(), errChanged) { // whatever else it seemed to hold
		o.problem(l.path, errChanged.Error())
		return
	}
	o.opened.Warnings = o.opened.Warnings.And(found.Warnings...)
	l.mapped, l.unused, l.counted = found.Mapped, found.Unused, found.Counted
	if found.Unordered {
		o.findOrder(l)
	}
	if problems, ok := errors.AsType[study.Problems](err); ok {
		o.problems = o.problems.And(problems...)
		return
	}
	if err != nil {
		o.unreadable(l.path, err)
		return
	}
	l.readings, l.clocks = found.Readings, found.Clocks
	defer o.lookAtTimes(l, found.Bare)
	if l.data != nil {
		l.only = found.Only
	}
	l.held = found.Held
	o.hold(found.Held)
	o.lookAtVoids(&voids)
	file := File{Name: o.relative(l.path), Readings: found.Readings, Voided: voids.readings, Unused: found.Unused}
	if o.opened.how.Sums {
		file.SHA256 = hex.EncodeToString(sum.Sum(nil))
	}
	o.opened.Files = append(o.opened.Files, file)
}

// digestOf digests batches of a log, and takes note of what they say where there are others.
func (o *opener) digestOf(l *logFile) func(*condense.Batch) {
	if !o.several {
		return o.gathering.Digest
	}
	return func(b *condense.Batch) {
		l.tally.take(b)
		o.gathering.Digest(b)
	}
}

// lookAtTimes has a caution where the times of a log look like minutes that are read as
// seconds. A log that can be read but once is passed over.
func (o *opener) lookAtTimes(l *logFile, bare *tasklog.Bare) {
	if bare == nil {
		bare = o.bareTimes(l)
	}
	if !bare.LooksLikeMinutes() {
		return
	}
	name := o.opened.called(l.path)
	caution := fmt.Sprintf(
		"all %d times of %s are bare numbers below 60, read as seconds, such as %s in line %d: if they are minutes, head them minutes, or write times = \"minutes\" under [log] in study.toml; if seconds, head them seconds",
		bare.Times, words.Show(name), words.Show(bare.Text), bare.Place.Line)
	o.opened.Cautions, o.opened.minutes = append(o.opened.Cautions, caution), append(o.opened.minutes, caution)
}

// bareTimes looks at the times of a log once more. What is wrong with one that was read a
// moment ago is told where it is read next.
func (o *opener) bareTimes(l *logFile) *tasklog.Bare {
	if l.data == nil && !l.info.Mode().IsRegular() {
		return &tasklog.Bare{}
	}
	r, err := l.open()
	if err != nil {
		return &tasklog.Bare{}
	}
	defer r.Close()
	bare, err := tasklog.BareTimes(r, l.path, o.opened.dialectOf(l))
	if err != nil {
		return &tasklog.Bare{}
	}
	return &bare
}

// hold takes note of readings of journals that a log holds. One that two rows hold
// counts twice, which is hardly meant.
func (o *opener) hold(held []tasklog.Held) {
	for _, h := range held {
		if !strings.Contains(h.Journal, stopwatch.Extension+":") {
			continue // another use of the column
		}
		if first, again := o.held[h.Journal]; again {
			text := fmt.Sprintf("journal: %s stands at %s too and counts twice: void or delete one of the two", words.Quote(h.Journal), first)
			o.opened.Warnings = o.opened.Warnings.And(study.Problem{Place: h.Place, Text: text})
			continue
		}
		o.held[h.Journal] = h.Place
	}
}
