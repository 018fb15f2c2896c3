package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"headhours/timing/cues"
	"headhours/timing/folder"
	"headhours/timing/study"
	"headhours/timing/words"
)

var filmCommand = command{
	name: "film", args: "CUES", maxArgs: 1,
	does:  "readings from cue marks of a film: WebVTT, SubRip, or lines such as 0:12 sow x24",
	flags: []string{"speed", "date", "grow", "workflow", "worker", "again"}, do: runFilm,
	examples: []string{"headhours film monday.vtt", "headhours film monday.txt --speed 8 --date 2026-03-02 --grow g5 --worker w1"},
}

// runFilm writes the readings of a cue file into a log of the study.
func runFilm(c *call) error {
	if len(c.args) == 0 {
		return usagef("film needs a cue file: headhours film monday.vtt")
	}
	workflow, err := c.oneWorkflow()
	if err != nil {
		return err
	}
	st, err := c.onlyStudy()
	if err != nil {
		return err
	}
	if workflow != "" {
		w, err := st.Workflow(workflow)
		if err != nil {
			return err
		}
		workflow = w.Name
	}
	file, err := os.Open(c.args[0])
	if err != nil {
		return shownPath(err)
	}
	defer file.Close()
	digest := cues.NewChecksum()
	readings, err := cues.Read(io.TeeReader(file, digest), c.args[0], cues.Options{
		Speed: c.speed, Date: c.filmedOn, Grow: c.grow, Workflow: workflow, Worker: c.worker,
		Steps: st.StepNames(), Workflows: st.WorkflowNames(),
	})
	if err != nil {
		return shownPath(err)
	}
	log, err := c.keepFilm(cues.NewFilm(c.args[0], digest), readings, st.LogTimes)
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(c.stdout, "%s: %s\n", words.Show(log), amountOf(readings))
	return err
}

// amountOf is what a film's readings come to.
func amountOf(readings []study.Reading) string {
	minutes, voided := 0.0, 0
	for _, r := range readings {
		if r.Counts() {
			minutes += r.Seconds / 60
		} else {
			voided++
		}
	}
	text := fmt.Sprintf("readings %d", len(readings))
	if voided > 0 {
		text += fmt.Sprintf(", of which void %d", voided)
	}
	return text + ", minutes of work " + words.Fixed(minutes, 1)
}

// shownPath is the error of a file with its name as people are shown it.
func shownPath(err error) error {
	if fault, ok := errors.AsType[*fs.PathError](err); ok {
		return &fs.PathError{Op: fault.Op, Path: words.Show(fault.Path), Err: fault.Err}
	}
	return err
}

// keepFilm writes a film's readings into their log, in place of those of an
// earlier import where that is asked for, and says where the log is.
func (c *call) keepFilm(film cues.Film, readings []study.Reading, times string) (string, error) {
	dir := filepath.Join(c.study, "timings")
	log, earlier, err := film.LogFor(os.DirFS(dir), c.again)
	if errors.Is(err, cues.ErrImported) {
		return "", fmt.Errorf("%s: %w\nhint: --again replaces them; another film needs another name", words.Show(dir), err)
	}
	if err != nil {
		return "", fmt.Errorf("%s: %w", words.Show(dir), err)
	}
	path := filepath.Join(dir, log)
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", err
	}
	if earlier != "" && earlier != log {
		if err := os.Rename(filepath.Join(dir, earlier), path); err != nil {
			return "", err
		}
	}
	fill := func(w io.Writer) error { return film.WriteLog(w, readings, times) }
	return path, folder.WriteFile(path, fill)
}
