package stopwatch

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"headhours/timing/study"
)

// Journal is the file of a session's events, to read and to append to. It is not
// for use by several goroutines at once.
type Journal struct {
	path    string
	session string
	events  []Event        // in the order of their lines
	ids     map[string]int // where in events each stands
	warned  []study.Problem
	lines   int
	size    int64  // of the file, as far as it is known to be good
	torn    []byte // what a recorder that died left behind that, to be set aside
	unended bool   // the last line lacks its end
	dirty   bool   // a write that failed may have left something behind size
	open    func(path string) (disk, error)
	file    disk
	opened  fs.FileInfo // of the file that was written to last
}

// openToAppend opens the journal of a session in the folder dir. Neither needs to
// be there yet: they are made by the first Append, so that work can be timed
// while the folder cannot be written to. A torn last line is a warning; the error
// is study.Problems where lines are damaged, of the session's name, or of the
// file system.
func openToAppend(dir, session string) (*Journal, error) {
	if err := checkSession(session); err != nil {
		return nil, err
	}
	j := newJournal(dir, session)
	held, err := readNamed(j.path, nil)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	j.events, j.warned, j.lines = held.Events, held.Warnings, held.lines
	j.size, j.torn, j.unended = int64(held.whole), held.torn, held.unended
	for i, e := range held.Events {
		j.ids[e.ID] = i
	}
	return j, nil
}

func newJournal(dir, session string) *Journal {
	return &Journal{path: filepath.Join(dir, session+Extension), session: session, ids: map[string]int{}, open: openFile}
}

// append adds those of a batch of events that the journal does not hold, in one
// write and one sync: when it returns without an error they last through a power
// cut. All of the batch is added or none; added tells how many were new. An error
// says what is wrong with an event, or why the file could not be written, errGrown and
// errReplaced among the reasons; the batch may then be given again.
func (j *Journal) append(batch []Event) (added int, err error) {
	if len(batch) > 0 {
		if err := j.stay(); err != nil {
			return 0, inPlainWords(j.path, err)
		}
	}
	fresh, text, err := j.fresh(batch)
	if err != nil || len(fresh) == 0 {
		return 0, err
	}
	if err := j.write(text); err != nil {
		return 0, inPlainWords(j.path, err)
	}
	for _, e := range fresh {
		j.lines++
		e.Line = j.lines
		j.ids[e.ID] = len(j.events)
		j.events = append(j.events, e)
	}
	return len(fresh), nil
}

// fresh is what a batch adds, as events and as the text to write.
func (j *Journal) fresh(batch []Event) (fresh []Event, text []byte, err error) {
	if j.unended {
		text = append(text, '\n')
	}
	seen := map[string]bool{}
	for i, e := range batch {
		line, err := encode(e)
		if err == nil && e.Session != j.session {
			err = fmt.Errorf("session %q: want that of the journal, %q", e.Session, j.session)
		}
		if err != nil {
			return nil, nil, fmt.Errorf("event %d of the batch: %w", i+1, err)
		}
		if _, held := j.ids[e.ID]; held || seen[e.ID] {
			continue
		}
		seen[e.ID] = true
		fresh, text = append(fresh, e), append(text, line...)
	}
	return fresh, text, nil
}

// write puts text behind what is known to be good. Where that fails the file is
// cut back, now or before the next write, for which it is opened anew: the disk
// may have been away.
func (j *Journal) write(text []byte) error {
	err := j.ready()
	if err == nil {
		err = j.put(text)
	}
	if err != nil {
		return errors.Join(err, j.close())
	}
	j.size += int64(len(text))
	j.unended = false
	return nil
}

func (j *Journal) put(text []byte) error {
	_, err := j.file.Write(text)
	if err == nil {
		err = j.file.Sync()
	}
	if err != nil {
		j.dirty = j.file.Truncate(j.size) != nil
	}
	return err
}

// ready opens the file where it is not open and cuts off what does not belong.
func (j *Journal) ready() error {
	if j.file == nil {
		file, err := j.open(j.path)
		if err != nil {
			return err
		}
		j.file = file
	}
	info, err := j.file.Stat()
	if err != nil {
		return err
	}
	j.opened = info
	if !j.dirty {
		if info.Size() != j.size+int64(len(j.torn)) {
			return errGrown
		}
	}
	if len(j.torn) > 0 {
		if err := setAside(j.path+Torn, j.torn); err != nil {
			return err
		}
	}
	if j.dirty || len(j.torn) > 0 {
		if err := j.file.Truncate(j.size); err != nil {
			return err
		}
	}
	j.dirty, j.torn = false, nil
	return nil
}

// Torn is what follows the name of a journal in that of the file where its torn
// lines are kept.
const Torn = ".torn"

func setAside(path string, torn []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(append(bytes.Clone(torn), '\n'))
	return errors.Join(err, f.Close())
}

// close closes the file.
func (j *Journal) close() error {
	if j.file == nil {
		return nil
	}
	err := j.file.Close()
	j.file = nil
	return err
}
