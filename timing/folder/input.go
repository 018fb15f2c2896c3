package folder

import (
	"os"
	"path/filepath"
)

// Input says what of the study in the folder dir a file is, or would be once it is written:
// the study file, a task log or a journal, and a task log too where it is one of logs, which
// are read in place of the study's own; "" where it is nothing that a study is read from.
func Input(dir string, logs []string, path string) string {
	for _, log := range logs {
		if sameFile(log, path) && !isPipe(path) {
			return "a task log"
		}
	}
	if samePlace(path, filepath.Join(dir, studyFile)) {
		return "the study file"
	}
	for _, kind := range []inputKind{taskLogs, journals} {
		from := filepath.Join(dir, kind.folder)
		if samePlace(path, from) {
			return "the folder of the " + kind.name + "s"
		}
		if samePlace(filepath.Dir(path), from) && kind.reads(path) {
			return "a " + kind.name
		}
		entries, _ := os.ReadDir(from) // a folder that cannot be read shows none
		for _, e := range entries {
			if own := filepath.Join(from, e.Name()); kind.reads(own) && sameFile(own, path) {
				return "a " + kind.name
			}
		}
	}
	return ""
}

// reads says whether a file of the kind's folder is read, or kept beside those that are.
func (k inputKind) reads(path string) bool {
	name := filepath.Base(path)
	return !isHidden(name) && (k.has(name) || k.ours != "" && filepath.Ext(name) == k.ours)
}

// samePlace says whether two paths are of one file, which need not be there.
func samePlace(a, b string) bool {
	one, err := filepath.Abs(a)
	if err != nil {
		return false
	}
	other, err := filepath.Abs(b)
	return err == nil && one == other || sameFile(a, b)
}
