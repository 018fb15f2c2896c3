package stopwatch

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"headhours/timing/study"
)

// ReadFile reads one journal: what it holds, and what its events come to. Its bytes go to
// alike too, where that is not nil. What keeps it from being read is problems that name
// the file; then Contents has the warnings alone.
func ReadFile(path string, alike io.Writer) (Contents, State, study.Problems) {
	held, err := readNamed(path, alike)
	if err != nil {
		return held, State{}, unreadable(path, err)
	}
	return held, Fold(path, held.Events), nil
}

// ReadFolder reads the journals of a folder, those whose names are wanted (nil: all), in
// order of name. What cannot be read is a problem that names its file, and takes nothing
// from the others. A folder that is not there holds none.
func ReadFolder(dir string, wanted func(name string) bool) (states []State, problems study.Problems) {
	entries, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		problems = problems.And(unreadable(dir, err)...)
	}
	for _, e := range entries {
		if filepath.Ext(e.Name()) != Extension || e.Name()[0] == '.' || wanted != nil && !wanted(e.Name()) {
			continue
		}
		path := filepath.Join(dir, e.Name())
		held, err := readNamed(path, nil)
		if err != nil {
			problems = problems.And(unreadable(path, err)...)
			continue
		}
		problems = problems.And(held.Failed...)
		states = append(states, Fold(path, held.Events))
	}
	return states, problems
}
