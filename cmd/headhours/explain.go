package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"headhours/timing/folder"
	"headhours/timing/study"
	"headhours/timing/words"
)

// explain prints an error of data or disk: problems a line each, and what helps.
func (c *call) explain(err error) {
	var problems study.Problems
	if errors.As(err, &problems) {
		fmt.Fprintln(c.stderr, err)
		hintRecurring(c.stderr, problems)
		if len(c.from) > 0 {
			fmt.Fprintln(c.stderr, "hint: mend that in the log; or start a study without it, say under [log] in its study.toml what headings and dates mean, and copy it into timings/ (headhours help log)")
		}
		return
	}
	if dir, name := c.missingFolder(err); dir != "" {
		fmt.Fprintf(c.stderr, "headhours: no folder %q to write %q into: make it first\n", dir, name)
		return
	}
	fmt.Fprintf(c.stderr, "headhours: %s\n", err)
	if errors.Is(err, folder.ErrNoStudy) {
		if len(c.logs) > 0 {
			fmt.Fprintln(c.stderr, "hint: fit and check read a log without a study")
		}
		fmt.Fprintln(c.stderr, "hint: headhours init starts one, headhours demo shows one")
	}
	if hint := diskHint(err); hint != "" {
		fmt.Fprintf(c.stderr, "hint: %s\n", hint)
	}
}

// diskHint says in plain words what keeps a file from being written or read, "" of all else.
func diskHint(err error) string {
	fault, ok := errors.AsType[*fs.PathError](err)
	if !ok {
		return ""
	}
	if _, there := os.Lstat(fault.Path); there == nil && fault.Op == "open" && errors.Is(err, fs.ErrPermission) {
		return "it is there, but you may not read it"
	}
	return words.WhyNotWritten(err)
}

// needsStudy is the error of logs given to a command that needs a study beside
// them, where there is none.
func (c *call) needsStudy(cmd command) error {
	if len(c.logs) == 0 || cmd.alone {
		return nil
	}
	_, err := os.Stat(filepath.Join(c.study, "study.toml"))
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%w in %q, which %s needs beside a log", folder.ErrNoStudy, c.study, cmd.name)
	}
	return nil
}

// missingFolder is the folder that keeps an asked for file from being written, since
// it is not there, and the name of that file.
func (c *call) missingFolder(err error) (dir, name string) {
	fault, ok := errors.AsType[*fs.PathError](err)
	if !ok || !errors.Is(err, fs.ErrNotExist) {
		return "", ""
	}
	for _, file := range []string{c.output, c.plot, c.ics} {
		if dir := filepath.Dir(file); file != "" && dir == filepath.Dir(fault.Path) {
			if _, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) {
				return dir, filepath.Base(file)
			}
		}
	}
	return "", ""
}

// Problems of one text are summed up where there are more than a few, the most
// frequent first, in so many lines.
const (
	fewAlike = 5
	maxHints = 3
)

// hintRecurring says which problems are one and the same all over.
func hintRecurring(w io.Writer, problems study.Problems) {
	times, of := map[string]int{}, "these"
	var texts []string
	for _, p := range problems {
		if p.More > 0 {
			of = "those listed"
		}
		if times[p.Text]++; times[p.Text] == fewAlike+1 {
			texts = append(texts, p.Text)
		}
	}
	slices.SortStableFunc(texts, func(a, b string) int { return times[b] - times[a] })
	for _, text := range texts[:min(len(texts), maxHints)] {
		fmt.Fprintf(w, "hint: %d of %s are one and the same: %s\n", times[text], of, text)
	}
}
