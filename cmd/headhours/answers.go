package main

import (
	"errors"
	"fmt"

	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/answer"
	"headhours/timing/words"
)

var fitCommand = command{
	name: "fit", does: "the time model of each step",
	flags: append([]string{"separate", "over-grows", "plot"}, answerFlags...), do: runFit, alone: true,
	examples: []string{
		"headhours fit # setup and unit time of every step, each with its range",
		"headhours fit --log monday.csv --format csv # one log alone, which needs no study, for a spreadsheet",
		"headhours fit --separate workflow # is a step the same work in each way?",
	},
	next: "compare puts ways side by side",
}

func runFit(c *call) error {
	models, err := c.models()
	if err != nil {
		return err
	}
	if len(models.Steps) == 0 {
		return fmt.Errorf("no readings: %s has a header line and no more: add a row for each", words.And(words.Quotes(c.logs)))
	}
	return c.writeFits(models)
}

// writeFits writes the models of the steps as the flags ask for them.
func (c *call) writeFits(models *answer.Models) error {
	if c.separate != "" {
		var err error
		if models, err = models.Apart(answer.Separation(c.separate)); err != nil {
			return err
		}
	}
	figure := func() (plots.Figure, error) {
		curves, err := models.Curves(c.workflows)
		return plots.StepTimes(curves, plots.HuesOf(models.Study)), err
	}
	if c.overGrows {
		fits, err := models.FitsOverGrows(c.workflows)
		if err != nil {
			return err
		}
		return c.writeAndDraw(report.FitOverGrows(fits), fits, figure)
	}
	fits, err := models.Fits(c.workflows)
	if err != nil {
		return err
	}
	return c.writeAndDraw(report.Fit(fits), fits, figure)
}

var compareCommand = command{
	name: "compare", does: "ways side by side: hours, differences, break-even",
	flags: append([]string{"measured", "plot"}, answerFlags...), do: runCompare,
	examples: []string{
		"headhours compare # every way, at the study's own number of heads",
		"headhours compare --heads 200 --format json # at 200 heads, for another program",
	},
	next: "improve shows where the time goes",
}

func runCompare(c *call) error {
	models, heads, err := c.modelsForHeads()
	if err != nil {
		return err
	}
	comparison, err := models.Compare(c.workflows, heads)
	if err != nil {
		return err
	}
	less, err := models.LessSure(c.workflows, heads)
	if err != nil {
		return err
	}
	comparison.Notes = append(comparison.Notes, less...)
	figure := func() (plots.Figure, error) { return plots.Compared(comparison, plots.HuesOf(models.Study)), nil }
	if c.measured {
		measured := report.MeasuredComparison{Comparison: comparison, Measured: models.Measure(comparison)}
		return c.writeAndDraw(report.Measured(measured), measured, figure)
	}
	return c.writeAndDraw(report.Compare(comparison), comparison, figure)
}

var scaleCommand = command{
	name: "scale", does: "hours against heads",
	flags: append([]string{"plot"}, answerFlags...), do: runScale,
	examples: []string{
		"headhours scale # from 10 heads to 5000",
		"headhours scale --heads 100,1000,5000 # at these alone",
	},
	next: "cost says what a head costs",
}

func runScale(c *call) error {
	models, err := c.models()
	if err != nil {
		return err
	}
	scale, err := models.Scale(c.workflows, c.heads)
	if err != nil {
		return err
	}
	return c.writeAndDraw(report.Scale(scale), scale, func() (plots.Figure, error) {
		// a pair's break-even is the same at any number of heads
		comparison, err := models.Compare(c.workflows, scale.Workflows[0].Points[0].Heads)
		pairs := answer.OfOneCrop(comparison.Pairs)
		if err != nil || len(c.heads) > 0 {
			return plots.Growth(scale, pairs), err
		}
		heads, err := models.GrowthHeads(c.workflows)
		if err != nil {
			return plots.Figure{}, err
		}
		curve, err := models.Scale(c.workflows, heads)
		return plots.Growth(curve, pairs), err
	})
}

var costCommand = command{
	name: "cost", does: "what a head costs",
	flags: append([]string{"change", "heads-per-year", "sensitivity", "plot"}, answerFlags...), do: runCost,
	examples: []string{
		"headhours cost # a head's labour, supplies and space, and what an hour's work returns",
		"headhours cost --heads 200 # if a grow were 200 heads",
	},
	next: "improve shows what a change would save",
}

func runCost(c *call) error {
	models, heads, err := c.modelsForHeads()
	if err != nil {
		return err
	}
	if c.sensitivity && (len(c.changes) > 0 || c.headsPerYear > 0) {
		return usagef("--sensitivity goes without --change and --heads-per-year")
	}
	if c.sensitivity {
		return c.runSensitivity(models, heads)
	}
	costs, err := models.Cost(c.workflows, heads, answer.WhatIf{Changes: c.changes, HeadsPerYear: c.headsPerYear})
	if errors.Is(err, answer.ErrHeadsPerYear) {
		return usagef("%v? Give --heads-per-year N", err)
	}
	if err != nil {
		return err
	}
	return c.writeAndDraw(report.Cost(costs), costs, func() (plots.Figure, error) {
		return plots.CostPerHead(costs), nil
	})
}

func (c *call) runSensitivity(models *answer.Models, heads int) error {
	name, err := c.oneWorkflow()
	if err != nil {
		return err
	}
	s, ok, err := ofFirst(models, name).Sensitivity(name, heads)
	if err != nil {
		return err
	}
	if !ok {
		return errors.New("the study gives no wage, so no cost of a head to move")
	}
	return c.writeAndDraw(report.Sensitivity(s), s, func() (plots.Figure, error) { return plots.Swing(s), nil })
}
