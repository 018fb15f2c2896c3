package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"golang.org/x/term"

	face "headhours/cmd/headhours/terminal"
	"headhours/timing"
	"headhours/timing/folder"
	"headhours/timing/stopwatch"
)

var recordCommand = command{
	name: "record", does: "stopwatch in the terminal; without one it reads commands, a line each",
	flags: []string{"grow", "workflow", "worker", "lines"}, run: runRecord,
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
	opened, err := c.studyToRecord(&config)
	if err != nil {
		return err
	}
	config.Study = opened.Study
	readings, err := opened.Readings()
	if err != nil {
		return err
	}
	for _, r := range readings {
		if filepath.Ext(r.Place.File) != stopwatch.Extension {
			config.Logged = append(config.Logged, r)
		}
	}
	if _, err := config.Study.Workflow(workflow); err != nil && workflow != "" {
		return err
	}
	if c.lines || !isTerminal(c.stdin) || !isTerminal(c.stdout) || os.Getenv("TERM") == "dumb" {
		return face.Lines(config, c.stdin, c.stdout)
	}
	return face.Run(config, c.stdin, c.stdout)
}

// studyToRecord opens the study, and starts one where there is none and that is
// wanted. Logs that hold mistakes do not keep work from being timed: nothing is
// then known of what is usual.
func (c *call) studyToRecord(config *face.Config) (folder.Opened, error) {
	opened, err := folder.Open(c.study, nil, folder.How{})
	if errors.Is(err, folder.ErrNoStudy) {
		if err := c.offerStudy(err); err != nil {
			return opened, err
		}
		opened, err = folder.Open(c.study, nil, folder.How{})
	}
	if _, wrong := errors.AsType[timing.Problems](err); !wrong {
		return opened, err
	}
	opened.Study, err = c.onlyStudy()
	config.Notice = "task logs or journals hold mistakes, so what is usual is not known: headhours check lists them"
	return opened, err
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

func isTerminal(stream any) bool {
	f, ok := stream.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}
