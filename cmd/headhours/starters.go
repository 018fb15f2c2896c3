package main

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"path/filepath"

	"headhours/report"
	"headhours/timing/folder"
)

//go:embed demo starter
var studies embed.FS

var demoCommand = command{
	name: "demo", args: "[DIR]", maxArgs: 1,
	does: "writes an invented study into DIR (headhours-demo), prints its answer and writes its report",
	do:   runDemo, flags: []string{"format"},
	examples: []string{
		"headhours demo # the study is then in headhours-demo; run again it writes what is missing, and the report anew",
		"headhours demo pak-choi # in a folder of another name",
	},
}

// demoFolder is where the demo goes when nobody says otherwise; git ignores it.
const demoFolder = "headhours-demo"

// runDemo writes the demo study, but never over a grower's nor over what was changed
// of an earlier demo, and answers for it.
func runDemo(c *call) error {
	dir, err := c.folderOr(demoFolder)
	if err != nil {
		return err
	}
	mark, err := firstLine("demo/study.toml")
	if err != nil {
		return err
	}
	there, err := os.ReadFile(filepath.Join(dir, "study.toml"))
	switch {
	case err == nil && !bytes.HasPrefix(there, mark):
		return fmt.Errorf("%s holds a study.toml that is not the demo's: give another folder, headhours demo DIR", dir)
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return err
	}
	if err := unchanged("demo", dir); err != nil {
		return err
	}
	if err := alone("demo", dir); err != nil {
		return err
	}
	if err := unpack("demo", dir); err != nil {
		return err
	}
	if err := ignored(dir); err != nil {
		return err
	}
	c.study = dir
	if err := runCompare(c); err != nil {
		return err
	}
	page, err := c.demoReport()
	if err != nil {
		return err
	}
	fmt.Fprintf(c.stderr, "\nThe study is in %[1]s, invented from end to end. Its report, to open in a browser:\n  %[2]s\nGo on with:\n  headhours%[3]s fit\n  headhours%[3]s cost\n", dir, page, studyFlag(dir))
	return nil
}

// ignored keeps git from taking in what lies in a folder, unless it was told already
// what to take.
func ignored(dir string) error {
	name := filepath.Join(dir, ".gitignore")
	if _, err := os.Lstat(name); err == nil {
		return nil
	}
	return folder.WriteFile(name, func(w io.Writer) error { _, err := io.WriteString(w, "*\n"); return err })
}

// demoReport writes the report of the study and says where.
func (c *call) demoReport() (string, error) {
	whole, err := c.whole()
	if err != nil {
		return "", err
	}
	page := filepath.Join(c.study, reportsFolder, reportFile)
	if err := os.MkdirAll(filepath.Dir(page), 0o755); err != nil {
		return "", err
	}
	return page, writePage(page, whole)
}

var initCommand = command{
	name: "init", args: "[DIR]", maxArgs: 1,
	does: "starts a study in DIR from a commented study.toml, or from logs that you have",
	do:   runInit, flags: []string{"from"},
	examples: []string{
		"headhours init # in this folder",
		"headhours init basil # in a folder of its own, to go on with: headhours --study basil compare",
		"headhours init basil --from monday.csv # from a sheet that you have: its steps, and what each takes",
	},
}

// runInit starts a study; one that is there already is left alone.
func runInit(c *call) error {
	if len(c.from) > 0 {
		return c.startFrom()
	}
	dir, err := c.folderOr(c.study)
	if err != nil {
		return err
	}
	if err := hasNone(dir); err != nil {
		return err
	}
	if err := unpack("starter", dir); err != nil {
		return err
	}
	text := fmt.Sprintf("Started a study in %s: study.toml with the usual steps and a guess at the time of each, "+
		"and timings/first.csv to write readings into. Overwrite the guesses.", dir)
	_, err = fmt.Fprintf(c.stdout, "%s\n\nIt answers from judged times until you have timed something:\n  headhours%s compare\n",
		report.Wrap(text, c.width, ""), studyFlag(dir))
	return err
}

// studyFlag is what a command line needs to find a study from here.
func studyFlag(dir string) string {
	if filepath.Clean(dir) == "." {
		return ""
	}
	return " --study " + shellWord(dir)
}

func firstLine(name string) ([]byte, error) {
	text, err := studies.ReadFile(name)
	line, _, _ := bytes.Cut(text, []byte("\n"))
	return line, err
}

// unpack writes an embedded study into a folder, which is made where missing. Files
// that are there already are left as they are.
func unpack(study, dir string) error {
	return eachFile(study, dir, func(target string, text []byte) error {
		if _, err := os.Lstat(target); err == nil {
			return nil
		}
		if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
			return err
		}
		return folder.WriteFile(target, func(w io.Writer) error { _, err := w.Write(text); return err })
	})
}

// unchanged is an error where a file of an embedded study lies in a folder and is not
// as unpack would write it.
func unchanged(study, dir string) error {
	return eachFile(study, dir, func(target string, text []byte) error {
		there, err := os.ReadFile(target)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			return nil
		case err != nil:
			return err
		case !bytes.Equal(there, text):
			return fmt.Errorf("%s differs from the %s's: it is left as it is, and nothing was written\n"+elsewhere, target, study, studyFlag(dir))
		}
		return nil
	})
}

const elsewhere = "hint: headhours demo DIR writes a fresh one into another folder, headhours%s compare answers from this one"

// alone is an error where a folder holds logs or journals beside those of an embedded study:
// their readings would count among its own.
func alone(study, dir string) error {
	for _, part := range []string{"timings", "journal"} {
		entries, err := os.ReadDir(filepath.Join(dir, part))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
		for _, e := range entries {
			target := filepath.Join(dir, part, e.Name())
			_, err := fs.Stat(studies, path.Join(study, part, e.Name()))
			if what := folder.Input(dir, nil, target); what != "" && err != nil {
				return fmt.Errorf("%s is %s that is not the %s's, whose readings would count among its own: nothing was written\n"+elsewhere, target, what, study, studyFlag(dir))
			}
		}
	}
	return nil
}

// eachFile calls do with the files of an embedded study and where they belong in a
// folder.
func eachFile(study, dir string, do func(target string, text []byte) error) error {
	return fs.WalkDir(studies, study, func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		text, err := studies.ReadFile(path.Clean(name))
		if err != nil {
			return err
		}
		return do(filepath.Join(dir, filepath.FromSlash(name[len(study):])), text)
	})
}
