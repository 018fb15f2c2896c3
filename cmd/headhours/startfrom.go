package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"headhours/report"
	"headhours/timing/folder"
	"headhours/timing/words"
)

// isLogName says whether an argument is a log rather than the folder of a study: shells
// put all files that a pattern names behind one --from.
func isLogName(arg string) bool {
	ends := []string{".csv", ".tsv", ".xlsx", ".ods"}
	return slices.Contains(ends, strings.ToLower(filepath.Ext(arg)))
}

// startFrom starts a study from logs: their steps, workers and ways of working as found.
// Nothing is written where a row cannot be read.
func (c *call) startFrom() error {
	logs := c.from
	var rest []string
	for _, arg := range c.args {
		if isLogName(arg) {
			logs = append(logs, arg)
		} else {
			rest = append(rest, arg)
		}
	}
	if len(rest) > 1 {
		return usagef("init takes one argument, [DIR]: what is %q?", rest[1])
	}
	c.args = rest
	dir, err := c.folderOr(c.study)
	if err != nil {
		return err
	}
	if err := hasNone(dir); err != nil {
		return err
	}
	if err := areThere(logs); err != nil {
		return err
	}
	targets, err := placesFor(dir, logs)
	if err != nil {
		return err
	}
	draft, err := folder.DraftFrom(dir, logs)
	if err != nil {
		return err
	}
	if len(draft.Steps) == 0 {
		return errors.New("no reading stands in what was given: there is nothing to start from")
	}
	for i, log := range logs {
		if err := copyFile(targets[i], log); err != nil {
			return err
		}
	}
	for _, s := range draft.Steps {
		if s.Total {
			fmt.Fprintf(c.stderr, "warning: step %s looks like a row of totals: if it is one, take it out of the log in timings/, and the step and its task out of study.toml\n",
				words.Quote(s.Name))
		}
	}
	text := studyOf(draft, dir, logs)
	err = folder.WriteFile(filepath.Join(dir, "study.toml"), func(w io.Writer) error { _, err := io.WriteString(w, text); return err })
	if err != nil {
		return err
	}
	message := fmt.Sprintf("Started a study in %s: study.toml with %s, and %s in timings/. Read study.toml: it asks what could not be told, and has the ways to complete.",
		dir, words.Many(len(draft.Steps), "step"), words.Many(len(logs), "log"))
	if _, err := fmt.Fprintf(c.stdout, "%s\n\n", report.Wrap(message, c.width, "")); err != nil {
		return err
	}
	c.study = dir
	return runFit(c)
}

// folderOr is the folder that was given, as an argument or by --study, or else another.
func (c *call) folderOr(other string) (string, error) {
	byFlag := c.set.Changed("study")
	switch {
	case len(c.args) > 0 && byFlag:
		return "", usagef("two folders are given, %s and --study %s: leave one out", words.Quote(c.args[0]), shellWord(c.study))
	case len(c.args) > 0 && c.args[0] == "", byFlag && c.study == "":
		return "", usagef("the folder has no name: leave it out, or give one")
	case len(c.args) > 0:
		return c.args[0], nil
	case byFlag:
		return c.study, nil
	}
	return other, nil
}

// hasNone is an error where a folder has a study already.
func hasNone(dir string) error {
	if _, err := os.Lstat(filepath.Join(dir, "study.toml")); err == nil {
		return fmt.Errorf("%s has a study.toml already, left as it is", dir)
	}
	return nil
}

// areThere is an error of logs that are not.
func areThere(logs []string) error {
	var wrong []error
	for _, log := range logs {
		if _, err := os.Stat(log); errors.Is(err, fs.ErrNotExist) {
			wrong = append(wrong, fmt.Errorf("there is no file %s: is its name right, and its folder?", words.Quote(log)))
		}
	}
	return errors.Join(wrong...)
}

// placesFor is where logs go in a study; an error where one is taken.
func placesFor(dir string, logs []string) ([]string, error) {
	var targets []string
	for _, log := range logs {
		target := filepath.Join(dir, "timings", folder.LogName(filepath.Base(log)))
		there, err := os.Stat(target)
		same := false
		if info, e := os.Stat(log); err == nil && e == nil {
			same = os.SameFile(there, info)
		}
		switch {
		case err == nil && !same:
			return nil, fmt.Errorf("%s is there already, left as it is: rename %s, or give another folder", target, log)
		case err != nil && !errors.Is(err, fs.ErrNotExist):
			return nil, err
		case slices.Contains(targets, target):
			return nil, fmt.Errorf("two logs have the name %s: rename one of them", filepath.Base(target))
		}
		targets = append(targets, target)
	}
	return targets, nil
}

// copyFile copies a file as it is, unless it is there.
func copyFile(target, from string) error {
	if _, err := os.Stat(target); err == nil {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(target), 0o755); err != nil {
		return err
	}
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	return folder.WriteFile(target, func(w io.Writer) error { _, err := io.Copy(w, in); return err })
}
