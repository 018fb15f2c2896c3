package main

import (
	"errors"
	"fmt"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/answer"
	"headhours/timing/folder"
	"headhours/timing/study"
	"headhours/timing/words"
)

var checkCommand = command{
	name: "check", does: "reads everything, lists every problem, holds grows against the workflow; writes nothing",
	flags: append([]string{"plot"}, answerFlags...), do: runCheck, alone: true,
	examples: []string{
		"headhours check # the study of this folder, with all its logs",
		"headhours check --log monday.csv # one log, before it goes among the others",
		"headhours check --plot grows.svg # and a figure of how long each grow took",
	},
	next: "fit shows what each step takes",
}

// runCheck reports what was read. Where it has problems they are the answer, and
// the error too.
func runCheck(c *call) error {
	check := answer.Check{
		Files: []answer.CheckedFile{}, Problems: study.Problems{}, Warnings: study.Problems{},
		Grows: []answer.GrowCheck{}, Clock: []answer.Reconciliation{}, Notes: []string{},
	}
	opened, err := c.open()
	var problems study.Problems
	if err != nil && !errors.As(err, &problems) {
		return err
	}
	for _, name := range c.workflows { // which changes nothing here, but a slip would go on to other commands
		if _, unknown := opened.Study.Workflow(name); err == nil && unknown != nil {
			return unknown
		}
	}
	check.Problems = check.Problems.And(problems...)
	check.Warnings = check.Warnings.And(opened.Warnings...)
	for _, f := range opened.Files {
		check.Files = append(check.Files, answer.CheckedFile{Name: f.Name, Readings: f.Readings, Voided: f.Voided})
		if len(f.Unused) > 0 {
			check.Notes = append(check.Notes, fmt.Sprintf("%s has columns that are kept and not used: %s", f.Name, words.QuoteList(f.Unused, 8)))
		}
	}
	if err == nil {
		if err := c.look(&check, opened); err != nil {
			return err
		}
	}
	doc := report.Check(check)
	if c.format == "text" && c.output == "" && isTerminal(c.stdout) && isTerminal(c.stderr) {
		doc = doc.Without(report.ProblemsID, report.WarningsID) // standard error lists them
	}
	if err != nil {
		c.plot = "" // there is nothing to draw
	}
	writeErr := c.writeAndDraw(doc, check, func() (plots.Figure, error) {
		steps, err := opened.Models.ByDates()
		return plots.Checked(opened.Models.GrowFactors(), steps), err
	})
	if writeErr != nil {
		return writeErr
	}
	return err
}

// look adds what a study without problems may have got wrong all the same.
func (c *call) look(check *answer.Check, opened opened) error {
	doubts, err := opened.Models.Doubtful()
	if err != nil {
		return err
	}
	for _, doubt := range doubts {
		fmt.Fprintf(c.stderr, "warning: %s\n", doubt.Error())
		check.Warnings = check.Warnings.And(doubt)
	}
	check.Grows = opened.Models.CheckGrows()
	stretches, err := opened.Named()
	switch {
	case errors.Is(err, folder.ErrManyClocks):
		check.Notes = append(check.Notes, err.Error())
	case err != nil:
		return err
	}
	check.Clock = answer.Reconcile(stretches)
	for _, v := range opened.VoidedUncounted() {
		check.Notes = append(check.Notes, fmt.Sprintf("%s:%d: a reading of %q is void (%s) and was never counted", v.File, v.Line, v.Step, v.Reason))
	}
	check.Notes = append(check.Notes, opened.Models.YetToCome()...)
	check.Notes = append(check.Notes, opened.Models.TwoWaysNotes()...)
	check.Notes = append(check.Notes, opened.Models.UnlikeNotes()...)
	check.Notes = append(check.Notes, c.noHeads(opened.Study)...)
	return nil
}
