package main

import (
	"errors"

	"headhours/report"
	"headhours/timing/answer"
)

var readingsCommand = command{
	name: "readings", does: "how many readings of what, at which count, would settle the answer",
	flags: append([]string{"within", "change"}, answerFlags...), do: runReadings,
	examples: []string{
		"headhours readings # a clear difference of the quickest two, and the first way's hours to ±10 %",
		`headhours readings --workflow "tray, one seed" --workflow "tray, three seeds" # a clear difference`,
		"headhours readings --within 0.05 --heads 200",
		"headhours readings --change \"hand seeder\" # how often to time after it, and before, for its saving to show",
	},
}

func runReadings(c *call) error {
	models, heads, err := c.modelsForHeads()
	if err != nil {
		return err
	}
	if len(c.changes) > 0 {
		return c.planTrial(models, heads)
	}
	plans, err := models.Plans(c.workflows, heads, c.within)
	if errors.Is(err, answer.ErrTwoWorkflows) {
		return usagef("%v: one or two --workflow", err)
	}
	if err != nil {
		return err
	}
	return c.write(report.Readings(plans), plans)
}

// planTrial plans how often to time the step of a change.
func (c *call) planTrial(models *answer.Models, heads int) error {
	if len(c.changes) > 1 {
		return usagef("one --change is enough here")
	}
	if c.within > 0 {
		return usagef("--within is of hours: what a change saves is to be clear")
	}
	workflow, err := c.oneWorkflow()
	if err != nil {
		return err
	}
	trial, err := models.PlanTrial(c.changes[0], workflow, heads)
	if err != nil {
		return err
	}
	return c.write(report.ChangeTrial(trial), trial)
}
