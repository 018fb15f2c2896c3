package main

import (
	"errors"

	"headhours/report"
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
	name: "compare", does: "ways of working side by side: hours, differences, break-even", flags: answerFlags, run: runCompare,
	examples: []string{"headhours compare", "headhours compare --heads 200 --format json"},
}

func runCompare(c *call) error {
	models, err := c.models()
	if err != nil {
		return err
	}
	heads, err := c.onlyHeads(models.Study)
	if err != nil {
		return err
	}
	comparison, err := models.Compare(c.workflows, heads)
	if err != nil {
		return err
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
	name: "cost", does: "what a head costs", flags: answerFlags, run: runCost,
	examples: []string{"headhours cost", "headhours cost --heads 200"},
}

func runCost(c *call) error {
	models, err := c.models()
	if err != nil {
		return err
	}
	heads, err := c.onlyHeads(models.Study)
	if err != nil {
		return err
	}
	costs, err := models.Cost(c.workflows, heads)
	if err != nil {
		return err
	}
	return c.write(report.Cost(costs), costs)
}
