package main

import (
	"github.com/spf13/pflag"
	"headhours/report"
	"headhours/report/plots"
	"headhours/timing/answer"
)

// fitting are the flags of fit alone.
type fitting struct {
	separate  string
	overGrows bool
}

func (f *fitting) define(set *pflag.FlagSet) {
	set.StringVar(&f.separate, "separate", "", "fit the readings of each workflow, or each worker, apart: `BY` is workflow or worker")
	set.BoolVar(&f.overGrows, "over-grows", false, "show each step's time in one grow after another, and whether it falls")
}

func (f *fitting) check() error {
	if f.separate == "" {
		return nil
	}
	return oneOf("separate", f.separate, namesOf(answer.Separations))
}

func namesOf[T ~string](values []T) []string {
	names := make([]string, len(values))
	for i, v := range values {
		names[i] = string(v)
	}
	return names
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
		return plots.Steps(curves, plots.HuesOf(models.Study)), err
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
