package main

import (
	"errors"

	"headhours/report"
	"headhours/timing"
)

var fitCommand = command{
	name: "fit", does: "the time model of each step", flags: answerFlags, run: runFit,
	examples: []string{"headhours fit", "headhours fit --log monday.csv --format csv"},
}

func runFit(c *call) error {
	models, err := c.models()
	if err != nil {
		return err
	}
	if len(models.Steps) == 0 {
		return errors.New("no readings: the log has a header line and no more")
	}
	fits, err := models.Fits(c.workflows)
	if err != nil {
		return err
	}
	return c.write(report.Fit(fits), fits)
}

var compareCommand = command{
	name: "compare", does: "ways of working side by side: hours, differences, break-even",
	flags: append([]string{"measured"}, answerFlags...), run: runCompare,
	examples: []string{"headhours compare", "headhours compare --heads 200 --format json"},
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
	if c.measured {
		measured := report.MeasuredComparison{Comparison: comparison, Measured: models.Measure(comparison)}
		return c.write(report.Measured(measured), measured)
	}
	return c.write(report.Compare(comparison), comparison)
}

var scaleCommand = command{
	name: "scale", does: "hours against heads", flags: answerFlags, run: runScale,
	examples: []string{"headhours scale", "headhours scale --heads 100,1000,5000"},
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
	return c.write(report.Scale(scale), scale)
}

var costCommand = command{
	name: "cost", does: "what a head costs",
	flags: append([]string{"change", "heads-per-year", "sensitivity"}, answerFlags...), run: runCost,
	examples: []string{"headhours cost", "headhours cost --heads 200"},
}

func runCost(c *call) error {
	models, heads, err := c.modelsForHeads()
	if err != nil {
		return err
	}
	if c.sensitivity {
		return c.runSensitivity(models, heads)
	}
	costs, err := models.Cost(c.workflows, heads, timing.WhatIf{Changes: c.changes, HeadsPerYear: c.headsPerYear})
	if errors.Is(err, timing.ErrHeadsPerYear) {
		return usagef("%v? Give --heads-per-year N", err)
	}
	if err != nil {
		return err
	}
	return c.write(report.Cost(costs), costs)
}

func (c *call) runSensitivity(models *timing.Models, heads int) error {
	name, err := c.oneWorkflow()
	if err != nil {
		return err
	}
	s, ok, err := models.Sensitivity(name, heads)
	if err != nil {
		return err
	}
	if !ok {
		return errors.New("the study gives no [labour] wage, so no cost of a head to move")
	}
	return c.write(report.Sensitivity(s), s)
}
