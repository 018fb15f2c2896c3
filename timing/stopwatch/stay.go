package stopwatch

import (
	"bytes"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"headhours/timing/study"
)

// errReplaced is the error of a journal in whose place another file was put.
var errReplaced = errors.New("is another file than the one that was written to, and holds what was not recorded here: move it away")

// stay keeps the journal at its path. Where a program that copies, or a person, has put
// another file there, or taken it away, what is written to the old one would be lost: then
// the journal goes on in what stands there, or anew, and whatever that lacks is written
// first. The error is errReplaced, or of the file system; then the journal is as it was.
// A file of the same place that is shorter than what was written may be another too.
func (j *Journal) stay() error {
	now, err := os.Stat(j.path)
	switch {
	case errors.Is(err, fs.ErrNotExist) && j.size == 0:
		return nil
	case errors.Is(err, fs.ErrNotExist):
		// A whole study that is gone was moved, or its disk is away: it is not begun again.
		if _, err := os.Stat(filepath.Dir(filepath.Dir(j.path))); err != nil {
			return err
		}
	case err != nil || j.opened == nil || os.SameFile(now, j.opened) && now.Size() >= j.size:
		return err
	}
	there, err := openToAppend(filepath.Dir(j.path), j.session)
	if _, damaged := errors.AsType[study.Problems](err); damaged || err == nil && !j.holdsAll(there.events) {
		return errReplaced
	}
	if err != nil {
		return err
	}
	there.open = j.open
	if _, err := there.append(j.events); err != nil {
		return errors.Join(err, there.close())
	}
	_ = j.close() // nothing of it is at its path
	*j = *there
	return nil
}

// holdsAll says whether all of some events were recorded here, as they are.
func (j *Journal) holdsAll(events []Event) bool {
	for _, e := range events {
		if i, held := j.ids[e.ID]; !held || !sameEvent(e, j.events[i]) {
			return false
		}
	}
	return true
}

// sameEvent says whether two events say the same, wherever they stand.
func sameEvent(a, b Event) bool { return bytes.Equal(asJSON(a), asJSON(b)) }

func asJSON(e Event) []byte {
	line, err := json.Marshal(e)
	if err != nil {
		panic(err) // else it had not been checked
	}
	return line
}
