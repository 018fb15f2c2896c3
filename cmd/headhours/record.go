package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"headhours/cmd/headhours/sums"
	face "headhours/cmd/headhours/terminal"
	"headhours/timing/folder"
	"headhours/timing/stopwatch"
	"headhours/timing/study"
)

var recordCommand = command{
	name: "record", does: "stopwatch in the terminal; without one it reads commands, a line each",
	flags: []string{"grow", "workflow", "worker", "lines"}, do: runRecord,
	examples: []string{"headhours record", `headhours record --grow g5 --workflow "tray, one seed" --worker w1`,
		"headhours record --lines", "headhours record < monday.txt"},
}

// runRecord times work as it is done, on a full screen where there is a terminal,
// else by lines.
func runRecord(c *call) error {
	workflow, err := c.oneWorkflow()
	if err != nil {
		return err
	}
	config := face.Config{
		Dir: c.study, Command: c.commandOfStudy(), Now: stopwatch.SystemClock(),
		Names: face.Names{Grow: c.grow, Workflow: workflow, Worker: c.worker},
	}
	if config.Study, err = c.studyToRecord(); err != nil {
		return err
	}
	if workflow != "" {
		w, err := config.Study.Workflow(workflow)
		if err != nil {
			return err
		}
		config.Names.Workflow = w.Name
	}
	config.Logs = sums.New(c.study, true)
	if c.lines || !isTerminal(c.stdin) || !isTerminal(c.stdout) || os.Getenv("TERM") == "dumb" {
		return face.Lines(config, c.stdin, c.stdout)
	}
	return face.Run(config, c.stdin, c.stdout)
}

// studyToRecord reads the study file alone, and starts a study where there is none and
// that is wanted. Logs are read in the background: nothing that is wrong with them keeps
// work from being timed.
func (c *call) studyToRecord() (study.Study, error) {
	if info, err := os.Stat(filepath.Join(c.study, "study.toml")); err == nil && !info.Mode().IsRegular() {
		_, err := folder.Open(c.study, nil, folder.How{}) // reading it might never end
		return study.Study{}, err
	}
	st, err := c.onlyStudy()
	if !errors.Is(err, folder.ErrNoStudy) {
		return st, err
	}
	if err := c.offerStudy(err); err != nil {
		return st, err
	}
	return c.onlyStudy()
}

// offerStudy starts a study as init does, if the answer is yes.
func (c *call) offerStudy(none error) error {
	fmt.Fprintf(c.stdout, "%s. Start one there, with the usual steps? (yes or no) ", none)
	answer, err := readLine(c.stdin)
	if err != nil {
		return none
	}
	if a := strings.ToLower(strings.TrimSpace(answer)); a != "yes" && a != "y" {
		return none
	}
	return runInit(c)
}

// readLine reads a line and nothing beyond it: what follows is for the face.
func readLine(r io.Reader) (string, error) {
	var line []byte
	for b := make([]byte, 1); ; {
		n, err := r.Read(b)
		switch {
		case n == 1 && b[0] == '\n', err != nil && len(line) > 0:
			return string(line), nil
		case err != nil:
			return "", err
		case n == 1:
			line = append(line, b[0])
		}
	}
}
