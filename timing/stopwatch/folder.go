package stopwatch

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"headhours/timing/study"
)

// ReadFolder reads the journals of a folder, those whose names are wanted (nil: all), in
// order of name. What cannot be read is a problem that names its file, and takes nothing
// from the others. A folder that is not there holds none.
func ReadFolder(dir string, wanted func(name string) bool) (states []State, problems study.Problems) {
	entries, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		problems = problems.And(Unreadable(dir, err)...)
	}
	for _, e := range entries {
		if filepath.Ext(e.Name()) != Extension || e.Name()[0] == '.' || wanted != nil && !wanted(e.Name()) {
			continue
		}
		path := filepath.Join(dir, e.Name())
		held, err := readNamed(path)
		if err != nil {
			problems = problems.And(Unreadable(path, err)...)
			continue
		}
		problems = problems.And(held.Failed...)
		states = append(states, Fold(path, held.Events))
	}
	return states, problems
}
