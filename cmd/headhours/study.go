package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"headhours/timing/answer"
	"headhours/timing/folder"
	"headhours/timing/study"
	"headhours/timing/words"
)

// models reads the study and fits its steps. Warnings are printed at once.
func (c *call) models() (*answer.Models, error) {
	opened, err := c.open()
	if err != nil {
		return nil, err
	}
	doubts, err := c.doubts(opened.Models)
	if n := doubts.Count(); n > 0 {
		fmt.Fprintf(c.stderr, "hint: readings that look mistyped: %d; headhours check names them\n", n)
	}
	return opened.Models, err
}

// fewReadings is of how many readings every command looks for those that look mistyped;
// of more, check does.
const fewReadings = 50_000

func (c *call) doubts(m *answer.Models) (study.Problems, error) {
	readings := 0
	for _, s := range m.Steps {
		readings += s.Readings
	}
	if readings > fewReadings {
		return nil, nil
	}
	return m.Doubtful()
}

// modelsForHeads is models for the commands that answer for one number of heads.
func (c *call) modelsForHeads() (*answer.Models, int, error) {
	models, err := c.models()
	if err != nil {
		return nil, 0, err
	}
	heads, err := c.onlyHeads(models.Study)
	return models, heads, err
}

// modelsForOne is models for the commands that answer for one number of heads of
// one workflow, named or, where name is "", the study's first.
func (c *call) modelsForOne() (models *answer.Models, heads int, name string, err error) {
	if name, err = c.oneWorkflow(); err != nil {
		return nil, 0, "", err
	}
	models, heads, err = c.modelsForHeads()
	if err == nil {
		models = ofFirst(models, name)
	}
	return models, heads, name, err
}

// ofFirst says with every answer that it is for the first of several ways, where none is named.
func ofFirst(models *answer.Models, name string) *answer.Models {
	if name != "" || len(models.Study.Workflows) < 2 {
		return models
	}
	return models.WithRemarks("for the study's first way; --workflow NAME answers for another")
}

// oneWorkflow is the workflow of the commands that answer for one: the flag's,
// or "" for the study's first.
func (c *call) oneWorkflow() (string, error) {
	switch len(c.workflows) {
	case 0:
		return "", nil
	case 1:
		return c.workflows[0], nil
	}
	return "", usagef("one --workflow is enough here")
}

// onlyStudy reads the study without its logs.
func (c *call) onlyStudy() (study.Study, error) {
	path := filepath.Join(c.study, "study.toml")
	src, err := os.ReadFile(path)
	if errors.Is(err, os.ErrNotExist) {
		return study.Study{}, folder.NoStudy(c.study)
	}
	if err != nil {
		return study.Study{}, err
	}
	return folder.ReadStudy(src, path)
}

// open reads the study, or the logs that stand in for its own. Readings without
// a study make one of the steps they name.
func (c *call) open() (opened, error) {
	return c.openAs(folder.How{})
}

// opened is a study with its readings, and the models that they are fitted by.
type opened struct {
	folder.Opened
	Models *answer.Models
}

func (c *call) openAs(how folder.How) (opened, error) {
	how.Filter, how.Progress = c.options.Filter, c.progress.update
	read, err := folder.Open(c.study, c.logs, how)
	if err != nil {
		return opened{Opened: read}, err
	}
	for _, w := range read.Warnings {
		fmt.Fprintf(c.stderr, "warning: %s\n", w.Error())
	}
	c.options.Filter = read.Readings.Filter // by the names that readings have
	c.worker, c.grow = c.options.Filter.Worker, c.options.Filter.Grow
	models := answer.NewModels(read.Readings, c.options)
	warned := c.warnOfStrangers(models)
	c.cautions = slices.Concat(read.Cautions, models.FarFromEstimates(), models.AllVoid())
	if chosen, none := models.ChosenReadings(); chosen != "" {
		c.cautions = append(c.cautions, chosen)
		if none && !warned {
			fmt.Fprintf(c.stderr, "warning: %s\n", strings.TrimSuffix(words.Uncapital(chosen), "."))
		}
	}
	return opened{read, models.WithRemarks(c.cautions...)}, nil
}

// onlyHeads is the one number of heads that an answer is for: the flag's, else
// the study's.
func (c *call) onlyHeads(st study.Study) (int, error) {
	switch {
	case len(c.heads) > 1:
		return 0, usagef("one --heads is enough here; scale takes several")
	case len(c.heads) == 1:
		return c.heads[0], nil
	case st.Heads == 0 && len(st.Workflows) == 0:
		_, err := st.Choose(nil)
		return 0, fmt.Errorf("%w; then say how many heads a grow gives: heads = 48 under [study], or --heads 48", err)
	case st.Heads == 0:
		return 0, usagef("for how many heads? Write heads = 48 under [study], or give --heads 48")
	}
	return st.Heads, nil
}
